"""The plan of a room: walls and corners from a rectangle or a walk, and places measured from walls.

Plan coordinates as in job/types.py: x along wall A to the right, y down the page; walls run clockwise, so the room lies to the
right hand of a wall's direction.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction as F

from tilespec.diagnostics.model import Label
from tilespec.job.context import Context
from tilespec.job.types import Corner, Point, Rect, WallLine
from tilespec.quantity import UNITS, Quantity, Worked, work
from tilespec.source import Span
from tilespec.syntax.nodes import Attribute, Statement

Direction = tuple[int, int]
_EAST: Direction = (1, 0)


def _right(d: Direction) -> Direction:
    return (-d[1], d[0])


def _left(d: Direction) -> Direction:
    return (d[1], -d[0])


@dataclass(frozen=True, slots=True)
class Plan:
    walls: tuple[WallLine, ...]
    corners: tuple[Corner, ...]

    @property
    def outline(self) -> tuple[Point, ...]:
        return tuple(w.start for w in self.walls)

    def wall(self, letter: str) -> WallLine | None:
        return next((w for w in self.walls if w.letter == letter), None)

    @property
    def letters(self) -> tuple[str, ...]:
        return tuple(w.letter for w in self.walls)

    def bounds(self) -> tuple[F, F, F, F]:
        xs = [p[0] for p in self.outline]
        ys = [p[1] for p in self.outline]
        return min(xs), min(ys), max(xs), max(ys)

    def corner(self, a: str, b: str) -> Corner | None:
        return next((c for c in self.corners if {c.before, c.after} == {a, b}), None)


def direction(wall: WallLine) -> Direction:
    (x, y), (to_x, to_y) = wall.start, wall.end
    return ((to_x > x) - (to_x < x), (to_y > y) - (to_y < y))


def inward(wall: WallLine) -> Direction:
    return _right(direction(wall))


def rectangle(width: Quantity, depth: Quantity, stated: tuple[str, ...]) -> Plan:
    """Four walls A to D around a rectangle; `width` along wall A."""
    w, d = width.value, depth.value
    points: list[Point] = [(F(0), F(0)), (w, F(0)), (w, d), (F(0), d)]
    letters = "ABCD"
    lengths = (width, depth, width, depth)
    walls = tuple(WallLine(letters[i], points[i], points[(i + 1) % 4], lengths[i], letters[i] in stated) for i in range(4))
    corners = tuple(Corner(letters[i - 1], letters[i], points[i], True) for i in range(4))
    return Plan(walls, corners)


@dataclass(frozen=True, slots=True)
class _Leg:
    letter: str
    length: Quantity
    internal_after: bool
    span: Span


def walk(st: Statement, attribute: Attribute, stated: tuple[str, ...], room: str, context: Context) -> Plan | None:
    """Walls by walking round the room, clockwise seen from above: right at each corner, left where it is external."""
    legs: list[_Leg] = []
    atoms = attribute.args
    i = 0
    ok = True
    while i < len(atoms):
        a = atoms[i]
        if a.kind == "turn":
            if a.text.lower() not in ("external", "internal"):
                context.unknown("unknown-choice", st.span(a), f"There is no `{a.text}` corner.", a.text, ("external", "internal"))
                ok = False
            elif legs:
                last = legs[-1]
                legs[-1] = _Leg(last.letter, last.length, a.text.lower() == "internal", last.span)
            i += 1
            continue
        length = context.number(st, atoms[i + 1], "room-side")
        if any(leg.letter == a.text for leg in legs):
            context.report(
                "duplicate-name", st.span(a), f"Wall {a.text} stands twice in the walk.", help="Give each wall its own letter."
            )
            ok = False
        if length is None:
            ok = False
        else:
            legs.append(_Leg(a.text, length, True, st.span(a).to(st.span(atoms[i + 1]))))
        i += 2
    if not ok:
        return None
    span = st.span(attribute)
    turns = sum(1 if leg.internal_after else -1 for leg in legs)
    if len(legs) < 4 or turns != 4:
        need = "external" if turns > 4 else "internal"
        context.report(
            "walk-open",
            span,
            f"The walk does not come round: it turns right {turns} quarter turns on balance, not 4.",
            help=(
                f"Check the corners: each is internal unless `corner external` stands between its walls; one more {need} corner,"
                " or a wall missing?"
            ),
        )
        return None
    at: tuple[F, F] = (F(0), F(0))
    d = _EAST
    points: list[Point] = []
    headings: list[Direction] = []
    for leg in legs:
        points.append(at)
        headings.append(d)
        at = (at[0] + d[0] * leg.length.value, at[1] + d[1] * leg.length.value)
        d = _right(d) if leg.internal_after else _left(d)
    gap_x, gap_y = at
    allowed = context.practice.limit("walk-misclosure").value
    if abs(gap_x) > allowed or abs(gap_y) > allowed:
        parts = [
            f"{float(abs(g) * 1000):g} mm {side}"
            for g, side in ((gap_x, "along wall " + legs[0].letter), (gap_y, "across it"))
            if g
        ]
        candidates = []
        for gap, axis in ((gap_x, 0), (gap_y, 1)):
            if gap:
                for leg, heading in zip(legs, headings, strict=True):
                    if heading[axis]:
                        right = leg.length.value - gap * heading[axis]
                        if right > 0:
                            candidates.append(f"{leg.letter} {float(right):g} m")
        help = "Measure again. It would close with " + " or ".join(candidates[:4]) + "." if candidates else "Measure again."
        context.report(
            "walk-open", span, f"The walk does not close: it ends {' and '.join(parts)} from where it started.", help=help
        )
        return None
    # A small misclosure is what a tape gives: the last wall of each direction takes it.
    closed = list(legs)
    if gap_x or gap_y:
        context.ask(
            "walk-misclosure",
            room,
            f"The walk misses its start by {float(abs(gap_x) * 1000):g} and {float(abs(gap_y) * 1000):g} mm: which wall is it?",
            "survey",
            None,
            span,
        )
    walls_points = points
    if gap_x or gap_y:
        walls_points = list(points)
        for axis, gap in ((0, gap_x), (1, gap_y)):
            if not gap:
                continue
            turn = max(k for k, h in enumerate(headings) if h[axis])
            for later in range(turn + 1, len(walls_points)):
                x, y = walls_points[later]
                walls_points[later] = (x - gap, y) if axis == 0 else (x, y - gap)
    n = len(closed)
    walls = []
    for k, leg in enumerate(closed):
        start, end = walls_points[k], walls_points[(k + 1) % n]
        walls.append(WallLine(leg.letter, start, end, leg.length, leg.letter in stated))
    corners = tuple(
        Corner(closed[k - 1].letter, closed[k].letter, walls_points[k], closed[k - 1].internal_after) for k in range(n)
    )
    if (crossed := crossing(tuple(walls))) is not None:
        one, other = (next(leg for leg in closed if leg.letter == w.letter) for w in crossed)
        context.report(
            "walk-crosses",
            other.span,
            f"The walk crosses itself: wall {other.letter} meets wall {one.letter}, which is not its neighbour.",
            help="Check the lengths and which corners are external.",
            secondary=(Label(one.span, f"wall {one.letter}"),),
        )
        return None
    return Plan(tuple(walls), corners)


def from_lengths(lengths: dict[str, Quantity], context: Context, room: str, span: Span | None) -> Plan | None:
    """A plan for a room whose floor is not said: a rectangle on the walls that are. None when no wall has a length."""
    if not lengths:
        return None
    width = lengths.get("A") or lengths.get("C") or next(iter(lengths.values()))
    depth = lengths.get("B") or lengths.get("D") or width
    context.ask(
        "floor-size",
        room,
        f"What are the sizes of the floor of {room}? (walls are placed around a rectangle meanwhile)",
        "survey",
        None,
        span,
    )
    return rectangle(width, depth, tuple(lengths))


def offset(st: Statement, attribute: Attribute, plan: Plan, context: Context) -> tuple[int, F, Direction, Quantity] | None:
    """A distance `from wall X`: axis (0 x, 1 y), coordinate of the line that far inside, inward direction, and the distance."""
    distance, letter = attribute.args[0], attribute.args[1]
    wall = plan.wall(letter.text)
    if wall is None:
        context.unknown_wall(st.span(letter), f"This room has no wall {letter.text}.", letter.text, plan.letters)
        return None
    q = context.number(st, distance, "place")
    if q is None:
        return None
    normal = inward(wall)
    axis = 0 if normal[0] else 1
    line = wall.start[axis] + normal[axis] * q.value
    return axis, line, normal, q


def point(
    st: Statement, said: tuple[Attribute, ...], plan: Plan, context: Context, what: str, span: Span
) -> tuple[Quantity, Quantity] | None:
    """A point on the floor from two walls that stand square to each other."""
    found: dict[int, Quantity] = {}
    for a in said:
        if a.kind != "from_wall":
            continue
        place = offset(st, a, plan, context)
        if place is None:
            return None
        axis, line, normal, q = place
        if axis in found:
            same_way(st, said, a, plan, what, context)
            return None
        found[axis] = at_line(line, normal[axis], q, plan, axis)
    if len(found) < 2:
        letters = plan.letters
        context.report(
            "missing-detail",
            span,
            f"It is not clear where {what} is.",
            help=f"Say it from two walls: `0.45 from wall {letters[-1]}, 0.45 from wall {letters[0]}`.",
        )
        return None
    return found[0], found[1]


def same_way(st: Statement, said: tuple[Attribute, ...], later: Attribute, plan: Plan, what: str, context: Context) -> None:
    """Tell that two distances are measured in the same direction. From one wall twice: that is told with the statement."""
    wall = plan.wall(later.args[1].text)
    assert wall is not None
    axes = {line.letter: inward(line) for line in plan.walls}
    normal = axes[wall.letter]
    first = next(a for a in said if a.kind == "from_wall" and axes[a.args[1].text] in (normal, (-normal[0], -normal[1])))
    letter = first.args[1].text
    if letter == wall.letter:
        return
    other = next(c for c in plan.corners if letter in (c.before, c.after))
    meets = other.before if other.after == letter else other.after
    how = "face each other" if axes[letter] != normal else "run the same way"
    measured = [axes[a.args[1].text] for a in said if a.kind == "from_wall" and a.args[1].text in axes]
    square = any(bool(way[0]) != bool(normal[0]) for way in measured)
    context.report(
        "said-twice" if square else "missing-detail",
        st.span(later),
        f"Walls {letter} and {wall.letter} {how}: between them {what} is placed twice.",
        help=f"Say it from two walls that meet, for example `{first.args[0].text} from wall {letter}, 0.45 from wall {meets}`.",
        secondary=(Label(st.span(first), "said here first"),),
    )


def at_line(line: F, sign: int, distance: Quantity, plan: Plan, axis: int) -> Quantity:
    """The plan coordinate of a line, traced to the distance it was measured by."""
    if sign > 0 and line == distance.value:
        return distance
    base = Quantity(line - sign * distance.value, distance.kind, UNITS["m"], distance.why)
    return work(
        "wall + distance" if sign > 0 else "wall - distance", "m", source="plan of the room", wall=base, distance=distance
    )


def rect(
    st: Statement,
    said: tuple[Attribute, ...],
    size: tuple[Quantity, Quantity],
    plan: Plan,
    context: Context,
    what: str,
    span: Span,
) -> Rect | None:
    """A rectangle on the floor: its size along x and y, and the distances of its nearest edges from walls."""
    x: Quantity | None = None
    y: Quantity | None = None
    for a in said:
        if a.kind != "from_wall":
            continue
        place = offset(st, a, plan, context)
        if place is None:
            return None
        axis, line, normal, q = place
        edge = at_line(line, normal[axis], q, plan, axis)
        if normal[axis] < 0:
            edge = work("edge - side", "m", source="plan of the room", edge=edge, side=size[axis])
        if (x, y)[axis] is not None:
            same_way(st, said, a, plan, what, context)
            return None
        if axis == 0:
            x = edge
        else:
            y = edge
    if x is None or y is None:
        context.report(
            "missing-detail",
            span,
            f"It is not clear where {what} is.",
            help=f"Say it from two walls: `0.2 from wall {plan.letters[-1]}, 0 from wall {plan.letters[0]}`.",
        )
        return None
    return Rect(x, y, size[0], size[1], span)


def corner_rect(corner: Corner, first: str, a: Quantity, b: Quantity, plan: Plan, span: Span) -> Rect:
    """A rectangle in a corner: `a` along the wall named first, `b` along the other."""
    one, other = plan.wall(corner.before), plan.wall(corner.after)
    assert one and other
    first_wall = one if one.letter == first else other
    along_x = direction(first_wall)[0] != 0
    sx, sy = (a, b) if along_x else (b, a)
    # Into the room from the corner: both walls' inward sides.
    into = (inward(one)[0] + inward(other)[0], inward(one)[1] + inward(other)[1])
    cx, cy = corner.point
    zero = work("size - size", "m", source="plan of the room", size=sx)
    x = _corner_coordinate(cx, into[0], sx, zero)
    y = _corner_coordinate(cy, into[1], sy, zero)
    return Rect(x, y, sx, sy, span)


def _corner_coordinate(at: F, into: int, side: Quantity, zero: Quantity) -> Quantity:
    corner = Quantity(at, side.kind, zero.shown, zero.why if at == 0 else side.why)
    if into > 0:
        return corner
    return work("corner - side", "m", source="plan of the room", corner=corner, side=side)


def wall_rect(wall: WallLine, from_left: Quantity, along: Quantity, deep: Quantity, span: Span) -> Rect:
    """A rectangle that stands against a wall, `from_left` as seen facing it from inside."""
    d, n = direction(wall), inward(wall)
    # Facing a wall from inside, with walls clockwise, its direction runs from left to right.
    start = (wall.start[0] + d[0] * from_left.value, wall.start[1] + d[1] * from_left.value)
    end = (start[0] + d[0] * along.value + n[0] * deep.value, start[1] + d[1] * along.value + n[1] * deep.value)
    x, y = min(start[0], end[0]), min(start[1], end[1])
    sx, sy = (along, deep) if d[0] else (deep, along)
    shown = from_left.shown
    return Rect(
        Quantity(x, from_left.kind, shown, from_left.why), Quantity(y, from_left.kind, shown, from_left.why), sx, sy, span
    )


def touches(wall: WallLine, r: Rect) -> tuple[F, F] | None:
    """The stretch of a wall (from its left, facing it) that an edge of a plan rectangle lies on; None when it does not touch."""
    d = direction(wall)
    axis, across = (0, 1) if d[0] else (1, 0)
    low = (r.x.value, r.y.value)
    high = (r.right, r.top)
    tolerance = F(5, 1000)
    line = wall.start[across]
    n = inward(wall)
    edge = low[across] if n[across] > 0 else high[across]
    if abs(edge - line) > tolerance:
        return None
    a, b = (low[axis], high[axis]) if d[axis] > 0 else (high[axis], low[axis])
    left = (a - wall.start[axis]) * d[axis]
    right = (b - wall.start[axis]) * d[axis]
    length = abs(wall.end[axis] - wall.start[axis])
    left, right = max(left, F(0)), min(right, length)
    return (left, right) if right - left > tolerance else None


def stretch_on(wall: WallLine, r: Rect) -> tuple[Quantity, Quantity] | None:
    """The same stretch as quantities, worked from the rectangle's edges and the wall's ends."""
    found = touches(wall, r)
    if found is None:
        return None
    axis = 0 if direction(wall)[0] else 1
    low, side = (r.x, r.width) if axis == 0 else (r.y, r.height)
    high = work("near_edge + side", "m", source="plan of the room", near_edge=low, side=side)
    length = wall.length
    shown = UNITS["m"]

    def end(value: F) -> Quantity:
        return Quantity(value, length.kind, shown, Worked("end of the wall in the plan", (("wall", length),), "plan of the room"))

    start, finish = end(wall.start[axis]), end(wall.end[axis])
    forward = direction(wall)[axis] > 0
    left = work("max(edge, end) - end" if forward else "end - min(edge, end)", "m", source="plan of the room",
                edge=low if forward else high, end=start)
    right = work("min(edge, far_end) - end" if forward else "end - max(edge, far_end)", "m", source="plan of the room",
                 edge=high if forward else low, end=start, far_end=finish)
    return left, right


def narrowest(plan: Plan) -> F:
    """The least distance of two walls that face each other, in metres."""
    apart = []
    for one in plan.walls:
        n = inward(one)
        axis = 0 if n[0] else 1
        low, high = sorted((one.start[1 - axis], one.end[1 - axis]))
        for other in plan.walls:
            distance = (other.start[axis] - one.start[axis]) * n[axis]
            a, b = sorted((other.start[1 - axis], other.end[1 - axis]))
            if inward(other)[axis] == -n[axis] and distance > 0 and min(high, b) > max(low, a):
                apart.append(distance)
    return min(apart)


def inside(plan: Plan, x: F, y: F) -> bool:
    """Whether a point lies in the room (edges count)."""
    points = plan.outline
    n = len(points)
    result = False
    for i in range(n):
        (x1, y1), (x2, y2) = points[i], points[(i + 1) % n]
        if (x - x1) * (y2 - y1) == (y - y1) * (x2 - x1) and min(x1, x2) <= x <= max(x1, x2) and min(y1, y2) <= y <= max(y1, y2):
            return True
        if (y1 > y) != (y2 > y) and x < (x2 - x1) * (y - y1) / (y2 - y1) + x1:
            result = not result
    return result


def rect_inside(plan: Plan, r: Rect, tolerance: F = F(5, 1000)) -> bool:
    """Whether a rectangle lies in the room: its corners do, and no wall runs through it."""
    x0, y0, x1, y1 = r.x.value + tolerance, r.y.value + tolerance, r.right - tolerance, r.top - tolerance
    if not all(inside(plan, x, y) for x in (x0, x1) for y in (y0, y1)):
        return False
    return not any(_through(w, x0, y0, x1, y1) for w in plan.walls)


def _through(wall: WallLine, x0: F, y0: F, x1: F, y1: F) -> bool:
    (ax, bx), (ay, by) = sorted((wall.start[0], wall.end[0])), sorted((wall.start[1], wall.end[1]))
    return ax < x1 and bx > x0 and ay < y1 and by > y0


def round_inside(plan: Plan, x: F, y: F, radius: F, tolerance: F = F(5, 1000)) -> bool:
    """Whether a round thing lies in the room: no wall is nearer to its middle than its edge."""
    near = radius - tolerance
    for wall in plan.walls:
        (ax, bx), (ay, by) = sorted((wall.start[0], wall.end[0])), sorted((wall.start[1], wall.end[1]))
        dx, dy = max(ax - x, F(0), x - bx), max(ay - y, F(0), y - by)
        if near > 0 and dx * dx + dy * dy < near * near:
            return False
    return inside(plan, x, y)


def crossing(walls: tuple[WallLine, ...]) -> tuple[WallLine, WallLine] | None:
    """Two walls that meet where they are not neighbours."""
    for n, one in enumerate(walls):
        for m in range(n + 2, len(walls) - (n == 0)):
            other = walls[m]
            if all(
                min(max(one.start[i], one.end[i]), max(other.start[i], other.end[i]))
                >= max(min(one.start[i], one.end[i]), min(other.start[i], other.end[i]))
                for i in (0, 1)
            ):
                return one, other
    return None
