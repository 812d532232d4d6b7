"""The revision that a print names."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from tilespec.cli import revision


def git(folder: Path, *words: str) -> str:
    settings = ["-c", "user.name=A. Tiler", "-c", "user.email=tiler@example.org", "-c", "commit.gpgsign=false"]
    done = subprocess.run(["git", *settings, "-C", str(folder), *words], check=True, capture_output=True, text=True)
    return done.stdout.strip()


def test_revision_of_the_spec_and_not_of_its_neighbours(tmp_path: Path) -> None:
    spec, other = tmp_path / "a job.tilespec", tmp_path / "other.tilespec"
    spec.write_text("floor 2 x 1\n", encoding="utf-8")
    assert revision.of(str(spec)) == ""
    git(tmp_path, "init", "-q")
    assert revision.of(str(spec)) == ""
    git(tmp_path, "add", "."), git(tmp_path, "commit", "-qm", "job")
    first = git(tmp_path, "rev-parse", "--short=10", "HEAD")
    assert revision.of(str(spec)) == first
    other.write_text("floor 3 x 1\n", encoding="utf-8")
    git(tmp_path, "add", "."), git(tmp_path, "commit", "-qm", "other")
    assert revision.of(str(spec)) == first
    spec.write_text("floor 2 x 2\n", encoding="utf-8")
    assert revision.of(str(spec)) == f"{first} with changes"


def test_without_git(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert revision.of(str(tmp_path / "job.tilespec")) == ""
