"""The plan of a room with everything in it, and the small key plan for the title page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from tilespec.document.drawing import place
from tilespec.document.drawing.dimension import SOURCE, Chain, Row, Stop, away_from, draw, lay, standard, sum_of
from tilespec.document.drawing.fall import draw_falls
from tilespec.document.drawing.ground import Ground, what_is_in
from tilespec.document.drawing.lettering import CAPITAL, PITCH, PLAIN, SMALL, shorten, width, wrap
from tilespec.document.drawing.scale import KEY_PLAN, SCALES, Detail, Paper, bar, largest, paper, words
from tilespec.document.drawing.shape import (
    Box,
    Polygon,
    Spot,
    bounds,
    clip,
    distance,
    hatch,
    inner_outline,
    inside,
    sides,
    union_outline,
)
from tilespec.document.drawing.sheet import ASSUMED, Blank, Entry, Sheet, arrow, cross
from tilespec.document.drawing.svg import plain
from tilespec.document.drawing.types import Drawing, Show
from tilespec.job.types import Basin, Job, Penetration, Rect, Room, Surface
from tilespec.quantity import Quantity, work
from tilespec.setout.types import Falls, SetOut

_BAND = 9.5  # around the room, for the walls' names and lengths
_GAP = 2.5
_LONGEST = 22.0  # of a running dimension with its names
_LONGEST_NAME = 15.0
_PLANES = {"one": "one plane", "two": "two planes", "four": "four planes"}
_HEATING = {"mat": "mat in the adhesive", "cable": "cable in the leveller", "pipes": "pipes in the screed"}


@dataclass(frozen=True, slots=True)
class _Thing:
    """Something on the floor, as a plan rectangle."""

    kind: str  # "shower", "bath", "boxing", "not tiled", "fitting", "keep-out", "covering"
    name: str
    rect: Rect
    full: tuple[tuple[str, ...], ...]
    letter: str = ""


def plan(room: Room, job: Job, setout: SetOut, show: Show | None = None) -> Drawing:
    """The plan of a room at the largest scale that fits the job's paper; `show` as for `elevation`."""
    shown = show or standard(job.family)
    sheet = paper(job.paper)
    falls = next((f for f in setout.falls if f.room == room.name), None)
    return largest(lambda scale, detail: _Plan(room, job, falls, shown, scale, sheet, detail).drawn())


class _Plan(Ground):
    def __init__(
        self, room: Room, job: Job, falls: Falls | None, show: Show, scale: int, sheet: Paper, detail: Detail,
    ) -> None:
        super().__init__(room, scale)
        self.falls = falls
        self.job, self.scale, self.paper, self.detail = job, scale, sheet, detail
        self.sheet = Sheet(show)
        self.floor: Surface | None = room.floor
        self.corners = place.corners(room)
        self.holes = tuple((p, self.sheet.mark()) for p in (self.floor.penetrations if self.floor else ()))
        self.things = self._things()

    # ------------------------------------------------------------ what is in the room

    def _things(self) -> tuple[_Thing, ...]:
        room, say = self.room, self.sheet.say
        found: list[_Thing] = []

        def size(r: Rect) -> str:
            return say(r.width, " × ", r.height)

        for s in room.showers:
            name = "shower with tray" if s.tray else "level shower"
            more = ("with screen",) if s.screen else ()
            found.append(_Thing("shower", "shower", s.rect, ((name, size(s.rect), *more), ("shower", size(s.rect)), ("shower",))))
        for b in room.baths:
            more = ("with screen",) if b.screen else ()
            found.append(
                _Thing(
                    "bath",
                    "bath",
                    b.rect,
                    (("bath", size(b.rect), say("rim ", b.rim, " up"), *more), (say("bath, rim ", b.rim, " up"),)),
                )
            )
        for x in room.boxings:
            found.append(_Thing("boxing", "boxing", x.rect, ((say("boxing ", x.height, " high"),),)))
        if self.floor is None:
            return tuple(found)
        for r in self.floor.untiled:
            found.append(_Thing("not tiled", "not tiled", r, (("not tiled", size(r)), (f"not tiled {size(r)}",), ("not tiled",))))
        for c in self.floor.coverings:
            if c.region is not None:
                found.append(
                    _Thing(
                        "covering", c.role, c.region, ((f"{c.role}: {plain(c.tile.name)}",), (f"{c.role}:", plain(c.tile.name)))
                    )
                )
        for f in self.floor.fittings:
            name = say(f.label) if f.label else f.kind
            if width(name, SMALL) <= _LONGEST_NAME:
                found.append(_Thing("fitting", name, f.rect, ((name, size(f.rect)), (name,))))
            else:
                letter = self.sheet.mark()
                self.sheet.entries.append(Entry("", letter, f"{name}, {size(f.rect)}"))
                found.append(_Thing("fitting", letter, f.rect, ((f"{letter} {f.kind}",),), letter))
        for r in room.heating.keep_out if room.heating else ():
            # Mostly under something that is named already.
            name = "" if any(t.rect == r for t in found) else "no heating"
            found.append(_Thing("keep-out", name, r, ()))
        return tuple(found)

    # ------------------------------------------------------------ running dimensions

    def _rows(self) -> tuple[Row, Row]:
        across, down = Chain(), Chain()
        for axis, chain in ((0, across), (1, down)):
            for q in self.corners[axis].values():
                chain.add(q)
        for t in self.things if self.detail < Detail.OUTLINE else ():
            for chain, low, size, end in (
                (across, t.rect.x, t.rect.width, self.high_x),
                (down, t.rect.y, t.rect.height, self.high_y),
            ):
                if low.value:
                    chain.add(low, t.name)
                if low.value + size.value:
                    chain.add(
                        size if not low.value else sum_of(low, size, "edge", "size"),
                        "" if low.value + size.value == end else t.name,
                    )
        for p, letter in self.holes if self.detail < Detail.NO_HOLES else ():
            across.add(p.x, letter)
            down.add(p.y, letter)
        letters = [w.letter for w in self.room.walls] or ["A"]
        below = lay("below", self._stops(across, self.low_x), -float(self.low_x) * self.k, f"from wall {letters[-1]}")
        left = lay("left", self._stops(down, self.low_y), -float(self.low_y) * self.k, f"from wall {letters[0]}")
        return below, left

    def _stops(self, chain: Chain, low: Fraction) -> tuple[Stop, ...]:
        stops = []
        for q, names in chain.places():
            sign = "−" if q.value < 0 else ""
            value = q if q.value >= 0 else work("place - place - place", "mm", source=SOURCE, place=q)
            text = sign + self.sheet.say(value)
            for n, name in enumerate(names):
                longer = f"{text}, {name}" if n else f"{text} {name}"
                if n and width(longer, SMALL) > _LONGEST:
                    break
                text = longer
            stops.append(Stop((float(q.value) - float(low)) * self.k, text))
        return tuple(stops)

    # ------------------------------------------------------------ the sheet

    def drawn(self) -> Drawing | None:
        """The plan, or None when it does not fit the paper at this scale."""
        below, left = self._rows()
        room_left = max(left.depth + _BAND, -below.low)
        room_right = max(_BAND + 1.0, below.high - self.wide)
        spare = self.paper.width - room_left - room_right - self.wide
        if spare < 0 and self.scale != SCALES[-1]:
            return None
        over, under = max(_BAND, -left.low), max(_BAND, left.high - self.high)
        self.left, self.top = room_left + max(0.0, spare) / 2, over
        end = self.top + self.high + under + below.depth + _GAP
        blanks = self._blanks()
        wide = float(self.paper.width)
        rest = self.paper.height - end - self.sheet.found(blanks, wide, 0, 0, draw=False) - 13.5
        if rest < 10:
            return None
        draw(below, self.sheet.picture, self.top + self.high + under, self.left, lambda _: under)
        draw(left, self.sheet.picture, self.left - _BAND, self.top, lambda _: _BAND)
        self._draw()
        self._explain()
        if self.sheet.key_height(wide) + _GAP > rest:
            if self.detail is Detail.ALL:
                return None
            while self.sheet.entries and self.sheet.key_height(wide) + 8 > rest:
                self.sheet.entries.pop()
        if self.detail is not Detail.ALL:
            self.sheet.explain("note", "there is more than fits here: see the list of positions")
        end += self.sheet.key(wide, 0.0, end) + _GAP
        end += self.sheet.found(blanks, wide, 0.0, end)
        alt, remark = self._alt(), self._remark()
        end += self.sheet.foot(bar(self.scale, self.job.family == "US"), words(self.scale), remark, wide, 0.0, end)
        high = min(ceil(end), self.paper.height)
        return Drawing(
            f"plan/{self.room.name}",
            f"{plain(self.room.name)}: plan",
            self.sheet.picture.render(self.paper.width, high, alt),
            words(self.scale),
            alt,
            self.paper.width,
            high,
            self.sheet.shown,
        )

    def _blanks(self) -> tuple[Blank, ...]:
        say = self.sheet.say
        found = [Blank(f"wall {w.letter}", say(w.length)) for w in self.room.walls]
        for q in self.room.diagonals or (None, None):
            found.append(Blank("diagonal", say(q) if q is not None else ""))
        return tuple(found)

    def _alt(self) -> str:
        room, say = self.room, self.sheet.say
        names = [f"{w.letter} {what_is_in(room, w.letter)}".strip() for w in room.walls]
        text = f"{plain(room.name)}, plan seen from above, wall A at the top; walls clockwise: {', '.join(names)}"
        shown = list(dict.fromkeys(t.kind if t.letter else t.name for t in self.things if t.name))
        if self.holes:
            shown += list(dict.fromkeys(p.kind for p, _ in self.holes))
        if shown:
            text += "; with " + ", ".join(shown)
        if room.fall and self.floor:
            text += say("; fall ", room.fall.slope)
        return text + "."

    def _remark(self) -> str:
        units = "Feet and inches, millimetres in brackets" if self.job.family == "US" else "Millimetres"
        base = "to the bare wall" if self.job.measured_to == "bare wall" else "to the face of the tiles"
        star = f" {ASSUMED} assumed: confirm on site before setting out." if self.sheet.assumed else ""
        return f"Seen from above; facing a wall from inside, its left end comes first going clockwise. {units}, {base}.{star}"

    # ------------------------------------------------------------ drawing

    def _draw(self) -> None:
        p, sheet = self.sheet.picture, self.sheet
        outline = self.outline
        for a, b in sides(outline):
            sheet.crossing.append((*a, *b))
        p.polygon("heavy", outline)
        self.door = self.draw_openings(p)
        for t in self.things:
            self._draw_thing(t)
        for basin in self.room.basins:
            self._draw_basin(basin)
        self._draw_membrane()
        self._draw_fall()
        self._draw_holes()
        self._draw_sensor()
        self._label_walls()
        self._label_hall()
        self._label_things()

    def _draw_thing(self, t: _Thing) -> None:
        p, box, outline = self.sheet.picture, self.box(t.rect), self.outline
        match t.kind:
            case "bath":
                p.box("line", box)
                rim = min(1.6, box.width / 5, box.height / 5)
                p.box("fine", box.grown(-rim))
            case "boxing":
                p.lines("hatch", hatch(box.corners, 1.4, True))
                p.box("line", box)
            case "not tiled":
                p.box("line", box)
                for line in ((box.left, box.top, box.right, box.bottom), (box.left, box.bottom, box.right, box.top)):
                    p.lines("cross", clip(line, (outline,)))
            case "fitting":
                p.box("fitting", box)
            case "keep-out":
                p.lines("hatch", hatch(box.corners, 2.6))
            case _:
                p.box("line", box)
        self.sheet.crossing += [(*a, *b) for a, b in sides(box.corners)]

    def _draw_basin(self, basin: Basin) -> None:
        """A sign for a basin: how far it stands out is not known and not drawn to scale."""
        line = place.wall_line(self.room, basin.wall)
        if line is None:
            return
        a, _, along, out = self.wall(line)
        low, size = float(basin.x.value) * self.k, float(basin.width.value) * self.k
        deep = size * 0.5
        spots = [
            (a[0] + along[0] * u - out[0] * v, a[1] + along[1] * u - out[1] * v)
            for u, v in (
                (low, 0.0),
                (low + size, 0.0),
                (low + size, deep * 0.6),
                (low + size * 0.8, deep),
                (low + size * 0.2, deep),
                (low, deep * 0.6),
            )
        ]
        p = self.sheet.picture
        p.polygon("line", tuple(spots))
        box = bounds(spots)
        p.circle("fine", *box.middle, min(box.width, box.height) * 0.12)
        self.sheet.crossing += [(*s, *t) for s, t in sides(tuple(spots))]

    def _draw_membrane(self) -> None:
        if self.floor is None or not self.floor.membrane_areas:
            return
        face = self.face.grown(-0.9)
        if any(m.rect is None for m in self.floor.membrane_areas):
            lines = inner_outline(self.outline, 0.9)
        else:
            boxes = [self.box(m.rect) for m in self.floor.membrane_areas if m.rect is not None]
            lines = union_outline(
                [
                    Box(max(b.left, face.left), max(b.top, face.top), min(b.right, face.right), min(b.bottom, face.bottom))
                    for b in boxes
                ]
            )
        self.sheet.picture.lines("membrane", lines)
        self.sheet.crossing += lines

    # ------------------------------------------------------------ drain and fall

    def _draw_holes(self) -> None:
        p, sheet = self.sheet.picture, self.sheet
        for hole, _ in self.holes:
            x, y = self.at((hole.x.value, hole.y.value))
            if hole.length is not None:
                line = place.wall_line(self.room, hole.along) if hole.along else None
                half = float(hole.length.value) * self.k / 2
                level = line is None or line.start[1] == line.end[1]
                channel = Box(x - half, y - 1.2, x + half, y + 1.2) if level else Box(x - 1.2, y - half, x + 1.2, y + half)
                p.box("gap", channel)
                p.box("line", channel)
                sheet.taken.append(channel)
            radius = max(0.8, float(hole.diameter.value) * self.k / 2 if hole.diameter else 0.8)
            cross(p, (x, y), radius)
            sheet.taken.append(Box(x - radius, y - radius, x + radius, y + radius).grown(0.3))
        for hole, _ in self.holes:
            if hole.kind in ("drain", "channel"):
                self._drain_dimensions(hole)
        for hole, letter in self.holes:
            radius = max(0.8, float(hole.diameter.value) * self.k / 2 if hole.diameter else 0.8)
            sheet.beside(letter, self.at((hole.x.value, hole.y.value)), radius * 0.75 + 0.5, sheet=self.face)

    def _drain_dimensions(self, drain: Penetration) -> None:
        """From the nearest wall across and the nearest up or down to the drain's centre."""
        spot = (drain.x.value, drain.y.value)
        for axis in (0, 1):
            nearest: tuple[Fraction, Fraction] | None = None  # distance, where the wall is
            for w in self.room.walls:
                if w.start[axis] != w.end[axis]:
                    continue
                low, high = sorted((w.start[1 - axis], w.end[1 - axis]))
                off = abs(w.start[axis] - spot[axis])
                if low <= spot[1 - axis] <= high and (nearest is None or off < nearest[0]):
                    nearest = off, w.start[axis]
            if nearest is None or not nearest[0]:
                continue
            centre = drain.x if axis == 0 else drain.y
            corner = self.corners[axis].get(nearest[1])
            if nearest[1] != 0 and corner is None:
                continue
            q = centre if corner is None else away_from(centre, corner, "wall")
            end = (nearest[1], spot[1]) if axis == 0 else (spot[0], nearest[1])
            self._dimension(self.at(end), self.at(spot), q)

    def _dimension(self, a: Spot, b: Spot, q: Quantity) -> None:
        p = self.sheet.picture
        p.line("fine", (*a, *b))
        for x, y in (a, b):
            p.line("line", (x - 0.55, y + 0.55, x + 0.55, y - 0.55))
        mid = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        text = self.sheet.say(q)
        wide, high = width(text, SMALL) + 2, SMALL + 1.8
        level = a[1] == b[1]
        for off in (0.0, 2.2, -2.2, 4.5, -4.5):
            spot = (mid[0], mid[1] + off) if level else (mid[0] + off, mid[1])
            box = Box(spot[0] - wide / 2, spot[1] - high / 2, spot[0] + wide / 2, spot[1] + high / 2)
            if not level:
                box = Box(spot[0] - high / 2, spot[1] - wide / 2, spot[0] + high / 2, spot[1] + wide / 2)
            if self.sheet.label(((text,),), box, turn=not level) is not None:
                return
        self.sheet.beside(text, mid, 0.6, bold=False, sheet=self.face)

    def _draw_fall(self) -> None:
        """The fall as it is laid; a floor that has none worked out gets arrows from its walls to the drain."""
        fall, drains = self.room.fall, self.room.drains
        if fall is None or not drains:
            return
        sheet, outline = self.sheet, self.outline
        if self.falls is not None:
            draw_falls(self.falls, sheet, self.at, outline, heights=False)
            return
        drain = drains[0]
        spot = self.at((drain.x.value, drain.y.value))
        arrows: list[tuple[Spot, Spot]] = []
        across = 0 if self._channel_level(drain) else 1
        for line in self.room.walls:
            a, b, along, _ = self.wall(line)
            mid = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
            # One plane or two: only from the walls that the water runs square away from.
            if fall.planes != "four" and abs(along[across]) < 0.7:
                continue
            if fall.planes != "four":
                mid = (mid[0], spot[1]) if across else (spot[0], mid[1])
                low, high = sorted((a[across], b[across]))
                if not low < spot[across] < high:
                    continue
            if _sees(spot, mid, outline) and distance(spot, mid) > 12:
                arrows.append((_between(spot, mid, 0.8), _between(spot, mid, 0.4)))
        for start, end in arrows:
            arrow(sheet.picture, start, end)
            sheet.crossing.append((*start, *end))
            sheet.taken.append(Box(end[0] - 0.9, end[1] - 0.9, end[0] + 0.9, end[1] + 0.9))
        text = sheet.say(fall.slope)
        for start, end in arrows:
            about = bounds((start, end)).grown(4.5)
            sheet.label(((text,),), about, turn=False, within=outline)

    def _channel_level(self, drain: Penetration) -> bool:
        """Does the water run up or down the page to it (a channel across, or the nearest wall is above or below)?"""
        line = place.wall_line(self.room, drain.along) if drain.along else None
        if line is not None:
            return line.start[1] == line.end[1]
        x, y = float(drain.x.value), float(drain.y.value)
        beside = min(x - float(self.low_x), float(self.high_x) - x)
        return min(y - float(self.low_y), float(self.high_y) - y) <= beside

    def _draw_sensor(self) -> None:
        heating = self.room.heating
        line = place.wall_line(self.room, heating.sensor_wall) if heating and heating.sensor_wall else None
        if line is None:
            return
        a, b, along, out = self.wall(line)
        for share in (0.5, 0.35, 0.65, 0.2, 0.8):
            x = a[0] + (b[0] - a[0]) * share - out[0] * 2.6
            y = a[1] + (b[1] - a[1]) * share - out[1] * 2.6
            box = Box(x - 1.3, y - 1.3, x + 1.3, y + 1.3)
            if not self.sheet.taken.meets(box):
                break
        p = self.sheet.picture
        p.circle("line", x, y, 1.1)
        p.circle("solid", x, y, 0.4)
        p.line("line", (x + out[0] * 1.1, y + out[1] * 1.1, x + out[0] * 2.6, y + out[1] * 2.6))
        self.sheet.taken.append(box)
        near = Box(x - 13, y - 6, x + 13, y + 6)
        inside_ = Box(
            max(near.left, self.face.left + 1),
            max(near.top, self.face.top + 1),
            min(near.right, self.face.right - 1),
            min(near.bottom, self.face.bottom - 1),
        )
        self.sheet.label((("sensor",),), inside_, within=self.outline)

    # ------------------------------------------------------------ names

    def _label_walls(self) -> None:
        sheet, p, outline = self.sheet, self.sheet.picture, self.outline
        # Shortest first: they have the least choice.
        for line in sorted(self.room.walls, key=lambda w: (w.length.value, w.letter)):
            a, b, along, out = self.wall(line)
            for x, y in (a, b):
                p.line("fine", (x + out[0] * 0.6, y + out[1] * 0.6, x + out[0] * 2.6, y + out[1] * 2.6))
                tick = (x + out[0] * 2.0, y + out[1] * 2.0)
                p.line("line", (tick[0] - 0.55, tick[1] + 0.55, tick[0] + 0.55, tick[1] - 0.55))
            p.line("fine", (a[0] + out[0] * 2.0, a[1] + out[1] * 2.0, b[0] + out[0] * 2.0, b[1] + out[1] * 2.0))
            name = shorten(what_is_in(self.room, line.letter), 36, SMALL)
            long = sheet.say(line.length)
            full = f"{name} · {long}" if name else long
            if not any(self._wall_text(line.letter, rest, a, b, along, out, outline) for rest in (full, long)):
                sheet.entries.append(
                    Entry("", line.letter, f"wall {line.letter}: {name}, {long}" if name else f"wall {line.letter}: {long}")
                )
                mid = ((a[0] + b[0]) / 2 + out[0] * 2, (a[1] + b[1]) / 2 + out[1] * 2)
                sheet.beside(line.letter, mid, 1.5, PLAIN)

    def _wall_text(self, letter: str, rest: str, a: Spot, b: Spot, along: Spot, out: Spot, outline: Polygon) -> bool:
        """Letter and text outside the wall, along it; whether there was room."""
        wide_letter, wide_rest = width(letter, PLAIN, True), width(rest, SMALL)
        total = wide_letter + 1.2 + wide_rest
        level = abs(along[1]) < 1e-6
        turn = 0.0 if level else -90.0
        for off in (4.2, 7.4):
            for share in (0.5, 0.35, 0.65, 0.2, 0.8):
                mx, my = a[0] + (b[0] - a[0]) * share + out[0] * off, a[1] + (b[1] - a[1]) * share + out[1] * off
                box = (
                    Box(mx - total / 2, my - 1.6, mx + total / 2, my + 1.6)
                    if level
                    else Box(mx - 1.6, my - total / 2, mx + 1.6, my + total / 2)
                )
                if self.sheet.taken.meets(box) or any(box.crossed((*s, *t)) for s, t in sides(outline)):
                    continue
                if inside((mx, my), outline) or not self._beside_room(box):
                    continue
                self.sheet.taken.append(box)
                p = self.sheet.picture
                p.box("clear", box)
                base = PLAIN * CAPITAL / 2
                if level:
                    p.text(mx - total / 2, my + base, letter, PLAIN, turn=turn, bold=True)
                    p.text(mx - total / 2 + wide_letter + 1.2, my + base, rest, SMALL, turn=turn)
                else:
                    p.text(mx + base, my + total / 2, letter, PLAIN, turn=turn, bold=True)
                    p.text(mx + base, my + total / 2 - wide_letter - 1.2, rest, SMALL, turn=turn)
                return True
        return False

    def _beside_room(self, box: Box) -> bool:
        """Inside the band around the room, where no running dimensions stand."""
        return box.within(self.face.grown(_BAND - 0.2))

    def _label_hall(self) -> None:
        hall, sheet = self.room.levels.hall, self.sheet
        for line, opening in place.doors(self.room):
            a, b = self.stretch(line, opening)
            _, _, along, out = self.wall(line)
            text = "hall"
            if hall is not None and hall.value:
                size = hall if hall.value > 0 else work("level - level - level", "mm", source="height of the step", level=hall)
                text = sheet.say("hall ", "+" if hall.value > 0 else "−", size)
            mid = ((a[0] + b[0]) / 2 + out[0] * 5.2, (a[1] + b[1]) / 2 + out[1] * 5.2)
            reach = max(width(text, SMALL) + 4, distance(a, b)) / 2 + 6
            near = Box(
                mid[0] - (reach if along[0] else 4.2),
                mid[1] - (reach if along[1] else 4.2),
                mid[0] + (reach if along[0] else 4.2),
                mid[1] + (reach if along[1] else 4.2),
            )
            band = self.face.grown(_BAND - 0.2)
            near = Box(
                max(near.left, band.left), max(near.top, band.top), min(near.right, band.right), min(near.bottom, band.bottom)
            )
            sheet.label(((text,),), near)  # it stands in the key too

    def _label_things(self) -> None:
        sheet, face = self.sheet, self.face
        boxes = {id(t): self.box(t.rect) for t in self.things}
        standing = [t.rect for t in self.things if t.kind in ("bath", "shower", "boxing", "fitting")]
        # What is not tiled because something stands on it is named by what stands there.
        named = [t for t in self.things if t.full and not (t.kind == "not tiled" and t.rect in standing)]
        for t in sorted(named, key=lambda t: t.rect.width.value * t.rect.height.value):
            avoid = [
                boxes[id(o)]
                for o in self.things
                if o is not t
                and o.full
                and o.rect != t.rect
                and o.rect.width.value * o.rect.height.value < t.rect.width.value * t.rect.height.value
            ]
            short = "" if t.letter else t.name
            sheet.named(t.full, short, boxes[id(t)], "middle", face, avoid, t.letter)
        for basin in self.room.basins:
            line = place.wall_line(self.room, basin.wall)
            if line is not None:
                a, _, along, out = self.wall(line)
                u = (float(basin.x.value) + float(basin.width.value) / 2) * self.k
                v = float(basin.width.value) * self.k * 0.4
                x, y = a[0] + along[0] * u - out[0] * v, a[1] + along[1] * u - out[1] * v
                text = (("basin", sheet.say("rim ", basin.rim, " up")), ("basin",))
                near = Box(max(face.left, x - 14), max(face.top, y - 14), min(face.right, x + 14), min(face.bottom, y + 14))
                sheet.label(text, near)
        if self.floor and self.floor.membrane_areas:
            wet = [self.box(m.rect) if m.rect is not None else face for m in self.floor.membrane_areas]
            sheet.label(
                (("membrane",),),
                max(wet, key=lambda b: b.width * b.height).grown(-1.5),
                "bottom right",
                avoid=[boxes[id(t)] for t in self.things],
                within=self.outline,
            )

    # ------------------------------------------------------------ key

    def _explain(self) -> None:
        room, sheet, say = self.room, self.sheet, self.sheet.say
        first = room.walls[0].letter if room.walls else "A"
        last = room.walls[-1].letter if room.walls else "D"
        for p, letter in self.holes:
            label = say(" “", p.label, "”") if p.label else ""
            round_ = say(", ø ", p.diameter) if p.diameter else ""
            long = say(", ", p.length, " long") if p.length else ""
            sheet.entries.append(
                Entry(
                    "", letter, say(f"{p.kind}{label}{round_}{long}: ", p.x, f" from wall {last}, ", p.y, f" from wall {first}")
                )
            )
        if room.fall and room.drains:
            sheet.explain(
                "arrow", say("fall ", room.fall.slope, f", {_PLANES.get(room.fall.planes, room.fall.planes)}, to the drain")
            )
            if self.falls is not None:
                sheet.explain("fall", "edge of the fall, and where its planes meet")
        if room.levels.drain_grate is not None and room.drains:
            sheet.explain("note", self._against("drain grate", room.levels.drain_grate, "at the edge of the fall"))
        hall = room.levels.hall
        if hall is not None:
            sheet.explain("note", self._against("hall floor", hall, ""))
        if self.door:
            sheet.explain(
                "fitting" if not any(t.kind == "fitting" for t in self.things) else "swing",
                "door: which way it swings is not said, check that it clears the finished floor",
            )
        sheet.explain("note", say("datum line ", room.levels.datum, " above the finished floor, on all walls"))
        if self.floor and self.floor.membrane_areas:
            stands = [*(["bath"] if room.baths else []), *(["tray"] if any(t.tray for t in room.showers) else [])]
            under = f", not under {' or '.join(stands)}" if stands else ""
            sheet.explain("membrane", f"extent of the membrane on the floor{under}")
        if room.heating:
            sensor = f"; sensor at wall {room.heating.sensor_wall}, place agreed on site" if room.heating.sensor_wall else ""
            sheet.explain(
                "sensor" if sensor else "note", f"floor heating: {_HEATING.get(room.heating.kind, room.heating.kind)}{sensor}"
            )
            if room.heating.keep_out:
                sheet.explain("hatch", "no heating here")
        kinds = {t.kind for t in self.things}
        if "fitting" in kinds:
            sheet.explain("fitting", "stands on the finished floor")
        if "boxing" in kinds:
            sheet.explain("back hatch", "boxed-in pipes")
        if "not tiled" in kinds:
            sheet.explain("not tiled", "not tiled")
        if self.holes:
            sheet.explain("hole", "hole: centre cross")
        if room.not_stated:
            sheet.explain("note", f"not stated, and not tiled: wall {', '.join(room.not_stated)}")
        if room.basins:
            sheet.explain("note", "basin: a sign, how far it stands out is not drawn to scale")

    def _against(self, what: str, level: Quantity, where: str) -> str:
        say = self.sheet.say
        if not level.value:
            text = f"{what} level with the finished floor"
        elif level.value > 0:
            text = say(f"{what} ", level, " above the finished floor")
        else:
            text = say(
                f"{what} ",
                work("level - level - level", "mm", source="depth below the finished floor", level=level),
                " below the finished floor",
            )
        return f"{text} {where}".strip()


def _sees(a: Spot, b: Spot, outline: Polygon) -> bool:
    whole = distance(a, b)
    return whole > 0 and sum(distance((x1, y1), (x2, y2)) for x1, y1, x2, y2 in clip((*a, *b), (outline,))) > whole * 0.99


def _between(a: Spot, b: Spot, share: float) -> Spot:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


# ---------------------------------------------------------------- key plan


def key_plan(room: Room) -> Drawing:
    """A small plan without numbers: walls with their letters, door, shower, bath, and which way one faces. Not to scale."""
    wide, high = float(KEY_PLAN.width), float(KEY_PLAN.height)
    ground = Ground(room, 1000)
    margin = 6.0
    # As large as fits, whatever scale that is.
    most = min((wide - 2 * margin) / max(ground.wide, 1e-6), (high - 2 * margin - 20) / max(ground.high, 1e-6))
    ground = Ground(room, 1000 / most)
    ground.left, ground.top = (wide - ground.wide) / 2, margin
    sheet = Sheet(lambda q: "")
    p, outline = sheet.picture, ground.outline
    p.polygon("heavy", outline)
    for a, b in sides(outline):
        sheet.crossing.append((*a, *b))
    ground.draw_openings(p)
    things: list[tuple[str, Rect]] = [("shower", s.rect) for s in room.showers] + [("bath", b.rect) for b in room.baths]
    for _, rect in things:
        box = ground.box(rect)
        p.box("line", box)
        sheet.crossing += [(*a, *b) for a, b in sides(box.corners)]
    for line in room.walls:
        a, b, along, out = ground.wall(line)
        mid = ((a[0] + b[0]) / 2 + out[0] * 3.0, (a[1] + b[1]) / 2 + out[1] * 3.0)
        sheet.beside(line.letter, mid, 0.0, PLAIN)
        if distance(a, b) > 12:
            start, end = _between(a, b, 0.62), _between(a, b, 0.88)
            arrow(p, (start[0] - out[0] * 1.7, start[1] - out[1] * 1.7), (end[0] - out[0] * 1.7, end[1] - out[1] * 1.7))
            sheet.taken.append(bounds((start, end, (start[0] - out[0] * 2.4, start[1] - out[1] * 2.4))))
    for name, rect in things:
        sheet.named(((name,),), "", ground.box(rect), "middle")
    for line, opening in place.openings(room, ("door", "window")):
        a, b = ground.stretch(line, opening)
        _, _, along, out = ground.wall(line)
        spot = ((a[0] + b[0]) / 2 + out[0] * 3.2, (a[1] + b[1]) / 2 + out[1] * 3.2)
        reach = 9.0
        near = (
            Box(spot[0] - reach, spot[1] - 2.6, spot[0] + reach, spot[1] + 2.6)
            if along[0]
            else Box(spot[0] - 2.6, spot[1] - reach, spot[0] + 2.6, spot[1] + reach)
        )
        sheet.label(((opening.kind,),), near)
    bottom = ground.top + ground.high + margin
    arrow(p, (4, bottom + 4.6), (4, bottom + 0.2))
    p.circle("line", 4, bottom + 2.6, 3.0)
    first = room.walls[0].letter if room.walls else "A"
    text = f"Up the page: facing wall {first}. The arrows along the walls run from left to right as you face each from inside."
    lines = list(wrap(text, wide - 9.0, SMALL, 4))
    for entry in sheet.entries:
        lines.append(f"{entry.mark}: {entry.text}")
    for n, line_text in enumerate(lines):
        p.text(8.5, bottom + n * SMALL * PITCH + SMALL, line_text)
    down = ceil(bottom + max(6.0, len(lines) * SMALL * PITCH + 1))
    names: Sequence[str] = [f"{w.letter} {what_is_in(room, w.letter)}".strip() for w in room.walls]
    alt = f"{plain(room.name)}, key plan seen from above, wall {first} at the top; walls clockwise: {', '.join(names)}."
    return Drawing(
        f"key-plan/{room.name}",
        f"{plain(room.name)}: key plan",
        p.render(KEY_PLAN.width, down, alt),
        "not to scale",
        alt,
        KEY_PLAN.width,
        down,
    )


__all__ = ["key_plan", "plan", "what_is_in"]
