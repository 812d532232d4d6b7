"""The ways to cut up one tile: the one that is worth most at given values of the pieces, and all that are worth enough."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tilespec.setout.rows import Length, Link, Work, best, fronts, full
from tilespec.setout.stock import ACROSS, ALONG, HIGH, LEFT, LOW, Bench, Pattern, Strip, Task, Turned

SEVERAL = 3                     # patterns at a time: fewer rounds, in the same time each


@dataclass(frozen=True, slots=True)
class View:
    """Tile and pieces seen so that the first cuts run level. `whole`: only one strip, the whole tile, need be thought of."""

    upright: bool
    bench: Bench
    turns: tuple[Turned, ...]
    counts: tuple[int, ...]
    symmetric: bool
    whole: bool


def views(task: Task) -> tuple[View, ...]:
    """Both directions of the first cut, or one: where no two pieces go on top of each other (or side by side), or where a
    quarter turn makes one direction of the other."""
    level = tuple(p for turns in task.turns for p in turns)
    result = []
    for upright in (False, True):
        bench = task.bench.flipped() if upright else task.bench
        turns = tuple(p.flipped() for p in level) if upright else level
        whole = 2 * min(p.height for p in turns) + bench.kerf > bench.height
        result.append(View(upright, bench, turns, task.counts, task.symmetric, whole))
        if whole:
            return (result[-1],)
        if task.symmetric and bench.width == bench.height:
            break
    return tuple(result)


@dataclass(frozen=True, slots=True)
class _Kind:
    """Strips of one height that may hold the same pieces. ends: where they must lie, as `Link`."""

    height: int
    ends: int
    turns: tuple[Turned, ...]


def _kinds(view: View) -> Iterator[_Kind]:
    bench = view.bench
    # Where a strip is to be cut again, it is not cut narrower than `least`.
    heights = sorted({p.height for p in view.turns} | ({bench.least_height} - {0})) if not view.whole else []
    for height in (h for h in heights if h < bench.height):
        low = tuple(p for p in view.turns if p.height <= height)
        yield _Kind(height, 0, tuple(p for p in low if not p.sides & ACROSS))
        yield _Kind(height, 1, tuple(p for p in low if not p.sides & HIGH))
        if not view.symmetric:
            yield _Kind(height, 2, tuple(p for p in low if not p.sides & LOW))
    yield _Kind(bench.height, 3, view.turns)


def _links(view: View, turns: Sequence[Turned], values: Sequence[int]) -> list[Link]:
    return [Link(p.width, values[p.size], (p.sides & ALONG) // LEFT, view.counts[p.size]) for p in turns]


def _length(view: View, height: int) -> Length:
    bench = view.bench
    return Length(bench.width, bench.kerf, bench.least_width, height < bench.least_height)


def _across(view: View) -> Length:
    bench = view.bench
    return Length(bench.height, bench.kerf, bench.least_height)


def _mirrored(strip: Strip) -> Strip:
    return Strip(strip.height, tuple(p.half() for p in strip.pieces))


def _good_strips(view: View, values: Sequence[int], work: Work) -> list[tuple[Link, Strip]]:
    """The strip of most value of each kind, those left out that another of no more height does as well."""
    result: list[tuple[Link, Strip]] = []
    reached = [0, 0, 0, 0]
    for kind in _kinds(view):
        work.step(len(kind.turns))
        value, chosen = best(_links(view, kind.turns, values), _length(view, kind.height), work)
        if work.left < 0:
            break
        if value <= max(reached[kind.ends], reached[0] if kind.ends != 3 else 0):
            continue
        reached[kind.ends] = value
        strip = Strip(kind.height, tuple(kind.turns[i] for i in chosen))
        result.append((Link(kind.height, value, kind.ends), strip))
        if kind.ends == 1 and view.symmetric:
            result.append((Link(kind.height, value, 2), _mirrored(strip)))
    return result


def most_valuable(view: View, values: Sequence[int], work: Work) -> tuple[tuple[int, Pattern], ...]:
    """The pattern of most value, then a few good ones that have nothing in common with it.

    Values are whole numbers, one a size, not negative. Once the work is used up (`work.left` is negative) it may not be the best.
    """
    result: list[tuple[int, Pattern]] = []
    left = list(values)
    strips = _good_strips(view, left, work)
    while len(result) < SEVERAL:
        value, chosen = best([link for link, _ in strips], _across(view), work)
        if not chosen:
            break
        pattern = Pattern(view.upright, tuple(strips[i][1] for i in chosen))
        result.append((value, pattern))
        for size, _ in pattern.sizes():
            left[size] = 0
        # Worked out anew where that is quick; else what the strips at hand still give.
        strips = _good_strips(view, left, work) if view.whole else [
            (link, s) for link, s in strips if all(left[p.size] for p in s.pieces)
        ]
    return tuple(result)


def all_worth(view: View, values: Sequence[int], least_value: int, work: Work) -> Iterator[Pattern]:
    """Every pattern of at least this value that cannot hold one piece more (and some that could).

    Stops early when the work is used up: then `work.left` is negative.
    """
    across = _across(view)
    loose = [Link(link.size, link.value) for link, _ in _good_strips(view, values, work)]
    hope, _ = fronts(loose, Length(across.size, across.kerf, 0), work)
    found: dict[tuple[int, int, tuple[int, ...]], Strip] = {}
    for kind in _kinds(view):
        links = _links(view, kind.turns, values)
        reach = hope.at(across.size - kind.height)
        rest = hope.values[reach] if reach >= 0 else 0
        for chosen in full(links, _length(view, kind.height), least_value - rest, work):
            strip = Strip(kind.height, tuple(kind.turns[i] for i in chosen))
            if kind.ends != 3:
                padded = kind.height == view.bench.least_height and len(chosen) > 1
                if (max(p.height for p in strip.pieces) < kind.height and not padded) or (kind.ends and not strip.sides):
                    continue            # it is found as a lower one, or as one that may lie anywhere
            contents = tuple(sorted(p.size for p in strip.pieces))
            found.setdefault((kind.height, kind.ends, contents), strip)
            if kind.ends == 1 and view.symmetric:
                found.setdefault((kind.height, 2, contents), _mirrored(strip))
    strips = list(found.values())
    rows = [
        Link(height, sum(values[size] for size in contents), ends) for height, ends, contents in found
    ]
    for row in full(rows, across, least_value, work):
        yield Pattern(view.upright, tuple(strips[i] for i in row))
