"""What completion offers: nothing that is refused where it stands, and everything with what it is and how it is written."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tilespec.editor import completion
from tilespec.editor.completion import EXAMPLE, UNIT, VALUE, WORD, Choice
from tilespec.editor.desk import Desk
from tilespec.editor.hover import explained, hover
from tilespec.editor.seat import Seat, seat
from tilespec.editor.slots import item_of
from tilespec.editor.spot import before, spot
from tilespec.syntax.ahead import ahead
from tilespec.syntax.written import listed
from tilespec.vocabulary import BASES, DESCRIBED, FLOOR_BASES, FLOORS_ONLY, LAYERS, PLACE_WORDS, WALL_BASES, WALLS_ONLY
from tilespec.workspace.host import MemoryHost

ROOT = Path(__file__).resolve().parent.parent.parent
FILES = {f"/{p.name}": p.read_text(encoding="utf-8") for p in sorted((ROOT / "examples").glob("*.tilespec"))}
EXAMPLES = ("/shower-room.tilespec", "/flat.tilespec", "/us-bathroom.tilespec")
CORPUS = sorted((ROOT / "tests" / "corpus" / "mistakes").glob("*.tilespec"))
SPEC = "/job.tilespec"
# What a word can be refused with at its place; what is missing behind it is no fault of the word.
REFUSED = ("T0107", "T0108", "T0206", "T0207", "T0208", "T0209", "T0211", "T0602", "T0604", "T0215", "T0302", "T0605")


def desk_of(text: str) -> Desk:
    desk = Desk(MemoryHost({**FILES, SPEC: text}), today=lambda: "2026-11-26")
    desk.write(SPEC, text)
    return desk


def offered(text: str) -> list[Choice]:
    """What is offered where the text has a bar."""
    where = text.index("|")
    text = text[:where] + text[where + 1 :]
    return completion.complete(desk_of(text), SPEC, where)


def texts(text: str) -> list[str]:
    return [c.text for c in offered(text)]


def places(text: str) -> Iterator[int]:
    """Where a word, a number or a text begins or could begin, outside of texts and comments."""
    clear = re.sub(r'#.*|"[^"\n]*"?', lambda m: "\x00" * len(m[0]), text)
    for m in re.finditer(r"(?m)(?<=[ \t;,])(?=[^\s\x00])|(?<=[\w%])$|^(?=.)|^[ \t]+(?=\S)", clear):
        yield m.end()


def seat_of(desk: Desk, text: str, at: int) -> Seat:
    page = desk.pages[SPEC]
    begin = text.rfind("\n", 0, at) + 1
    return seat(page, SPEC, before(text[begin:at]), begin, at)


# What must follow a word to make it that word, in short.
BEHIND = {"x": " 1", "wall": " A"}


def put(here: Seat, choice: Choice) -> str:
    lettered = here.following is not None and here.following.inside[:1] in (("full",), ("start",), ("joints",))
    return choice.text + (BEHIND.get(choice.text, "") if choice.text == "x" or lettered else "")


def above(text: str, start: int) -> str:
    """The text up to a place, without what stands before its statement and says nothing of it."""
    lines = text[:start].split("\n")
    own = len(lines) - 1
    if lines[-1][:1] in (" ", "\t"):
        own = max((n for n, line in enumerate(lines) if line[:1].isalpha()), default=own)
    kept = [line for line in lines[:own] if re.match(r"(job|use|tile|adhesive|room|floor)\b", line)]
    return "\n".join((*kept, *lines[own:]))


def refusal(desk: Desk, lead: str, here: Seat, choice: Choice) -> str:
    """What is said against a word that is put in, with nothing behind it."""
    glue = "" if not lead or lead[-1] in " \t\n" else " "
    desk.write(SPEC, f"{lead}{glue}{put(here, choice)}\n")
    begin, end = len(lead) + len(glue), len(lead) + len(glue) + len(choice.text)
    for d in desk.found()[SPEC]:
        span = d.primary.span
        if d.code in REFUSED and span.start < end and span.end > begin and choice.text.split()[-1] in d.message:
            return f"{d.code} {d.message}"
    return ""


def sign_of(here: Seat, choice: Choice) -> object:
    """What decides whether a choice is right: the same words at the same kind of place are looked at once."""
    following = here.following
    place = here.kind, here.item, here.sized, choice.text
    if following is None:
        return place
    if choice.what == WORD and following.ends:
        return *place, here.piece[-1:] == ","
    names = tuple(text for text, symbol in zip(following.said, following.inside, strict=True) if symbol == "NAME")
    thing = here.thing if here.kind == "product" else here.name if choice.what == UNIT else ""
    return *place, following.inside, names if choice.what == VALUE else (), thing


def all_refused(text: str, seen: set[object]) -> list[str]:
    """Of everything that is offered at every place of a text, what is refused. `seen`: what has been looked at."""
    found = []
    desk = desk_of("")
    for at in places(text):
        lead = above(text, at)
        desk.write(SPEC, lead)
        choices = completion.complete(desk, SPEC, len(lead))
        here = seat_of(desk, lead, choices[0].start) if choices else None
        for choice in choices:
            assert here is not None
            refused = ""
            if here.piece and choice.text != "zone" and ahead(f"{here.piece} {put(here, choice)}", here.entry) is None:
                refused = "cannot be read"
            elif (sign := sign_of(here, choice)) not in seen:
                seen.add(sign)
                refused = refusal(desk, lead[: choice.start], here, choice)
            if refused:
                found.append(f"{lead[lead.rfind(chr(10)) + 1 :]}|{choice.text}|: {refused}")
    return found


SEEN: set[object] = set()


@pytest.mark.parametrize("name", [EXAMPLES[0], *(pytest.param(name, marks=pytest.mark.slow) for name in EXAMPLES[1:])])
def test_nothing_is_offered_that_is_refused_there(name: str) -> None:
    assert all_refused(FILES[name], SEEN) == []


@pytest.mark.slow
def test_nothing_is_offered_that_is_refused_in_a_spec_with_mistakes() -> None:
    """Up to each place of it, whatever stands there."""
    assert [found for path in CORPUS for found in all_refused(path.read_text(encoding="utf-8"), SEEN)] == []


# ---------------------------------------------------------------- what is offered where


@pytest.mark.parametrize("line", [
    "job\n  |", "floor 2.4 x 1.8\n  |", "job\n  ref |", "job\n  revision |", "job\n  crew |", "job\n  cutting |", "job\n  aids |",
    "floor 2.4 x 1.8\n  fixture |", "floor 2.4 x 1.8\nshower in |", "floor 2.4 x 1.8\n  build-up |", "job\n  sizes in |",
    "job\n  rooms measured to |", "floor 2.4 x 1.8\n  drain 0.4 from wall D, |",
])  # fmt: skip
def test_describing_words_stand_only_where_they_describe(line: str) -> None:
    own = DESCRIBED["floor"] if line.startswith("floor") else DESCRIBED["job"]
    words = {w for w in PLACE_WORDS if w not in (own if line.endswith("\n  |") else ())}
    # Some are words of the language, too.
    assert {c.text for c in offered(line) if c.what == VALUE} & words == set()


@pytest.mark.parametrize(("text", "wanted"), [
    ("floor 2.4 x 1.8\n  build-up |", list(LAYERS)),
    ("datum 1 above finished |", ["floor"]),
    ("datum 1 above |", ["finished floor"]),
    ("floor 2.4 x 1.8\n  base tile backer |", ["board"]),
    ("job\n  aids suction |", ["lifters", "cups"]),
    ("job\n  rooms measured to |", ["bare wall", "tile face"]),
    ("floor 2.4 x 1.8 |", ["heated", "sunlit"]),
    ("tile plain 200x200\nfloor 2.4 x 1.8\nwall A\n  tile plain; joint on centre |", ["across", "up", "both ways"]),
    ("job\n  cutting wet |", ["saw", "hand saw"]),
    ('floor 2.4 x 1.8\nstep "a" by glazier; after strip |', ["out"]),
])  # fmt: skip
def test_a_list_is_that_of_check_and_goes_on_where_it_stands(text: str, wanted: list[str]) -> None:
    assert [c.text for c in offered(text) if c.what == VALUE] == wanted


@pytest.mark.parametrize(("lead", "line"), [
    ("full tile at", "wall|tile a; "), ("joint on", "wall|tile a; "), ("start from", "wall|tile a; "), ("base", "floor|"),
    ("base", "wall|"), ("heating", "floor|"), ("build-up", "floor|"), ("joints follow", "wall|tile a; "), ("after", 'step|'),
    ("before", "step|"), ("from", "wall|mirror 0.6 x 0.6; 0.2 "), ("aids", "job|"), ("cutting", "job|"), ("crew", "job|"),
    ("paper", "job|"), ("practice", "job|"), ("sizes in", "job|"), ("rooms measured to", "job|"), ("result", "record|"),
    ("barefoot class", "tile|"), ("slip class", "tile|"), ("colour", "product|"),
])  # fmt: skip
def test_what_a_message_lists_is_offered(lead: str, line: str) -> None:
    """On a half-written line, so that both say the same."""
    kind, _, before_it = line.partition("|")
    head = {"wall": "floor 2 x 2\nwall A", "floor": "floor 2 x 2", "step": 'floor 2 x 2\nstep "x" by glazier',
            "tile": "tile a 300x300", "product": "adhesive a class C2", "record": "record primer"}.get(kind, kind)
    # Of a place, not a word; a drain lies in no wall.
    told = {w for w in listed(tuple(lead.split()), kind) if " A" not in w and "another" not in w and "the name" not in w}
    assert told - {"drain"} <= set(texts(f"{head}\n  {before_it}{lead} |")) and told


def test_words_go_on_where_they_have_begun() -> None:
    assert texts("floor 2.4 x 1.8\n  fall 1:60 four |")[0] == "planes"
    assert texts("floor 2.4 x 1.8\n  base cement |")[:3] == ["screed", "board", "backer board"]
    assert texts("floor 2.4 x 1.8\nwall A\n  base cement |")[:4] == ["render", "board", "plaster", "backer board"]
    laid = "tile plain 200x200\nfloor 2.4 x 1.8\n  tile plain; half |"
    assert texts(laid)[:3] == ["bond", "stepped", "back and forth"]
    assert texts(laid.replace("half", "half back"))[0] == "and forth"
    assert not {"back", "and", "forth"} & set(texts(laid))


def test_bases_are_those_of_the_surface_the_usual_ones_first() -> None:
    wall, floor = texts("floor 2 x 2\nwall A\n  base |"), texts("floor 2 x 2\n  base |")
    assert wall[:5] == ["cement render", "gypsum plaster", "gypsum plasterboard", "cement board", "tile-backer board"]
    assert floor[:3] == ["cement screed", "calcium sulfate screed", "concrete"]
    assert not any(BASES[w] in FLOORS_ONLY for w in wall) and not any(BASES[w] in WALLS_ONLY for w in floor)
    assert {*WALL_BASES, *FLOORS_ONLY} == set(BASES.values()) and not {*FLOOR_BASES} & {*WALLS_ONLY}


def test_a_declaration_takes_no_bonds_and_no_starts() -> None:
    declared = set(texts("tile field 300x300x9 |"))
    assert {"porcelain", "weight", "box"} <= declared
    assert not {"herringbone", "third", "stepped", "full", "start", "run", "modular"} & declared
    assert {"herringbone", "third", "full", "joint"} <= set(texts("tile field 300x300\ntile field; |"))


def test_units_of_what_is_measured() -> None:
    assert texts("conditions humidity 60 |")[:2] == ["%RH", "%"]
    record = "floor 2 x 2\nrecord substrate-moisture on floor 2026-03-06; "
    assert texts(record + "reading 1.6 |")[:2] == ["CM%", "%RH"]
    assert not any("read so" in c.detail for c in offered(record + "reading 1.6 |"))
    depth = {c.text: c for c in offered(record + "depth 30 |")}
    assert depth["in"].what == UNIT and depth["mm"].detail.startswith("read so")


@pytest.mark.parametrize(("text", "example"), [
    ("job\n  date |", "2026-11-26"), ("job; begin |", "2026-11-26"), ("floor 2 x 2\n  base concrete; laid |", "2026-11-26"),
    ("job\n  hours mon-fri |", "07:30-16:00"), ("floor 2 x 2\n  fall |", "1:60"), ("floor 2 x 2\n  hall floor |", "+10"),
    ("tile a 300x300; box of |", "6"), ("tile a 300x300; weight |", "20 kg/m2"),
    ("datum |", "1.0 above finished floor"), ("floor 2 x 2\nwall A\n  tile a; band 0.3 high, bottom |", "1.2"),
    ("room |", '"Shower room"'), ("step |", '"Fit shower screen"'), ("tile |", "wall-tile"),
])  # fmt: skip
def test_where_a_value_is_needed_an_example_is_offered_last(text: str, example: str) -> None:
    found = offered(text)
    assert (found[-1].text, found[-1].what) == (example, EXAMPLE)
    assert found[-1].detail.startswith("today: " if example == "2026-11-26" else "example: ")


_RECORD = "floor 2 x 2\n  base concrete\n  tile a\nrecord substrate-moisture on floor 2026-03-06"


@pytest.mark.parametrize("lead", [
    f"{_RECORD}; by", f"{_RECORD}; work by", f"{_RECORD}; note", "limit hold-notice 48 h because", "job\n  client",
    "deviation low-window-cut on floor because", "job\n  ref", "job\n  author", "delivery a 2026-03-06; shade",
])  # fmt: skip
def test_a_text_that_only_the_writer_knows_is_a_place_for_one_that_check_refuses(lead: str) -> None:
    found = [c for c in offered(f"{lead} |") if c.what == EXAMPLE]
    assert [c.text for c in found] == ['"..."'] and "your own words" in found[0].detail
    desk = desk_of(f'tile a 300x300x9 porcelain\n{lead} "..."\n' + ("" if "floor 2" in lead else "floor 2 x 2\n  tile a\n"))
    assert any(d.code == "T0213" and "still to be written" in d.message for d in desk.found()[SPEC])


@pytest.mark.parametrize("text", [
    f"{_RECORD}; reading |", f"{_RECORD}; depth |", f"{_RECORD}; fell |", "conditions air |", "job\n  built |",
    "tile a 300x300; dcof |", "delivery a 2026-03-06; warp |",
])  # fmt: skip
def test_no_number_is_offered_that_was_read_or_tested(text: str) -> None:
    assert texts(text) == []


def test_the_day_of_a_record_is_offered_only_as_today() -> None:
    day = next(c for c in offered("floor 2 x 2\nrecord primer on floor |") if c.what == EXAMPLE)
    assert (day.text, day.detail.partition(":")[0]) == ("2026-11-26", "today")


@pytest.mark.parametrize("head", ["floor 2.4 x 1.8", "wall A"])
def test_base_and_tile_come_first_below_a_surface(head: str) -> None:
    begun = f'tile field 300x300x9 porcelain\nroom "Bath" height 2.4\n{head}\n'
    assert texts(f"{begun}  |\n")[:2] == ["base", "tile"]
    assert texts(f"{begun}  base concrete\n  |\n")[0] == "tile"



@pytest.mark.parametrize("surface", ["floor 2 x 2", "floor 2 x 2\nwall A"])
def test_behind_a_tile_its_own_words_come_first_and_products_last(surface: str) -> None:
    found = texts(f"tile wt 200x200\n{surface}\n  tile wt; joint 3; |")
    at = {word: n for n, word in enumerate(found)}
    assert max(at[w] for w in ("half", "third", "stepped", "upright", "full", "run", "joint")) < 25
    assert found[0] == "straight"
    assert max(at[w] for w in ("full", "run", "band")) < min(at[w] for w in ("base", "pipe", "untiled"))
    assert at["untiled"] < at["adhesive"]
    assert texts(f"tile wt 200x200\n{surface}\n  tile wt; |")[0] == "joint"


@pytest.mark.parametrize(("text", "not_again"), [
    ('job "X"; ref A; revision B; practice EN\n  begin 2026-03-09\n  |', {"ref", "revision", "practice", "begin"}),
    ('job "X"; ref A; |\n  begin 2026-03-09\n', {"ref", "begin"}),
    ("floor 2.4 x 1.8 |", {"walk", "x"}), ("floor 2.4 x 1.8\n  |", {"walk"}),
    ("floor 2 x 2\n  base concrete\n  adhesive grip\n  |", {"base", "adhesive"}),
    ("floor 2 x 2\n  base concrete; laid 2026-01-01; |", {"base", "laid"}),
    ("floor 2 x 2\nrecord primer on wall B |", {"on", "in"}), ("floor 2 x 2\nshower in corner D |", {"B", "D"}),
    ("floor 2 x 2\n  fall 1:60\n  |", {"fall"}), ("floor 2 x 2\n  heating |", {"generic-mat-us"}),
    ("tile a 300x300 rectified |", {"rectified", "pressed"}),
    ("floor 2 x 2\nrecord primer on floor 2026-03-01 |", {"2026-11-26"}),
])  # fmt: skip
def test_what_cannot_be_said_twice_or_not_there_is_not_offered(text: str, not_again: set[str]) -> None:
    assert not not_again & set(texts(text)) and texts(text)


@pytest.mark.parametrize("text", [
    'job "X"\n  |ref A', "floor 2 x 2\n  fall|", 'job "X"\n  ref A\n  note "x"\n  |',
    "floor 2 x 2\n  drain 1 from wall A, 1 from wall B\n  |",
])  # fmt: skip
def test_what_is_being_typed_is_no_second_one(text: str) -> None:
    word = {"job": "ref" if "|ref" in text else "note", "floor": "fall" if "fall" in text else "drain"}[text.split()[0]]
    assert word in texts(text)


def test_below_a_statement_that_cannot_be_read_nothing_is_known() -> None:
    assert texts("tile a 300x300\nD 3\n  |") == []


def test_words_say_first_what_they_are() -> None:
    found = {c.text: c for c in offered("job\n  |")}
    assert found["occupied"].detail != found["empty"].detail and "part 7" not in found["practice"].about
    assert found["ref"].detail == "Your number for the job" and "In the print: title and head" in found["ref"].about
    planes = [c.detail for c in offered("floor 2 x 2\n  fall 1:60 |") if c.text.endswith("plane") or c.text.endswith("planes")]
    assert len(set(planes)) == len(planes) == 3
    lain = {c.text: c.detail for c in offered("tile a 300x600 |")}
    assert lain["landscape"] != lain["upright"]
    height = next(c for c in offered("floor 2 x 2\nwall A\n  mirror 0.6 x 0.6; 0.2 from |") if c.text == "finished floor")
    assert "height of the lower edge" in height.detail and "end of the wall" not in height.about
    assert height.written == "1.2 from finished floor"
    assert not any(c.detail.endswith("With a name only") for c in offered("til|"))


def test_a_corner_and_a_country() -> None:
    assert texts("floor 2 x 2\nshower in corner D |")[:2] == ["A", "C"]
    assert texts("job; practice US\nfloor 2 x 2\n  heating |")[:2] == ["generic-mat-us", "generic-cable-us"]


@pytest.mark.parametrize(("text", "first"), [
    ("floor 2 x 2\nwall A\n  valve 0.45 from left, |", "1.1 up"),
    ("floor 2 x 2\n  drain |", "0.45 from wall D, 0.45 from wall A"),
    ("floor 2 x 2\nwall A\n  window 0.6 x 0.9; 0.6 from left, |", "1.1 up"),
    ("job; sizes in mm\nfloor 2 x 2\nwall A\n  valve 450 from left, |", "1100 up"),
    ("tile a 300x300\nfloor 2 x 2\nwall A\n  tile a; band |", "0.3 high, bottom 1.2 up"),
    ("floor 2 x 2\nrecord primer on floor |", "2026-11-26"),
])  # fmt: skip
def test_the_next_place_comes_first(text: str, first: str) -> None:
    assert (offered(text)[0].text, offered(text)[0].what) == (first, EXAMPLE)


def test_rules_that_find_something_come_first_behind_deviation() -> None:
    whole = FILES["/shower-room.tilespec"].replace("base gypsum plasterboard", "base cement screed")
    desk = desk_of(whole)
    desk.write(SPEC, whole + "deviation ")
    found = completion.complete(desk, SPEC, len(whole) + len("deviation "))
    marked = [c.text for c in found if c.detail.startswith("found here")]
    assert "base-of-another-surface" in marked and [c.text for c in found][: len(marked)] == marked
    rest = [c.text for c in found][len(marked) :]
    assert rest == sorted(rest) and "wet-zone-without-membrane" not in rest


def test_all_that_is_offered_is_explained() -> None:
    """In a few whole words; and, but for units, in full."""
    missed = set()
    for name in EXAMPLES:
        desk, text = desk_of(FILES[name]), FILES[name]
        for at in places(text):
            for c in completion.complete(desk, SPEC, at):
                whole = c.detail and c.about and "..." not in c.detail and "\n" not in c.detail and len(c.detail) <= 41
                if c.what != UNIT and not whole:
                    missed.add((c.text, c.what, c.detail, c.about[:20]))
    assert missed == set()


# ---------------------------------------------------------------- what is told

_LAYING = {"5/tile: how it is laid", "6/Starts", "6/Bonds", "6/Tiles"}
_PLACES = {"4/wall", "4/floor"}
_STANDING = {"5/shower, bath, basin, boxing"}
# Where the words of a statement may be told, and those of an item of it.
SECTIONS = {
    "job": {"5/job"}, "conditions": {"5/conditions"}, "use": {"5/use, limit and language"},
    "limit": {"5/use, limit and language"}, "tile": {"5/tile: what a tile is", "6/Tiles"},
    "product": {"5/Products", "6/Products"}, "room": {"5/room and datum"}, "datum": {"5/room and datum"}, "floor": {"5/floor"},
    "wall": {"5/wall"}, "shower": _STANDING, "bath": _STANDING, "basin": _STANDING, "boxing": _STANDING, "step": {"5/step"},
    "deviation": {"5/deviation"}, "record": {"5/record"},
}  # fmt: skip
OF_ITEMS = {"base": {"5/base"}, "tile": _LAYING | _PLACES}


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_word_is_told_by_the_row_of_its_own_statement_or_item(name: str) -> None:
    text, desk, wrong, untold = FILES[name], desk_of(FILES[name]), [], []
    clear = re.sub(r'#.*|"[^"\n]*"', lambda m: "\x00" * len(m[0]), text)
    for m in re.finditer(r"(?<![\w.-])[^\W\d_][\w'./+-]*", clear):
        here = spot(desk, SPEC, m.start())
        assert here is not None and here.statement is not None
        st, a = here.statement, here.attribute
        row = explained(here, st)
        item = item_of(st, a) if a is not None else ""
        right = OF_ITEMS.get(a.kind if a is not None and a.kind in OF_ITEMS else item, SECTIONS[st.kind])
        right = right | (_PLACES if item or a is not None and a.kind in ("from_side", "from_wall") else set())
        if row is not None and row.section not in right:
            wrong.append((m[0], st.kind, row.section))
        if hover(desk, here) is None:
            untold.append((m[0], st.kind))
    assert (wrong, untold) == ([], [])


@pytest.mark.parametrize(("text", "told", "not_told"), [
    ("wall A\n  tile a; |joint 3", "grout, cuts, courses", "mosaic with a name only"),
    ("wall A\n  tile a; full tile |at datum", "on the datum line", "lengths to order"),
    ("wall A\n  tile a; band 0.3 high, |bottom 1.2 up", "height of the lower edge", "lengths to order"),
    ("job\n  |rooms measured to bare wall", "what the sizes on the drawings mean", "smallest and largest"),
    ("tile a 300x300; barefoot |class B", "may lie on a wet floor", "resin or cement"),
    ("record substrate on floor 2026-03-06 |by \"x\"", "who measured", ""),
    ("deviation low-window-cut on wall A |because \"x\"", "printed with the deviation", "the reason for the limit"),
    ("|shower in corner D A, 0.9 x 0.9", "a shower, as a thing in the room", "zone"),
    ("|floor 2.4 x 1.8", "the floor: size or walk", "hall"),
    ("floor 2 x 2\n  heating |mat", "hold points", "epoxy"),
    ("step \"x\" by glazier; after |sealing", "first step of that stage", "an adhesive"),
    ("floor 2 x 2\nwall |B", "a surface of its own", "not tiled"),
    ("wall A\n  |window 0.6 x 0.9", "taken off the area", "a door is asked"),
    ("floor 2 x 2\n  base cement |screed", "priming", "see there"),
    ("floor 2 x 2\n  fall 1:60 two |planes", "two sides slope to a line", "each side"),
    ("job\n  |empty", "nobody lives there", "Somebody"), ("tile a 300x600 |upright", "stands", "lies"),
    ("floor 2 x 2\n  |tile a", "which tile goes there", "see above"),
])  # fmt: skip
def test_a_word_is_not_told_as_that_of_another_statement(text: str, told: str, not_told: str) -> None:
    at = text.index("|")
    text = text.replace("|", "")
    desk = desk_of(text)
    here = spot(desk, SPEC, at)
    assert here is not None
    found = hover(desk, here)
    assert found is not None and told in found.text.lower(), found
    assert not not_told or not_told not in found.text


def test_a_choice_says_first_how_it_is_written() -> None:
    found = {c.text: c for c in offered("job\n  |")}
    assert found["date"].written == "date 2026-03-02"
    assert found["hours"].written == "hours mon-fri 07:30-16:00"
    below = {c.text: c for c in offered("floor 2 x 2\n  |")}
    assert below["drain"].written == "drain 0.45 from wall D, 0.45 from wall A"
    assert below["heating"].written == "heating generic-mat"
    porcelain = next(c for c in offered("tile a 300x300 |") if c.text == "porcelain")
    assert "long waits between membrane and tile" in porcelain.about
