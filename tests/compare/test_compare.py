"""Two specs held against each other: laws, a realistic revision, and its renderings."""

from __future__ import annotations

import json
import re
from dataclasses import fields
from fractions import Fraction
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest
from syrupy.assertion import SnapshotAssertion

from tests.compare.changes import bag, mirrored
from tests.sequence.generate import spec
from tilespec import pipeline
from tilespec.compare.types import Came, Changed, Comparison, Gone, Moved
from tilespec.diagnostics.printable import width
from tilespec.workspace.host import MemoryHost

HERE = Path(__file__).parent
SCHEMA = json.loads((files("tilespec") / "document" / "schema" / "compare.schema.json").read_text(encoding="utf-8"))
FILES = {f"/{p.name}": p.read_text(encoding="utf-8") for p in HERE.glob("*.tilespec")}
BATH = 'tile t 300x300x9 ceramic\nroom "Bath" height 2.4\nfloor 2.4 x 1.8\n  base concrete\n  tile t; joint 3\n'
ONE_LINE = "floor 2.4 x 1.8 heated; wall A 2.4 x 2.4 shower zone; tile 300x600 joint 3\n"


def compiled(text: str) -> pipeline.Compiled:
    return pipeline.compile("/job.tilespec", MemoryHost({**FILES, "/job.tilespec": text}))


def held(old: str, new: str) -> Comparison:
    return pipeline.compare(compiled(old), compiled(new), "old.tilespec", "new.tilespec")


@pytest.fixture(scope="module")
def revision() -> tuple[Comparison, Comparison]:
    """From B to C, and from C to B."""
    b, c = compiled(FILES["/revision-b.tilespec"]), compiled(FILES["/revision-c.tilespec"])
    return pipeline.compare(b, c, "revision-b", "revision-c"), pipeline.compare(c, b, "revision-c", "revision-b")


# ---------------------------------------------------------------- laws


def test_with_itself_nothing_changed() -> None:
    b = compiled(FILES["/revision-b.tilespec"])
    found = pipeline.compare(b, b)
    assert found.same and list(found.parts) == []
    assert pipeline.told(found, "text") == "Nothing changed in the job.\n"


def test_another_name_is_one_change() -> None:
    """Of a tile and of a product: what follows from them is called by the new name on both sides."""
    old = FILES["/revision-b.tilespec"]
    b = compiled(old)
    assert b.plan is not None
    tile = next(t.name for t in b.plan.job.tiles if t.named)
    new = re.sub(rf"(?<![\w-]){re.escape(tile)}(?![\w-])", "another-tile", old)
    found = held(old, new)
    assert [(p.key, p.changes) for p in found.parts] == [("tiles", (Changed(("another-tile",), "name", tile, "another-tile"),))]
    assert found.diagnostics == ()
    back = held(new, old)
    assert [p.changes for p in back.parts] == [(Changed((tile,), "name", "another-tile", tile),)]


def test_another_name_beside_other_changes() -> None:
    stock = "grout slate class CG2WA; pack 5 kg\n"
    new = BATH.replace("t 300x", "white 300x").replace("tile t;", "tile white;") + stock.replace("slate", "grey")
    old = BATH + stock
    assert [(c.about, c.old, c.new) for c in held(old, new).tiles if isinstance(c, Changed)] == [(("white",), "t", "white")]
    (grout,) = held(old, new).products
    assert grout == Changed(("grout grey",), "name", "slate", "grey")
    # Another tile under another name is another tile.
    found = held(old, new.replace("ceramic", "porcelain"))
    assert [type(c) for c in found.tiles] == [Came, Gone]
    # Two that say the same: no telling which is which.
    twins = "tile u 300x300x9 ceramic\n" + BATH + "wall A\n  base concrete\n  tile u; joint 3\n"
    others = twins.replace("tile u", "tile v").replace("tile t", "tile w")
    assert not any(isinstance(c, Changed) for c in held(twins, others).tiles)


def test_how_it_is_written_does_not_count() -> None:
    other = (
        "# A remark\n\ntile t 300x300x9 ceramic # another\n\n"
        "room \"Bath\"   height 2400 mm\nfloor 2400 mm × 180 cm\n\n\tbase concrete\n"
        "\ttile t;   joint 3 mm\n"
    )
    assert held(BATH, other).same


def test_a_joint_is_a_change_of_the_job() -> None:
    found = held(BATH, BATH.replace("joint 3", "joint 4"))
    assert [x.what for x in found.tiling if isinstance(x, Changed)] == ["joint"] and not found.rooms


def test_from_the_other_side_it_is_the_mirror(revision: tuple[Comparison, Comparison]) -> None:
    there, back = revision
    assert [p.key for p in there.parts] == [p.key for p in back.parts]
    for p, q in zip(there.parts, back.parts, strict=True):
        assert bag(tuple(mirrored(x) for x in p.changes)) == bag(q.changes), p.key
    assert {(d.new, d.message) for d in there.diagnostics} == {(not d.new, d.message) for d in back.diagnostics}


def test_every_subject_is_among_the_parts(revision: tuple[Comparison, Comparison]) -> None:
    subjects = [f.name for f in fields(Comparison) if f.name not in ("old", "new", "family", "unsound", "diagnostics")]
    assert [p.key for p in revision[0].parts] == subjects
    assert list(SCHEMA["properties"]["changes"]["properties"]) == subjects


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(1, 8, 2))
def test_laws_on_jobs_made_at_random(seed: int) -> None:
    one, other = compiled(spec(seed)), compiled(spec(seed + 1))
    assert pipeline.compare(one, compiled(spec(seed))).same
    there, back = pipeline.compare(one, other), pipeline.compare(other, one)
    for p, q in zip(there.parts, back.parts, strict=True):
        assert p.key == q.key and bag(tuple(mirrored(x) for x in p.changes)) == bag(q.changes), p.key
    for form in pipeline.COMPARED:
        assert pipeline.told(there, form)


def test_a_room_with_another_name_is_the_same_room() -> None:
    two = BATH + BATH.partition("\n")[2].replace("Bath", "Loft").replace("2.4 x 1.8", "2 x 1.5")
    found = held(two, two.replace("Loft", "Guest room"))
    assert [p.key for p in found.parts if p.key != "steps"] == ["rooms"]
    (name,) = found.rooms
    assert isinstance(name, Changed) and (name.about, name.what, name.old, name.new) == (
        ("Guest room",), "name", "Loft", "Guest room",
    )
    assert not found.steps
    # Two of the same walls: which of them it was cannot be said.
    twins = BATH + BATH.partition("\n")[2].replace("Bath", "Loft")
    mixed = twins.replace("Bath", "East").replace("Loft", "West")
    assert any(isinstance(x, Came) and x.about == ("East",) for x in held(twins, mixed).rooms)


# ---------------------------------------------------------------- the revision


def test_what_the_second_visit_changed(revision: tuple[Comparison, Comparison]) -> None:
    c = revision[0]
    assert Changed(("Shower room", "wall B", "window"), "from left", *_lengths(c, "window", "from left")) in c.rooms
    assert any(isinstance(x, Came) and x.about == ("Shower room", "wall A", "niche") for x in c.rooms)
    (base,) = c.bases
    assert isinstance(base, Changed) and (base.what, base.old, base.new) == ("base", "gypsum plasterboard", "cement board")
    assert any(isinstance(x, Gone) and x.about == ("pebble",) for x in c.tiles)
    gone = {x.about[0] for x in c.steps if isinstance(x, Gone)}
    tests = {f"Heating tested {when}" for when in ("before it is laid", "after it is covered", "after tiling")}
    assert {"Lay the heating mat", "Fix the mirror", *tests} <= gone
    assert any(isinstance(x, Moved) for x in c.steps)
    assert {x.about[0] for x in c.points if isinstance(x, Gone)} >= tests
    finish = next(x for x in c.programme if isinstance(x, Changed) and x.what == "finish")
    assert finish.difference is not None and finish.difference.shown.symbol == "d"
    assert any(isinstance(x, Gone) for x in c.deviations) and any(isinstance(x, Gone) for x in c.questions)
    # The deviation is gone, so its finding is back.
    assert any(d.new and d.name == "low-window-cut" for d in c.diagnostics)


def _lengths(c: Comparison, thing: str, what: str) -> tuple[object, object, object]:
    x = next(x for x in c.rooms if isinstance(x, Changed) and x.about[-1] == thing and x.what == what)
    assert x.difference is not None and x.difference.number == 200 and x.difference.shown.symbol == "mm"
    return x.old, x.new, x.difference


def test_what_is_ordered_has_its_difference(revision: tuple[Comparison, Comparison]) -> None:
    boxes = next(
        x for x in revision[0].quantities
        if isinstance(x, Changed) and x.about == ("tile wall-tile",) and x.what == "packs to order"
    )
    assert boxes.difference is not None and boxes.difference.number > 0


def test_as_text(revision: tuple[Comparison, Comparison], snapshot: SnapshotAssertion) -> None:
    assert pipeline.told(revision[0], "text") == snapshot


def test_text_fits_the_terminal(revision: tuple[Comparison, Comparison]) -> None:
    for columns in (30, 72, 100):
        lines = pipeline.told(revision[0], "text", columns).splitlines()
        assert max(map(width, lines)) <= columns


def test_piped_a_long_list_has_a_line_for_each_thing(revision: tuple[Comparison, Comparison]) -> None:
    lines = pipeline.told(revision[0], "text").splitlines()
    at = lines.index("  − adhesive quick-white")
    assert lines[at + 1 : at + 4] == ["      class C2, FT, S1", "      is cement, fast", "      colour white"]
    assert "  − sealer pore-stop: pack 1 kg, for pebble" in lines
    # What is longer is a sentence: a message, or a question.
    assert all(len(line) <= 120 or "?" in line or "warning[" in line for line in lines)


def test_the_same_change_of_several_things_is_told_once() -> None:
    heated = BATH.replace("floor 2.4 x 1.8\n", "floor 2.4 x 1.8 heated\n")
    told = pipeline.told(held(heated, heated.replace("2.4 x 1.8", "2.4 x 2.2")), "text")
    names = [
        "Heating tested before it is laid", "Heating tested after it is covered", "Heating tested after tiling",
    ]
    steps = told.split("\nSteps\n")[1].split("\n\n")[0]
    assert "\n  " + "\n  ".join(names) + "\n    " in "\n" + steps
    assert told.count(f"{names[0]}, heating resistance\n") <= 1


def test_what_is_too_small_is_what_the_print_does_not_show(revision: tuple[Comparison, Comparison]) -> None:
    """One rule for every part; and the difference is that of the two that are printed."""
    seen = 0
    for line in pipeline.told(revision[0], "text").splitlines():
        found = re.search(r" (−?[0-9.]+) (\S+) +→ (−?[0-9.]+) (\S+)(?: +\((.*)\))?$", line)
        if found is None or found[2] != found[4]:
            continue
        old, new = (Fraction(found[n].replace("−", "-")) for n in (1, 3))
        assert old != new, line
        number, unit = (found[5] or "").split()
        scale = 1000 if (found[2], unit) == ("m", "mm") else 1
        assert Fraction(number.replace("−", "-")) == (new - old) * scale, line
        seen += 1
    assert seen > 30


def test_a_floor_has_a_depth() -> None:
    (floor,) = (x for x in held(BATH, BATH.replace("2.4 x 1.8", "2.4 x 1.9")).rooms if x.about[-1] == "floor")
    assert isinstance(floor, Changed) and floor.what == "depth"


def test_steps_are_called_as_in_the_print() -> None:
    """The same step has one name in the programme, on paper and here; without what stands in its place."""
    a, b = compiled(FILES["/revision-b.tilespec"]), compiled(BATH)
    table = pipeline.programme(a, "text").split("\nSteps\n")[1]
    printed = set(re.findall(r"^   *[0-9]+  (?:HOLD: )?(.*?)  ", table, re.MULTILINE))
    whole = pipeline.compare(b, a)
    came = {x.about[0] for x in whole.steps if isinstance(x, Came)}
    assert came and {name for name in came if not any(p == name or p.startswith(f"{name}, ") for p in printed)} == set()
    two = BATH + BATH.partition("\n")[2].replace("Bath", "Loft") + "wall A\n  base concrete\n  tile t; joint 3\n"
    names = {x.about[0] for x in held(BATH, two).steps if isinstance(x, Came)}
    assert {"Wall tiles, Loft, wall A", "Floor tiles, Loft"} <= names


def test_as_markdown(revision: tuple[Comparison, Comparison]) -> None:
    text = pipeline.told(revision[0], "md")
    rows = [line for line in text.splitlines() if line.startswith("|")]
    # Five columns everywhere: a bar in a name would break the table.
    assert rows and all(row.replace("\\|", "").count("|") == 6 for row in rows)
    assert "#### To order" in text and "**removed**" in text


def test_as_json(revision: tuple[Comparison, Comparison]) -> None:
    for c in revision:
        form = json.loads(pipeline.told(c, "json"))
        jsonschema.Draft202012Validator(SCHEMA).validate(form)
        assert not form["same"] and form["format_version"] == "1.0"
        assert [len(v) for v in form["changes"].values()] == [len(p.changes) for p in c.parts]


# ---------------------------------------------------------------- faults


def test_a_side_with_errors_has_its_messages_compared() -> None:
    c = held(ONE_LINE, ONE_LINE.replace("2.4 x 1.8", "2,4 x 1.8"))
    assert c.unsound == ("new",) and not c.same and not list(c.parts)
    assert any(d.new and d.code == "T0301" for d in c.diagnostics)
    assert "only messages are compared" in pipeline.told(c, "text") and "T0301" in pipeline.told(c, "md")
    jsonschema.Draft202012Validator(SCHEMA).validate(json.loads(pipeline.told(c, "json")))
    # Nobody can say that two specs with the same error are the same job.
    faulty = ONE_LINE.replace("2.4 x 1.8", "2,4 x 1.8")
    assert not held(faulty, faulty).same


def test_names_are_never_markup() -> None:
    c = held(BATH, BATH.replace("Bath", "<b>|*x*"))
    assert "\\<b>\\|\\*x\\*" in pipeline.told(c, "md")


def test_markdown_is_read_without_backslashes(revision: tuple[Comparison, Comparison]) -> None:
    """Whoever reads the text of it itself finds words and numbers as they are."""
    told = pipeline.told(revision[0], "md")
    assert "| Wall tiles, wall A | open time | 10 min | 30 min | +20 min |".replace(" min", "\u202fmin") in told
    assert "\\" not in told
