"""Steps that are done at another point of the work."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from tilespec.compare.types import Moved


def moved(old: Sequence[str], new: Sequence[str]) -> tuple[Moved, ...]:
    """The fewest steps that had to be moved to make the new order of the old one; the others stay in line.

    Names are unique on each side. Where several choices are the fewest, the same one is made from either side.
    """
    before = [s for s in old if s in set(new)]
    after = [s for s in new if s in set(old)]
    if before == after:
        return ()
    stay = _in_line(*sorted((before, after)))
    return tuple(Moved((step,), _before(step, old), _before(step, new)) for step in after if step not in stay)


def _before(step: str, steps: Sequence[str]) -> str:
    at = steps.index(step)
    return steps[at - 1] if at else ""


def _in_line(first: Sequence[str], second: Sequence[str]) -> frozenset[str]:
    """A longest run of steps that both have in the same order: the longest rising run of places."""
    place = {step: at for at, step in enumerate(first)}
    ends: list[int] = []            # least last place of a run, by length
    behind: dict[int, int] = {}     # place before, in the best run that ends at a place
    for step in second:
        at = place[step]
        length = bisect_left(ends, at)
        ends[length : length + 1] = [at]
        behind[at] = ends[length - 1] if length else -1
    run: list[int] = []
    at = ends[-1] if ends else -1
    while at >= 0:
        run.append(at)
        at = behind[at]
    return frozenset(first[at] for at in run)
