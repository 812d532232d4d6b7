"""What the README says for version control: the hooks that are named, and the hook of one's own, tried with git."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tilespec.cli.door import COMMANDS

ROOT = Path(__file__).resolve().parent.parent


def test_the_hooks_call_commands_that_are_there() -> None:
    text = (ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8")
    ids = re.findall(r"^- id: (.+)$", text, re.M)
    entries = re.findall(r"^  entry: tilespec (\S+)", text, re.M)
    assert ids == [f"tilespec-{name}" for name in entries] == ["tilespec-check", "tilespec-tidy"]
    assert set(entries) <= set(COMMANDS)
    assert text.count("  files: \\.tilespec$\n") == text.count("  language: python\n") == len(ids)
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert all(f"- id: {name}\n" in readme for name in ids)


def shown() -> list[str]:
    """What the README gives to be typed into files and shells."""
    return re.findall(r"^```sh\n(.*?)^```$", (ROOT / "README.md").read_text(encoding="utf-8"), re.M | re.S)


def alone(tmp_path: Path, **more: str) -> dict[str, str]:
    """An environment in which git knows nothing of this machine's user and of no other repository."""
    found = {k: v for k, v in os.environ.items() if not k.startswith("GIT_")}
    found |= {"HOME": str(tmp_path), "GIT_CONFIG_NOSYSTEM": "1"} | more
    return found | {f"GIT_{who}_{what}": "nobody" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}


@pytest.mark.skipif(not shutil.which("git"), reason="git is not installed")
def test_a_hook_of_ones_own(tmp_path: Path) -> None:
    (script,) = [text for text in shown() if text.startswith("#!/bin/sh\n")]
    programs = tmp_path / "programs"
    programs.mkdir()
    (programs / "tilespec").write_text(
        f'#!/bin/sh\nPYTHONPATH="{ROOT}" exec "{sys.executable}" -m tilespec "$@"\n', encoding="utf-8",
    )
    (programs / "tilespec").chmod(0o755)
    jobs = tmp_path / "jobs"
    environment = alone(tmp_path, PATH=f"{programs}:{os.environ['PATH']}")

    def git(*words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(["git", *words], cwd=jobs, env=environment, capture_output=True, text=True, timeout=60)

    jobs.mkdir()
    assert git("init", "-q").returncode == 0
    hook = jobs / ".git" / "hooks" / "pre-commit"
    hook.parent.mkdir(exist_ok=True)
    hook.write_text(script, encoding="utf-8")
    hook.chmod(0o755)

    def commit(text: str) -> subprocess.CompletedProcess[str]:
        (jobs / "job.tilespec").write_text(text, encoding="utf-8")
        git("add", "-A")
        return git("commit", "-q", "-m", "a job")

    sound = "floor 2.4 x 1.8 heated; wall A 2.4 x 2.4 shower zone; tile 300x600 joint 3\n"
    done = commit(sound.replace("2.4 x 1.8", "2,4 x 1.8"))
    assert done.returncode != 0 and "job.tilespec:1:7: error[T0301]" in done.stdout + done.stderr
    done = commit(sound.replace(" x 1.8", "x1.8"))
    assert done.returncode != 0 and "would be tidied: 1 file" in done.stdout + done.stderr
    done = commit(sound)
    assert done.returncode == 0, done.stderr

    # What is staged counts, not what has been written since; and stock as it is staged.
    annex = 'use "stock.tilespec"\n' + sound.replace("tile 300x600", "tile grey")
    (jobs / "annex flat.tilespec").write_text(annex, encoding="utf-8")
    (jobs / "stock.tilespec").write_text("tile grey 300x600x9 porcelain\n", encoding="utf-8")
    git("add", "annex flat.tilespec")
    done = git("commit", "-q", "-m", "another")
    assert done.returncode != 0 and "annex flat.tilespec:1:" in done.stdout + done.stderr
    git("add", "stock.tilespec")
    assert (done := git("commit", "-q", "-m", "another")).returncode == 0, done.stdout + done.stderr
    (jobs / "job.tilespec").write_text(sound.replace("2.4 x 1.8", "2,4 x 1.8"), encoding="utf-8")
    git("add", "job.tilespec")
    (jobs / "job.tilespec").write_text(sound, encoding="utf-8")
    assert git("commit", "-q", "-m", "a mistake that is mended in the folder only").returncode != 0
