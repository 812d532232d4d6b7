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


def _private_folder() -> Path | None:
    """A folder of the user's own for what is only kept to save time; None where there is none that nobody else may write to."""
    import os
    import stat

    base = os.environ.get("XDG_CACHE_HOME") or os.path.join(os.path.expanduser("~"), ".cache")
    if not os.path.isabs(base):
        return None
    folder = Path(base) / "tilespec"
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        found = folder.lstat()
    except OSError:
        return None
    owned = not hasattr(os, "getuid") or found.st_uid == os.getuid()
    safe = stat.S_ISDIR(found.st_mode) and (os.name != "posix" or not found.st_mode & 0o022)
    return folder if owned and safe else None


def kept(name: str) -> bytes | None:
    """Bytes kept under this name by an earlier run of the same user; None when there are none."""
    import os
    import stat

    folder = _private_folder()
    if folder is None:
        return None
    try:
        handle = os.open(folder / name, os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0))
        with os.fdopen(handle, "rb") as file:
            found = os.fstat(file.fileno())
            if not stat.S_ISREG(found.st_mode) or (hasattr(os, "getuid") and found.st_uid != os.getuid()):
                return None
            return file.read()
    except OSError:
        return None


def keep(name: str, data: bytes) -> None:
    """Keep bytes for the next run. Whether that works is of no importance: nothing is said when it does not."""
    import os
    import tempfile

    folder = _private_folder()
    if folder is None:
        return
    try:
        handle, path = tempfile.mkstemp(dir=folder)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
            os.replace(path, folder / name)
        except OSError:
            os.unlink(path)
    except OSError:
        return
