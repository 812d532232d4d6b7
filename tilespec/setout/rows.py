"""Things in a row along a length: pieces along a strip, strips across a tile. The best row by value, and all good rows.

A link may need the near end of the length, or the far end (a factory edge), or neither. Everything is a whole number, so the best
is exactly the best. See `stock.room` for what fits.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tilespec.setout.stock import room


@dataclass(frozen=True, slots=True)
class Link:
    """ends: 1 it must lie at the near end, 2 at the far end, 3 at both (it is as long as the length). limit: how many at most."""

    size: int
    value: int
    ends: int = 0
    limit: int = 1 << 30


@dataclass(frozen=True, slots=True)
class Length:
    """What a row is cut from. `single`: too narrow to be cut twice, so that it gives one thing only."""

    size: int
    kerf: int
    least: int
    single: bool = False


class Work:
    """A limit on the work of a search, counted, so that it ends at the same place on every machine."""

    def __init__(self, steps: int) -> None:
        self.left = steps

    def step(self, steps: int = 1) -> bool:
        self.left -= steps
        return self.left >= 0


_Trail = tuple["_Trail", int] | None        # links chosen, last first


@dataclass(frozen=True, slots=True)
class Front:
    """Rows of links that need no end: none of them is longer and worth no more than another. `used` counts a kerf for each."""

    used: tuple[int, ...]
    values: tuple[int, ...]
    trails: tuple[_Trail, ...]

    def at(self, capacity: int) -> int:
        """Number of the best that is no longer than this; -1 where none is."""
        return bisect_right(self.used, capacity) - 1


_States = dict[int, tuple[int, _Trail]]     # used: worth and how


def _pruned(states: _States) -> _States:
    best, result = -1, {}
    for used in sorted(states):
        if states[used][0] > best:
            best = states[used][0]
            result[used] = states[used]
    return result


def _front(states: _States) -> Front:
    used = sorted(states)
    return Front(tuple(used), tuple(states[u][0] for u in used), tuple(states[u][1] for u in used))


def _grown(source: list[tuple[int, tuple[int, _Trail]]], target: _States, i: int, step: int, worth: int, most: int) -> list[int]:
    """Lengths at which `target` got better by one more of link i."""
    better = []
    for used, (value, trail) in source:
        to = used + step
        if to <= most and (to not in target or target[to][0] < value + worth):
            target[to] = (value + worth, (trail, i))
            better.append(to)
    return better


def fronts(links: Sequence[Link], length: Length, work: Work) -> tuple[Front, Front]:
    """Without, and with, one link that is cut off last: what it comes out of is at least `least` long.

    Once the work is used up (`work.left` is negative) they lack something.
    """
    most = length.size + length.kerf
    plain: _States = {0: (0, None)}
    last: _States = {}
    narrow = any(x.size < length.least for x in links)
    for i, link in enumerate(links):
        if link.ends or link.value <= 0:
            continue
        if work.left < 0:
            break
        step, extra = link.size + length.kerf, max(0, length.least - link.size)
        new, new_last = list(plain.items()), list(last.items())
        for _ in range(min(link.limit, most // step)):
            marked = _grown(new_last, last, i, step, link.value, most) if narrow else []
            marked += _grown(new, last, i, step + extra, link.value, most) if narrow else []
            work.step(len(new) + len(new_last) + 1)
            new = [(u, plain[u]) for u in _grown(new, plain, i, step, link.value, most)]
            new_last = [(u, last[u]) for u in dict.fromkeys(marked)]
            if not new and not new_last:
                break
        plain, last = _pruned(plain), _pruned(last)
    return _front(plain), _front(last if narrow else plain)


def _leading(links: Sequence[Link], ends: int) -> list[int]:
    """Links that need this end, those left out that are longer than another and worth no more."""
    result: list[int] = []
    best = 0
    held = [i for i, x in enumerate(links) if x.ends == ends and x.value > 0]
    for i in sorted(held, key=lambda i: (links[i].size, -links[i].value)):
        if links[i].value > best:
            best = links[i].value
            result.append(i)
    return result


def best(links: Sequence[Link], length: Length, work: Work) -> tuple[int, tuple[int, ...]]:
    """The row of most value, as numbers of its links; (0, ()) where nothing has any.

    Once the work is used up (`work.left` is negative) it may not be the best.
    """
    alone = max(range(len(links)), key=lambda i: links[i].value, default=None)
    if alone is None or links[alone].value <= 0:
        return 0, ()
    value = links[alone].value
    chosen: tuple[int, ...] = (alone,)
    if length.single:
        return value, chosen
    plain, last = fronts(links, length, work)
    fars = (None, *_leading(links, 2))
    for near in (None, *_leading(links, 1)):
        work.step(len(fars))
        for far in fars:
            held = tuple(i for i in (near, far) if i is not None)
            worth = sum(links[i].value for i in held)
            rest = length.size + length.kerf - sum(links[i].size + length.kerf for i in held)
            largest = max((links[i].size for i in held), default=0)
            # Either one of these is cut off last, or one of the others is.
            tries = [(last, rest)] + ([(plain, rest - max(0, length.least - largest))] if held else [])
            for front, capacity in tries:
                at = front.at(capacity)
                if at >= 0 and worth + front.values[at] > value:
                    value, chosen = worth + front.values[at], (*held, *_followed(front.trails[at]))
    return value, chosen


def _followed(trail: _Trail) -> Iterator[int]:
    while trail is not None:
        trail, i = trail
        yield i


def full(links: Sequence[Link], length: Length, least_value: int, work: Work) -> Iterator[tuple[int, ...]]:
    """Every row of at least this value to which no link can be added that needs no end, as numbers of its links.

    Stops early when the work is used up: then `work.left` is negative.
    """
    if length.single:
        yield from ((i,) for i, x in enumerate(links) if x.value >= least_value)
        return
    yield from ((i,) for i, x in enumerate(links) if x.ends == 3 and x.value >= least_value)
    hope, _ = fronts(links, Length(length.size, length.kerf, 0), work)
    free = sorted((i for i, x in enumerate(links) if x.ends == 0), key=lambda i: (-links[i].size, i))
    shorter = [-links[i].size for i in free]
    nears: list[int | None] = [None, *(i for i, x in enumerate(links) if x.ends == 1)]
    fars: list[int | None] = [None, *(i for i, x in enumerate(links) if x.ends == 2)]
    most = length.size + length.kerf

    def fits(used: int, largest: int, number: int) -> bool:
        return room(length.size, length.kerf, length.least, used, largest, number)

    def more(at: int, chosen: tuple[int, ...], used: int, largest: int, value: int) -> Iterator[tuple[int, ...]]:
        if not work.step():
            return
        reach = hope.at(most - used)
        if reach < 0 or value + hope.values[reach] < least_value:
            return
        closed = True
        first = bisect_left(shorter, used - most + length.kerf)     # those before are too long
        for n in range(max(at, first), len(free)):
            link = links[free[n]]
            to, wide = used + link.size + length.kerf, max(largest, link.size)
            if chosen.count(free[n]) < link.limit and fits(to, wide, len(chosen) + 1):
                closed = False
                yield from more(n, (*chosen, free[n]), to, wide, value + link.value)
        closed = closed and not any(
            chosen.count(i) < links[i].limit
            and fits(used + links[i].size + length.kerf, max(largest, links[i].size), len(chosen) + 1) for i in free[first:at]
        )
        if closed and chosen and value >= least_value and fits(used, largest, len(chosen)):
            yield chosen

    for near in nears:
        for far in fars:
            if work.left < 0:
                return
            held = tuple(i for i in (near, far) if i is not None)
            used = sum(links[i].size + length.kerf for i in held)
            if used > most:
                work.step()
            else:
                yield from more(0, held, used, max((links[i].size for i in held), default=0), sum(links[i].value for i in held))
