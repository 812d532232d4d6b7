"""What an editor asks, on the plain functions behind the server."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tilespec.checks import RULES
from tilespec.editor import completion, figures, fixes, hover, names, structure, tidying
from tilespec.editor.desk import Desk
from tilespec.editor.position import Lines, plain
from tilespec.editor.reference import entry, statement
from tilespec.editor.seat import IDLE
from tilespec.editor.slots import key_of
from tilespec.editor.spot import Spot, spot
from tilespec.job import build
from tilespec.job.context import Context
from tilespec.job.schema import ITEMS
from tilespec.job.schema import STATEMENTS as SCHEMA
from tilespec.quantity import Quantity
from tilespec.quantity.unit import Unit
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Statement
from tilespec.syntax.words import BOTH, STATEMENTS
from tilespec.workspace.host import MemoryHost
from tilespec.workspace.load import load

ROOT = Path(__file__).resolve().parent.parent.parent
FILES = {f"/{p.name}": p.read_text(encoding="utf-8") for p in sorted((ROOT / "examples").glob("*.tilespec"))}
SPEC, STOCK = "/job.tilespec", "/stock.tilespec"
STOCK_TEXT = """tile field 600x300x9 porcelain landscape; box of 6
adhesive grip class C2TE S1; pack 25 kg
  wait 24 h before grouting
"""
TEXT = """job "Two rooms"
use "stock.tilespec"
tile ground 300x300x9 porcelain; box of 11
room "Bath" height 2.4
floor 2.4 x 1.8 heated
  base concrete
  tile ground; joint 3
  heating mat; sensor at wall B
  drain 0.45 from wall D, 0.45 from wall A
wall A
  base cement render
  adhesive grip
  tile field; joint 3; joints follow floor
room "Attic" height 2.4
tile ground 200x200x8 ceramic; box of 20
floor walk A 2.0, B 1.5, C 2.0, D 1.5
  base concrete
  tile ground; joint 3
record substrate on "Attic" floor 2026-03-06 by "J. Rook"
deviation low-window-cut on "Bath" wall A because "agreed"
"""


def desk_of(text: str = TEXT, **files: str) -> Desk:
    desk = Desk(MemoryHost({STOCK: STOCK_TEXT, **FILES, SPEC: text, **files}))
    desk.write(SPEC, text)
    return desk


def rested(desk: Desk) -> Desk:
    work = desk.work(SPEC)
    assert work is not None
    behind = work.run()
    assert behind is not None
    desk.settle(SPEC, behind)
    return desk


def at(desk: Desk, words: str, into: int = 0, file: str = SPEC) -> Spot:
    found = spot(desk, file, desk.text(file).index(words) + into)
    assert found is not None
    return found


def told(desk: Desk, words: str, into: int = 0) -> str:
    found = hover.hover(desk, at(desk, words, into))
    return found.text if found is not None else ""


def cut(desk: Desk, span: Span) -> str:
    text = desk.text(span.file)
    line = text.count("\n", 0, span.start) + 1
    return f"{span.file}:{line} {text[span.start : span.end]}"


def offered(text: str, file: str = SPEC, **files: str) -> list[str]:
    """What is offered where the text has a bar."""
    where = text.index("|")
    text = text[:where] + text[where + 1 :]
    desk = desk_of(text, **files)
    desk.write(file, text)
    return [c.text for c in completion.complete(desk, file, where)]


# ---------------------------------------------------------------- positions


@given(st.text(alphabet="ab\n é🙂"), st.integers(0, 40))
def test_positions_are_utf_16(text: str, at: int) -> None:
    lines, offset = Lines(text), min(at, len(text))
    line, units = lines.position(offset)
    start = text.rfind("\n", 0, offset) + 1
    assert line == text.count("\n", 0, offset)
    assert units == len(text[start:offset].encode("utf-16-le")) // 2
    assert lines.offset((line, units)) == offset


def test_positions_beyond_the_text_are_its_nearest() -> None:
    lines = Lines("ab\ncd")
    assert [lines.offset(p) for p in ((0, 99), (9, 0), (1, 1), (-1, 5))] == [2, 5, 4, 0]
    assert plain("a\r\nb\rc") == "a\nb\nc"


# ---------------------------------------------------------------- hover


def test_everything_that_can_be_said_has_a_meaning() -> None:
    missed = []
    for kind, (own, items) in SCHEMA.items():
        pairs = [("", k) for k in (*own, *items)] + [(item, k) for item in items for k in ITEMS[item]]
        missed += [(kind, item, k) for item, k in pairs if k not in ("words", "at") and entry(kind, item, k) is None]
    assert set(missed) - IDLE == set()
    assert [w for w in (*STATEMENTS, *BOTH) if not statement(w)] == []


def test_a_word_tells_what_it_means() -> None:
    desk = desk_of()
    assert "collar, hold point" in told(desk, "drain 0.45")
    assert "frame" not in told(desk, "joint 3") and "joint" in told(desk, "joint 3")
    assert "n adhesive of class C2 at least" in told(desk, "porcelain")
    assert told(desk, "2.4 x 1.8") == "A side of a room, read in m."
    assert told(desk, "300x300") == "A side of a tile, read in mm."
    assert told(desk, "low-window-cut").startswith("T2402 low-window-cut: A thin cut at a window.")
    small = TEXT.replace("2.4 x 1.8", "2400 x 1800").replace('rooms"', 'rooms"; sizes in mm')
    assert told(desk_of(small), "2400").endswith("mm.")


def test_a_name_tells_what_follows_from_it() -> None:
    desk = rested(desk_of())
    assert "300 mm x 300 mm x 9 mm" in told(desk, "tile ground", 6)
    assert re.search(r"field: \d+ tiles, \d+ boxes", told(desk, "wall A\n  base"))
    assert re.search(r"ground: \d+ tiles, \d+ boxes", told(desk, "floor 2.4"))
    assert re.search(r"mat: [\d.]+ W", told(desk, "heating mat"))
    assert "Wait 24 h before grouting." in told(desk, "grip")
    assert "Class C2 TE S1" in told(desk, "grip") or "Class C2" in told(desk, "grip")
    assert "walls A 2.4 m" in told(desk, '"Bath" h', 2)


def test_a_class_tells_what_its_letters_say() -> None:
    desk = desk_of("adhesive grip class C2TE S1\nfloor 2.4 x 1.8; base concrete; tile 300x300 joint 3\n")
    assert "S1 deformable" in told(desk, "C2TE")


# ---------------------------------------------------------------- completion


def _prefixes(text: str) -> Iterator[tuple[int, str]]:
    """Every word that is neither made up nor a text, a number or a reference, with its place."""
    clear = re.sub(r'#.*|"[^"\n]*"', lambda m: " " * len(m[0]), text)
    declared = re.finditer(r"^(?:tile|[a-z-]+) ([\w-]+) (?=[0-9]|class|dispersion|aluminium|mat)", text, re.M)
    made_up = {m.start(1) for m in declared}
    for m in re.finditer(r"(?<![\w./:-])[^\W\d_][\w'./+-]*", clear):
        lead = clear[clear.rfind("\n", 0, m.start()) + 1 : m.start()]
        if m.start() not in made_up and not re.search(r"(ref|revision) $", lead):
            yield m.start(), m[0]


@pytest.mark.parametrize("name", ["/shower-room.tilespec", "/flat.tilespec", "/us-bathroom.tilespec"])
def test_every_word_of_an_example_is_offered_at_its_place(name: str) -> None:
    """Written from scratch, from the top down: nothing stands below the cursor."""
    text, desk, missed = FILES[name], desk_of(), []
    for start, word in _prefixes(text):
        desk.write(SPEC, text[:start])
        got = [c.text for c in completion.complete(desk, SPEC, start)]
        if not any(g == word or g.split(" ")[0] == word or g.startswith(word + "%") for g in got):
            missed.append((text.count("\n", 0, start) + 1, word))
    assert missed == []


@pytest.mark.parametrize(("text", "first"), [
    ("tile field 300x300\nfloor 2.4 x 1.8\n  tile |", ["field"]),
    ("tile field 300x300\nfloor 2.4 x 1.8\n  tile fi|", ["field"]),
    ("floor 2.4 x 1.8\n  drain 0.45 from wall |", ["A", "B", "C", "D"]),
    ("floor 2.4 x 1.8\nwall A\nwall |", ["B", "C", "D", "A"]),
    ("adhesive grip class |", ["C1", "C1T", "C2"]),
    ("floor 2.4 x 1.8\n  base tile-|", ["cement screed"]),
    ("floor 2.4 x 1.8\n  base tile-backer |", ["board"]),
    ('room "Bath"\nfloor 2.4 x 1.8\nrecord substrate on "|', ["Bath"]),
    ("tile 300x300; weight 20 |", ["kg/m2"]),
    ("job; begin 2026-03-09; practice |", ["EN", "DE", "UK"]),
    ("floor 2.4 x 1.8\n  heating |", ["generic-mat"]),
])  # fmt: skip
def test_the_likeliest_comes_first(text: str, first: list[str]) -> None:
    assert offered(text)[: len(first)] == first


def test_only_what_can_be_said_there_is_offered() -> None:
    below_wall = offered("floor 2.4 x 1.8\nwall A\n  |")
    assert {"base", "tile", "window", "niche", "adhesive"} <= set(below_wall)
    assert not {"crew", "fall", "rim", "pack", "room"} & set(below_wall)
    behind_drain = offered("floor 2.4 x 1.8\n  drain 0.4 from wall D; |")
    assert "flange" in behind_drain and "rim" not in behind_drain
    assert {"room", "floor", "adhesive"} <= set(offered("|")) and "niche" not in offered("|")
    assert "low-window-cut" in offered("deviation |") and "wet-zone-without-membrane" not in offered("deviation |")
    assert "substrate-moisture" in offered("record |")
    assert offered("# wall |") == [] and offered('job "wall |') == []


def test_what_a_stock_file_declares_is_offered() -> None:
    assert "field" in offered('use "stock.tilespec"\nfloor 2.4 x 1.8\n  tile |')
    assert offered('use "stock.tilespec"\nfloor 2.4 x 1.8\n  adhesive |')[0] == "grip"


def test_files_that_can_be_used_are_offered() -> None:
    found = offered('use "|')
    assert "stock.tilespec" in found and "job.tilespec" not in found
    assert offered('use "sto|') == found, "the editor chooses among them by what is typed"


def test_a_tile_of_another_room_is_not_offered() -> None:
    text = 'room "A"\ntile here 300x300\nfloor 2 x 2\nroom "B"\ntile there 300x300\nfloor 2 x 2\n  tile |'
    assert "there" in offered(text) and "here" not in offered(text)


# ---------------------------------------------------------------- names


def test_a_name_leads_to_its_declaration() -> None:
    desk = desk_of()
    for words, into, wanted in (
        ("  tile ground", 8, f"{SPEC}:3 ground"),
        ("field; joint 3", 0, f"{STOCK}:1 field"),
        ("grip", 0, f"{STOCK}:2 grip"),
        ('"Attic" floor', 2, f"{SPEC}:14 Attic"),
        ('"Bath" wall A', 12, f"{SPEC}:10 A"),
        ("wall D, 0.45", 5, None),
    ):
        found = names.definition(desk, at(desk, words, into))
        assert (cut(desk, found) if found is not None else None) == wanted, words
    file = names.definition(desk, at(desk, "stock.tilespec"))
    assert file is not None and file.file == STOCK


def test_a_room_has_its_own_tile_of_the_same_name() -> None:
    desk = desk_of()
    second = desk.text(SPEC).rindex("  tile ground") + 8
    here = spot(desk, SPEC, second)
    assert here is not None
    assert [cut(desk, s) for s in names.references(desk, here)] == [f"{SPEC}:15 ground", f"{SPEC}:18 ground"]
    assert [cut(desk, s) for s in names.references(desk, at(desk, "tile ground", 6))] == [f"{SPEC}:3 ground", f"{SPEC}:7 ground"]


def renamed(desk: Desk, where: Spot, new: str) -> dict[str, str]:
    changed: dict[str, str] = {}
    for span, text in sorted(names.rename(desk, where, new), key=lambda e: e[0].start, reverse=True):
        old = changed.get(span.file, desk.text(span.file))
        changed[span.file] = old[: span.start] + text + old[span.end :]
    return changed


def test_renaming_changes_every_place_and_nothing_else() -> None:
    desk = desk_of()
    assert renamed(desk, at(desk, "tile ground", 6), "plain") == {
        SPEC: TEXT.replace("tile ground 300", "tile plain 300").replace("ground; joint 3\n  heating", "plain; joint 3\n  heating")
    }
    found = renamed(desk, at(desk, "field; joint 3"), "wall-tile")
    assert found == {name: text.replace("tile field", "tile wall-tile") for name, text in ((SPEC, TEXT), (STOCK, STOCK_TEXT))}
    assert renamed(desk, at(desk, '"Bath" wall', 2), "Bath room") == {SPEC: TEXT.replace('"Bath"', '"Bath room"')}


def test_a_room_without_quotes_gets_them_where_its_new_name_needs_them() -> None:
    desk = desk_of(TEXT.replace('room "Bath"', "room Bath"))
    assert 'room "Bath room" height' in renamed(desk, at(desk, "Bath"), "Bath room")[SPEC]


@pytest.mark.parametrize(("words", "into", "new", "why"), [
    ("tile ground", 6, "two words", "starts with a letter"), ("tile ground", 6, "field", "already a tile field"),
    ('"Bath" wall', 2, "Attic", "already a room Attic"), ("wall A", 5, "B", "Tiles, products and rooms"),
    ("heating mat", 9, "x", "not declared"),
])  # fmt: skip
def test_what_cannot_be_renamed_is_refused_in_words(words: str, into: int, new: str, why: str) -> None:
    desk = desk_of()
    with pytest.raises(names.Refused, match=why):
        names.rename(desk, at(desk, words, into), new)


# ---------------------------------------------------------------- structure


def test_the_outline_has_rooms_with_what_stands_in_them() -> None:
    desk = desk_of()
    found = structure.outline(desk.pages[SPEC], SPEC)
    assert [(s.name, [c.name for c in s.children]) for s in found if s.kind == "room"] == [
        ('room "Bath" height 2.4', ["floor 2.4 x 1.8 heated", "wall A"]),
        ('room "Attic" height 2.4', ["tile ground 200x200x8 ceramic", "floor walk A 2.0, B 1.5, C 2.0, D 1.5"]),
    ]
    assert [s.kind for s in found] == ["job", "use", "tile", "room", "room", "record", "deviation"]
    assert (4, 8, "region") in structure.folds(desk.pages[SPEC], SPEC)
    assert [(cut(desk, s), to) for s, to in structure.links(desk, desk.pages[SPEC], SPEC)] == [
        (f"{SPEC}:2 stock.tilespec", STOCK)
    ]


def test_comments_fold_together() -> None:
    desk = desk_of("# a\n# b\nfloor 2 x 2\n")
    assert structure.folds(desk.pages[SPEC], SPEC) == [(0, 1, "comment")]


def test_each_word_is_what_it_is() -> None:
    desk = desk_of()
    kinds: dict[str, str] = {}
    for a, b, kind in structure.tokens(desk.pages[SPEC], SPEC):
        kinds.setdefault(TEXT[a:b], kind)
    for word, kind in {
        "floor": "keyword", "drain": "property", "ground": "class", "grip": "type", '"Bath"': "namespace", "2.4": "number",
        "B": "parameter", "concrete": "enumMember", '"agreed"': "string",
    }.items():  # fmt: skip
        assert kinds[word] == kind, word


def test_a_deviation_tells_what_it_silences() -> None:
    line = 'deviation low-window-cut on wall A because "agreed"\n'
    desk = rested(desk_of(next(r.bad for r in RULES if r.name == "low-window-cut").rstrip() + "\n" + line))
    silenced = [t for t in told(desk, "low-window-cut", 3).split("\n\n") if t.startswith("Silences: ")]
    assert len(silenced) == 1 and silenced[0].startswith("Silences: Wall A has a cut of ")


# ---------------------------------------------------------------- figures


def test_boxes_beside_surfaces_are_never_fewer_than_the_order() -> None:
    desk = rested(desk_of())
    page = desk.pages[SPEC]
    takeoff = figures.takeoff_of(page)
    assert takeoff is not None
    shown = {cut(desk, h.span): h.text for h in figures.hints(page)}
    assert set(shown) == {
        f"{SPEC}:5 floor 2.4 x 1.8 heated", f"{SPEC}:10 wall A", f"{SPEC}:16 floor walk A 2.0, B 1.5, C 2.0, D 1.5"
    }
    line = next(line for line in takeoff.lines_of("tile") if line.name == "field")
    # By area, as long as one types: what is ordered is counted in the print, and each hint says so.
    assert all(text.startswith("about ") and text.endswith("; the print counts piece by piece") for text in shown.values())
    tiles = re.search(r"field: (\d+) tiles", shown[f"{SPEC}:10 wall A"])
    # One surface takes all of this tile: both count the same.
    assert tiles is not None and line.pieces is not None and int(tiles[1]) == line.pieces.value


def test_hints_of_other_rooms_stay_while_one_is_typed_in() -> None:
    desk = rested(desk_of())
    desk.write(SPEC, "# new\n" + TEXT.replace("heating mat", "heating cable"))
    assert [cut(desk, h.span) for h in figures.hints(desk.pages[SPEC])] == [f"{SPEC}:17 floor walk A 2.0, B 1.5, C 2.0, D 1.5"]


# ---------------------------------------------------------------- fixes


def test_five_planted_mistakes_are_mended_by_their_fixes() -> None:
    whole = FILES["/shower-room.tilespec"]
    broken = whole
    for right, wrong in (
        ("tile wall-tile; joint 3; third", "tile wal-tile; joint 3; third"), ("window 0.6 x 0.9", "window 0.6 x 0,9"),
        ("base cement screed", "bse cement screed"), ("wall C\n", "wal C\n"), ("height 2.4\n", "height 2400\n"),
    ):  # fmt: skip
        assert right in broken
        broken = broken.replace(right, wrong, 1)
    desk = Desk(MemoryHost({**FILES, "/shower-room.tilespec": broken}))
    desk.write("/shower-room.tilespec", broken)
    text, count = broken, 0
    for _ in range(12):
        listed = fixes.actions(desk, "/shower-room.tilespec", 0, len(text))
        if not listed:
            break
        # The first that stands in the text, as somebody goes through it from the top.
        action = min(listed, key=lambda a: a.edits[0].span.start)
        for e in sorted(action.edits, key=lambda e: e.span.start, reverse=True):
            text = text[: e.span.start] + e.text + text[e.span.end :]
        desk.write("/shower-room.tilespec", text)
        count += 1
    assert count == 5
    assert text.replace("2400 mm", "2.4").replace("height 2.4 \n", "height 2.4\n") == whole
    assert desk.found()["/shower-room.tilespec"] == ()


def test_a_rule_of_quality_can_be_deviated_from_where_it_speaks() -> None:
    from tilespec.diagnostics.catalogue import explain

    text = explain("low-window-cut").bad
    desk = desk_of(text)
    listed = [a for a in fixes.actions(desk, SPEC, 0, len(text)) if a.title.startswith("deviate")]
    assert [a.diagnostic.name for a in listed] == ["low-window-cut"] and not listed[0].preferred
    edit = listed[0].edits[0]
    written = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert written == text + 'deviation low-window-cut on wall A because "..."\n'
    # It silences nothing as long as the reason is not written.
    desk.write(SPEC, written)
    assert [d.name for d in desk.found()[SPEC] if d.severity.value == "error"] == ["missing-detail"]
    desk.write(SPEC, written.replace("...", "matches the hall"))
    assert "low-window-cut" not in [d.name for d in desk.found()[SPEC]]


def test_no_rule_of_safety_or_waterproofing_is_offered_a_deviation() -> None:
    from tilespec.checks import RULES
    from tilespec.checks.rule import QUALITY

    for rule in RULES:
        if rule.guards == QUALITY or rule.needs != "job":
            continue
        desk = desk_of(rule.entry.bad)
        for action in fixes.actions(desk, SPEC, 0, len(rule.entry.bad)):
            assert not (action.title.startswith("deviate") and action.diagnostic.code == rule.code)


def test_tidying_touches_only_lines_that_change() -> None:
    text = "floor 2.4 x 1.8\n  base   concrete\n  tile 300 x 300;joint 3\nwall A\n"
    edits = list(tidying.edits(text))
    assert len(edits) == 1 and text[edits[0][0] :].startswith("  base   concrete")
    done = text
    for start, end, new in reversed(edits):
        done = done[:start] + new + done[end:]
    assert list(tidying.edits(done)) == []


# ---------------------------------------------------------------- slots


def test_numbers_are_read_in_the_slots_that_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of all examples, and those of the language's own page."""
    wrong: dict[str, str] = {}
    true_number = Context.number

    def number(self: Context, st: Statement, atom: Atom, key: str, unit: Unit | None = None) -> Quantity | None:
        holding = [a for line in st.lines for a in line.attributes if any(x is atom for x in a.args)]
        told = key_of(st, holding[0] if holding else None, atom)
        sizes = {("tile-thickness", "tile-side"), ("opening-side", "area-side"), ("wall-side", "area-side"), ("box", "pack")}
        if told is not None and told != key and (key, told) not in sizes and atom.kind == "quantity":
            wrong[f"{st.kind} {holding[0].kind if holding else ''}"] = f"read as {key}, told as {told}"
        return true_number(self, st, atom, key, unit)

    monkeypatch.setattr(Context, "number", number)
    page = (ROOT / "grammar" / "LANGUAGE.md").read_text(encoding="utf-8")
    texts = [*FILES.values(), *re.findall(r"```tilespec[^\n]*\n(.*?)```", page, re.DOTALL)]
    for text in texts:
        build(load(SPEC, MemoryHost({**FILES, SPEC: "tile field 300x300\ntile ground 300x300\nfloor 2 x 2\n" + text})).value)
    assert wrong == {}


# ---------------------------------------------------------------- whatever is typed


def ask_everything(desk: Desk, file: str, offset: int) -> None:
    completion.complete(desk, file, offset)
    here = spot(desk, file, offset)
    if here is not None:
        hover.hover(desk, here)
        names.definition(desk, here)
        names.references(desk, here)
        for new in ("other", "two words"):
            try:
                names.rename(desk, here, new)
            except names.Refused:
                pass
    page = desk.page_of(file)
    assert page is not None
    text = desk.text(file)
    for start, end, _ in structure.tokens(page, file):
        assert 0 <= start < end <= len(text)
    structure.outline(page, file)
    structure.folds(page, file)
    structure.links(desk, page, file)
    figures.hints(page)
    for action in fixes.actions(desk, file, 0, len(text)):
        assert all(0 <= e.span.start <= e.span.end <= len(desk.text(e.span.file)) for e in action.edits)
    for listed in desk.found().values():
        for d in listed:
            assert 0 <= d.primary.span.start <= d.primary.span.end <= len(desk.text(d.primary.span.file))
    list(tidying.edits(text))


@settings(max_examples=25)
@given(st.sampled_from(sorted(FILES)), st.integers(0, 10_000), st.integers(0, 10_000))
def test_every_question_is_answered_on_any_beginning_of_an_example(name: str, end: int, ask: int) -> None:
    text = FILES[name][: end % (len(FILES[name]) + 1)]
    desk = desk_of(text)
    ask_everything(desk, SPEC, len(text))
    ask_everything(desk, SPEC, ask % (len(text) + 1))


ALPHABET = st.sampled_from([
    "\n", " ", "\t", ";", ",", '"', "#", "x", "é", "🙂", "\u200b", "\x0c", "\u0665", "2.4", "0,9", "-", "1:60", "2026-02-30",
    "wall", "A", "floor", "tile", "room", '"Bath"', "joint", "on", "at", "from", "class", "C2TE", "shower", "corner", "walk",
    "wait", "before", "base", "cement", "screed", "use", '"job.tilespec"', '"stock.tilespec"', "deviation", "record", "adhesive",
    "grip", "none", "300x300", "\n  ",
])  # fmt: skip
ANY = st.lists(ALPHABET, max_size=30).map("".join) | st.lists(ALPHABET, max_size=30).map(" ".join) | st.text(max_size=60)


@settings(max_examples=60)
@given(ANY, st.integers(0, 200))
def test_every_question_is_answered_on_any_text(text: str, ask: int) -> None:
    text = plain(text.encode("utf-8", "replace").decode("utf-8"))
    desk = desk_of(text)
    ask_everything(desk, SPEC, ask % (len(text) + 1))


def test_the_cursor_anywhere_in_the_line_mends_it() -> None:
    text = "tile field 300x300x9 porcelian; box of 6\nfloor 2.4 x 1.8; base concrete; tile field; joint 3\n"
    desk = Desk(MemoryHost({SPEC: text}))
    desk.write(SPEC, text)

    def offered(at: int, to: int | None = None) -> list[str]:
        return [a.title for a in fixes.actions(desk, SPEC, at, at if to is None else to)]

    assert offered(text.index("porcelian")) == offered(0) == offered(text.index("\n")) == ["write porcelain (T0207)"]
    assert offered(0, 4) == [], "what is marked is meant"
    assert offered(text.index("joint")) == []
