"""`tilespec take-off` and `tilespec programme`: on a terminal, in a pipe, for a spreadsheet, as JSON."""

from __future__ import annotations

import csv
import io
import json
import os
import re
import sys
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest
import referencing

from tilespec import pipeline
from tilespec.cli.door import run
from tilespec.cli.status import Status
from tilespec.diagnostics.printable import width
from tilespec.document.csv_form import HEAD, safe
from tilespec.workspace.host import DiskHost

ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = ("one-line", "shower-room", "us-bathroom")
SCHEMAS = {
    name: json.loads((files("tilespec") / "document" / "schema" / name).read_text(encoding="utf-8"))
    for name in ("print.schema.json", "excerpt.schema.json")
}


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def example(name: str) -> str:
    return str(ROOT / "examples" / f"{name}.tilespec")


def table(text: str, heading: str) -> list[str]:
    """Lines of the table below a heading."""
    return text.split(f"{heading}\n\n")[1].split("\n\n")[0].splitlines()


def test_what_to_order(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["take-off", example("shower-room")]) is Status.FINE
    out = capsys.readouterr().out
    order = table(out, "Order list")
    assert re.split(r"  +", order[0].strip()) == ["Material", "Class", "Order", "Net", "Allowance", "Gross", "Weight"]
    assert any(re.split(r"  +", line.strip())[:3] == ["adhesive floor-flex", "C2 E S2", "4 bags of 20 kg"] for line in order)
    tiles = table(out, "Tiles")
    assert re.split(r"  +", tiles[0].strip()) == ["Tile", "Size", "Needed", "Whole", "+ to cut", "+ to spare", "= ordered"]
    assert all(len(line) == len(order[0]) for line in order if line.endswith("kg"))
    assert "wall A bed" in out and "\u202f" not in out and "\u00a0" not in out and "^" not in out and "\x1b" not in out


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_tiles_of_a_row_add_up(name: str) -> None:
    """Whole, to cut and to spare are what is ordered, which is in whole boxes where it is known what they hold."""
    text = pipeline.take_off(pipeline.compile(example(name), DiskHost()), "text")
    summed = 0
    for line in table(text, "Tiles")[1:]:
        cells = re.split(r"  +", line.strip())
        if len(cells) == 7:     # not of spare tiles, which are not laid
            needed, whole, cut, spare, ordered = cells[2:]
            boxes, _, each = ordered.partition(" × ")
            assert int(whole) + int(cut) + int(spare) == int(boxes) * int(each or 1) >= int(needed), line
            summed += 1
    assert summed


def test_a_generic_heating_says_what_it_is(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["take-off", example("one-line")]) is Status.FINE
    (row, *_) = [line for line in table(capsys.readouterr().out, "Order list") if "heating" in line]
    assert re.split(r"  +", row.strip())[:2] == ["generic heating mat", "size of the mats not known"]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_numbers_are_those_of_the_print(name: str) -> None:
    compiled = pipeline.compile(example(name), DiskHost())
    printed = json.loads(pipeline.render(compiled, pipeline.Order("json")).data)["parts"]
    text = pipeline.take_off(compiled, "text")
    for line in printed["materials"]["lines"]:
        for key in ("net", "allowance", "gross", "packs", "weight", "pieces", "whole", "cut", "left"):
            if line[key] is not None:
                assert line[key]["text"].replace("\u202f", " ") in text
    days = pipeline.programme(compiled, "text")
    for day in printed["programme"]["days"]:
        for slot in day["slots"]:
            assert f"{slot['start']}–{slot['end']}  {slot['step']} " in days
    for form, keys in ((pipeline.take_off, ["materials"]), (pipeline.programme, ["sequence", "programme"])):
        alone = json.loads(form(compiled, "json"))
        assert list(alone["parts"]) == keys
        for key in keys:
            assert values(alone["parts"][key]) == values({**printed[key], **({"charts": []} if key == "programme" else {})})


def values(node: object) -> object:
    """Without the marks, which are counted anew."""
    if isinstance(node, dict):
        return {k: values(v) for k, v in node.items() if k != "trace"}
    return [values(x) for x in node] if isinstance(node, list) else node


@pytest.mark.parametrize("command", ["take-off", "programme"])
@pytest.mark.parametrize("name", EXAMPLES)
def test_json_keeps_its_schema_and_leads_every_number_back(
    command: str, name: str, capsys: pytest.CaptureFixture[str],
) -> None:
    assert run([command, example(name), "--json"]) is Status.FINE
    form = json.loads(capsys.readouterr().out)
    known = [(key, referencing.Resource.from_contents(schema)) for key, schema in SCHEMAS.items()]
    registry: referencing.Registry[object] = referencing.Registry().with_resources(known)
    jsonschema.Draft202012Validator(SCHEMAS["excerpt.schema.json"], registry=registry).validate(form)
    assert form["format"] == f"tilespec-{command}"
    marks = re.findall(r'"trace": "([A-Z][A-Za-z]*[0-9]+)"', json.dumps(form))
    assert marks and set(marks) <= set(form["traces"])


@pytest.mark.parametrize("columns", [24, 40, 80, 110])
@pytest.mark.parametrize("command", ["take-off", "programme", "set-out"])
def test_a_terminal_is_never_overrun(command: str, columns: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdout", terminal := Terminal())
    monkeypatch.setattr("shutil.get_terminal_size", lambda fallback: os.terminal_size((columns, 24)))
    bare = ["--no-drawings"] if command == "set-out" else []
    assert run([command, example("us-bathroom"), "--color", "never", *bare]) is Status.FINE
    lines = terminal.getvalue().splitlines()
    assert len(lines) > 30 and max(map(width, lines)) <= columns


def test_the_width_is_80_where_a_terminal_does_not_say(monkeypatch: pytest.MonkeyPatch) -> None:
    from tilespec.cli import output

    monkeypatch.setattr(sys, "stdout", Terminal())
    monkeypatch.delenv("COLUMNS", raising=False)
    monkeypatch.setattr("os.get_terminal_size", lambda *_: os.terminal_size((0, 0)))
    assert output.columns() == 80
    monkeypatch.setattr(sys, "stdout", io.StringIO())
    assert output.columns() is None


def test_csv_for_a_spreadsheet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["take-off", example("us-bathroom"), "--csv"]) is Status.FINE
    head, *rows = csv.reader(io.StringIO(capsys.readouterr().out))
    assert tuple(head) == HEAD and all(len(row) == len(head) for row in rows)
    by_name = {(row[1], row[2]): dict(zip(head, row)) for row in rows}
    mortar = by_name["", "large-tile-mortar"]
    assert (mortar["class"], mortar["pack"], mortar["pack unit"]) == ("C2 TE S1", "50", "lb")
    assert int(mortar["packs"]) * 50 == float(mortar["weight"]) >= float(mortar["gross"]) > float(mortar["net"]) > 0
    assert by_name["", "wall-field"]["where"] == "wall A; wall B; wall C; wall D"
    # A length in feet and inches is no number to a spreadsheet.
    assert by_name["", "generic-tape"]["net unit"] == "m" and float(by_name["", "generic-tape"]["net"]) > 10


@pytest.mark.parametrize("text", ["=1+1", "+x", "-x", "@sum", "\t=1", " =1", "＝1", "-1+1", "=cmd|'/c calc'!A1"])
def test_no_cell_is_a_formula(text: str) -> None:
    assert safe(text).startswith("'")


def test_numbers_and_names_stay_as_they_are() -> None:
    assert [safe(x) for x in ("", "4.21", "-3", "floor-tile", "%")] == ["", "4.21", "-3", "floor-tile", "%"]
    assert safe("a\nb\x1b") == "a b<U+001B>"


def test_a_name_in_the_spec_cannot_be_a_formula(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spec = tmp_path / "odd.tilespec"
    rooms = "".join(f'room "{name}"\nfloor 2 x 2\n  tile white\n' for name in ("=cmd()|x", "+b"))
    spec.write_text("tile white 300x300x8 ceramic\n" + rooms, encoding="utf-8")
    assert run(["take-off", str(spec), "--csv"]) is Status.FINE
    cells = [cell for row in csv.reader(io.StringIO(capsys.readouterr().out)) for cell in row]
    assert any(cell.startswith("'=cmd") for cell in cells)
    assert not any(cell.startswith(("=", "+", "-", "@")) for cell in cells)


def test_several_specs_and_faults(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("faulty.tilespec").write_text("floor 2,4 x 1.8\n", encoding="utf-8")
    for command, undone in (("take-off", "measured"), ("programme", "planned")):
        assert run([command, "faulty.tilespec"]) is Status.SPEC
        told = capsys.readouterr()
        assert told.out == "" and f"nothing was {undone}" in told.err
        assert run([command, "faulty.tilespec", "--json"]) is Status.SPEC
        assert json.loads(capsys.readouterr().out)["errors"] >= 1
        one = example("one-line")
        assert run([command, one, one, "--json"]) is Status.USAGE
        capsys.readouterr()
        assert run([command, one, one]) is Status.FINE
        assert capsys.readouterr().out.count("one-line.tilespec\n\n") == 2


def test_other_trades_and_waits(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["programme", example("us-bathroom")]) is Status.FINE
    out = capsys.readouterr().out
    assert "ready Wed 2026-05-27" in out and "Set the shower door" in out.split("Other trades")[1]
    assert "before step" in out.split("Steps\n")[1] and "HOLD: Membrane accepted" in out


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_wait_stands_above_the_steps_that_it_holds_up(name: str) -> None:
    text = pipeline.programme(pipeline.compile(example(name), DiskHost()), "text")
    begun: set[str] = set()
    waits = 0
    for line in table(text, "Days")[1:]:
        if step := re.search(r"[0-9]{2}:[0-9]{2}–[0-9]{2}:[0-9]{2}  ([0-9]+) ", line):
            begun.add(step[1])
        elif held := re.search(r"^ +wait +.*: no step (.*) before ", line):
            waits += 1
            assert not begun & set(re.findall("[0-9]+", held[1])), line
    assert waits


def test_what_the_spec_has_of_a_step_is_said_at_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A record does not take a step out of the plan: whether it still holds is looked at on site."""
    spec = tmp_path / "job.tilespec"
    signed = 'record substrate on "Shower room" 2026-03-06 by "J. Rook"; result pass\n'
    spec.write_text((ROOT / "examples" / "shower-room.tilespec").read_text(encoding="utf-8") + signed, encoding="utf-8")
    (tmp_path / "house-stock.tilespec").write_bytes((ROOT / "examples" / "house-stock.tilespec").read_bytes())
    assert run(["programme", str(spec)]) is Status.FINE
    days = table(capsys.readouterr().out, "Days")
    assert any("Test the moisture of the base (a reading stands in the spec)" in line for line in days)
    assert any("Base accepted (signed in the spec: J. Rook)" in line for line in days)
