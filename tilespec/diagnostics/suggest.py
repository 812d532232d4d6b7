"""The nearest known word to one that is not known."""

from __future__ import annotations

from collections.abc import Iterable


def distance(a: str, b: str) -> int:
    """Edits that turn `a` into `b`: a letter added, left out or changed, or two neighbours swapped, count one each."""
    before: list[int] = []
    last = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        row = [i]
        for j, y in enumerate(b, 1):
            cost = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (x != y))
            if i > 1 and j > 1 and x == b[j - 2] and a[i - 2] == y:
                cost = min(cost, before[j - 2] + 1)
            row.append(cost)
        before, last = last, row
    return last[-1]


def _plain(word: str) -> str:
    return " ".join(word.casefold().replace("-", " ").replace("_", " ").split())


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The one known word that `word` is most likely a slip for, or None.

    Capitals, hyphens and blanks do not count. A third of the letters may be wrong, three at most: farther words are
    no help. Among equals one that only goes on (`joist`, `joists`) wins, then the first in the order given.
    """
    asked = _plain(word)
    best: str | None = None
    longer = False
    limit = min(3, max(1, len(asked) // 3)) if asked else -1
    for candidate in known:
        other = _plain(candidate)
        if abs(len(other) - len(asked)) > limit:
            continue
        d = distance(asked, other)
        goes_on = other.startswith(asked)
        if d < limit or d == limit and (best is None or goes_on and not longer):
            best, limit, longer = candidate, d, goes_on
    return best
