"""Finding the data that stand beside the code: `grammar/` (the language) and `templates/` (the wording).

In an installed package they are inside it (also when it is a zip); in a checkout they are its neighbours.
"""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path


class Incomplete(Exception):
    """The installation lacks its data. The message says what is missing and what to do."""


@cache
def data_dir(name: str) -> Traversable:
    """The folder `grammar` or `templates`. Raises Incomplete."""
    package = files("tilespec")
    inside = package / name
    if inside.is_dir():
        return inside
    if isinstance(package, Path):
        root = package.resolve().parent
        # Only in a checkout of this project: a folder of that name beside an installed package is somebody else's.
        if (root / "pyproject.toml").is_file() and (root / name).is_dir():
            return root / name
    raise Incomplete(f"this installation of tilespec lacks its folder {name!r}; install it again")


def _file(path: str) -> Traversable:
    folder, *parts = path.split("/")
    if not parts or any(part in ("", ".", "..") or "\\" in part or ":" in part for part in parts):
        raise ValueError(f"not the name of a data file: {path!r}")
    at = data_dir(folder)
    for part in parts:
        at = at / part
    if not at.is_file():
        raise Incomplete(f"this installation of tilespec lacks its file {path!r}; install it again")
    return at


def data_text(path: str) -> str:
    """The text of one file, such as `grammar/tilespec.lark`. Raises Incomplete."""
    return _file(path).read_text(encoding="utf-8")


def data_bytes(path: str) -> bytes:
    """The bytes of one file, such as a font. Raises Incomplete."""
    return _file(path).read_bytes()
