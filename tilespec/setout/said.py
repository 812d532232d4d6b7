"""What the spec itself says of starts, and what follows from it, without setting anything out: for the checks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from tilespec.job.types import Job, Room, Surface
from tilespec.practice.lookup import Practice
from tilespec.quantity import UNITS, Kind, Quantity, Worked
from tilespec.setout import plane, search, start
from tilespec.setout.area import straight
from tilespec.setout.judge import Case, ends, judge
from tilespec.setout.stage import sites
from tilespec.setout.start import Placed, Site

_MM = 1000
_TINY = 1e-6
_SOURCE = "where the courses meet the edge of the tile plane"


@dataclass(frozen=True, slots=True)
class Stated:
    """A start that the spec states in one direction of a covering."""

    site: Site
    axis: int
    placed: Placed

    @property
    def surface(self) -> Surface:
        return self.site.surface


@dataclass(frozen=True, slots=True)
class Sliver:
    """The thinnest cut that a stated start forces at one end of its surface.

    where    "left", "right", "foot", "top"; floors: "left", "right", "top of the plan", "foot of the plan"
    cut      what is left of the tile; least: what should be left
    cure     the start without such a cut that is easiest to say, else the best of those that have no name; None where every start
             has one
    shift    how far the courses move then: to the right or up where positive
    """

    stated: Stated
    where: str
    cut: Quantity
    least: Quantity
    cure: Placed | None
    shift: Quantity | None


def stated(job: Job, practice: Practice) -> Iterator[Stated]:
    """Every start that the spec states, for coverings in straight courses on the surfaces themselves."""
    for room in job.rooms:
        yield from _stated(job, room, practice)


def _stated(job: Job, room: Room, practice: Practice) -> Iterator[Stated]:
    def has_start(surface: Surface) -> bool:
        return any(c.start.across != "found" or c.start.up != "found" for c in surface.coverings)

    for face in plane.room_faces(job, room, practice, has_start):
        if face.id != face.surface:
            continue
        for site in sites(room, face):
            for axis in (0, 1):
                if site.coursed and (placed := start.said(site, axis)) is not None:
                    yield Stated(site, axis, placed)


def slivers(one: Stated, practice: Practice) -> Iterator[Sliver]:
    """The thin cuts at the ends of a surface that a stated start forces, one an end."""
    site, axis = one.site, one.axis
    if site.covering.tile.mosaic:
        return
    cases = _cases(site, axis, practice)
    least = search.least(site, axis, practice)[0]
    origin, module = float(one.placed.corner.value * _MM), cases[0].module
    found = _thinnest(cases, origin)
    if not found:
        return
    cure = _cure(cases, origin, site, axis)
    names = ("left", "right") if axis == 0 else ("top of the plan", "foot of the plan") if site.floor else ("foot", "top")
    why = (("start", one.placed.corner), ("tile", site.size(axis)), ("joint", site.covering.joint))
    for at_end, width in found.items():
        cut = _length(width, Worked("what the edge leaves of the tile", why, _SOURCE))
        shift = None
        if cure is not None:
            move = (float(cure.corner.value * _MM) - origin) % module
            move = move - module if move > module / 2 else move
            shift = _length(move, Worked("from the start as said to the nearest one without a thin cut", why, _SOURCE))
        yield Sliver(one, names[at_end], cut, least, cure, shift)


def _length(mm: float, why: Worked) -> Quantity:
    return Quantity(Fraction(round(mm * 10), 10 * _MM), Kind.LENGTH, UNITS["mm"], why)


def _cases(site: Site, axis: int, practice: Practice) -> tuple[Case, ...]:
    """A surface in its middle; where it has slanted edges, at their ends as well, where cuts are thinnest."""
    if all(straight(r) for s in site.region for r in s.rings):
        return (search.case(site, axis, practice),)
    return tuple(search.case(site, axis, practice, share=share) for share in (0.5, _TINY, 1 - _TINY))


def _thinnest(cases: Sequence[Case], origin: float) -> dict[bool, float]:
    """Per outer end of the surface the thinnest cut under the limit; narrow piers, which no start helps, are left out."""
    found: dict[bool, float] = {}
    for one, span in ((c, s) for c in cases for s in c.spans):
        if span.end - span.start < one.poor:
            continue
        for shift, _ in one.phases:
            left, right, _ = ends(one, span, origin, shift)
            for at_end, width in ((False, left), (True, right)):
                outer = span.end >= one.high - _TINY if at_end else span.start <= one.low + _TINY
                if outer and width < one.poor - 0.1 and width < found.get(at_end, one.size):
                    found[at_end] = width
    return found


def _cure(cases: Sequence[Case], origin: float, site: Site, axis: int) -> Placed | None:
    """A start with a name that leaves no thin cut, or the best of all starts if that leaves none."""
    one = cases[0]
    for p in search.named(site, axis):
        if not _thinnest(cases, float(p.corner.value * _MM)):
            return p
    free = [at for c in cases for at in search.rounded(c) if not _thinnest(cases, at)]
    if not free:
        return None
    return search.free(site, axis, min(free, key=lambda at: (judge(one, at), _away(at, origin, one.module))), one)


def _away(a: float, b: float, module: float) -> float:
    off = (a - b) % module
    return min(off, module - off)
