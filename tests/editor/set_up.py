"""The lines that `tilespec editor --set-up` prints, and what the program needs to be found by them."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent


def surroundings(folder: Path) -> dict[str, str]:
    """An editor that has nothing of the user's, and finds this checkout's tilespec."""
    own = {"PYTHONPATH": str(ROOT), "HOME": str(folder), "XDG_STATE_HOME": str(folder), "XDG_CONFIG_HOME": str(folder)}
    return {**os.environ, **own}


def lines(editor: str) -> str:
    done = subprocess.run(
        [sys.executable, "-m", "tilespec", "editor", "--set-up", editor], cwd=ROOT, capture_output=True, text=True, timeout=60,
    )
    assert done.returncode == 0 and done.stderr == "", done.stderr
    return done.stdout
