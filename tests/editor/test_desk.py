"""What is shown while a spec is being written is what `check` says of it; and only what has changed is worked out again."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tilespec import pipeline
from tilespec.diagnostics.model import Diagnostic, Severity
from tilespec.editor.desk import Desk
from tilespec.workspace.host import MemoryHost

EXAMPLES = Path(__file__).resolve().parent.parent.parent / "examples"
FILES = {f"/{p.name}": p.read_text(encoding="utf-8") for p in sorted(EXAMPLES.glob("*.tilespec"))}
SPEC = "/job.tilespec"
TWO_ROOMS = """job "Two"
  practice EN; begin 2026-03-09
tile ground 300x300x9 porcelain; weight 20 kg/m2; box of 11
tile field 600x300x9 porcelain landscape; weight 20 kg/m2; box of 6
room "One" height 2.4
floor 2.4 x 1.8
  base cement screed
  tile ground; joint 1
wall A
  base cement render
  tile field; joint 3
room "Two" height 2.4
floor 2.0 x 1.5
  base cement screed
  tile ground; joint 3
wall A
  base cement render
  tile field; joint 3; full tile at datum
  window 0.6 x 0.9; 0.6 from left, 1.2 up
"""


def host(text: str) -> MemoryHost:
    return MemoryHost({**FILES, SPEC: text})


def written(*texts: str) -> Desk:
    desk = Desk(host(texts[0]))
    for text in texts:
        desk.write(SPEC, text)
    return desk


def rested(desk: Desk) -> Desk:
    work = desk.work(SPEC)
    if work is not None and (behind := work.run()) is not None:
        desk.settle(SPEC, behind)
    return desk


def shown(desk: Desk) -> list[Diagnostic]:
    return sorted(desk.pages[SPEC].found, key=key)


def key(d: Diagnostic) -> tuple[object, ...]:
    return d.primary.span.file, d.primary.span.start, d.code, d.message


def checked(text: str) -> list[Diagnostic]:
    found = pipeline.compile(SPEC, host(text)).diagnostics
    return sorted((d for d in found if d.name != "stock-only"), key=key)


def agrees(desk: Desk, text: str) -> None:
    """The desk, at once and after a pause, with a check of the text from nothing."""
    wanted = checked(text)
    if any(d.severity is Severity.ERROR for d in wanted):
        found = shown(desk)
        assert [d for d in found if d in wanted] == wanted
        assert all(d.stage == "checks" for d in found if d not in wanted)
    else:
        assert all(d in wanted for d in shown(desk))
        assert shown(rested(desk)) == wanted


@pytest.mark.parametrize("name", sorted(FILES))
def test_an_example_shows_what_check_says(name: str) -> None:
    text = FILES[name]
    agrees(written(text), text)


def test_after_edits_the_same_shows_as_from_nothing() -> None:
    """Lines taken out, put in, typed letter by letter; in several rooms; with a pause now and then."""
    texts = [TWO_ROOMS]
    lines = TWO_ROOMS.splitlines(keepends=True)
    for n in range(0, len(lines), 2):
        texts.append("".join(lines[:n] + lines[n + 1 :]))
    for n in range(1, 12):
        texts.append(TWO_ROOMS.replace("room \"Two\"", "wall B\n  tile field\n"[:n] + '\nroom "Two"'))
    texts += [TWO_ROOMS.replace("joint 1\n", f"joint {x}\n") for x in ("", "1", "10", "2 mm")]
    desk = Desk(host(TWO_ROOMS))
    for n, text in enumerate(texts):
        desk.write(SPEC, text)
        if n % 5:
            agrees(desk, text)


SNIPPETS = (
    "\n", ";", " ", '"', "#", "x", "joint 3", "wall A\n", "  tile field\n", "room \"Three\"\n", "membrane none; ", "é\u200b",
    "2.4",
)


@settings(max_examples=40)
@given(st.lists(st.tuples(st.integers(0, 10_000), st.integers(0, 30), st.sampled_from(SNIPPETS)), min_size=1, max_size=4))
def test_any_edits_show_what_check_says(edits: list[tuple[int, int, str]]) -> None:
    text = TWO_ROOMS
    desk = written(text)
    for at, taken, new in edits:
        at %= len(text) + 1
        text = text[:at] + new + text[at + taken :]
        desk.write(SPEC, text)
    agrees(desk, text)


def test_places_are_those_of_the_text_now() -> None:
    """What stays while lines above it come and go."""
    desk = rested(written(TWO_ROOMS))
    name = "low-window-cut"
    for text in ("# one more\n" + TWO_ROOMS, TWO_ROOMS.replace("joint 1\n", "joint 1\n  note \"x\"\n"), TWO_ROOMS):
        desk.write(SPEC, text)
        d = next(d for d in shown(desk) if d.name == name)
        assert text[d.primary.span.start : d.primary.span.end].startswith("window")


def test_what_was_found_elsewhere_stays_while_a_line_is_half_typed() -> None:
    desk = rested(written(TWO_ROOMS))
    desk.write(SPEC, TWO_ROOMS.replace("joint 1\n", "joint \n"))
    names = {d.name for d in shown(desk)}
    assert "low-window-cut" in names and any(d.severity is Severity.ERROR for d in shown(desk))


def test_one_statement_is_read_and_one_room_built_and_looked_at() -> None:
    desk = rested(written(TWO_ROOMS))
    page = desk.pages[SPEC]
    before = page.typed[SPEC].kept.count, dict(page.writing.parts.made), page.writing.rules.looked
    desk.write(SPEC, TWO_ROOMS.replace("window 0.6 x 0.9", "window 0.6 x 0.8"))
    made = {what: n - before[1].get(what, 0) for what, n in page.writing.parts.made.items() if n != before[1].get(what)}
    assert page.typed[SPEC].kept.count - before[0] == 1
    assert made == {"room": 1}
    assert page.writing.rules.looked - before[2] == 1
    desk.write(SPEC, "# a comment\n" + TWO_ROOMS.replace("window 0.6 x 0.9", "window 0.6 x 0.8"))
    assert page.typed[SPEC].kept.count - before[0] == 1, "a comment changes nothing"
    assert page.writing.rules.looked - before[2] == 1


def test_only_rooms_that_use_what_was_declared_are_built_again() -> None:
    declared = "grout slate class CG2WA\ntile trimming 100x100x7 ceramic\nroom "
    text = TWO_ROOMS.replace("room ", declared, 1).replace("  window", "  tile trimming; band 0.1 high, bottom 2.2 up\n  window")
    desk = rested(written(text))
    made = desk.pages[SPEC].writing.parts.made

    def rooms(new: str) -> int:
        before = made["room"]
        desk.write(SPEC, new)
        agrees(desk, new)
        return made["room"] - before

    assert rooms(text.replace("100x100x7", "100x100x8")) == 1, "a tile of one room"
    assert rooms(text) == 1
    assert rooms(text.replace("grout slate", "tile more 200x200x7 ceramic\ngrout slate")) == 0, "another tile"
    assert rooms(text.replace("grout slate", "tile more \ngrout slate")) == 0, "a tile that cannot be read yet"
    assert rooms(text.replace("CG2WA", "CG1")) == 2, "the grout of every room"
    # What is not known in a room depends on all that is.
    unknown = text.replace("tile ground; joint 1", "tile mor; joint 1")
    rooms(unknown)
    assert rooms(unknown.replace("grout slate", "tile more 200x200x7 ceramic\ngrout slate")) == 1


def test_where_everybody_is_concerned_most_rooms_wait_for_the_pause() -> None:
    rooms = "".join(TWO_ROOMS[TWO_ROOMS.index('room "Two"') :].replace("Two", f"Room {n}") for n in range(6))
    text = TWO_ROOMS + rooms
    desk = rested(written(text))
    page = desk.pages[SPEC]
    assert page.look is not None and page.writing.rules.unseen(page.look.job, page.look.practice) == ()
    looked = page.writing.rules.looked
    changed = text.replace("weight 20 kg/m2; box of 6", "weight 21 kg/m2; box of 6")
    desk.write(SPEC, changed)
    assert page.writing.rules.looked - looked == pipeline.AT_ONCE
    agrees(desk, changed)
    assert page.writing.rules.unseen(page.look.job, page.look.practice) == ()


def test_a_used_file_shows_its_own_faults_and_is_followed() -> None:
    stock = "tile field 300x300x9 porcelian\n"
    files = {SPEC: 'use "stock.tilespec"\nfloor 2.4 x 1.8; base concrete; tile field; joint 3\n', "/stock.tilespec": stock}
    desk = Desk(MemoryHost(files))
    desk.write(SPEC, files[SPEC])
    assert [d.name for d in desk.found()["/stock.tilespec"]] == ["unknown-description"]
    desk.write("/stock.tilespec", stock.replace("porcelian", "porcelain"))
    assert desk.found()["/stock.tilespec"] == ()
    desk.close("/stock.tilespec")
    assert [d.name for d in desk.found()["/stock.tilespec"]] == ["unknown-description"], "the disk holds again"


def test_a_file_that_was_missing_is_found_when_it_comes() -> None:
    spec = 'use "stock.tilespec"\nfloor 2.4 x 1.8; base concrete; tile field; joint 3\n'
    desk = Desk(MemoryHost({SPEC: spec}))
    desk.write(SPEC, spec)
    assert "file-unreadable" in {d.name for d in desk.found()[SPEC]}
    desk.write("/stock.tilespec", "tile field 300x300x9 porcelain\n")
    assert "file-unreadable" not in {d.name for d in desk.found()[SPEC]}


def test_a_pause_that_is_no_longer_wanted_ends() -> None:
    work = written(TWO_ROOMS).work(SPEC)
    assert work is not None and work.run(lambda: True) is None


def test_the_examples_hold_what_the_tests_need() -> None:
    assert all(re.search(r"^floor|^tile|^adhesive|^primer", text, re.M) for text in FILES.values())


@pytest.mark.parametrize("text", ["", "# A new job.\n", 'job "Bath"\n', 'job "Bath"\ntile a 300x300x9 porcelain\n'])
def test_a_spec_that_is_only_begun_has_no_error_in_the_editor(text: str) -> None:
    assert shown(written(text)) == []
    assert {d.name for d in pipeline.compile(SPEC, host(text)).diagnostics} <= {"nothing-tiled", "stock-only"}


def test_with_a_room_it_is_told_that_nothing_is_tiled() -> None:
    text = 'room "Bath" height 2.4\n'
    assert [d.name for d in shown(written(text))] == ["nothing-tiled"]


def test_that_the_tile_is_missing_stays_while_other_lines_are_written() -> None:
    """It comes with the floor and goes with the tile, whatever stands half-written in between."""
    head = "tile a 300x300x9 porcelain\ntile b 200x200x8 ceramic\nfloor 2.4 x 1.8\n"
    body = "  drain 0.45 from wall D, 0.45 from wall A"
    desk = Desk(host(head))
    desk.write(SPEC, head)
    for n in range(body.index("drain") + 5, len(body) + 1):
        desk.write(SPEC, head + body[:n])
        assert "no-tile" in {d.name for d in shown(desk)} or any(d.name == "unknown-word" for d in shown(desk)), body[:n]
    desk.write(SPEC, f"{head}{body}\n  tile a; joint\n")
    assert [d.name for d in shown(desk)] == ["cannot-read"]
