"""The revision of a spec in version control, for the head of its print."""

from __future__ import annotations

import os
import subprocess


def of(path: str) -> str:
    """The last commit that touched the spec, short; with a remark where the spec has changed since; empty where there is none.

    The commit of the spec and not that of the whole repository: the print stays the same when something else changes.
    """
    folder, name = os.path.split(os.path.realpath(path))
    commit = _git(folder, "log", "-1", "--abbrev=10", "--format=%h", "--", name)
    if not commit:
        return ""
    return f"{commit} with changes" if _git(folder, "status", "--porcelain", "--", name) else commit


def _git(folder: str, *words: str) -> str:
    # No lock taken and no monitor started: this only looks.
    command = ["git", "--no-optional-locks", "-c", "core.fsmonitor=false", "-C", folder, *words]
    try:
        done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=10, errors="replace")
    except (OSError, subprocess.SubprocessError):
        return ""
    return done.stdout.strip() if done.returncode == 0 else ""
