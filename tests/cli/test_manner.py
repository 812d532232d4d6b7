"""How every command speaks: help with examples, quiet, colour, and a sign of life on a terminal."""

from __future__ import annotations

import io
import sys
import time
from pathlib import Path

import pytest

from tilespec.cli import output
from tilespec.cli.door import COMMANDS, run
from tilespec.cli.status import Status

ONE_LINE = "floor 2.4 x 1.8 heated; wall A 2.4 x 2.4 shower zone; tile 300x600 joint 3\n"


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "one.tilespec").write_text(ONE_LINE, encoding="utf-8")
    (tmp_path / "faulty.tilespec").write_text("floor 2,4 x 1.8\n" + ONE_LINE, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    return tmp_path


@pytest.mark.parametrize("command", COMMANDS)
def test_help_has_an_example_and_how_to_speak(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run([command, "--help"]) is Status.FINE
    told = capsys.readouterr().out
    assert any(line.lstrip().startswith(f"tilespec {command}") or f"  tilespec {command}" in line for line in told.splitlines())
    assert told.count("--quiet") == 1 and told.count("--color") == 1
    assert max(map(len, told.splitlines())) <= 100


def test_quiet_keeps_results_and_what_is_wrong(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", "one.tilespec", "-q"]) is Status.FINE
    quiet = capsys.readouterr()
    # A warning is no chatter.
    assert "T2502" in quiet.out and quiet.err == ""
    assert run(["check", "one.tilespec"]) is Status.FINE
    told = capsys.readouterr()
    assert told.out == quiet.out and told.err.startswith("1 warning")
    assert run(["check", "faulty.tilespec", "--quiet"]) is Status.SPEC
    assert "T0301" in capsys.readouterr().out
    assert run(["print", "one.tilespec", "--to", "md", "-q"]) is Status.FINE
    told = capsys.readouterr()
    assert "T2502" in told.err and "wrote" not in told.err and (job / "one.md").exists()
    assert run(["print", "faulty.tilespec", "--to", "md", "-q"]) is Status.SPEC
    assert "T0301" in capsys.readouterr().err
    assert run(["check", "none.tilespec", "-q"]) is Status.ENVIRONMENT
    assert "does not exist" in capsys.readouterr().err


def test_colour(job: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    assert run(["check", "faulty.tilespec", "--color", "always"]) is Status.SPEC
    assert "\x1b[1;31m" in capsys.readouterr().out
    # One run's way of speaking is not the next one's.
    assert run(["check", "faulty.tilespec"]) is Status.SPEC
    assert "\x1b" not in capsys.readouterr().out
    assert output.palette(Terminal()) is output.COLOUR
    monkeypatch.setenv("NO_COLOR", "1")
    assert output.palette(Terminal()) is output.PLAIN
    # What is asked for on the line counts for more than the environment.
    assert run(["check", "faulty.tilespec", "--color=always"]) is Status.SPEC
    assert "\x1b" in capsys.readouterr().out
    monkeypatch.delenv("NO_COLOR")
    monkeypatch.setattr(sys, "stdout", terminal := Terminal())
    assert run(["check", "faulty.tilespec", "--color", "never"]) is Status.SPEC
    assert "T0301" in terminal.getvalue() and "\x1b" not in terminal.getvalue()
    assert run(["check", "faulty.tilespec", "--color", "blue"]) is Status.USAGE


def test_a_sign_of_life_on_a_terminal_only(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setattr(sys, "stderr", terminal := Terminal())
    with output.working("job\x1b: pages"):
        time.sleep(1.2)
    assert terminal.getvalue() == "\rjob<U+001B>: pages …\r\x1b[K"
    monkeypatch.setattr(sys, "stderr", piped := io.StringIO())
    with output.working("job"):
        time.sleep(1)
    assert piped.getvalue() == ""
