"""The tile planes of a room: what is set out is the face of the tiles, not the bare wall.

- A wall ends at the tile faces of the walls beside it, and its tiles a joint before them; at an external corner it runs out to
  the face of the tiles round the corner. Its foot is a joint above the finished floor, its head a joint below the ceiling.
- Inside an opening or a niche the tiles run out to the face of the wall's tiles; its upright sides stand between those of the
  sill and of the head.
- A floor runs under the bottom course of the walls, which is laid after it: it ends a joint before the bare wall.
- Measured heights, diagonals and walls out of plumb give the true shape.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import acos, cos, hypot, sin

from tilespec.job.types import Boxing, Covering, Job, Point, Rect, Room, Surface, Tile, WallLine
from tilespec.practice.lookup import Practice
from tilespec.quantity import UNITS, Kind, Quantity, Worked, counted, work
from tilespec.setout import falls, geometry
from tilespec.setout.area import box_ring
from tilespec.setout.bed import edge_joint, thickness
from tilespec.setout.frame import Scale, nought
from tilespec.setout.geometry import Box, nano, set_back
from tilespec.setout.standing import along, behind_baths, depth, side, standing, wall_line
from tilespec.setout.types import Face, Ring

_SOURCE = "tile plane: bare wall less bed and tile, and less the joint at its edges"
_ZERO = Fraction(0)
_Places = tuple[tuple[Fraction, Quantity], ...]


class NoPlane(Exception):
    """Nothing is left of a surface once bed, tile and joints are taken off."""


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a wall's tile plane: how far it is set back from the bare wall's end, and at the top of the wall."""

    back: Quantity
    lean: Fraction = _ZERO          # more set back at the top by this much


def faces(job: Job, practice: Practice) -> tuple[Face, ...]:
    """Every face of the job that is tiled, in the order of its surfaces; added faces follow the surface that they belong to.

    A surface of which nothing is left is left out.
    """
    return tuple(f for room in job.rooms for f in room_faces(job, room, practice))


def room_faces(job: Job, room: Room, practice: Practice, only: Callable[[Surface], bool] | None = None) -> tuple[Face, ...]:
    """The same of one room. `only`: which surfaces are asked for."""
    maker = _Planes(job, room, practice)
    found: list[Face] = []
    for surface in room.surfaces:
        if surface.coverings and (only is None or only(surface)):
            try:
                found += maker.floor(surface) if surface.kind == "floor" else maker.wall(surface)
            except (NoPlane, ValueError):
                continue
    return tuple(found)


def wall_plan(room: Room) -> tuple[Point, ...]:
    """The corners of the room in plan, in walk order, where measured diagonals are known in their true places."""
    outline = tuple(w.start for w in room.walls)
    if room.diagonals is None or len(room.walls) != 4:
        return outline
    a, b, _, d = (float(w.length.value) for w in room.walls)
    one, two = (float(q.value) for q in room.diagonals)
    # Wall A stays where it is; each far corner from its two distances.
    third = _meet((0.0, 0.0), one, (a, 0.0), b)
    fourth = _meet((0.0, 0.0), d, (a, 0.0), two)
    if third is None or fourth is None:
        return outline
    return outline[0], outline[1], third, fourth


def _meet(p: tuple[float, float], r: float, q: tuple[float, float], s: float) -> Point | None:
    """Where two circles meet, on the side of the room."""
    wide = hypot(q[0] - p[0], q[1] - p[1])
    share = (r * r + wide * wide - s * s) / (2 * r * wide)
    if abs(share) > 1:
        return None
    angle = acos(share)
    return nano(r * cos(angle)), nano(r * sin(angle))


class _Planes:
    def __init__(self, job: Job, room: Room, practice: Practice) -> None:
        self.job, self.room, self.practice = job, room, practice
        self.to_face = job.measured_to == "tile face"
        self.corner = practice.limit("corner-joint-wall")
        self.edge = edge_joint(room, practice)
        self.fitting = practice.limit("sealant-joint-fitting")
        self.ground = falls.ground(room)

    def build(self, letter: str) -> Quantity | None:
        """How far the tiles of a wall stand off it; None where it is not tiled."""
        surface = self.room.surface(letter)
        if surface is None or not surface.coverings:
            return None
        return thickness(surface, surface.field or surface.coverings[0], self.practice)

    # ------------------------------------------------------------ walls

    def _end(self, surface: Surface, at_end: bool) -> _Side:
        room = self.room
        corner = next((c for c in room.corners if (c.before if at_end else c.after) == surface.letter), None)
        if corner is None:
            return _Side(nought("end of the wall"))
        letter = corner.after if at_end else corner.before
        build = None if self.to_face else self.build(letter)
        neighbour = room.surface(letter)
        lean = _ZERO
        if neighbour is not None and neighbour.out_of_plumb is not None and neighbour.height.value > 0:
            # Over this wall's own height. A positive value leans into the room.
            share = surface.height.value / neighbour.height.value
            lean = neighbour.out_of_plumb.value * share * (1 if corner.internal else -1)
        if not corner.internal:
            if build is None:
                return _Side(nought("external corner"), lean)
            return _Side(work("-tile_round_the_corner", "mm", source=_SOURCE, tile_round_the_corner=build), lean)
        if build is None:
            return _Side(self.corner, lean)
        return _Side(work("tile_of_wall + joint", "mm", source=_SOURCE, tile_of_wall=build, joint=self.corner), lean)

    def wall(self, s: Surface) -> list[Face]:
        left, right = self._end(s, False), self._end(s, True)
        low, high = self.edge, self.corner
        heights = s.measured_heights or (s.height, s.height)
        top_left, top_right = (h.value for h in heights)
        limited = s.tiled_height is not None and s.tiled_height.value < min(top_left, top_right)
        wide = s.width.value
        if limited:
            assert s.tiled_height is not None
            top = s.tiled_height
            ends = (top.value, top.value)
        else:
            top = work("height - joint", "m", source=_SOURCE, height=heights[0], joint=high)
            ends = (top_left - high.value, top_right - high.value)
        x0, x1 = left.back.value, wide - right.back.value
        # A leaning neighbour: the edge of this wall leans with it, over the part that is tiled.
        tall = s.height.value
        foot = self._foot(s, x0, x1)
        foot[0] = (x0 + left.lean * foot[0][1] / tall, foot[0][1])
        foot[-1] = (x1 - right.lean * foot[-1][1] / tall, foot[-1][1])
        outline: Ring = (
            *foot, (x1 - right.lean * ends[1] / tall, ends[1]), (x0 + left.lean * ends[0] / tall, ends[0]),
        )
        if x1 <= x0 or min(ends) <= low.value:
            raise NoPlane
        across = [(x0, left.back), (x1, work("wall - set_back", "m", source=_SOURCE, wall=s.width, set_back=right.back))]
        up = [(low.value, low), (ends[0], top)]
        if not limited and ends[1] != ends[0]:
            up.append((ends[1], work("height - joint", "m", source=_SOURCE, height=heights[1], joint=high)))
        up += [(y, self._above_fall(y)) for y in dict.fromkeys(y for _, y in foot) if y != low.value]
        # A door stands on the finished floor, also where that has fallen.
        sunk = min(y for _, y in foot)
        holes = [replace(b, low=min(b.low, sunk)) if b.low <= 0 else b for b in (geometry.box(o.rect) for o in s.openings)]
        holes += [geometry.box(r) for r in s.untiled]
        holes += [geometry.box(n.rect) for n in s.niches]
        baths = behind_baths(self.room, s)
        holes += [self._over_bath(b, wide) for b in baths]
        for b in baths:
            rim = work("rim + joint", "m", source=_SOURCE, rim=b.height, joint=self.fitting)
            up.append((rim.value, rim))
        main = s.field or s.coverings[0]
        boxed = list(self._boxings(s))
        holes += [self._behind(s, main, box) for _, _, box in boxed]
        scales = _scales(s, across, up, self._rects(s))
        face = Face(
            s.id, s.id, "wall", "", outline, tuple(box_ring(h) for h in holes), *scales,
            (("left", left.back), ("right", right.back), ("low", low), ("high", nought("end of tiling") if limited else high)),
        )
        return [face, *self._niches(s), *self._reveals(s, across, (low, top)), *self._boxing_faces(s, main, boxed, top)]

    def _above_fall(self, y: Fraction) -> Quantity:
        """The lower edge of a wall's tiles where the floor has fallen."""
        assert self.ground is not None
        why = Worked("height in the plane of the fall", (("fall", self.ground.slope),), "plane geometry of the fall")
        fallen = Quantity(y - self.edge.value, Kind.LENGTH, UNITS["mm"], why)
        return work("floor + joint", "mm", source=_SOURCE, floor=fallen, joint=self.edge)

    def _foot(self, s: Surface, x0: Fraction, x1: Fraction) -> list[Point]:
        """The lower edge of a wall's tiles, from left to right: a joint above the finished floor, which may fall along it."""
        joint = self.edge.value
        line = wall_line(self.room, s.letter)
        if self.ground is None or line is None:
            return [(x0, joint), (x1, joint)]
        (ax, ay), (bx, by), g = line.start, line.end, self.ground
        ux, uy = (bx - ax) / line.length.value, (by - ay) / line.length.value

        def height(t: Fraction) -> Fraction:
            return g.height(ax + ux * t, ay + uy * t)

        marks = {x0, x1}
        for at, step, places in ((ax, ux, (g.box.left, g.box.right, g.spot[0])), (ay, uy, (g.box.low, g.box.high, g.spot[1]))):
            marks |= {t for p in places if step for t in [(p - at) / step] if x0 < t < x1}
        ordered = sorted(marks)
        foot: list[Point] = []
        for a, b in zip(ordered, ordered[1:], strict=False):
            # Straight in between: its ends from two places inside, as the floor may step where the fall begins.
            one, two = height(a + (b - a) / 3), height(b - (b - a) / 3)
            foot += [(a, 2 * one - two + joint), (b, 2 * two - one + joint)]
        kept = [p for n, p in enumerate(foot) if n == 0 or p != foot[n - 1]]
        if len({y for _, y in kept}) == 1:
            return [kept[0], kept[-1]]
        return kept

    def _over_bath(self, rect: Rect, wide: Fraction) -> Box:
        b = geometry.box(rect)
        # The tiles stop a joint above the rim; at its open end the bath's edge is sealed too.
        gap = self.fitting.value
        left = b.left if b.left <= 0 else b.left - gap
        right = b.right if b.right >= wide else b.right + gap
        return Box(left, b.low, right, b.high + gap)

    def _rects(self, s: Surface) -> list[Rect]:
        rects = [o.rect for o in s.openings] + [n.rect for n in s.niches] + list(s.untiled)
        return rects + [c.region for c in s.coverings if c.region is not None]

    def _boxings(self, s: Surface) -> Iterator[tuple[int, Boxing, Box]]:
        line = wall_line(self.room, s.letter)
        for n, b in enumerate(self.room.boxings, 1):
            if line is None or s.letter not in b.walls:
                continue
            start, end = along(line, b.rect)
            if end > start:
                yield n, b, Box(start, _ZERO, end, b.height.value)

    def _behind(self, s: Surface, main: Covering, box: Box) -> Box:
        """What a boxing with its tiles takes from the wall: out to a joint before its own tiles at its open sides."""
        gap = thickness(s, main, self.practice).value + self.corner.value
        left = box.left - gap if box.left > 0 else box.left
        right = box.right + gap if box.right < s.width.value else box.right
        return Box(left, box.low, right, box.high + gap)

    def _boxing_faces(
        self, s: Surface, main: Covering, boxed: Sequence[tuple[int, Boxing, Box]], top: Quantity,
    ) -> Iterator[Face]:
        """The front of a boxing, and on the wall it is named for first its open sides and its top."""
        line = wall_line(self.room, s.letter)
        if line is None:
            return
        build = thickness(s, main, self.practice)
        for n, b, box in boxed:
            front, out = side(line, b.rect), depth(line, b.rect)
            topped = b.height.value < top.value
            if topped:
                height = work("height + tile - joint", "m", source="boxing: up to the face of the tiles on top", height=b.height,
                              tile=build, joint=self.edge)
            else:
                height = work("height - joint", "m", source=_SOURCE, height=top, joint=self.edge)
            wide = self._boxing_width(s, box, front, build)
            deep = work("depth - joint", "m", source="boxing: from the wall's tiles to its front", depth=out, joint=self.corner)
            spot = ((box.left + box.right) / 2, box.high / 2)
            level = (None, self.edge)
            yield self._added(s, f"boxing {n} front", "boxing", "front", wide, height, level, spot)
            if len(b.walls) == 1:
                for name, there in (("left", box.left > 0), ("right", box.right < s.width.value)):
                    if there:
                        yield self._added(s, f"boxing {n} {name}", "boxing", name, deep, height, level, spot)
            if b.walls[:1] == (s.letter,) and topped:
                yield self._added(s, f"boxing {n} top", "boxing", "top", wide, deep, (None, None), spot)

    def _boxing_width(self, s: Surface, box: Box, front: Quantity, build: Quantity) -> Quantity:
        """Out to the tile faces at its open sides; at a closed one it ends where the wall it stands on does."""
        sides = (box.left > 0, box.right < s.width.value)
        backs = {f"{name}_set_back": self._end(s, at_end).back
                 for name, at_end, free in (("left", False, sides[0]), ("right", True, sides[1])) if not free}
        formula = " - ".join(["width + sides * tile", *backs])
        return work(formula, "m", source="boxing: out to the tile faces at its open sides", width=front,
                    sides=counted(sum(sides), "open sides of the boxing"), tile=build, **backs)

    def _niches(self, s: Surface) -> Iterator[Face]:
        for n, niche in enumerate(s.niches, 1):
            r = niche.rect
            wide, high = (work("size - 2 * joint", "m", source="inside of a niche, less the joint in its corners", size=q,
                               joint=self.corner) for q in (r.width, r.height))
            wall, lining = self._lining(s), self._lining(s, niche.tile)
            if wall is None or lining is None or wall.value == lining.value:
                deep = work("depth - joint", "m", source="inside of a niche, less the joint at its back", depth=niche.depth,
                            joint=self.corner)
            else:
                deep = work("depth + tile_of_wall - lining - joint", "m", source="inside of a niche, from its tiles at the back",
                            depth=niche.depth, tile_of_wall=wall, lining=lining, joint=self.corner)
            if min(wide.value, high.value, deep.value) <= 0:
                continue
            x, y = (work("edge + joint", "m", source="inside of a niche", edge=q, joint=self.corner) for q in (r.x, r.y))
            spot = ((r.x.value + r.right) / 2, (r.y.value + r.top) / 2)
            yield self._added(s, f"niche {n} back", "niche", "back", wide, high, (x, y), spot, niche.tile)
            foot, tall = self._between(r.y, r.height, lining, (True, True))
            for name in ("left", "right") if tall.value > 0 else ():
                yield self._added(s, f"niche {n} {name}", "niche", name, deep, tall, (None, foot), spot, niche.tile)
            for name in ("bottom", "top"):
                yield self._added(s, f"niche {n} {name}", "niche", name, wide, deep, (x, None), spot, niche.tile)

    def _lining(self, s: Surface, tile: Tile | None = None) -> Quantity | None:
        """How far the tiles inside an opening or a niche stand off its bare sides; None in rooms measured to the tile face."""
        main = s.field or s.coverings[0]
        if self.to_face:
            return None
        return thickness(s, replace(main, tile=tile) if tile is not None else main, self.practice)

    def _between(
        self, at: Quantity, size: Quantity, build: Quantity | None, ends: tuple[bool, bool],
    ) -> tuple[Quantity, Quantity]:
        """Where an upright inside face begins and how tall it is: it stands between the tiles of the sill and of the head."""
        if build is None:
            build = nought("measured to the tile face")
        start = work("edge + tile + joint", "m", source="inside face: on the tiles of the sill", edge=at, tile=build,
                     joint=self.corner)
        tall = work("size - ends * (tile + joint)", "m", source="inside face: between the tiles of sill and head", size=size,
                    ends=counted(sum(ends), "of sill and head, those that are tiled"), tile=build, joint=self.corner)
        return (start if ends[0] else at), (tall if any(ends) else size)

    def _reveals(
        self, s: Surface, across: Sequence[tuple[Fraction, Quantity]], up: tuple[Quantity, Quantity],
    ) -> Iterator[Face]:
        """The inside faces of openings. Where an opening reaches a corner of the room, they end with the wall's tiles."""
        (left, left_q), (right, right_q) = across[:2]
        low, high = up
        count: dict[str, int] = {}
        for o in s.openings:
            count[o.kind] = count.get(o.kind, 0) + 1
            if o.reveal is None or o.reveal.value <= self.corner.value:
                continue
            r = geometry.box(o.rect)
            build = self._lining(s)
            if build is None:
                deep = work("reveal - joint", "m", source="inside of an opening, less the joint at its frame", reveal=o.reveal,
                            joint=self.corner)
            else:
                deep = work("reveal + tile - joint", "m", source="inside of an opening, out to the wall's tile face",
                            reveal=o.reveal, tile=build, joint=self.corner)
            inside = {
                "left": left < r.left < right, "right": left < r.right < right,
                "bottom": low.value < r.low < high.value, "top": low.value < r.high < high.value,
            }
            x, wide = _within(o.rect.x, o.rect.width, left_q, right_q)
            y, tall = _within(o.rect.y, o.rect.height, low, high)
            if min(wide.value, tall.value) <= 0:
                continue
            y, tall = self._between(y, tall, build, (inside["bottom"], inside["top"]))
            spot = ((r.left + r.right) / 2, (r.low + r.high) / 2)
            for name, there in inside.items():
                if there and name in ("left", "right") and tall.value > 0:
                    yield self._added(s, f"{o.kind} {count[o.kind]} {name}", "reveal", name, deep, tall, (None, y), spot)
                elif there and name in ("bottom", "top"):
                    yield self._added(s, f"{o.kind} {count[o.kind]} {name}", "reveal", name, wide, deep, (x, None), spot)

    def _added(
        self, s: Surface, name: str, kind: str, at: str, wide: Quantity, high: Quantity,
        origin: tuple[Quantity | None, Quantity | None], spot: Point, lining: Tile | None = None,
    ) -> Face:
        across, up = ((_ZERO, nought("left edge")), (wide.value, wide)), ((_ZERO, nought("lower edge")), (high.value, high))
        outline = box_ring(Box(_ZERO, _ZERO, wide.value, high.value))
        return Face(f"{s.id}/{name}", s.id, kind, at, outline, (), Scale(across, wide), Scale(up, high), (), origin, spot, lining)

    # ------------------------------------------------------------ floors

    def floor(self, s: Surface) -> list[Face]:
        room = self.room
        plan = wall_plan(room) if room.walls else s.outline
        gaps = [self._floor_side(w) for w in room.walls] if room.walls else [self.edge] * len(plan)
        outline = set_back(plan, [g.value for g in gaps])
        stood = self._stood(geometry.bounds([*plan, *outline]))
        holes = [b for b, _, _ in stood] + [geometry.box(r) for r in s.untiled]
        grate, square = self.practice.limit("channel-width"), self.practice.limit("drain-width")
        drains = [(p, p.diameter or square) for p in s.penetrations if p.kind == "drain"]
        holes += [Box(p.x.value - d.value / 2, p.y.value - d.value / 2, p.x.value + d.value / 2, p.y.value + d.value / 2)
                  for p, d in drains]
        holes += [channel(p.x, p.y, p.length, p.diameter or grate, self._level(p.along)) for p in s.penetrations
                  if p.kind == "channel" and p.length is not None]
        across, up = self._corners(plan, outline, gaps)
        for p, d in drains:
            for places, middle in ((across, p.x), (up, p.y)):
                for sign in "-+":
                    edge = work(f"middle {sign} grate / 2", "m", source="edge of the drain's grate", middle=middle, grate=d)
                    places.append((edge.value, edge))
        for _, xs, ys in stood:
            across, up = [*across, *xs], [*up, *ys]
        scales = _scales(s, across, up, [*s.untiled, *(c.region for c in s.coverings if c.region is not None)])
        backs = tuple((f"wall {w.letter}", g) for w, g in zip(room.walls, gaps, strict=True)) if room.walls else ()
        return [Face(s.id, s.id, "floor", "", outline, tuple(box_ring(h) for h in holes), *scales, backs)]

    def _stood(self, frame: Box) -> list[tuple[Box, _Places, _Places]]:
        """What stands on the floor with the joint around it, as far as it lies in the room, and where its edges are."""
        found: list[tuple[Box, _Places, _Places]] = []
        for n in standing(self.room):
            joint, b = self.edge if n.name.startswith("boxing") else self.fitting, n.box
            low = [(at.value - joint.value, work("edge - joint", "m", source=_SOURCE, edge=at, joint=joint))
                   for at in (n.rect.x, n.rect.y)]
            high = [(at.value + size.value + joint.value, work("edge + size + joint", "m", source=_SOURCE, edge=at, size=size,
                                                               joint=joint))
                    for at, size in ((n.rect.x, n.rect.width), (n.rect.y, n.rect.height))]
            b = self._to_walls(b)
            grown = Box(b.left - joint.value, b.low - joint.value, b.right + joint.value, b.high + joint.value).within(frame)
            found.append((grown, (low[0], high[0]), (low[1], high[1])))
        return found

    def _to_walls(self, b: Box) -> Box:
        """Measured to the face of the tiles, the floor runs on under them: what stands against a wall stands there too."""
        if not self.to_face or not self.room.walls:
            return b
        left, right, low, high = b.left, b.right, b.low, b.high
        for line in self.room.walls:
            under = self.build(line.letter)
            (x1, y1), (x2, y2) = line.start, line.end
            if under is None:
                continue
            if x1 == x2 and min(y1, y2) < b.high and b.low < max(y1, y2):
                left, right = (left - under.value if x1 == b.left else left), (right + under.value if x1 == b.right else right)
            if y1 == y2 and min(x1, x2) < b.right and b.left < max(x1, x2):
                low, high = (low - under.value if y1 == b.low else low), (high + under.value if y1 == b.high else high)
        return Box(left, low, right, high)

    def _floor_side(self, line: WallLine) -> Quantity:
        build = self.build(line.letter)
        if self.to_face and build is not None:
            return work("joint - tile_of_wall", "mm", source=_SOURCE, joint=self.edge, tile_of_wall=build)
        return self.edge

    def _level(self, letter: str | None) -> bool:
        line = wall_line(self.room, letter) if letter else None
        return line is None or line.start[1] == line.end[1]

    def _corners(
        self, plan: Ring, outline: Ring, gaps: Sequence[Quantity],
    ) -> tuple[list[tuple[Fraction, Quantity]], list[tuple[Fraction, Quantity]]]:
        """The places of the floor's upright and level sides, each from the walls walked before it and the joint at it."""
        found: tuple[list[tuple[Fraction, Quantity]], list[tuple[Fraction, Quantity]]] = ([], [])
        walls = self.room.walls
        if len(walls) != len(plan):
            return found
        for n in range(len(walls)):
            (x1, y1), (x2, y2) = plan[n], plan[(n + 1) % len(plan)]
            axis = 0 if x1 == x2 else 1 if y1 == y2 else None
            if axis is None:
                continue
            bare, at = plan[n][axis], outline[n][axis]
            terms = [(w.length, (w.end[axis] - w.start[axis]) > 0) for w in walls[:n] if w.end[axis] != w.start[axis]]
            sign = "+" if at > bare else "-"
            if not terms:
                place = gaps[n] if at >= 0 else work("-joint", "m", source=_SOURCE, joint=gaps[n])
            else:
                inputs = {f"wall_{k}": q for k, (q, _) in enumerate(terms, 1)}
                text = " ".join(f"{'+' if up else '-'} wall_{k}" for k, (_, up) in enumerate(terms, 1)).removeprefix("+ ")
                place = work(f"{text} {sign} joint", "m", source=_SOURCE, joint=gaps[n], **inputs)
            if place.value == at:
                found[axis].append((at, place))
        return found


def _within(at: Quantity, size: Quantity, low: Quantity, high: Quantity) -> tuple[Quantity, Quantity]:
    """Where a stretch begins, and its length, as far as it lies between two places."""
    end = work("edge + size", "m", source=_SOURCE, edge=at, size=size)
    start, far = at if at.value >= low.value else low, end if end.value <= high.value else high
    if start is at and far is end:
        return at, size
    return start, work("end - start", "m", source=_SOURCE, end=far, start=start)


def channel(x: Quantity, y: Quantity, length: Quantity, width: Quantity, level: bool) -> Box:
    """The slot of a linear drain."""
    a, b = (length.value / 2, width.value / 2) if level else (width.value / 2, length.value / 2)
    return Box(x.value - a, y.value - b, x.value + a, y.value + b)


def _scales(
    s: Surface, across: Sequence[tuple[Fraction, Quantity]], up: Sequence[tuple[Fraction, Quantity]], rects: Sequence[Rect],
) -> tuple[Scale, Scale]:
    xs, ys = list(across), list(up)
    for r in rects:
        xs += [(r.x.value, r.x), (r.right, work("left + width", "m", source=_SOURCE, left=r.x, width=r.width))]
        ys += [(r.y.value, r.y), (r.top, work("bottom + height", "m", source=_SOURCE, bottom=r.y, height=r.height))]
    return Scale(tuple(xs), s.width), Scale(tuple(ys), s.height)
