"""The practice data: every entry says what it is, where it comes from and how far it was checked; families borrow in one line."""

from __future__ import annotations

import tomllib
from importlib.resources import files

import pytest

from tilespec.practice.lookup import NAMES, PARENTS, Entry, FirmValue, entries, practice
from tilespec.quantity import UNITS, Given, Kind, Limit, Quantity
from tilespec.source import Span

FAMILIES = tuple(PARENTS)
FIELDS = {"what", "value", "text", "unit", "source", "row", "seen", "stricter", "note"}
ALL = [(f, e) for f in (*FAMILIES, "common") for e in entries(f).values()]

# What some families call a wet place; the others have no names for it.
EXPOSURES = {
    f"exposure-{place}"
    for place in ("splash-wall", "bath-wall", "shower-wall", "bath-floor", "shower-floor", "level-shower-floor")
}
# What only one family has: the rules ask for these with `find`.
ONE_FAMILY: dict[str, set[str]] = {
    "DE": {
        *EXPOSURES,
        "finished-plane-table", "flatness-floor-large-table", "flatness-floor-table", "flatness-wall-large-table",
        "flatness-wall-table", "lippage-large-face", "lippage-max-large", "movement-bay-ratio", "movement-bay-ratio-from",
    },
    "UK": {
        *EXPOSURES,
        "age-masonry", "grout-porcelain", "heating-while-tiling-max", "joint-advised-wall", "joint-advised-wall-face",
        "joint-advised-wall-large", "joint-max-floor", "joint-min-stone-textured", "membrane-bathroom", "perimeter-joint-from",
        "plasterboard-in-shower",
        "solid-bed-load-share", "solid-bed-tile-face", "timber-floor-wet",
    },
    "US": {
        "deflection-load", "flatness-short", "flatness-short-large", "flatness-short-large-length", "flatness-short-length",
        "joint-min-offset-calibrated", "joint-min-offset-rectified", "liner-upturn", "lippage-wide-joint-from",
        "membrane-standard", "movement-joint-min-mosaic", "ponding-depth-min", "ponding-duration-min", "silica-action",
    },
}

ONE_FAMILY["AU"] = {"engineered-stone-ban"}
# 29 CFR 1926.1153, Table 1.
ONE_FAMILY["US"] |= {"asbestos-year-wall", "table-1-hours"} | {
    f"table-1-{task}-{hours}" for hours in ("short", "long") for task in (
        "wet-saw", "wet-hand-saw-indoors", "wet-hand-saw-outdoors", "extraction-grinder-indoors", "extraction-grinder-outdoors",
        "wet-core", "break-out",
    )
}


@pytest.mark.parametrize(("family", "entry"), ALL, ids=lambda x: x.key if isinstance(x, Entry) else x)
def test_every_entry_says_what_it_is_and_where_it_comes_from(family: str, entry: Entry) -> None:
    assert entry.family == family
    assert entry.key == entry.key.strip() and " " not in entry.key and "_" not in entry.key
    assert entry.what and entry.what[0] == entry.what[0].upper()
    assert entry.source
    assert entry.seen in ("body", "press", "restated", "memory")
    assert entry.stricter in ("higher", "lower", "")


@pytest.mark.parametrize("family", FAMILIES)
def test_what_was_not_seen_is_never_a_bare_requirement(family: str) -> None:
    for entry in entries(family).values():
        if entry.seen == "memory":
            assert entry.note, f"{family} {entry.key} is from memory: its note must say what to confirm"


def test_no_unknown_fields() -> None:
    root = files("tilespec.practice")
    for folder in ("data", "common"):
        for path in sorted((root / folder).iterdir(), key=lambda p: p.name):
            if path.name.endswith(".toml"):
                for key, table in tomllib.loads(path.read_text(encoding="utf-8")).items():
                    assert set(table) <= FIELDS, f"{path.name} {key}"


@pytest.mark.parametrize("family", FAMILIES)
def test_every_key_stands_in_en_or_in_common_practice(family: str) -> None:
    base = set(entries("EN")) | set(entries("common"))
    assert set(entries(family)) - base == ONE_FAMILY.get(family, set())


@pytest.mark.parametrize("family", FAMILIES)
def test_every_key_can_be_looked_up(family: str) -> None:
    p = practice(family)
    for key in p.keys():
        entry = p.entry(key)
        assert entry is not None
        found = p.word(key) if entry.text else p.limit(key)
        assert isinstance(found.why, Limit)
        assert (found.why.key, found.why.asked) == (key, family)
        assert found.why.family in (family, "EN", "common")


@pytest.mark.parametrize("family", [f for f in FAMILIES if f != "EN"])
def test_a_family_measures_what_it_borrows_in_the_same_kind(family: str) -> None:
    for key, own in entries(family).items():
        base = entries("EN").get(key) or entries("common").get(key)
        if base is not None:
            assert own.kind is base.kind, key
            assert bool(own.text) == bool(base.text), key
            assert not (own.stricter and base.stricter) or own.stricter == base.stricter, key


def test_a_family_with_no_value_of_its_own_says_whose_it_borrows() -> None:
    why = practice("AU").limit("contact-wet").why
    assert isinstance(why, Limit) and (why.family, why.asked) == ("EN", "AU")
    own = practice("US").limit("contact-wet").why
    assert isinstance(own, Limit) and (own.family, own.asked) == ("US", "US")


def test_a_firms_own_value_wins() -> None:
    where = Span("job.tilespec", 0, 5)
    own = Quantity(UNITS["mm"].factor * 4, Kind.LENGTH, UNITS["mm"], Given(where))
    p = practice("EN", (FirmValue("joint-min-floor", own),))
    assert p.limit("joint-min-floor") == own
    assert p.limit("joint-min-floor").why == Given(where)
    assert p.limit("joint-min-wall").mm == 2


def test_words_have_choices() -> None:
    assert practice("EN").word("adhesive-floor-wet").choices == (("C2",), ("R2",))
    assert practice("EN").word("adhesive-heated-floor").choices == (("C2", "S1"),)


def test_what_nobody_holds_is_a_bug_of_ours() -> None:
    p = practice("EN")
    assert p.find("no-such-key") is None
    for ask in (p.limit, p.word):
        with pytest.raises(KeyError):
            ask("no-such-key")
    with pytest.raises(KeyError, match="word"):
        p.limit("adhesive-heated-floor")
    with pytest.raises(KeyError):
        p.word("joint-min-floor")
    with pytest.raises(KeyError):
        practice("FR")


def test_families_have_names() -> None:
    assert set(FAMILIES) < set(NAMES)
