"""The set-out as a whole: faces, where the courses start on each, every piece, the cut lists, and what lines up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil

from tilespec.job.types import Job, Room, Surface, Tile
from tilespec.practice.lookup import Practice
from tilespec.quantity import UNITS, Kind, Quantity, Worked, counted, work
from tilespec.setout import align, falls, geometry, plane, search, start, turned
from tilespec.setout.area import shapes
from tilespec.setout.cutlist import cut_list
from tilespec.setout.engine import Filled, Lattice, drilled, fill
from tilespec.setout.fold import folded
from tilespec.setout.frame import place
from tilespec.setout.geometry import Box, set_back
from tilespec.setout.judge import Score, total
from tilespec.setout.pattern import OFFSET
from tilespec.setout.search import Found
from tilespec.setout.standing import wall_line
from tilespec.setout.start import Placed, Site
from tilespec.setout.types import Alignment, Begin, Candidate, Face, Falls, Hole, Layout, Ring, Row, SetOut, Shape

_MM = 1000
_AXES = ("across", "up")
_READ = Fraction(1, 10_000)        # m: a tape reads no finer


def lay(job: Job, practice: Practice) -> SetOut:
    """Set out every tiled face of a job, from the best start where the spec leaves it open."""
    faces = plane.faces(job, practice)
    layouts: list[Layout] = []
    alignments: list[Alignment] = []
    fallen: list[Falls] = []
    for room in job.rooms:
        own = [f for f in faces if any(f.surface == s.id for s in room.surfaces)]
        maker = _Room(room, own, practice)
        laid = maker.lay()
        layouts += laid
        alignments += align.report(room, laid)
        if maker.ground is not None:
            fallen.append(falls.report(room, maker.ground, maker.folds))
    return SetOut(faces, tuple(layouts), tuple(alignments), tuple(fallen))


@dataclass(slots=True)
class _Open:
    """A site while its start is being settled: per direction what is placed, and what was searched for."""

    site: Site
    placed: list[Placed | None]
    found: list[Found | None] = field(default_factory=lambda: [None, None])
    choice: tuple[turned.Choice, turned.Choice | None] | None = None
    open: tuple[str, ...] = ()


class _Room:
    def __init__(self, room: Room, faces: Sequence[Face], practice: Practice) -> None:
        self.room, self.faces, self.practice = room, faces, practice
        self.surface = {s.id: s for s in room.surfaces}
        self.ground = falls.ground(room)
        self.folds = self.ground.lines if self.ground is not None else ()

    def lay(self) -> list[Layout]:
        main = [
            _Open(site, [start.said(site, 0), start.said(site, 1)])
            for f in self.faces if f.id == f.surface for site in sites(self.room, f)
        ]
        follows_floor = any("floor" in o.site.covering.start.follows for o in main)
        self._follow(main)
        self._levels([o for o in main if not o.site.floor])
        # Walls first, unless one of them goes by the floor; the field before what lies in it; who follows after who leads.
        order = sorted(main, key=lambda o: (
            o.site.floor != follows_floor, bool(o.site.covering.start.follows), o.site.covering.role not in ("field", "border"),
        ))
        for o in order:
            self._follow(main)
            self._settle(o, main)
        added = [self._added(f, main) for f in self.faces if f.id != f.surface]
        layouts: list[Layout] = []
        numbers: dict[str, int] = {}
        for o in [*main, *(a for a in added if a is not None)]:
            surface = o.site.surface.id
            for made in self._layouts(o, numbers.get(surface, 1)):
                numbers[surface] = max((r.number + 1 for r in made.rows), default=numbers.get(surface, 1))
                layouts.append(made)
        return layouts

    # ------------------------------------------------------------ faces out of the plane

    def _added(self, face: Face, main: Sequence[_Open]) -> _Open | None:
        """A face outside the surface's plane: the courses around it run on, and its cuts lie at the back."""
        surface = self.surface[face.surface]
        here = [o for o in main if o.site.surface.id == surface.id]
        if not here or face.spot is None:
            return None
        inside = [o for o in here if (r := o.site.covering.region) is not None and geometry.box(r).holds(*face.spot)]
        around = inside[-1] if inside else here[0]
        c = around.site.covering
        tile = face.lining or c.tile
        joint = c.joint
        if face.lining is not None and tile.mosaic and tile.chip_joint is not None:
            joint = tile.chip_joint
        own = replace(c, tile=tile, joint=joint, role=face.kind, region=None, border=None)
        width, height = work_size(tile, joint)
        site = Site(self.room, surface, face, own, (Shape(face.outline),), geometry.bounds(face.outline), width, height)
        o = _Open(site, [None, None])
        for axis in (0, 1):
            deep = face.side in (("left", "right"), ("top", "bottom"))[axis]
            begun, edge = around.placed[axis], face.origin[axis]
            if deep:
                # Looking at the left side of a niche, the room is on the left; at that of a boxing, on the right.
                at_end = axis == 0 and (face.side == "right") != (face.kind == "boxing")
                o.placed[axis] = start.from_edge(site, axis, at_end, "full tile at the front")
            elif site.coursed and edge is not None and begun is not None and site.module(axis) == around.site.module(axis):
                q = work("start - edge", "mm", source="courses that run on from the wall", start=begun.corner, edge=edge)
                o.placed[axis] = Placed(q, q, "courses run on from the wall")
        self._settle(o, main)
        return o

    # ------------------------------------------------------------ starts

    def _levels(self, walls: Sequence[_Open]) -> None:
        """Courses upwards where the spec leaves them open: on the level of the room's other walls, or one found for all."""
        waiting = [o for o in walls if o.placed[1] is None and o.site.coursed and o.site.covering.role == "field"
                   and not o.site.covering.start.follows]
        groups: dict[Fraction, list[_Open]] = {}
        for o in waiting:
            groups.setdefault(o.site.module(1), []).append(o)
        for step, group in groups.items():
            said = next((w for w in walls if w.placed[1] is not None and w.site.coursed and w.site.module(1) == step
                         and w.site.covering.role == "field"), None)
            if said is not None and said.placed[1] is not None:
                level = said.placed[1]
                placed = Placed(level.corner, level.line, f"on the level of {said.site.surface.title}")
                for o in group:
                    o.placed[1], o.open = placed, (*o.open, "up")
                continue
            found = search.search_level([o.site for o in group], self.practice)
            for o in group:
                o.placed[1], o.found[1], o.open = found.placed, found, (*o.open, "up")

    def _follow(self, main: Sequence[_Open]) -> None:
        """Starts that the spec takes from another surface, as soon as that one is settled."""
        for o in main:
            for what in o.site.covering.start.follows:
                leader = self._leader(o, what, main)
                if leader is None or leader is o or not o.site.coursed or not leader.site.coursed:
                    continue
                if what != "floor" and not o.site.floor and o.placed[1] is None and (level := leader.placed[1]) is not None:
                    o.placed[1] = Placed(level.corner, level.line, f"on the level of {leader.site.surface.title}")
                axis = self._across(o, leader)
                if axis is not None and o.placed[axis] is None and (q := self._carried(o, leader)) is not None:
                    q = _reached(o.site, axis, q)
                    o.placed[axis] = Placed(q, q, f"joints run on from {leader.site.surface.title}")

    def _leader(self, o: _Open, what: str, main: Sequence[_Open]) -> _Open | None:
        if what == "field":
            return next((m for m in main if m.site.surface.id == o.site.surface.id and m.site.covering.role == "field"), None)
        name = f"{self.room.name}/{what}"
        return next((m for m in main if m.site.surface.id == name and m.site.covering.role == "field"), None)

    def _across(self, o: _Open, leader: _Open) -> int | None:
        """The direction in which a follower's joints meet those of its leader."""
        if o.site.surface.id == leader.site.surface.id or not (o.site.floor or leader.site.floor):
            return 0
        wall = leader if o.site.floor else o
        line = wall_line(self.room, wall.site.surface.letter)
        at = align.on_plan(line) if line is not None else None
        if at is None:
            return None
        return at[0] if o.site.floor else 0

    def _carried(self, o: _Open, leader: _Open) -> Quantity | None:
        """Where a follower's first tile stands."""
        source = "joints that run on from the other surface"
        if o.site.surface.id == leader.site.surface.id:
            begun = leader.placed[0]
            return begun.corner if begun is not None else None
        if o.site.floor or leader.site.floor:
            wall, floor = (leader, o) if o.site.floor else (o, leader)
            line = wall_line(self.room, wall.site.surface.letter)
            at = align.on_plan(line) if line is not None else None
            if at is None or line is None:
                return None
            axis, left, sign = at
            begun = wall.placed[0] if o.site.floor else floor.placed[axis]
            if begun is None:
                return None
            corner = place(left, self.room.walls[0].length)
            if sign > 0:
                formula = "corner + start" if o.site.floor else "start - corner"
                return work(formula, "m", source=source, corner=corner, start=begun.corner)
            # Facing the wall, its left is the plan's far end: a tile's right side there is its near side in plan.
            size = wall.site.width
            return work("corner - start - tile", "m", source=source, corner=corner, start=begun.corner, tile=size)
        # Round a corner: what is left of the leader's last tile begins on this wall, so that the tile wraps.
        begun = leader.placed[0]
        if begun is None:
            return None
        both = {o.site.surface.letter, leader.site.surface.letter}
        shared = next((c for c in self.room.corners if {c.before, c.after} == both), None)
        if shared is None:
            return None
        if shared.before == leader.site.surface.letter:
            return work("own_edge - (edge - start)", "m", source=source, own_edge=o.site.edge(0, False),
                        edge=leader.site.edge(0, True), start=begun.corner)
        return work("own_edge + start - edge", "m", source=source, own_edge=o.site.edge(0, True),
                    edge=leader.site.edge(0, False), start=begun.corner)

    def _settle(self, o: _Open, main: Sequence[_Open]) -> None:
        """Place what is still open."""
        site = o.site
        if not site.coursed:
            self._settle_turned(o)
            return
        role = site.covering.role
        for axis in (0, 1):
            if o.placed[axis] is not None:
                continue
            o.open = (*o.open, _AXES[axis])
            lead = next((m for m in main if m.site.surface.id == site.surface.id and m.site.covering.role == "field"), None)
            same = lead is not None and lead is not o and lead.site.coursed and lead.site.module(axis) == site.module(axis)
            begun = lead.placed[axis] if lead is not None else None
            if role in ("band", "panel") and axis == 1:
                o.placed[axis] = start.from_edge(site, axis, False, f"full tile at the foot of the {role}")
            elif same and begun is not None and axis == 0 and role in ("band", "panel"):
                o.placed[axis] = Placed(begun.corner, begun.line, "joints run on from the field")
            else:
                o.found[axis] = found = search.search(site, axis, self.practice, self._meets(site, axis, main))
                o.placed[axis] = found.placed

    def _settle_turned(self, o: _Open) -> None:
        site = o.site
        known = tuple(turned.placed(site, axis, p) if (p := o.placed[axis]) is not None else None for axis in (0, 1))
        o.open = tuple(name for name, p in zip(_AXES, known, strict=True) if p is None)
        best, second = turned.search(site, (known[0], known[1]), self.practice)
        o.placed = [best.across, best.up]
        o.choice = (best, second) if o.open else None

    def _meets(self, site: Site, axis: int, main: Sequence[_Open]) -> list[float]:
        """Where joints of walls stand on the floor, for a floor of the same module."""
        if not site.floor or site.covering.role != "field":
            return []
        found = []
        for o in main:
            begun = o.placed[0]
            line = wall_line(self.room, o.site.surface.letter) if not o.site.floor else None
            at = align.on_plan(line) if line is not None else None
            if at is None or begun is None or at[0] != axis or not o.site.coursed or o.site.covering.role != "field":
                continue
            if o.site.module(0) == site.module(axis):
                x = begun.corner.value
                place = at[1] + x if at[2] > 0 else at[1] - x - o.site.width.value
                found.append(float(place * _MM))
        return found

    # ------------------------------------------------------------ pieces

    def _layouts(self, o: _Open, number: int) -> Iterator[Layout]:
        """One layout, or one a size where a pattern has two."""
        site = o.site
        across, up = o.placed
        assert across is not None and up is not None
        lattice = turned.lattice(site, across, up)
        filled = self._filled(site, lattice, self._holes(site))
        begin = self._begin(o, across, up, filled, lattice)
        starts = (across.corner, up.corner)
        second = site.covering.pattern.second
        parts = [(filled, site, _area(site))] if second is None else _by_size(filled, site, second)
        for part, own, area in parts:
            pieces, rows = cut_list(part, own, lattice, starts, number)
            number += len(rows)
            rows = tuple(replace(r, thin=_thin(r, own, self.practice)) for r in rows)
            yield Layout(
                site.face.id, site.surface.id, site.covering.role, own.covering, own.width, own.height, site.region, area,
                begin, part.runs, pieces, rows, counted(part.full, "full tiles of one kind on a face"),
            )

    def _filled(self, site: Site, lattice: Lattice, holes: Sequence[Hole]) -> Filled:
        """Tiles over the whole region; where they have to follow the planes of a fall, plane by plane."""
        edge = site.width if site.width.value >= site.height.value else site.height
        if self.ground is None or not site.floor or site.covering.tile.mosaic or not self.ground.lines:
            return fill(site.region, lattice, holes)
        if edge.value <= self.practice.limit("fall-tile-edge-max").value:
            return fill(site.region, lattice, holes)
        least = search.least(site, 0, self.practice)[0].value, search.least(site, 1, self.practice)[0].value
        if site.coursed and site.covering.role == "field":
            self.folds = self.ground.eased(lattice, least, self.room).lines
        filled = folded(fill(site.region, lattice), self.folds, min(least) / 2)
        return drilled(filled, holes)

    def _holes(self, site: Site) -> tuple[Hole, ...]:
        if site.face.id != site.surface.id:
            return ()
        spare, usual = (self.practice.limit(k).value for k in ("hole-spare", "hole-pipe"))
        found = []
        for p in site.surface.penetrations:
            # The grate of a drain, like a channel, is left out of the floor as a whole.
            if p.kind in ("channel", "drain"):
                continue
            size = p.diameter.value if p.diameter is not None else None
            wide = size + spare if size is not None else usual
            found.append(Hole(p.kind, str(p.label) if p.label else "", p.x.value, p.y.value, wide))
        return tuple(found)

    def _begin(self, o: _Open, across: Placed, up: Placed, filled: Filled, lattice: Lattice) -> Begin:
        site = o.site
        line_up = up.line if site.floor else self.room.levels.datum if site.main else up.line
        words = (across.way, up.way)
        chosen, second = self._candidates(o, across, up)
        return Begin(across.line, line_up, _first(filled, lattice), words, o.open, chosen, second)

    def _candidates(self, o: _Open, across: Placed, up: Placed) -> tuple[Candidate | None, Candidate | None]:
        if o.choice is not None:
            first, other = o.choice
            return first.candidate, other.candidate if other is not None else None
        found = [f for f in o.found if f is not None]
        if not found:
            return None, None
        scores = [f.score for f in found]
        mine = total(scores)
        corners = across.corner.value, up.corner.value
        chosen = Candidate((across.way, up.way), *corners, search.criteria(mine))
        best: tuple[Score, Candidate] | None = None
        for axis in (0, 1):
            f = o.found[axis]
            if f is None or f.second is None or f.second_score is None:
                continue
            others = [g.score for n, g in enumerate(o.found) if g is not None and n != axis]
            score = total([f.second_score, *others])
            pair = (f.second, up) if axis == 0 else (across, f.second)
            made = Candidate((pair[0].way, pair[1].way), pair[0].corner.value, pair[1].corner.value, search.criteria(score))
            if best is None or score < best[0]:
                best = score, made
        return chosen, best[1] if best is not None else None


def sites(room: Room, face: Face) -> Iterator[Site]:
    """The coverings of a surface on its own face, each with the region that is left to it."""
    surface = next(s for s in room.surfaces if s.id == face.surface)
    holes = [geometry.bounds(r) for r in face.holes]
    holes += _movement(surface, geometry.bounds(face.outline))
    border = next((c.border for c in surface.coverings if c.role == "border" and c.border is not None), None)
    for n, c in enumerate(surface.coverings):
        later = [_grown(geometry.box(o.region), c.joint.value) for o in surface.coverings[n + 1:] if o.region is not None]
        outline: Ring = face.outline
        but: tuple[Ring, ...] = ()
        if border is not None and c.role in ("field", "border"):
            try:
                if c.role == "border":
                    but = (set_back(outline, [border.value] * len(outline)),)
                else:
                    outline = set_back(outline, [border.value + c.joint.value] * len(outline))
            except ValueError:
                # The frame leaves nothing inside it.
                if c.role == "field":
                    continue
        within = geometry.box(c.region) if c.region is not None else None
        region = shapes(outline, within, (*holes, *later), but)
        if region:
            bounds = [s.bounds for s in region]
            frame = Box(
                min(b[0] for b in bounds), min(b[1] for b in bounds), max(b[2] for b in bounds), max(b[3] for b in bounds),
            )
            yield Site(room, surface, face, c, region, frame, *work_size(c.tile, c.joint))


def _by_size(filled: Filled, site: Site, second: Tile) -> list[tuple[Filled, Site, Quantity]]:
    """The tiles of a pattern of two sizes apart, each with its share of the region: as its module in the whole pattern."""
    limit = (site.width.value + second.width.value) / 2

    def large(tile: Ring) -> bool:
        (x1, y1), (x2, y2) = tile[:2]
        return float((x2 - x1) ** 2 + (y2 - y1) ** 2) > float(limit**2)

    first_larger = site.width.value > second.width.value
    area = _area(site)
    found = []
    for tile, is_first in ((site.covering.tile, True), (second, False)):
        mine = large if is_first == first_larger else (lambda ring: not large(ring))
        part = Filled(tuple(r for r in filled.runs if mine(r.first)), tuple(p for p in filled.pieces if mine(p.tile)))
        joint = site.covering.joint
        width, height = work_size(tile, joint)
        other, _ = work_size(second if is_first else site.covering.tile, joint)
        share = work(
            "area * (own + joint) ** 2 / ((own + joint) ** 2 + (other + joint) ** 2)", "m2", source="pattern of two squares",
            area=area, own=width, other=other, joint=joint,
        )
        c = site.covering
        covering = c if is_first else replace(c, tile=tile, pattern=replace(c.pattern, second=c.tile))
        found.append((part, replace(site, covering=covering, width=width, height=height), share))
    return found


def _reached(site: Site, axis: int, corner: Quantity) -> Quantity:
    """A start that lies beyond the surface, moved by whole tiles to the first joint on it, where a line can be snapped."""
    p, low, high = site.covering.pattern, *site.edges(axis)
    stepping = p.name in OFFSET and (axis == 0) == p.upright
    if low <= corner.value <= high or stepping or p.name not in ("straight", "stack", *OFFSET):
        return corner
    tiles = ceil((low - corner.value) / site.module(axis))
    if not low <= corner.value + tiles * site.module(axis) <= high:
        return corner
    formula = "start + tiles * (tile + joint)" if tiles > 0 else "start - tiles * (tile + joint)"
    return work(formula, "m", source="joints that run on from the other surface", start=corner,
                tiles=counted(abs(tiles), "tiles to the surface"), tile=site.size(axis), joint=site.covering.joint)


def _thin(row: Row, site: Site, practice: Practice) -> bool:
    """A piece, or a leg of one with a corner cut out, is under the least cut. Mosaic is cut between its chips."""
    if site.covering.tile.mosaic:
        return False
    # What is narrower as a whole, such as a reveal, cannot have wider pieces.
    least = [
        limit if site.edges(axis)[1] - site.edges(axis)[0] >= limit else Fraction(0)
        for axis in (0, 1) for limit in [search.least(site, axis, practice)[0].value]
    ]
    # As the search judges it: what is missing by less than a tape reads is not missing.
    least = [v - _READ for v in least]
    size = practice.limit("cut-poor-size").value - _READ
    if row.width.value < least[0] or row.height.value < least[1]:
        return True
    return row.kind == "notch" and any(
        0 < row.width.value - w.value < min(size, least[0]) or 0 < row.height.value - h.value < min(size, least[1])
        for at, w, h in row.notches if at != "inside"
    )


def work_size(tile: Tile, joint: Quantity) -> tuple[Quantity, Quantity]:
    """The size of a piece as it lies: measured on the delivery, where it was. A sheet of so many chips with their joints is sold
    with the joint to the next sheet in its size.
    """
    sides = []
    for side, measured, chip in (
        (tile.width, tile.work_width, tile.chip_width), (tile.height, tile.work_height, tile.chip_height),
    ):
        size = measured or side
        between = tile.chip_joint
        if tile.mosaic and measured is None and chip is not None and between is not None and between.value == joint.value:
            if (side.value / (chip.value + between.value)).denominator == 1:
                size = work("sheet - joint", "mm", source="sheet that is sold with its joint", sheet=side, joint=between)
        sides.append(size)
    return sides[0], sides[1]


def _grown(box: Box, by: Fraction) -> Box:
    return Box(box.left - by, box.low - by, box.right + by, box.high + by)


def _movement(surface: Surface, frame: Box) -> list[Box]:
    found = []
    for j in surface.movement_joints:
        half = j.width.value / 2
        if j.x is not None:
            found.append(Box(j.x.value - half, frame.low - 1, j.x.value + half, frame.high + 1))
        if j.y is not None:
            found.append(Box(frame.left - 1, j.y.value - half, frame.right + 1, j.y.value + half))
    return found


def _area(site: Site) -> Quantity:
    value = sum((s.area for s in site.region), Fraction(0))
    near, far = site.edge(0, False), site.edge(0, True)
    low, high = site.edge(1, False), site.edge(1, True)
    why = Worked("area inside the edges, less what is left out", (("left", near), ("right", far), ("low", low), ("high", high)),
                 "plane geometry of the tile plane")
    return Quantity(value, Kind.AREA, UNITS["m2"], why)


def _first(filled: Filled, lattice: Lattice) -> Ring:
    """The tile to lay first: the full one nearest to the start."""
    x, y = lattice.x, lattice.y
    best: tuple[float, Ring] | None = None
    for run in filled.runs:
        dx, dy = run.step
        square = dx * dx + dy * dy
        n = 0
        if square:
            n = min(max(round(((x - run.first[0][0]) * dx + (y - run.first[0][1]) * dy) / square), 0), run.count - 1)
        ring = tuple((px + dx * n, py + dy * n) for px, py in run.first)
        away = float((ring[0][0] - x) ** 2 + (ring[0][1] - y) ** 2)
        if best is None or away < best[0] - 1e-12:
            best = away, ring
    if best is not None:
        return best[1]
    piece = min(filled.pieces, key=lambda p: float((p.tile[0][0] - x) ** 2 + (p.tile[0][1] - y) ** 2), default=None)
    return piece.tile if piece is not None else ((x, y),)
