"""The canonical form of a spec as edits, line by line, so that the cursor stays where it was."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher

from tilespec.syntax.tidy import tidy


def edits(text: str) -> Iterator[tuple[int, int, str]]:
    """Stretches of the text with what takes their place, in order."""
    old, new = text.splitlines(keepends=True), tidy(text).splitlines(keepends=True)
    starts = [0]
    for line in old:
        starts.append(starts[-1] + len(line))
    for what, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if what != "equal":
            yield starts[a], starts[b], "".join(new[c:d])
