"""The door: exit statuses, where words go, and that every way of ending is plain."""

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

from tilespec import __version__, pipeline
from tilespec.cli import output, system
from tilespec.cli.door import COMMANDS, run
from tilespec.cli.status import Status
from tilespec.resources import Incomplete
from tilespec.workspace.host import Reason, Unreadable

SCHEMA = json.loads((files("tilespec") / "diagnostics" / "report.schema.json").read_text(encoding="utf-8"))


def report(text: str) -> dict[str, object]:
    result = json.loads(text)
    jsonschema.Draft202012Validator(SCHEMA).validate(result)
    return result


def program(*words: str, **more: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "tilespec", *words], text=True, timeout=60, stderr=subprocess.PIPE, **more,  # type: ignore[call-overload]
    )


def test_help_of_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--help"]) is Status.FINE
    told = capsys.readouterr().out
    assert "Exit status: 0 fine, 1 the spec has errors, 2 wrong usage" in " ".join(told.split())
    for name in COMMANDS:
        assert f"\n  {name} " in told
        assert run([name, "--help"]) is Status.FINE
        assert capsys.readouterr().err == ""


def test_without_words_the_help_is_shown_as_wrong_usage(capsys: pytest.CaptureFixture[str]) -> None:
    assert run([]) is Status.USAGE
    told = capsys.readouterr()
    assert told.out == "" and told.err.startswith("Usage: tilespec")


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--version"]) is Status.FINE
    assert capsys.readouterr().out.startswith(f"tilespec {__version__}\n")


def test_version_says_what_is_missing(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(system, "_loads", lambda name: "pango-1" not in name and "subset" not in name)
    run(["--version"])
    assert capsys.readouterr().out == (
        f"tilespec {__version__}\n"
        "missing here: Pango. No PDF can be made; HTML, Markdown and JSON can.\n"
        "missing here: HarfBuzz-Subset. Writing a PDF is slow without.\n"
        "On Debian and Ubuntu: sudo apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0\n"
    )


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["chek", "job.tilespec"], "there is no command 'chek'. Did you mean check?"),
        (["job.tilespec"], "To print that spec: tilespec print job.tilespec"),
        (["xyzzy"], "The commands are print, set-out, take-off, programme, check, "),
        (["check"], "Missing argument 'SPEC...'"),
        (["check", "--jsno", "a"], "No such option"),
        (["print", "a", "--to", "doc"], "'doc' is not one of"),
        (["print", "a", "--library", "/no/such/folder"], "does not exist"),
        (["print", "a/x.tilespec", "b/x.tilespec", "-o", "."], "two of the specs would be printed to"),
        (["print", "a", "b", "-o", "both.pdf"], "name a folder"),
        (["print", "a", "b", "-o", "-"], "name a folder"),
        (["explain", "T99999"], "no message has the code or name 'T99999'."),
    ],
)
def test_wrong_usage(capsys: pytest.CaptureFixture[str], words: list[str], says: str) -> None:
    assert run(words) is Status.USAGE
    told = capsys.readouterr()
    assert told.out == ""
    assert says in told.err and told.err.startswith("tilespec: ")


@pytest.mark.parametrize("words", [["check", "--json"], ["check", "--json", "--what", "x"], ["print", "x", "--to=json", "--what"],
                                   ["print", "--to", "json"]])
def test_wrong_usage_is_a_report_where_one_is_asked_for(capsys: pytest.CaptureFixture[str], words: list[str]) -> None:
    assert run(words) is Status.USAGE
    told = report(capsys.readouterr().out)
    assert told["status"] == 2 and told["failures"][0]["kind"] == "usage"  # type: ignore[index]


def test_a_file_called_like_an_option_asks_for_no_report(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["check", "--what", "--", "--json"]) is Status.USAGE
    assert capsys.readouterr().out == ""


@pytest.mark.parametrize(
    ("fault", "status", "kind", "says"),
    [
        (KeyboardInterrupt(), Status.INTERRUPTED, "interrupted", "interrupted"),
        (Unreadable(Reason.MISSING, "a\x1b[2J"), Status.ENVIRONMENT, "environment", "a<U+001B>[2J does not exist"),
        (Incomplete("this installation lacks it"), Status.ENVIRONMENT, "environment", "lacks it"),
        (OSError(28, "No space left on device", "job.pdf"), Status.ENVIRONMENT, "environment", "job.pdf: No space left"),
        (KeyError("joint"), Status.BUG, "bug", "KeyError: no entry 'joint'"),
        (RecursionError("too deep"), Status.BUG, "bug", "fault in tilespec, not in your spec"),
        (GeneratorExit("no Exception at all"), Status.BUG, "bug", "fault in tilespec, not in your spec"),
    ],
)
def test_every_way_of_ending(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
    fault: BaseException, status: Status, kind: str, says: str,
) -> None:
    def fail(*_: object) -> None:
        raise fault

    monkeypatch.setattr(pipeline, "compile", fail)
    assert run(["check", "a"]) is status
    told = capsys.readouterr()
    assert told.out == "" and says in told.err and "Traceback" not in told.err and "\x1b" not in told.err
    assert run(["check", "a", "--json"]) is status
    told = capsys.readouterr()
    assert told.err == ""
    written = report(told.out)
    assert written["status"] == status and written["failures"][0]["kind"] == kind  # type: ignore[index]


def test_a_crash_names_the_way_to_it(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(pipeline, "compile", lambda *_: 1 / 0)
    run(["check", "a"])
    assert "  at tilespec/cli/check.py:" in capsys.readouterr().err


def test_a_reader_that_leaves_early() -> None:
    read, write = os.pipe()
    os.close(read)
    done = program("explain", stdout=write)
    os.close(write)
    assert (done.returncode, done.stderr) == (3, "")


@pytest.mark.parametrize("words", [("explain",), ("--help",), ("--version",), ("check", "--json")])
def test_a_full_disk_behind_standard_output(words: tuple[str, ...]) -> None:
    with open("/dev/full", "wb") as full:
        done = program(*words, stdout=full)
    assert done.returncode in (2, 3) and "Traceback" not in done.stderr and "Exception ignored" not in done.stderr
    assert "No space left on device" in done.stderr or "--json" in words


def test_no_standard_output_at_all() -> None:
    done = subprocess.run(
        ["sh", "-c", 'exec "$0" -m tilespec explain >&-', sys.executable], capture_output=True, text=True, timeout=60
    )
    assert (done.returncode, done.stderr) == (3, "tilespec: there is no standard output to write to\n")


def test_ctrl_c_for_real(tmp_path: Path) -> None:
    # The wait in which it comes is made by hand, so that the test needs no slow spec. It comes once the wait has begun: while
    # modules are still being loaded, Python may swallow it.
    (tmp_path / "sitecustomize.py").write_text(
        "import os, signal, threading, time\nimport tilespec.pipeline as p\n"
        "def wait(*a):\n    threading.Timer(0.3, os.kill, (os.getpid(), signal.SIGINT)).start()\n    time.sleep(20)\n"
        "p.compile = wait\n", encoding="utf-8",
    )
    env = os.environ | {"PYTHONPATH": f"{tmp_path}{os.pathsep}{os.getcwd()}"}
    done = program("check", "x", env=env, stdout=subprocess.PIPE)
    assert (done.returncode, done.stdout, done.stderr) == (130, "", "tilespec: interrupted\n")


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_colour_only_on_a_terminal_that_wants_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    assert output.palette(Terminal()).end and not output.palette(io.StringIO()).end and not output.palette(None).end
    monkeypatch.setenv("NO_COLOR", "1")
    assert not output.palette(Terminal()).end
    monkeypatch.setenv("NO_COLOR", "")
    assert output.palette(Terminal()).end
    monkeypatch.setenv("TERM", "dumb")
    assert not output.palette(Terminal()).end


HEAVY = ("jinja2", "markupsafe", "markdown_it", "mdit_py_plugins", "weasyprint", "shapely", "highspy", "numpy", "PIL")


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["print", "--help"], ["explain"], ["check", "none.tilespec"]])
def test_light_commands_load_nothing_heavy(words: list[str]) -> None:
    code = (
        "import sys\nfrom tilespec.cli.door import run\n"
        f"run({words!r})\nprint('LOADED', *sorted(m for m in {HEAVY!r} if m in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60)
    assert done.stdout.splitlines()[-1] == "LOADED"
