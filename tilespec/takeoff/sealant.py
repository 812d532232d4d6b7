"""Sealant and what goes behind it, from joint section and length."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tilespec.formula.movement import sealant_depth
from tilespec.job.types import Product
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, counted, work
from tilespec.quantity.total import total
from tilespec.setout import geometry
from tilespec.setout.bed import edge_joint, product_for
from tilespec.setout.frame import place as set_out_at
from tilespec.setout.standing import side, wall_line
from tilespec.takeoff.areas import Survey
from tilespec.takeoff.junction import RoomSurvey, rim_against, tiled_corner, tiled_foot
from tilespec.takeoff.order import Share, Taken, products
from tilespec.takeoff.stretch import length
from tilespec.takeoff.types import Missing, Part

# Movement joints: what moves apart here must not be held by a third side.
_MOVING = ("perimeter", "corner", "boxing", "movement")


@dataclass(frozen=True, slots=True)
class Run:
    """One joint to seal. `role`: "perimeter", "corner", "niche", "boxing", "movement", "opening", "bath",
    "tray", "basin", "fitting"."""

    place: str
    role: str
    length: Quantity
    width: Quantity
    depth: Quantity

    @property
    def backed(self) -> bool:
        """Backer or expansion string goes behind corners and edges, and wherever the joint is less deep than wide."""
        return self.role in _MOVING or self.depth.value < self.width.value


def runs(rooms: Sequence[RoomSurvey], practice: Practice) -> tuple[Run, ...]:
    result: list[Run] = []
    for rs in rooms:
        edge = edge_joint(rs.room, practice)
        corner, fitting = practice.limit("corner-joint-wall"), practice.limit("sealant-joint-fitting")
        for place, role, run in _lengths(rs):
            width = edge if role == "perimeter" else corner if role in ("corner", "boxing", "niche") else fitting
            result.append(Run(place, role, run, width, sealant_depth(width, practice)))
        result += _movement(rs, practice)
    return tuple(result)


def _movement(rs: RoomSurvey, practice: Practice) -> list[Run]:
    """The movement joints within the tiling, right across their surfaces."""
    found: list[Run] = []
    for s in ([rs.floor] if rs.floor else []) + list(rs.walls):
        surface = s.surface
        high = surface.tiled_height or surface.height
        for joint in surface.movement_joints if s.is_tiled else ():
            level = joint.x is None
            at, side = (joint.y, surface.width) if level else (joint.x, high)
            if at is None or (level and at.value >= high.value):
                continue
            run = _chord(s, at.value, side, level=level)
            if run is not None:
                found.append(Run(surface.id, "movement", run, joint.width, joint.depth or sealant_depth(joint.width, practice)))
    return found


def _chord(s: Survey, at: Fraction, side: Quantity, *, level: bool) -> Quantity | None:
    """How long a straight joint is within the outline: the whole side, or the parts of it that lie on the surface."""
    along, across = (0, 1) if level else (1, 0)
    marks: list[Fraction] = []
    for a, b in geometry.sides(s.surface.outline):
        if (a[across] < at) != (b[across] < at):
            marks.append(a[along] + (b[along] - a[along]) * (at - a[across]) / (b[across] - a[across]))
    marks.sort()
    # A wall may be tiled to less than its height.
    start = min(marks, default=Fraction(0))
    top = start + side.value
    length = sum((min(b, top) - a for a, b in zip(marks[::2], marks[1::2], strict=True) if a < top), Fraction(0))
    if not length:
        return None
    return side if length == side.value else set_out_at(length, side)


def _lengths(rs: RoomSurvey) -> list[tuple[str, str, Quantity]]:
    found: list[tuple[str, str, Quantity]] = []
    for line in rs.room.walls:
        if foot := length(tiled_foot(rs, line), "foot of the wall"):
            found.append((rs.place(line.letter), "perimeter", foot))
    for c in rs.room.corners:
        if c.internal and (height := length(tiled_corner(rs, c), "corner")):
            found.append((rs.place(c.after), "corner", height))
    for bath in rs.room.baths:
        found += [(place, "bath", side) for place, side in rim_against(rs, bath.rect, bath.walls, tiled=True)]
    for shower in rs.room.showers:
        if shower.tray:
            found += [(place, "tray", side) for place, side in rim_against(rs, shower.rect, shower.walls, tiled=True)]
    for basin in rs.room.basins:
        wall = rs.wall(basin.wall)
        if wall is not None and wall.is_tiled:
            found.append((wall.surface.id, "basin", basin.width))
    for s in ([rs.floor] if rs.floor else []) + list(rs.walls):
        if s.is_tiled:
            found += _around(s)
    return found + _boxings(rs)


def _boxings(rs: RoomSurvey) -> list[tuple[str, str, Quantity]]:
    """Corners that boxings make: two, less the room's own corner that one in a corner hides; and the edges of a low one's top."""
    found: list[tuple[str, str, Quantity]] = []
    for b in rs.room.boxings:
        wall = rs.wall(b.walls[0]) if b.walls else None
        if wall is None or not wall.is_tiled:
            continue
        spans = [b.span] if b.span else []
        more = counted(2 if len(b.walls) == 1 else 1, "corners more by the boxing", *spans)
        terms = [("corners", work("corners * height", "m", source="corners of a boxing", corners=more, height=b.height))]
        if b.height.value < rs.room.height.value:
            for letter in b.walls:
                line = wall_line(rs.room, letter)
                if line is not None:
                    terms.append((f"top along wall {letter}", side(line, b.rect)))
        found.append((wall.surface.id, "boxing", total(terms, "m", of="corners of the boxing")))
    return found


def _around(s: Survey) -> list[tuple[str, str, Quantity]]:
    found: list[tuple[str, str, Quantity]] = []
    for n in s.surface.niches:
        if s.frame.meets(geometry.box(n.rect)):
            found.append((s.surface.id, "niche", work(
                "2 * (width + height) + 4 * depth", "m", source="inner corners of a niche: around its back, and its four edges",
                width=n.rect.width, height=n.rect.height, depth=n.depth,
            )))
    for o in s.surface.openings:
        # A passage has no frame to seal to.
        if o.kind != "opening" and (edges := s.field_rim(o.rect)):
            found.append((s.surface.id, "opening", total(edges, "m", of="edges of the opening")))
    zones = [geometry.box(z.rect) if z.rect else s.whole.box for z in s.surface.zones]
    for f in s.surface.fittings:
        # No sealant around a mirror: water behind it must run out below.
        if f.kind != "mirror" and any(z.meets(geometry.box(f.rect)) for z in zones):
            around = work("2 * (width + height)", "m", source="edges of a fitting", width=f.rect.width, height=f.rect.height)
            found.append((s.surface.id, "fitting", around))
    return found


def _product(rs: RoomSurvey, kind: str, place: str) -> Product | None:
    surveys = list(rs.walls) + ([rs.floor] if rs.floor else [])
    first = [s for s in surveys if s.surface.id == place] + surveys
    return next((p for s in first if (p := product_for(s.surface, kind)) is not None), None)


def take(rooms: Sequence[RoomSurvey], practice: Practice) -> Taken:
    """Sealant by volume, then backer by length."""
    sealants: list[Share] = []
    backers: list[Share] = []
    missing: list[Missing] = []
    for rs in rooms:
        for run in runs([rs], practice):
            product = _product(rs, "sealant", run.place)
            if rs.refuses("sealant", run.place):
                continue  # nothing to seal with, and no backer behind it
            if product is None:
                missing.append(Missing("sealant", "", "product", (run.place,)))
            else:
                net = work("length * width * depth", "mL", source="section of the bead times its length",
                           length=run.length, width=run.width, depth=run.depth)
                sealants.append(Share(product, Part(run.place, run.length, net, run.role)))
            if run.backed:
                backer = _product(rs, "backer", run.place)
                if rs.refuses("backer", run.place):
                    continue
                if backer is None:
                    missing.append(Missing("backer", "", "product", (run.place,)))
                else:
                    backers.append(Share(backer, Part(run.place, run.length, run.length, run.role)))
    lines = products(sealants, "mL", practice.limit("sealant-allowance"), "allowance for tooling and nozzle")
    lines += products(backers, "m", practice.limit("backer-allowance"), "allowance for cuts")
    return Taken(lines, tuple(missing))
