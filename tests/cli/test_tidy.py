"""`tilespec tidy` on files: what it writes, what it says, and what it leaves alone."""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path

import pytest

from tilespec.cli.door import run
from tilespec.cli.status import Status

UNTIDY = "floor 2.4x1.8   heated;wall A 2.4 × 2.4 shower zone\ntile 300 x 600 joint 3\n"
TIDY = "floor 2.4 x 1.8 heated; wall A 2.4 x 2.4 shower zone\ntile 300x600 joint 3\n"
FAULTY = "floor 2,4  x 1.8\nwall  A 2.4 x 2.4\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name, text in (("untidy", UNTIDY), ("tidy", TIDY), ("faulty", FAULTY)):
        (tmp_path / f"{name}.tilespec").write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def typed(monkeypatch: pytest.MonkeyPatch, data: bytes) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data)))


def test_files_are_written_where_they_change(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = (folder / "tidy.tilespec").stat()
    assert run(["tidy", "untidy.tilespec", "tidy.tilespec"]) is Status.FINE
    told = capsys.readouterr()
    assert (told.out, told.err) == ("", "tidied untidy.tilespec\n")
    assert (folder / "untidy.tilespec").read_text(encoding="utf-8") == TIDY
    assert (folder / "tidy.tilespec").stat().st_ino == before.st_ino
    assert run(["tidy", "untidy.tilespec"]) is Status.FINE
    assert capsys.readouterr().err == ""


def test_lines_that_cannot_be_read_are_left_and_told(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["tidy", "faulty.tilespec"]) is Status.SPEC
    assert (folder / "faulty.tilespec").read_text(encoding="utf-8") == "floor 2,4  x 1.8\nwall A 2.4 x 2.4\n"
    left = "faulty.tilespec: line 1 cannot be read and is left as before; `tilespec check` says why\n"
    assert capsys.readouterr().err == "tidied faulty.tilespec\n" + left
    assert run(["tidy", "--check", "faulty.tilespec"]) is Status.SPEC
    told = capsys.readouterr()
    assert (told.out, told.err) == ("", left)


def test_check_lists_and_changes_nothing(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["tidy", "--check", "tidy.tilespec", "untidy.tilespec"]) is Status.SPEC
    told = capsys.readouterr()
    assert told.out == "untidy.tilespec\n"
    assert told.err == "would be tidied: 1 file; run `tilespec tidy untidy.tilespec`\n"
    assert (folder / "untidy.tilespec").read_text(encoding="utf-8") == UNTIDY
    assert run(["tidy", "--check", "tidy.tilespec"]) is Status.FINE
    assert capsys.readouterr() == ("", "")


def test_check_says_a_command_that_a_shell_takes(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "my job.tilespec").write_text(UNTIDY, encoding="utf-8")
    assert run(["tidy", "--check", "my job.tilespec", "untidy.tilespec", "-q"]) is Status.SPEC
    assert capsys.readouterr().err == "would be tidied: 2 files; run `tilespec tidy 'my job.tilespec' untidy.tilespec`\n"


def test_diff_shows_and_changes_nothing(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["tidy", "--diff", "untidy.tilespec", "tidy.tilespec"]) is Status.SPEC
    told = capsys.readouterr().out
    assert told.startswith("--- untidy.tilespec\n+++ untidy.tilespec (tidy)\n")
    assert "\n-floor 2.4x1.8   heated;wall A 2.4 × 2.4 shower zone\n" in told and "\n+floor 2.4 x 1.8 heated; wall A" in told
    assert (folder / "untidy.tilespec").read_text(encoding="utf-8") == UNTIDY


def test_the_difference_is_harmless_on_a_terminal(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "odd.tilespec").write_text("# \x1b[31m\u202e\nfloor  2 x 2\n", encoding="utf-8")
    assert run(["tidy", "--diff", "odd.tilespec"]) is Status.SPEC
    assert " # <U+001B>[31m<U+202E>\n" in capsys.readouterr().out


def test_line_ends_and_byte_order_mark(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "dos.tilespec").write_bytes(b"\xef\xbb\xbf" + TIDY.replace("\n", "\r\n").encode())
    assert run(["tidy", "--check", "dos.tilespec"]) is Status.SPEC
    assert run(["tidy", "--diff", "dos.tilespec"]) is Status.SPEC
    assert "-tile 300x600 joint 3<U+000D>\n" in capsys.readouterr().out
    assert run(["tidy", "dos.tilespec"]) is Status.FINE
    assert (folder / "dos.tilespec").read_bytes() == TIDY.encode()


def test_standard_input_and_output(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch,
) -> None:
    typed(monkeypatch, UNTIDY.encode())
    assert run(["tidy", "-"]) is Status.FINE
    assert capsys.readouterr().out == TIDY
    typed(monkeypatch, FAULTY.encode())
    assert run(["tidy", "-"]) is Status.SPEC
    told = capsys.readouterr()
    assert told.out == "floor 2,4  x 1.8\nwall A 2.4 x 2.4\n" and told.err.startswith("standard input: line 1 cannot be read")
    typed(monkeypatch, UNTIDY.encode())
    assert run(["tidy", "--check", "-"]) is Status.SPEC
    assert capsys.readouterr().out == "standard input\n"
    typed(monkeypatch, b"\xff\xfe")
    assert run(["tidy", "-"]) is Status.ENVIRONMENT
    assert capsys.readouterr().err.startswith("tilespec: standard input is written as UTF-16")
    assert run(["tidy", "-", "tidy.tilespec"]) is Status.USAGE


def test_all_files_or_none(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["tidy", "untidy.tilespec", "none.tilespec"]) is Status.ENVIRONMENT
    assert (folder / "untidy.tilespec").read_text(encoding="utf-8") == UNTIDY


def test_a_file_of_two_names_is_written_once(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "link.tilespec").symlink_to("untidy.tilespec")
    assert run(["tidy", "link.tilespec", "untidy.tilespec"]) is Status.FINE
    assert capsys.readouterr().err == "tidied link.tilespec\n"
    assert (folder / "link.tilespec").is_symlink()
    assert (folder / "untidy.tilespec").read_text(encoding="utf-8") == TIDY


def test_as_a_filter_of_an_editor() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tilespec", "tidy", "-"], input=UNTIDY.encode(), capture_output=True, timeout=60, check=True,
    )
    assert done.stdout == TIDY.encode() and done.stderr == b""
