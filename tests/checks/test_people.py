"""People: old cement, isocyanates, asbestos and lead, cleaners that must not meet, and whoever works alone."""

from __future__ import annotations

import pytest

from tests.checks.specs import names, only, wall
from tilespec.checks import RULES
from tilespec.checks.rule import INJURY

RENDER = ("base cement render", "tile wall-tile; joint 3")
OLD = ("base cement render existing", "tile wall-tile; joint 3")


def job(*said: str) -> str:
    return 'job "Bathroom"\n  ' + "; ".join(said)


def bag(family: str, packed: str, begin: str = "2026-03-09") -> list[str]:
    head = f"{job(f'practice {family}', f'begin {begin}')}\ngrout own class CG2WA; pack 5 kg; packed {packed}; keeps 90 d"
    return names(wall("base cement board", "tile wall-tile; joint 3", head=head))


@pytest.mark.parametrize(("packed", "fails"), [("2025-12-09", False), ("2025-12-08", True)])
def test_cement_past_its_date(packed: str, fails: bool) -> None:
    """REACH Annex XVII, entry 47, by a page on chemicals law: the bag says how long its chromium VI stays down."""
    assert ("cement-past-its-date" in bag("EN", packed)) is fails
    assert ("cement-past-its-date" in bag("UK", packed)) is fails
    # No equal limit in US federal law: a matter of setting.
    assert ("powder-past-its-date" in bag("US", packed)) is fails
    assert "cement-past-its-date" not in bag("US", packed) and "powder-past-its-date" not in bag("EN", packed)


def test_the_day_of_use_may_be_known_from_a_record() -> None:
    head = f"{job('begin 2026-03-09')}\ngrout own class CG2WA; pack 5 kg; packed 2025-12-10; keeps 90 d"
    spec = wall(*RENDER, head=head) + 'record substrate 2026-03-09 by "A. Finch"\nrecord grouting 2026-03-16 by "A. Finch"\n'
    found = only(spec, "cement-past-its-date")
    assert found.message == "Grout own was packed on 2025-12-10 and keeps until 2026-03-10; `grouting` is of 2026-03-16."


def test_resins_do_not_age_so_and_a_bag_without_a_date_says_nothing() -> None:
    head = job("begin 2026-03-09")
    for grout in ("class RG; epoxy; pack 5 kg; packed 2024-01-01; keeps 90 d", "class CG2WA; pack 5 kg; packed 2024-01-01"):
        assert "cement-past-its-date" not in names(wall(*RENDER, head=f"{head}\ngrout own {grout}"))


def resin(*records: str, family: str = "EN") -> list[str]:
    head = f"{job(f'practice {family}')}\nadhesive own class R2T; polyurethane; pack 5 kg"
    return names(wall("base cement board", "tile wall-tile; joint 3", head=head) + "".join(f"record {r}\n" for r in records))


def test_isocyanates() -> None:
    """REACH Annex XVII, entry 74, by the Irish Health and Safety Authority: trained first, again every five years."""
    base, tiled = 'substrate 2026-03-06 by "A. Finch"', 'tiling 2026-03-12 by "A. Finch"'
    trained = 'resin-training {} by "A. Finch"'
    fault = "diisocyanate-without-training"
    assert fault not in resin() and fault not in resin(base)
    assert fault in resin(base, tiled)
    assert fault not in resin(base, tiled, trained.format("2021-03-13"))
    assert fault in resin(base, tiled, trained.format("2021-03-01"))
    assert fault in resin(base, tiled, trained.format("2026-03-13"))
    # A rule of the European Union.
    assert fault not in resin(base, tiled, family="UK") and fault not in resin(base, tiled, family="US")


@pytest.mark.parametrize(
    ("family", "built", "fails"),
    [
        # HSG264 by surveyors: before 2000. 29 CFR 1926.1101: flooring of up to 1980.
        ("UK", "1999", True),
        ("UK", "2000", False),
        ("US", "1980", True),
        ("US", "1981", False),
    ],
)
def test_asbestos(family: str, built: str, fails: bool) -> None:
    spec = wall("base cement board existing", "tile wall-tile; joint 3", head=job(f"practice {family}", f"built {built}"))
    work = 'record substrate on wall A 2026-03-09 by "A. Finch"\n'
    survey = 'record asbestos on wall A 2026-03-02 by "P. Lowe"; result pass\n'
    assert ("asbestos-not-cleared" in names(spec + work)) is fails
    assert "asbestos-not-cleared" not in names(spec + survey + work)
    assert "asbestos-not-cleared" not in names(spec)
    # What is only looked at disturbs nothing; a new base is not old fabric.
    assert "asbestos-not-cleared" not in names(spec + work.replace("substrate", "substrate-flatness"))
    assert "asbestos-not-cleared" not in names(spec.replace(" existing", "") + work)


def test_a_building_of_unknown_age_is_asked_for_and_not_accused() -> None:
    assert "asbestos-not-cleared" not in names(wall(*OLD) + 'record substrate on wall A 2026-03-09 by "A. Finch"\n')


@pytest.mark.parametrize(("built", "fails"), [("1977", True), ("1978", False)])
def test_lead(built: str, fails: bool) -> None:
    """40 CFR 745: homes from before 1978."""
    head = job("practice US", f"built {built}")
    spec = wall("base painted plaster; carries 40 kg/m2", "tile wall-tile; joint 3", head=head)
    work = 'record asbestos on wall A 2026-03-02 by "P. Lowe"\nrecord substrate on wall A 2026-03-09 by "A. Finch"\n'
    assert ("lead-not-cleared" in names(spec + work)) is fails
    assert "lead-not-cleared" not in names(spec + 'record lead on wall A 2026-03-03 by "P. Lowe"\n' + work)


@pytest.mark.parametrize(
    ("one", "other", "fails"),
    [
        # Together they make chlorine: common knowledge.
        ("acid", "bleach", True),
        ("acid; for floor", "bleach", True),
        ("acid; for floor", "bleach; for walls", False),
        ("acid", "alkaline", False),
    ],
)
def test_acid_and_bleach(one: str, other: str, fails: bool) -> None:
    head = f"cleaner haze-off {one}; pack 1 L\ncleaner mould-off {other}; pack 1 L"
    assert ("acid-with-bleach" in names(wall(*RENDER, head=head))) is fails


@pytest.mark.parametrize(
    ("crew", "product", "fails"),
    [
        # From memory of guidance on lone work.
        ("crew tiler 1", "primer own solvent; pack 5 kg", True),
        ("crew tiler 1", "primer own dispersion; pack 5 kg", False),
        ("crew tiler 1, helper 1", "primer own solvent; pack 5 kg", False),
        ("crew tiler 2", "primer own solvent; pack 5 kg", False),
        # A crew that is not said may be larger.
        ("built 2020", "primer own solvent; pack 5 kg", False),
    ],
)
def test_alone_with_vapours(crew: str, product: str, fails: bool) -> None:
    assert ("solvent-alone" in names(wall(*RENDER, head=f"{job(crew)}\n{product}"))) is fails


def test_none_of_them_is_silenced() -> None:
    guarded = {r.name for r in RULES if r.guards == INJURY}
    assert guarded >= {
        "acid-with-bleach", "asbestos-not-cleared", "cement-past-its-date", "diisocyanate-without-training", "lead-not-cleared",
        "solvent-alone",
    }
