"""The commands on real specs: what they write, where, and what they say."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest

from tilespec import pipeline
from tilespec.cli.door import run
from tilespec.cli.print import Wording
from tilespec.cli.status import Status, Stop
from tilespec.diagnostics.catalogue import entries
from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.printable import width
from tilespec.resources import data_text

ONE_LINE = "floor 2.4 x 1.8 heated; wall A 2.4 x 2.4 shower zone; tile 300x600 joint 3\n"
FAULTY = "floor 2,4 x 1.8\n" + ONE_LINE
SCHEMA = json.loads((files("tilespec") / "diagnostics" / "report.schema.json").read_text(encoding="utf-8"))


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with one sound spec and one faulty one, and the work is done from there."""
    (tmp_path / "one.tilespec").write_text(ONE_LINE, encoding="utf-8")
    (tmp_path / "faulty.tilespec").write_text(FAULTY, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    return tmp_path


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def names(folder: Path) -> set[str]:
    return {p.name for p in folder.iterdir()} - {"one.tilespec", "faulty.tilespec"}


def report(text: str) -> dict[str, object]:
    result = json.loads(text)
    jsonschema.Draft202012Validator(SCHEMA).validate(result)
    return result


# ---------------------------------------------------------------- check

def test_check_in_full(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", "faulty.tilespec"]) is Status.SPEC
    told = capsys.readouterr()
    assert "  --> faulty.tilespec:1:7\n" in told.out and "\n 1 | floor 2,4 x 1.8\n   |       ^^^" in told.out
    assert "error" in told.err
    assert names(job) == set()


def test_check_short_and_json_say_the_same(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["check", "faulty.tilespec", "one.tilespec"]
    assert run([*words, "--short"]) is Status.SPEC
    lines = capsys.readouterr().out.splitlines()
    assert run([*words, "--json"]) is Status.SPEC
    told = capsys.readouterr()
    listed = report(told.out)
    assert told.err == "" and listed["files"] == ["faulty.tilespec", "one.tilespec"]
    assert [
        f"{d['primary']['file']}:{d['primary']['line']}:{d['primary']['column']}: {d['severity']}[{d['code']}]: {d['message']}"
        for d in listed["diagnostics"]  # type: ignore[attr-defined]
    ] == lines


def test_check_of_a_sound_spec(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", "one.tilespec", "--json"]) is Status.FINE
    assert report(capsys.readouterr().out)["errors"] == 0


@pytest.mark.parametrize("words", [["check"], ["print", "--to", "md"]])
def test_a_spec_that_cannot_be_read(job: Path, capsys: pytest.CaptureFixture[str], words: list[str]) -> None:
    assert run([*words, "none.tilespec"]) is Status.ENVIRONMENT
    assert capsys.readouterr().err == "tilespec: none.tilespec does not exist\nCheck the name and the folder.\n"
    (job / "wide.tilespec").write_bytes("floor".encode("utf-16"))
    assert run([*words, "wide.tilespec"]) is Status.ENVIRONMENT
    assert "wide.tilespec is written as UTF-16 (byte 0)" in capsys.readouterr().err


def test_stock_of_the_same_name_in_two_folders(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for room, size in (("a", "300x300"), ("b", "3OO")):
        (job / room).mkdir()
        (job / room / "stock.tilespec").write_text(f"tile ours {size}\n", encoding="utf-8")
        (job / room / "job.tilespec").write_text('use "stock.tilespec"\n' + ONE_LINE, encoding="utf-8")
    assert run(["check", "--short", "a/job.tilespec", "b/job.tilespec"]) is Status.SPEC
    told = [line for line in capsys.readouterr().out.splitlines() if ": error[" in line]
    assert told and all(line.startswith("b/stock.tilespec:1:") for line in told)


# ---------------------------------------------------------------- print

def test_print_goes_beside_the_spec(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (job / "rooms").mkdir()
    (job / "rooms" / "one.tilespec").write_text(ONE_LINE, encoding="utf-8")
    assert run(["print", "rooms/one.tilespec", "--to", "md"]) is Status.FINE
    assert {p.name for p in (job / "rooms").iterdir()} == {"one.tilespec", "one.md"}
    assert capsys.readouterr().err.endswith("wrote rooms/one.md\n")


def test_the_name_of_the_file_tells_the_form(job: Path) -> None:
    assert run(["print", "one.tilespec", "-o", "x.html"]) is Status.FINE
    assert (job / "x.html").read_bytes().startswith(b"<!doctype html>")
    assert run(["print", "one.tilespec", "-o", "x.json"]) is Status.FINE
    json.loads((job / "x.json").read_text(encoding="utf-8"))


@pytest.mark.pdf
def test_print_is_a_pdf_unless_said_otherwise(job: Path) -> None:
    assert run(["print", "one.tilespec", "--part", "title"]) is Status.FINE
    assert (job / "one-title.pdf").read_bytes().startswith(b"%PDF-")


def test_print_to_standard_output(job: Path, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert run(["print", "one.tilespec", "--to", "md", "-o", "-"]) is Status.FINE
    told = capfdbinary.readouterr()
    assert b"\n# " in told.out and b"wrote" not in told.err
    assert names(job) == set()


def test_several_specs_into_one_folder(job: Path) -> None:
    (job / "two.tilespec").write_text(ONE_LINE, encoding="utf-8")
    (job / "out").mkdir()
    parts = ["--part", "materials", "--part", "tools"]
    assert run(["print", "one.tilespec", "two.tilespec", "--to", "md", "-o", "out", *parts]) is Status.FINE
    assert names(job / "out") == {"one-materials-tools.md", "two-materials-tools.md"}


def test_a_spec_with_errors_prints_nothing_and_holds_back_the_others(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["print", "one.tilespec", "faulty.tilespec", "--to", "md"]) is Status.SPEC
    told = capsys.readouterr()
    assert names(job) == set() and told.out == "" and told.err.endswith(": nothing was printed\n")
    (job / "faulty.json").write_text("old", encoding="utf-8")
    assert run(["print", "faulty.tilespec", "--to", "json"]) is Status.SPEC
    assert report(capsys.readouterr().out)["status"] == 1
    assert (job / "faulty.json").read_text(encoding="utf-8") == "old"


def test_the_spec_itself_and_its_stock_are_never_replaced(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (job / "stock.tilespec").write_text("tile ours 300x300\n", encoding="utf-8")
    (job / "one.tilespec").write_text('use "stock.tilespec"\n' + ONE_LINE, encoding="utf-8")
    (job / "again.tilespec").symlink_to("stock.tilespec")
    for target in ("one.tilespec", "./one.tilespec", "stock.tilespec", "again.tilespec"):
        assert run(["print", "one.tilespec", "--to", "md", "-o", target]) is Status.USAGE
        assert "would replace the spec" in capsys.readouterr().err
    assert (job / "stock.tilespec").read_text(encoding="utf-8") == "tile ours 300x300\n"


def test_a_stock_file_alone_is_fine_but_no_job(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (job / "stock.tilespec").write_text("tile ours 300x300\n", encoding="utf-8")
    assert run(["check", "stock.tilespec"]) is Status.FINE
    assert run(["print", "one.tilespec", "stock.tilespec", "--to", "md"]) is Status.USAGE
    assert "stock.tilespec holds stock only" in capsys.readouterr().err
    assert names(job) == {"stock.tilespec"}


def test_an_unknown_part_lists_the_parts(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["print", "one.tilespec", "--part", "titel"]) is Status.USAGE
    assert "The parts: title, scope, materials" in capsys.readouterr().err


def test_paper_and_date(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert run(["print", "one.tilespec", "--paper", "letter", "-o", "x.html"]) is Status.FINE
    assert "@page { size: letter" in (job / "x.html").read_text(encoding="utf-8")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1772409600")   # 2026-03-02
    assert run(["print", "one.tilespec", "-o", "x.html"]) is Status.FINE
    assert '<meta name="dcterms.created" content="2026-03-02">' in (job / "x.html").read_text(encoding="utf-8")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "soon")
    assert run(["print", "one.tilespec", "-o", "x.html"]) is Status.ENVIRONMENT


def test_same_bytes_from_any_folder_and_with_any_seed(job: Path) -> None:
    prints = []
    for folder, seed in ((job, "0"), (job / "deep" / "er", "4")):
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "one.tilespec").write_text(ONE_LINE, encoding="utf-8")
        env = os.environ | {"PYTHONHASHSEED": seed, "LC_ALL": "C", "TZ": "UTC" if seed == "0" else "Asia/Kathmandu"}
        for form in ("md", "html", "json"):
            subprocess.run(
                [sys.executable, "-m", "tilespec", "print", str(folder / "one.tilespec"), "--to", form],
                check=True, env=env, capture_output=True, timeout=60, cwd=Path(__file__).resolve().parent.parent.parent,
            )
        prints.append([(folder / f"one.{form}").read_bytes() for form in ("md", "html", "json")])
    assert prints[0] == prints[1]


def test_missing_libraries_are_one_clear_message(
    job: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from tilespec.document.pdf import PrintUnavailable

    def fail(*_: object) -> None:
        raise PrintUnavailable("libraries are missing: sudo apt-get install them")

    monkeypatch.setattr(pipeline, "render", fail)
    assert run(["print", "one.tilespec"]) is Status.ENVIRONMENT
    assert capsys.readouterr().err.endswith("tilespec: libraries are missing: sudo apt-get install them\n")
    assert names(job) == set()


# ---------------------------------------------------------------- a firm's wording

def test_a_firms_wording_replaces_a_file_of_the_same_name(job: Path) -> None:
    (job / "ours").mkdir()
    (job / "ours" / "document.md.j2").write_text("# Our own head\n", encoding="utf-8")
    assert run(["print", "one.tilespec", "--to", "md", "--wording", "ours"]) is Status.FINE
    assert (job / "one.md").read_text(encoding="utf-8").startswith("# Our own head\n")


def test_the_tables_are_in_the_firms_wording(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (job / "ours" / "terminal").mkdir(parents=True)
    for name in ("take-off", "programme"):
        text = data_text(f"templates/terminal/{name}.md.j2")
        (job / "ours" / "terminal" / f"{name}.md.j2").write_text(f"Our own {name}.\n\n{text}", encoding="utf-8")
        assert run([name, "one.tilespec", "--wording", "ours"]) is Status.FINE
        ours = capsys.readouterr().out
        assert run([name, "one.tilespec"]) is Status.FINE
        assert ours == f"Our own {name}.\n\n{capsys.readouterr().out}"
        (job / "ours" / "terminal" / f"{name}.md.j2").write_text("{% if %}", encoding="utf-8")
        assert run([name, "one.tilespec", "--wording", "ours"]) is Status.ENVIRONMENT
        assert "tilespec: the wording in ours does not work: " in capsys.readouterr().err


@pytest.mark.parametrize("wording", ["{% if %}", "{{ 17 }}", "{{ no_such_thing }}", "{{ ''.__class__.__mro__ }}"])
def test_a_faulty_wording_is_the_firms(job: Path, capsys: pytest.CaptureFixture[str], wording: str) -> None:
    (job / "ours").mkdir()
    (job / "ours" / "document.md.j2").write_text(wording, encoding="utf-8")
    assert run(["print", "one.tilespec", "--to", "md", "--wording", "ours"]) is Status.ENVIRONMENT
    assert "tilespec: the wording in ours does not work: " in capsys.readouterr().err
    assert names(job) == {"ours"}


def test_wording_stays_in_its_folder(job: Path) -> None:
    (job / "ours").mkdir()
    (job / "ours" / "print.css").symlink_to("../one.tilespec")
    with pytest.raises(Stop, match="leads out of its folder"):
        Wording("ours")("print.css")
    with pytest.raises(Stop, match="leads out of its folder"):
        Wording("ours")("../one.tilespec")
    assert Wording("ours")("none.css") is None


# ---------------------------------------------------------------- start, explain

def test_the_starter_spec_is_sound_and_never_overwrites(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["start"]) is Status.FINE
    assert capsys.readouterr().err.startswith("wrote job.tilespec\n")
    assert run(["check", "job.tilespec"]) is Status.FINE
    assert capsys.readouterr().out == ""                            # not a single remark
    (job / "job.tilespec").write_text("mine", encoding="utf-8")
    for path in ("job.tilespec", "."):
        assert run(["start", path]) is Status.ENVIRONMENT
        assert "exists already and is left as it is" in capsys.readouterr().err
    assert (job / "job.tilespec").read_text(encoding="utf-8") == "mine"
    assert run(["start", "no/such/folder.tilespec"]) is Status.ENVIRONMENT
    assert "The folder no/such does not exist." in capsys.readouterr().err


def test_the_starter_spec_says_only_what_it_explains() -> None:
    assert all(len(line) <= 130 for line in data_text("templates/start.tilespec").splitlines())


def test_explain_by_code_and_by_name(capsys: pytest.CaptureFixture[str]) -> None:
    pages = []
    for word in ("unprimed-gypsum", next(e.code for e in entries() if e.name == "unprimed-gypsum")):
        assert run(["explain", word]) is Status.FINE
        pages.append(capsys.readouterr().out)
    assert pages[0] == pages[1] and "With the fault:" in pages[0] and "Without it:" in pages[0]


def test_explain_lists_all(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain"]) is Status.FINE
    listed = capsys.readouterr().out.splitlines()
    codes = [line.split()[0] for line in listed if line.startswith("  T")]
    assert sorted(codes) == [e.code for e in entries()]
    assert "Membranes and their tests (membrane)" in listed and "Numbers and units (numbers)" in listed


def test_explain_lists_a_subject(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain", "Slip"]) is Status.FINE
    head, *rules = capsys.readouterr().out.splitlines()
    assert head == "Grip of floors (slip)"
    assert [line.split()[0] for line in rules] == [e.code for e in entries() if e.code.startswith("T25")]


@pytest.mark.parametrize("entry", entries(), ids=lambda e: e.name)
def test_explain_fits_a_terminal(entry: Entry, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain", entry.code]) is Status.FINE
    text = capsys.readouterr().out.partition("With the fault:")[0]
    assert [line for line in text.splitlines() if len(line) > 100] == []


@pytest.mark.parametrize("columns", [30, 60, 80, 200])
def test_explain_is_as_wide_as_the_terminal(columns: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("shutil.get_terminal_size", lambda fallback: os.terminal_size((columns, 24)))
    for words in ([], ["membrane"], ["C2TES1"], *([e.code] for e in entries()[::5])):
        monkeypatch.setattr(sys, "stdout", terminal := Terminal())
        assert run(["explain", *words]) is Status.FINE
        # A sample of a spec stays as it is written.
        text = terminal.getvalue().partition("With the fault:")[0]
        assert max(map(width, text.splitlines())) <= columns, words


def test_explain_takes_a_class_apart(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain", "c2et s1"]) is Status.FINE
    out = capsys.readouterr().out
    assert out.startswith("C2TE S1 (adhesive, EN 12004-1)\n")
    assert "1 N/mm2 (EN 12004-1; seen in the trade's press)" in out and max(map(len, out.splitlines())) <= 100


def test_explain_shows_limits_with_their_owner_and_how_they_were_verified(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain", "joint-too-narrow"]) is Status.FINE
    text = capsys.readouterr().out
    assert "  Narrowest joint on a floor\n" in text
    assert "    US  1/16 in  ANSI A108.02, 4.3.8; seen in the trade's press.\n" in text
    joined = " ".join(text.split())
    assert "UK 3 mm NHBC Standards 9.1.7 (2025) and 9.3.5; seen with the body itself; wider for larger tiles" in joined
    assert "EN 2 mm common practice (rectified tiles); not seen: from memory, print as guidance; to be confirmed." in joined
    assert "to be confirmed. Borrowed by DE." in joined
    # What only one family has is asked for there only.
    assert "EN, DE, UK, AU none the rule asks for nothing there." in joined


def test_explain_prints_the_page_of_all_rules(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain", "--page"]) is Status.FINE
    assert capsys.readouterr().out.startswith("# The rules of fitness\n")
    assert run(["explain", "--page", "T2401"]) is Status.USAGE
    assert "leave out the code" in capsys.readouterr().err


def test_explain_knows_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["explain", "decimal-coma"]) is Status.USAGE
    assert "Did you mean decimal-comma?" in capsys.readouterr().err
