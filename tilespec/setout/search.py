"""Finding a start where the spec leaves it open: every start that could be best is judged, and the best one taken.

In each direction the starts that matter are few: where some cut becomes full, half or least, where the ends balance, and half-way
between. Of equal ones, the one that is easiest to say and to measure wins, or else the one whose least cut is widest.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from tilespec.practice.lookup import Practice
from tilespec.quantity import UNITS, Counted, Kind, Quantity, Worked, counted, work
from tilespec.setout import start
from tilespec.setout.geometry import sides
from tilespec.setout.judge import CRITERIA, Case, Score, Span, candidates, judge, narrowest, total
from tilespec.setout.pattern import shift_of
from tilespec.setout.start import Placed, Site
from tilespec.setout.types import Criterion, Ring

_MM = 1000
_TINY = 1e-6
_SAME = 10.0  # mm: starts closer than this are one
_AT_WALL = 20.0  # mm: an edge that lies so near to the door's wall is the one at the door: the joint, and a wall out of square
_COURSES = 12  # an offset that does not come round within a dozen courses is judged by these
_SOURCE = "starts compared one after the other by the criteria listed"


@dataclass(frozen=True, slots=True)
class Found:
    """A start that was searched for, and the next best that differs from it."""

    placed: Placed
    score: Score
    second: Placed | None
    second_score: Score | None


def phases(site: Site, axis: int) -> tuple[tuple[float, float], ...]:
    """How courses are moved against each other in one direction, in millimetres, with the share of the courses."""
    p = site.covering.pattern
    if p.name not in ("half", "third", "quarter", "run") or (axis == 1) != p.upright:
        return ((0.0, 1.0),)
    module = site.module(axis)
    step = shift_of(p, module) % module
    if not p.stepped:
        return ((0.0, 0.5), (float(step * _MM), 0.5))
    shifts: list[Fraction] = [Fraction(0)]
    while len(shifts) < _COURSES and (following := (shifts[-1] + step) % module) != 0:
        shifts.append(following)
    return tuple((float(s * _MM), 1 / len(shifts)) for s in shifts)


def least(site: Site, axis: int, practice: Practice) -> tuple[Quantity, Quantity]:
    """Cuts under the first are too small for any reason, under the second too small if it can be helped."""
    tile = site.covering.tile
    if tile.mosaic and tile.chip_width is not None and tile.chip_height is not None:
        chip = tile.chip_width if axis == 0 else tile.chip_height
        return chip, chip
    size = site.size(axis)
    poor = work(
        "max(tile * share, min(least, tile * half))", "mm", source="smallest cut that may be", tile=size,
        share=practice.limit("cut-poor-share"), least=practice.limit("cut-poor-size"), half=practice.limit("cut-min-share"),
    )
    small = work("tile * share", "mm", source="smallest cut that looks right", tile=size, share=practice.limit("cut-min-share"))
    return poor, small


def case(site: Site, axis: int, practice: Practice, meets: Sequence[float] = (), share: float = 0.5) -> Case:
    """One direction of a site as what is judged.

    share   where each stretch is looked at, along slanted edges: 0 at its beginning, 1 at its end
    """
    poor, small = least(site, axis, practice)
    size, joint = site.size(axis), site.covering.joint
    if site.covering.pattern.name == "basket":
        size = max(site.width, site.height, key=lambda q: q.value)
    return Case(
        spans=tuple(_spans(site, axis, practice, share)),
        size=float(size.mm), joint=float(joint.mm), phases=phases(site, axis), poor=float(poor.mm), small=float(small.mm),
        balanced=axis == 0 or site.floor, meets=tuple(meets),
    )


def _spans(site: Site, axis: int, practice: Practice, share: float) -> list[Span]:
    """The region in stretches along one direction: between all heights at which it changes, as at a share of the way between."""
    rings = [_mm(ring, axis) for s in site.region for ring in s.rings]
    levels = sorted({b for ring in rings for _, b in ring})
    joined: list[float] = []
    for level in levels:
        # Slanted edges: levels closer than a millimetre are one.
        if not joined or level - joined[-1] > 1:
            joined.append(level)
    found: list[Span] = []
    for low, high in zip(joined, joined[1:], strict=False):
        at = low + (high - low) * share
        crossings = sorted(_crossings(rings, at))
        for a, b in zip(crossings[::2], crossings[1::2], strict=False):
            if b - a > _TINY:
                found.append(_seen(site, axis, Span(a, b, high - low), low, high, practice))
    return found


def _mm(ring: Ring, axis: int) -> list[tuple[float, float]]:
    return [(float(p[axis] * _MM), float(p[1 - axis] * _MM)) for p in ring]


def _crossings(rings: Sequence[list[tuple[float, float]]], at: float) -> list[float]:
    found = []
    for ring in rings:
        for (a1, b1), (a2, b2) in sides(ring):
            if (b1 > at) != (b2 > at):
                found.append(a1 + (at - b1) * (a2 - a1) / (b2 - b1))
    return found


def _seen(site: Site, axis: int, span: Span, low: float, high: float, practice: Practice) -> Span:
    """What of a stretch's ends is looked at: at the eye line, in the doorway, at an external corner."""
    eye = door = corner = (0.0, 0.0)
    if not site.floor and axis == 1 and site.main:
        least_, most = (float(practice.limit(k).mm) for k in ("eye-line-low", "eye-line-high"))
        eye = (span.deep if least_ <= span.start <= most else 0.0, span.deep if least_ <= span.end <= most else 0.0)
    if site.floor and (side := start.door_side(site)) is not None and side[0] == axis:
        found = start.door(site.room)
        line = next(w for w in site.room.walls if found is not None and w.letter == found[0].letter)
        if found is not None:
            along = sorted(
                float((line.start[1 - axis] + (1 if line.end[1 - axis] > line.start[1 - axis] else -1) * x) * _MM)
                for x in (found[1].rect.x.value, found[1].rect.right)
            )
            shared = max(0.0, min(high, along[1]) - max(low, along[0]))
            wall = float(line.start[axis] * _MM)
            near = [abs(e - wall) < _AT_WALL and shared for e in (span.start, span.end)]
            door = (float(near[0]), float(near[1]))
    if not site.floor and axis == 0:
        corner = _corners(site, span)
    return Span(span.start, span.end, span.deep, eye, door, corner)


def _corners(site: Site, span: Span) -> tuple[float, float]:
    """The ends of a stretch of wall that stand at an external corner: of the room, of a boxing, of a reveal that is tiled."""
    ends = [False, False]
    low, high = (float(v * _MM) for v in site.edges(0))
    if site.main:
        for c in site.room.corners:
            if not c.internal and c.before == site.surface.letter:
                ends[1] |= abs(span.end - high) < _TINY
            if not c.internal and c.after == site.surface.letter:
                ends[0] |= abs(span.start - low) < _TINY
        for o in site.surface.openings:
            if o.reveal is not None:
                ends[0] |= abs(span.start - float(o.rect.right * _MM)) < _TINY
                ends[1] |= abs(span.end - float(o.rect.x.value * _MM)) < _TINY
    return (span.deep if ends[0] else 0.0, span.deep if ends[1] else 0.0)


# ---------------------------------------------------------------- searching

def named(site: Site, axis: int) -> list[Placed]:
    """The starts that are easy to say, the easiest first."""
    found = []
    if site.floor or axis == 0:
        found += [
            start.on(site, axis, start.middle(site, axis), False, "joint on centre"),
            start.on(site, axis, start.middle(site, axis), True, "tile on centre"),
        ]
    else:
        datum = site.room.levels.datum
        if site.main and site.frame.low <= datum.value <= site.frame.high:
            found.append(Placed(datum, datum, "course on the datum line"))
    names = ("left", "right") if axis == 0 else ("top of the plan", "foot of the plan") if site.floor else ("foot", "top")
    found += [start.from_edge(site, axis, at_end, f"full tile at the {names[at_end]}") for at_end in (False, True)]
    return found


def free(site: Site, axis: int, origin: float, one: Case) -> Placed:
    """A start that has no name: said by the width of the first cut."""
    side = "left" if axis == 0 else "top of the plan" if site.floor else "foot"
    # The first tile that begins at or after the edge; what is before it is a cut and a joint.
    away = (origin - one.low) % one.module
    cut = away - one.joint
    edge = site.edge(axis, False)
    tile, joint = site.size(axis), site.covering.joint
    if away < _TINY or one.module - away < _TINY:
        return start.from_edge(site, axis, False, f"full tile at the {side}")
    if cut <= _TINY:
        # The edge falls into a joint.
        gap = Quantity(Fraction(round(away * 10), 10 * _MM), Kind.LENGTH, UNITS["mm"], Worked(
            "gap that the search found best", (("edge", edge), ("tile", tile), ("joint", joint)), _SOURCE,
        ))
        corner = work("edge + gap", "m", source=start.SOURCE, edge=edge, gap=gap)
        return Placed(corner, corner, f"before a full tile at the {side}", gap, "gap")
    first = Quantity(Fraction(round(away * 10), 10 * _MM) - joint.value, Kind.LENGTH, UNITS["mm"], Worked(
        "first cut that the search found best", (("edge", edge), ("tile", tile), ("joint", joint)), _SOURCE,
    ))
    corner = work("edge + first_cut + joint", "m", source=start.SOURCE, edge=edge, first_cut=first, joint=joint)
    return Placed(corner, corner, f"at the {side}", first)


def search(site: Site, axis: int, practice: Practice, meets: Sequence[float] = ()) -> Found:
    """The best start in one direction of a coursed pattern."""
    return _best([(site, case(site, axis, practice, meets))], axis)


def search_level(sites: Sequence[Site], practice: Practice) -> Found:
    """One level for the courses of several walls of a room, all of one module: what is best for all of them together.

    The starts are those of every one of the walls.
    """
    return _best([(s, case(s, 1, practice)) for s in sites], 1)


def _best(sites: Sequence[tuple[Site, Case]], axis: int) -> Found:
    module = sites[0][1].module

    def score(at: float) -> Score:
        return total([judge(one, at) for _, one in sites])

    def spared(at: float) -> int:
        return -min(narrowest(one, at) for _, one in sites)

    options: list[tuple[Score, int, float, Placed | None, Site, Case]] = []
    for site, one in sites:
        options += [(score(at), 0, at, p, site, one) for p in named(site, axis) for at in [float(p.corner.value * _MM)]]
        options += [(score(at), 1, at, None, site, one) for at in rounded(one)]
    # Stable: of equal scores the first named one comes first; where none has a name, the one whose least cut is widest.
    ranked = sorted(options, key=lambda o: (*o[:2], spared(o[2]) if o[1] else 0))

    def placed(o: tuple[Score, int, float, Placed | None, Site, Case]) -> Placed:
        return o[3] or free(o[4], axis, o[2], o[5])

    first = ranked[0]
    second = next((o for o in ranked if _apart(o[2], first[2], module)), None)
    if second is None:
        return Found(placed(first), first[0], None, None)
    return Found(placed(first), first[0], placed(second), second[0])


def rounded(one: Case) -> list[float]:
    """The candidates to the whole and to the tenth of a millimetre, up and down: a tape reads no finer."""
    found: list[float] = []
    for c in candidates(one):
        away = c - one.low
        found += [float(round(away)), floor(away * 10) / 10, ceil(away * 10) / 10]
    return [one.low + away for away in dict.fromkeys(found)]


def _apart(a: float, b: float, module: float) -> bool:
    off = (a - b) % module
    return min(off, module - off) >= _SAME


def criteria(score: Score) -> tuple[Criterion, ...]:
    """A score for print: lengths of edges and differences in millimetres, then the courses."""
    found = []
    for name, value in zip(CRITERIA, score, strict=True):
        of = "criterion of a start, over the edges of the set-out"
        if name == "courses":
            found.append(Criterion(name, counted(value, of)))
        else:
            found.append(Criterion(name, Quantity(Fraction(value, _MM), Kind.LENGTH, UNITS["mm"], Counted(of))))
    return tuple(found)
