"""Lint and types, where those tools are installed (the extra `dev`)."""

from __future__ import annotations

import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("words", [("ruff", "check", "--quiet", "."), ("mypy",)], ids=["ruff", "mypy"])
def test_clean(words: tuple[str, ...]) -> None:
    if find_spec(words[0]) is None:
        pytest.skip(f"{words[0]} is not installed")
    done = subprocess.run([sys.executable, "-m", *words], cwd=ROOT, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout + done.stderr
