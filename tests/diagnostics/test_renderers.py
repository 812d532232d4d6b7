"""The three drawings of a diagnostic. Snapshots show the whole picture; the rest is said in plain asserts."""

from __future__ import annotations

import json
import re
import unicodedata
from importlib.resources import files

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

from tilespec.diagnostics import json_report, short, text
from tilespec.diagnostics.model import Diagnostic, Edit, Fix, Label, Severity
from tilespec.diagnostics.printable import printable, width
from tilespec.source import Source, Span


class TextFile(SingleFileSnapshotExtension):
    _write_mode = WriteMode.TEXT
    file_extension = "txt"


@pytest.fixture
def drawing(snapshot: SnapshotAssertion) -> SnapshotAssertion:
    return snapshot.use_extension(TextFile)


def at(source: Source, words: str, label: str = "", nth: int = 0) -> Label:
    start = -1
    for _ in range(nth + 1):
        start = source.text.index(words, start + 1)
    return Label(source.span(start, start + len(words)), label)


def fault(primary: Label, message: str = "a comma stands between digits", **more: object) -> Diagnostic:
    return Diagnostic("decimal-comma", "T0301", Severity.ERROR, "job", message, primary, **more)  # type: ignore[arg-type]


JOB = Source("job.tilespec", 'job "Shower room"\n\nfloor 2,4 x 1.8; heated\n\n\nwall A\n  tile tall; joint 3\n')
STOCK = Source("firm stock.tilespec", "# ours\ntile tall 300x600x9\n")
SOURCES = {JOB.name: JOB, STOCK.name: STOCK}

FULL = fault(
    at(JOB, "2,4", "this could be 2.4, or 2 and 4"),
    secondary=(at(JOB, "heated", "said here"), at(JOB, "tall", "used here"), at(STOCK, "tall", "written here")),
    notes=("lengths of a room are in metres",),
    help="write 2.4",
)


def test_full_drawing(drawing: SnapshotAssertion) -> None:
    assert text.render([FULL], SOURCES) == drawing


def test_what_is_said_is_broken_between_words() -> None:
    said = [FULL, fault(at(JOB, "2,4", ""), help="write it as it is measured, " * 12)]
    told = text.render(said, SOURCES, columns=40)
    prose = [line for line in told.split("\n") if "|" not in line and "-->" not in line and ":::" not in line]
    assert max(map(len, prose)) <= 40
    assert told.split() == text.render(said, SOURCES).split()
    coloured = text.render(said, SOURCES, text.COLOUR, 40)
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == told


def test_several_drawings(drawing: SnapshotAssertion) -> None:
    floor = at(JOB, "floor", "no fall said")
    warning = Diagnostic("no-fall", "T2001", Severity.WARNING, "checks", "the floor has no fall", floor)
    note = Diagnostic("not-stated", "T2002", Severity.NOTE, "checks", "wall B is not stated", at(JOB, "wall A"))
    assert text.render([warning, note], SOURCES) == drawing


def test_fix_stands_in_for_help(drawing: SnapshotAssertion) -> None:
    label = at(JOB, "2,4")
    fixes = (Fix("write 2.4", (Edit(label.span, "2.4"),), safe=True), Fix("write 2, 4", (Edit(label.span, "2, 4"),)))
    assert text.render([fault(label, fixes=fixes)], SOURCES) == drawing


def test_tabs_and_wide_characters(drawing: SnapshotAssertion) -> None:
    source = Source("t", '\twall\tA "浴室 e\u0301"; tile 300x600; joint 3,5\n')
    labels = (at(source, "浴室", "a name"), at(source, "A", "the wall"))
    assert text.render([fault(at(source, "3,5", "here"), secondary=labels)], {"t": source}) == drawing


def test_span_over_lines_and_at_the_end(drawing: SnapshotAssertion) -> None:
    source = Source("t", "wall A\n  tile tall\nwall B\n  joint")
    over = fault(Label(source.span(0, 18), "from here"), "this wall is told twice")
    end = fault(Label(source.span(len(source.text), len(source.text)), "a size is missing"), "joint without a size")
    beyond = fault(Label(Span("t", 900, 950), ""), "a place outside the file is drawn at its end")
    assert text.render([over, end, beyond], {"t": source}) == drawing


def test_long_line_shows_the_part_around_the_words(drawing: SnapshotAssertion) -> None:
    source = Source("t", "# first\nfloor 2 x 1; " + "tile 300x600; " * 40 + "joint 3,5; " + "heated; " * 40)
    shown = text.render([fault(at(source, "3,5", "here"), secondary=(at(source, "floor", "of this"),))], {"t": source})
    assert max(len(line) for line in shown.splitlines()) < 150
    assert shown == drawing


def test_file_that_cannot_be_quoted(drawing: SnapshotAssertion) -> None:
    lost = fault(Label(Span("gone.tilespec", 0, 0), "asked for here"), "gone.tilespec does not exist", help="Check the name.")
    assert text.render([lost], {}) == drawing


def test_colour(drawing: SnapshotAssertion) -> None:
    coloured = text.render([FULL], SOURCES, text.COLOUR)
    assert coloured.replace("\x1b", "ESC") == drawing
    bare = coloured
    for code in (text.COLOUR.error, text.COLOUR.strong, text.COLOUR.frame, text.COLOUR.end):
        bare = bare.replace(code, "")
    assert bare == text.render([FULL], SOURCES)


def test_summary() -> None:
    one = Diagnostic("n", "T2001", Severity.WARNING, "checks", "m", at(JOB, "floor"))
    assert text.summary([FULL, FULL, one]) == "2 errors, 1 warning"
    assert text.summary([]) == ""


def test_short() -> None:
    other = fault(Label(Span("gone\nx", 0, 0), ""), "two\nlines \x1b[2J")
    assert short.render([FULL, other], SOURCES) == (
        "job.tilespec:3:7: error[T0301]: a comma stands between digits\n"
        "gone x:1:1: error[T0301]: two lines <U+001B>[2J\n"
    )


SCHEMA = json.loads((files("tilespec") / "diagnostics" / "report.schema.json").read_text(encoding="utf-8"))


def valid(report: str) -> dict[str, object]:
    result = json.loads(report)
    jsonschema.Draft202012Validator(SCHEMA).validate(result)
    return result


def test_json_report_is_valid_and_says_the_same() -> None:
    label = at(JOB, "2,4", "here")
    many = [FULL, fault(label, fixes=(Fix("write 2.4", (Edit(label.span, "2.4"),), safe=True),))]
    report = valid(json_report.render(many, SOURCES, 1))
    assert (report["status"], report["errors"], report["files"]) == (1, 2, ["job.tilespec", "firm stock.tilespec"])
    first = report["diagnostics"][0]  # type: ignore[index]
    assert (first["primary"]["line"], first["primary"]["column"], first["primary"]["end_column"]) == (3, 7, 10)
    assert JOB.text[first["primary"]["start"] : first["primary"]["end"]] == "2,4"
    assert first["secondary"][2]["file"] == "firm stock.tilespec"


@pytest.mark.parametrize("kind", ["usage", "environment", "bug", "interrupted"])
def test_json_report_is_valid_where_nothing_was_read(kind: str) -> None:
    failure = json_report.Failure(kind, "job\udcff.tilespec does not exist", "Check the name.")
    report = valid(json_report.render([], {}, 3, [failure]))
    assert report["diagnostics"] == [] and report["failures"][0]["kind"] == kind  # type: ignore[index]


def test_schema_is_sound_and_refuses_what_it_should() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    report = json.loads(json_report.render([FULL], SOURCES, 1))
    report["diagnostics"][0]["primary"]["extra"] = 1
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(SCHEMA).validate(report)


ANY = st.text(st.characters(), max_size=40)


@given(ANY, ANY, ANY, st.integers(0, 60), st.integers(0, 60), st.integers(0, 60))
def test_nothing_that_a_terminal_obeys_gets_out(name: str, body: str, words: str, start: int, end: int, other: int) -> None:
    source = Source(name, body)
    d = fault(
        Label(source.span(start, end), words), words,
        secondary=(Label(source.span(other, other + 3), words), Label(Span(name + "!", 0, 0), words)),
        notes=(words,), help=words,
    )
    for shown in (text.render([d], {name: source}), short.render([d], {name: source})):
        shown.encode("utf-8")                                          # no lone surrogates
        assert not any(unicodedata.category(c) in ("Cc", "Cf", "Zl", "Zp") for c in shown if c != "\n")
    assert len(short.render([d], {name: source}).splitlines()) == 1
    valid(json_report.render([d], {name: source}, 1))


@given(ANY)
def test_pointer_stands_below_its_words(body: str) -> None:
    source = Source("t", body + "MARK" + body)
    shown = text.render([fault(Label(source.span(len(body), len(body) + 4), ""))], {"t": source})
    quoted, pointer = shown.splitlines()[3:5]
    before = quoted[: quoted.index("MARK", quoted.index("|"))] if "MARK" not in body else None
    if before is not None and "MARK" not in printable(body):
        assert pointer.index("^") == width(before)
        assert pointer.count("^") == 4
