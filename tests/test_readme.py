"""What the README shows is what happens."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from tilespec.diagnostics.catalogue import explain

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
# The mistakes of the tour, mended one after the other.
MENDED = (("0.6 x 0,9", "0.6 x 0.9"), ("  primer none\n", ""))


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.M | re.S)


def test_the_tour(tmp_path: Path) -> None:
    (spec,) = blocks("tilespec")
    sessions = blocks("console")
    assert len(sessions) == 1 + len(MENDED)
    for shown, mend in zip(sessions, (None, *MENDED), strict=True):
        if mend:
            assert spec.count(mend[0]) == 1
            spec = spec.replace(*mend)
        (tmp_path / "job.tilespec").write_text(spec, encoding="utf-8")
        for part in re.split(r"^\$ tilespec ", shown, flags=re.M)[1:]:
            words, said = part.split("\n", 1)
            done = subprocess.run(
                [sys.executable, "-m", "tilespec", *words.split()], cwd=tmp_path, env={"PYTHONPATH": str(ROOT)},
                stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, timeout=60,
            )
            assert done.stdout == said


def test_every_file_that_is_named_is_there() -> None:
    for name in re.findall(r"\]\(([^)#]+)\)", README) + re.findall(r"sh (\.ci/\S+)", README):
        assert (ROOT / name).exists(), name
    assert (ROOT / "examples" / "shower-room.tilespec").exists()


def test_rules_that_are_named_are_known() -> None:
    named = re.findall(r"`tilespec explain (\S+)`", README)
    assert named and all(explain(name).explanation for name in named)


def test_the_system_packages_are_those_that_are_installed() -> None:
    script = (ROOT / ".ci" / "prepare").read_text(encoding="utf-8")
    (named,) = re.findall(r"`(python3-venv lib[^`]+)`", README)
    for package in named.split():
        assert package in script
