"""Completion in shells: each has its script, and what the script asks is answered."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tilespec.cli.completion import SHELLS
from tilespec.cli.door import run
from tilespec.cli.status import Status


def asked(monkeypatch: pytest.MonkeyPatch, shell: str, *words: str) -> None:
    """The words as the script of the shell hands them over; the last is begun."""
    monkeypatch.setenv("_TILESPEC_COMPLETE", f"{shell}_complete")
    line = " ".join(("tilespec", *words))
    monkeypatch.setenv("COMP_WORDS", line)
    monkeypatch.setenv("COMP_CWORD", words[-1] if shell == "fish" else str(len(words)))


@pytest.mark.parametrize("shell", SHELLS)
def test_every_shell_has_its_script(shell: str, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert run(["completion", shell]) is Status.FINE
    script = capsys.readouterr().out
    assert f"_TILESPEC_COMPLETE={shell}_complete" in script and "tilespec" in script
    if shutil.which(shell):
        (tmp_path / "script").write_text(script, encoding="utf-8")
        subprocess.run([shell, "-n", tmp_path / "script"], check=True, timeout=30)


@pytest.mark.parametrize("shell", SHELLS)
def test_a_request_is_answered(shell: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    asked(monkeypatch, shell, "ti")
    assert run([]) is Status.FINE
    assert "tidy" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "offers"),
    [
        (["check", "--js"], "plain,--json"),
        (["explain", "joint-too-n"], "plain,joint-too-narrow"),
        (["explain", "T04"], "plain,T0401"),
        (["print", "--part", "mat"], "plain,materials"),
        (["print", "--to", "ht"], "plain,html"),
        (["completion", "z"], "plain,zsh"),
        (["check", "job"], "file,job"),
    ],
)
def test_what_is_offered(
    words: list[str], offers: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked(monkeypatch, "bash", *words)
    assert run([]) is Status.FINE
    assert offers in capsys.readouterr().out.splitlines()


@pytest.mark.parametrize("value", ["", "bash_complete", "ksh_complete", "bash_source"])
def test_a_request_that_is_none(value: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("_TILESPEC_COMPLETE", value)
    monkeypatch.delenv("COMP_WORDS", raising=False)
    assert run(["check"]) is Status.USAGE
    assert "unset it" in capsys.readouterr().err


IN_SHELLS = {
    "bash": "source <(tilespec completion bash)\nCOMP_WORDS=(tilespec tidy --ch)\nCOMP_CWORD=2\n"
            '_tilespec_completion tilespec\necho "${COMPREPLY[*]}"',
    "fish": "tilespec completion fish | source\ncomplete -C 'tilespec tidy --ch'",
}


@pytest.mark.parametrize("shell", sorted(IN_SHELLS))
def test_in_the_shell(shell: str, tmp_path: Path) -> None:
    if not shutil.which(shell):
        pytest.skip(f"{shell} is not installed")
    program = tmp_path / "tilespec"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m tilespec "$@"\n', encoding="utf-8")
    program.chmod(0o755)
    alone = {"bash": "--norc", "fish": "--no-config"}[shell]
    done = subprocess.run(
        [shell, alone, "-c", IN_SHELLS[shell]], capture_output=True, text=True, timeout=60,
        env=os.environ | {"PATH": f"{tmp_path}:{os.environ['PATH']}"},
    )
    assert done.stdout.startswith("--check"), done.stderr
