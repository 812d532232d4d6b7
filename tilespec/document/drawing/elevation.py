"""The set-out drawing of one surface: a wall seen from inside the room, or a floor seen from above.

Every tile as it is laid; what is cut or drilled is hatched and carries its number of the cut list. Running dimensions on all four
sides: below and on the left from the bare edges, above and on the right from the plumb line and the datum line (floors: two chalk
lines) to the courses, to the edges of the tiles, and to what lies in them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from tilespec.document.drawing import place
from tilespec.document.drawing.dimension import SOURCE, Chain, Row, Stop, away_from, draw, lay, standard, sum_of
from tilespec.document.drawing.fall import draw_falls
from tilespec.document.drawing.gauge import edges_from, gauge
from tilespec.document.drawing.ground import Ground
from tilespec.document.drawing.lettering import SMALL, shorten, width
from tilespec.document.drawing.scale import SCALES, Detail, Made, Paper, bar, paper, roomy, words
from tilespec.document.drawing.shape import (
    Box,
    Line,
    Polygon,
    Spot,
    bounds,
    clip,
    hatch,
    inner_outline,
    sides,
    union_outline,
)
from tilespec.document.drawing.sheet import ASSUMED, Blank, Entry, Sheet, cross, triangle
from tilespec.document.drawing.svg import plain
from tilespec.document.drawing.tiles import Tiles, floats, hatch_cut, laid_on, number_cut
from tilespec.document.drawing.types import Drawing, Show
from tilespec.job.types import Covering, Fitting, Job, Rect, Room, Surface
from tilespec.quantity import Quantity, work
from tilespec.setout.plane import wall_plan
from tilespec.setout.types import Face, Piece, Ring, SetOut, Way

_MARGIN = 0.5  # a box that must not be touched, around lines
_LONGEST = 26.0  # of a running dimension with its names
_LONGEST_NAME = 17.0  # of a fitting, in them
_LETTERS = 4.5  # room for the letters of the walls around a floor
_GAP = 2.5  # between the blocks of the sheet
_LOST = 10**6
_UNDER = 0.12  # a joint so near to a control line lies under it
_BESIDE = 44.0  # what a key needs to stand beside the drawing
# A drawing leaves this share of the page to the cut list, where a smaller scale of its choice does that.
_SHARE = 0.64
# What the courses are set against; the rest is measured from the edges only.
_SET_AGAINST = ("opening", "niche", "not tiled", "boxing", "covering")

_BOND_WORDS = {
    "straight": "straight",
    "stack": "straight",
    "half": "half bond",
    "third": "third bond",
    "quarter": "quarter bond",
    "run": "bond",
    "diagonal": "on the diagonal",
    "herringbone": "herringbone",
    "basket": "basket weave",
    "modular": "two sizes",
}
_ZONE_WORDS = {"shower": "shower", "bath": "bath splash", "splash": "splash", "wet floor": "wet floor"}


@dataclass(frozen=True, slots=True)
class _Thing:
    """Something rectangular on the surface."""

    kind: str  # "opening", "niche", "not tiled", "covering", "fitting", "zone", "membrane", "boxing"
    name: str  # in the running dimensions
    rect: Rect
    full: tuple[tuple[str, ...], ...]  # all there is to say, in one or several lines; empty: no label
    short: str = ""
    letter: str = ""  # of the key, where its name is too long to stand in the drawing


def elevation(surface: Surface, room: Room, job: Job, setout: SetOut, show: Show | None = None) -> Drawing:
    """The set-out drawing of a wall or a floor, at the largest scale that fits the job's paper and leaves room for the cut list.

    `show` turns a quantity into text; by default whole millimetres, for the US family feet and inches with millimetres.
    """
    shown = show or standard(job.family)
    sheet = paper(job.paper)
    tiles = laid_on(setout.on(surface.id), surface.id)

    def attempt(scale: int, detail: Detail) -> Made[Drawing] | None:
        face = _Face(surface, room, job, setout, tiles, shown, scale, sheet, detail)
        made = face.drawn()
        if made is None:
            return None
        # A smaller scale may not cost what is drawn of the tiles.
        lost = sum(("tiles", "courses", "region").index(t.detail(scale)) for t in tiles)
        return Made(made, made.height_mm, face.hard + _LOST * lost)

    return roomy(attempt, sheet.height * _SHARE)


def bare_outline(surface: Surface, room: Room) -> Ring:
    """The bare surface in its true shape, where heights or diagonals were measured."""
    if surface.kind == "floor":
        return wall_plan(room) if room.diagonals and len(room.walls) == 4 else surface.outline
    if surface.measured_heights is None or len(surface.outline) != 4:
        return surface.outline
    left, right = surface.measured_heights
    wide, nought = surface.width.value, Fraction(0)
    return (nought, nought), (wide, nought), (wide, right.value), (nought, left.value)


def bond_words(covering: Covering, sheet: Sheet) -> str:
    pattern = covering.pattern
    text = _BOND_WORDS.get(pattern.name, pattern.name)
    if pattern.name == "run" and pattern.run is not None:
        text = sheet.say("moved by ", pattern.run)
    if pattern.name in ("third", "quarter", "run"):
        text += ", stepped on" if pattern.stepped else ", back and forth"
    if pattern.double:
        text = f"double {text}"
    if pattern.upright:
        text += ", upright"
    if pattern.turned and pattern.name != "diagonal":
        text += ", on the diagonal"
    return text


def way_words(way: Way, sheet: Sheet) -> str:
    if way.cut is None:
        return way.words
    return sheet.say("gap " if way.lead == "gap" else "first cut ", way.cut, f" {way.words}")


class _Face:
    def __init__(
        self,
        surface: Surface,
        room: Room,
        job: Job,
        setout: SetOut,
        tiles: tuple[Tiles, ...],
        show: Show,
        scale: int,
        sheet: Paper,
        detail: Detail,
    ) -> None:
        self.surface, self.room, self.job, self.scale, self.paper = surface, room, job, scale, sheet
        self.detail, self.tiles, self.missing, self.hard = detail, tiles, 0, 0
        self.plane: Face | None = next((f for f in setout.faces if f.id == surface.id), None)
        self.falls = next((f for f in setout.falls if f.room == room.name), None) if surface.kind == "floor" else None
        self.floor = surface.kind == "floor"
        self.sheet = Sheet(show)
        self.k = 1000 / scale
        self.outline = bare_outline(surface, room)
        xs, ys = [p[0] for p in self.outline], [p[1] for p in self.outline]
        self.low_x, self.low_y = min(xs), min(ys)
        self.high_x, self.high_y = max(xs), max(ys)
        self.wide, self.high = float(self.high_x - self.low_x) * self.k, float(self.high_y - self.low_y) * self.k
        self.left = self.top = 0.0
        self.corners = place.corners(room) if self.floor else ({}, {})
        self.begins = tuple(t.layout.begin for t in tiles)
        self.holes = tuple((p, self.sheet.mark()) for p in surface.penetrations)
        self.things = self._things()

    # ------------------------------------------------------------ places on paper

    def x(self, metres: Fraction | float) -> float:
        return self.left + (float(metres) - float(self.low_x)) * self.k

    def y(self, metres: Fraction | float) -> float:
        if self.floor:
            return self.top + (float(metres) - float(self.low_y)) * self.k
        return self.top + (float(self.high_y) - float(metres)) * self.k

    def box(self, rect: Rect) -> Box:
        a, b = self.y(rect.y.value), self.y(rect.top)
        return Box(self.x(rect.x.value), min(a, b), self.x(rect.right), max(a, b))

    @property
    def face(self) -> Box:
        return Box(self.left, self.top, self.left + self.wide, self.top + self.high)

    # ------------------------------------------------------------ what is on the surface

    def _things(self) -> tuple[_Thing, ...]:
        s, say = self.surface, self.sheet.say
        found: list[_Thing] = []

        def size(rect: Rect) -> str:
            return say(rect.width, " × ", rect.height)

        for o in s.openings:
            more = (say("reveal ", o.reveal, " tiled"),) if o.reveal else ()
            found.append(
                _Thing("opening", o.kind, o.rect, ((o.kind, size(o.rect), *more), (f"{o.kind} {size(o.rect)}", *more)), o.kind)
            )
        for n in s.niches:
            more = (say("lined with ", plain(n.tile.name)),) if n.tile else ()
            deep = say(n.depth, " deep")
            found.append(
                _Thing(
                    "niche",
                    "niche",
                    n.rect,
                    (("niche", size(n.rect), deep, *more), (f"niche {size(n.rect)}", deep, *more)),
                    "niche",
                )
            )
        for r in s.untiled:
            found.append(_Thing("not tiled", "not tiled", r, (("not tiled", size(r)), (f"not tiled {size(r)}",)), "not tiled"))
        for c in s.coverings:
            if c.region is not None:
                name = f"{c.role}: {plain(c.tile.name)}"
                found.append(
                    _Thing("covering", c.role, c.region, ((f"{name} {size(c.region)}",), (name, size(c.region))), c.role)
                )
        if self.floor:
            stands = [("bath", b.rect) for b in self.room.baths] + [("tray", t.rect) for t in self.room.showers if t.tray]
            found += [_Thing("standing", name, r, ((name,),), name) for name, r in stands]
            found += [_Thing("boxing", "boxing", b.rect, (("boxing",),), "boxing") for b in self.room.boxings]
        for letter in (s.letter,) if s.letter else ():
            for boxing in self.room.boxings:
                found += self._standing(letter, boxing.rect, boxing.height, "boxing", "boxing", "boxing ", " high")
            for bath in self.room.baths:
                found += self._standing(letter, bath.rect, bath.rim, "fitting", "bath", "bath, rim ", " up")
            for basin in self.room.basins:
                if basin.wall == letter:
                    line = Rect(basin.x, basin.rim, basin.width, away_from(basin.rim, basin.rim, "rim"))
                    found.append(_Thing("basin", "basin rim", line, (("basin rim",),), "basin rim"))
        for f in s.fittings:
            found.append(self._fitting(f, size(f.rect)))
        for z in s.zones:
            text = _ZONE_WORDS.get(z.exposure, z.exposure)
            if z.rect is not None:
                found.append(_Thing("zone", text, z.rect, ((f"wet area: {text}",), ("wet area:", text), (text,)), text))
        for m in s.membrane_areas:
            if m.rect is not None:
                found.append(_Thing("membrane", "membrane", m.rect, ()))
        return tuple(found)

    def _fitting(self, f: Fitting, size: str) -> _Thing:
        name = self.sheet.say(f.label) if f.label else f.kind
        if width(name, SMALL) <= _LONGEST_NAME:
            return _Thing("fitting", name, f.rect, ((name, size), (f"{name} {size}",)), name)
        letter = self.sheet.mark()
        self.sheet.entries.append(Entry("", letter, f"{name}, {size}"))
        return _Thing("fitting", letter, f.rect, ((f"{letter} {f.kind}",),), "", letter)

    def _standing(self, letter: str, rect: Rect, height: Quantity, kind: str, name: str, before: str, after: str) -> list[_Thing]:
        at = place.along(self.room, letter, rect)
        if at is None:
            return []
        left, right, wide, against = at
        if not against:
            return []
        nought = away_from(right, right, "right")
        r = Rect(left if left is not None else nought, nought, wide, height)
        if r.right <= 0 or r.x.value >= self.surface.width.value:
            return []
        said = self.sheet.say(before, height, after)
        return [_Thing(kind, name, r, ((said,),), name)]

    # ------------------------------------------------------------ running dimensions

    def _chains(self) -> tuple[Chain, Chain]:
        across, up = Chain(), Chain()
        s = self.surface
        if self.floor:
            before = {w.letter for w in self.room.walls}
            for axis, chain, size in ((0, across, s.width), (1, up, s.height)):
                known = self.corners[axis]
                for q in known.values():
                    chain.add(q)
                if not known and before:
                    chain.add(size)
        else:
            after = place.neighbours(self.room, s.letter)[1]
            across.add(s.width, f"wall {after}" if after else "right edge")
            left, right = s.measured_heights or (s.height, s.height)
            if left.value == right.value:
                up.add(left, "top")
            else:
                up.add(left, "top, left")
                up.add(right, "top, right")
            if s.tiled_height is not None:
                up.add(s.tiled_height, "end of tiling")
            if self.room.levels.datum.value <= self.high_y:
                up.add(self.room.levels.datum, "datum line")
        for t in self.things if self.detail < Detail.OUTLINE else ():
            r = t.rect
            self._edges(across, r.x, r.width, t.name, self.high_x)
            self._edges(up, r.y, r.height, t.name, self.high_y)
        for p, letter in self.holes if self.detail < Detail.NO_HOLES else ():
            across.add(p.x, letter)
            up.add(p.y, letter)
        if self.begins:
            across.add(self.begins[0].across, "chalk line" if self.floor else "plumb line")
            if self.floor:
                up.add(self.begins[0].up, "chalk line")
        return across, up

    def _edges(self, chain: Chain, low: Quantity, size: Quantity, name: str, end: Fraction) -> None:
        if low.value != 0:
            chain.add(low, name)
        high = low.value + size.value
        if size.value and high != 0:
            q = size if low.value == 0 else sum_of(low, size, "edge", "size")
            chain.add(q, "" if high == end else name)

    def _stop(self, q: Quantity, names: Sequence[str], at: float, before: str = "") -> Stop:
        sign = "−" if q.value < 0 else ""
        value = q if q.value >= 0 else work("place - place - place", "mm", source=SOURCE, place=q)
        text = f"{before}{sign}{self.sheet.say(value)}"
        # Lines of the set-out first, the membrane last: where the names are too many, the last are seen in the drawing only.
        for n, name in enumerate(sorted(names, key=lambda n: 0 if n.endswith(" line") else 2 if n == "membrane" else 1)):
            longer = f"{text}, {name}" if n else f"{text} {name}"
            if n and width(longer, SMALL) > _LONGEST:
                break
            text = longer
        return Stop(at, text)

    def _rows(self) -> tuple[Row, Row | None, Row, Row | None]:
        across, up = self._chains()
        letter = place.neighbours(self.room, self.surface.letter)[0]

        def x(q: Quantity) -> float:
            return (float(q.value) - float(self.low_x)) * self.k

        def y(q: Quantity) -> float:
            return (float(q.value) - float(self.low_y)) * self.k if self.floor else (float(self.high_y) - float(q.value)) * self.k

        zero_x = -float(self.low_x) * self.k
        zero_y = -float(self.low_y) * self.k if self.floor else float(self.high_y) * self.k
        first = self.room.walls[0].letter if self.room.walls else "A"
        if self.floor:
            last = self.room.walls[-1].letter if self.room.walls else "D"
            below_title, left_title = f"from wall {last}", f"from wall {first}"
        else:
            below_title = f"from the left edge (wall {letter})" if letter else "from the left edge"
            left_title = "above the finished floor"
        below = lay("below", tuple(self._stop(q, names, x(q)) for q, names in across.places()), zero_x, below_title)
        left = lay("left", tuple(self._stop(q, names, y(q)) for q, names in up.places()), zero_y, left_title)
        above: Row | None = None
        right: Row | None = None
        level = self.room.levels.datum if not self.floor else self.begins[0].up if self.begins else None
        line = self.begins[0].across if self.begins else None
        set_x, set_y = self._set_against()
        if line is not None:
            stops, to = self._from_line(0, line, set_x, x, ("R ", "L "))
            name = "chalk line" if self.floor else "plumb line"
            reached = self.low_x <= line.value <= self.high_x
            title = f"from the {name}{to}: L left, R right of it"
            above = lay("above", tuple(stops), x(line) if reached else None, title)
        if level is not None:
            stops, to = self._from_line(1, level, set_y, y, ("↓ ", "↑ ") if self.floor else ("+", "−"))
            reached = self.low_y <= level.value <= self.high_y
            name = "chalk line" if self.floor else "datum line"
            right = lay("right", tuple(stops), y(level) if reached else None, f"from the {name}{to}")
        return below, above, left, right

    def _set_against(self) -> tuple[Chain, Chain]:
        """What the courses are measured against."""
        across, up = Chain(), Chain()
        for t in self.things if self.detail < Detail.OUTLINE else ():
            if t.kind in _SET_AGAINST:
                self._edges(across, t.rect.x, t.rect.width, t.name, self.high_x)
                self._edges(up, t.rect.y, t.rect.height, t.name, self.high_y)
        for p, letter in self.holes if self.detail < Detail.NO_HOLES else ():
            across.add(p.x, letter)
            up.add(p.y, letter)
        return across, up

    def _from_line(
        self, axis: int, line: Quantity, things: Chain, at: Callable[[Quantity], float], marks: tuple[str, str],
    ) -> tuple[list[Stop], str]:
        """Running dimensions from a control line: to the courses, to the edges of the tiles, and to things; what they are to."""
        found: dict[int, Stop] = {}

        def add(place: Quantity, away: Quantity, names: Sequence[str] = ()) -> None:
            spot = at(place)
            key = round(spot * 4)
            if away.value and not any(k in found for k in (key - 1, key, key + 1)):
                mark = marks[0] if place.value > line.value else marks[1]
                found[key] = self._stop(away, names, spot, mark)

        to = ""
        if self.plane is not None:
            for q in edges_from(self.plane, axis):
                add(q, away_from(q, line, "line"), ("edge",))
        for q, names in things.places():
            # The end of the bare wall has no name: courses end at the edge of the tile plane.
            if names:
                add(q, away_from(q, line, "line"), names)
        if self.tiles and self.plane is not None:
            rod = gauge(self.tiles[0].layout, self.plane, axis, line, self.scale)
            for m in rod.marks:
                add(m.place, m.away)
            to = rod.words
        return list(found.values()), to

    # ------------------------------------------------------------ the whole sheet

    def drawn(self) -> Drawing | None:
        """The drawing, or None when it does not fit the paper at this scale."""
        if self.scale != SCALES[-1] and (self.wide > self.paper.width or self.high > self.paper.height):
            return None
        below, above, left, right = self._rows()
        edge = _LETTERS if self.floor else 0.0
        room_left = max(left.depth + edge, -below.low, -above.low if above else 0.0)
        room_right = max(
            right.depth + edge if right else 2.0 + edge, below.high - self.wide, above.high - self.wide if above else 0.0
        )
        spare = self.paper.width - room_left - room_right - self.wide
        if spare < 0 and self.scale != SCALES[-1]:
            return None
        over = max([0.0, -left.low] + ([-right.low] if right else []))
        under = max([0.0, left.high - self.high] + ([right.high - self.high] if right else []))
        over, under = over + edge, under + edge
        beside = spare >= _BESIDE
        self.left = room_left + (0.0 if beside else max(0.0, spare) / 2)
        self.top = (above.depth if above else 1.0) + over
        end = self.top + self.high + under + below.depth + _GAP
        self._explain()
        blanks = self._blanks()
        wide = float(self.paper.width)
        found_high = self.sheet.found(blanks, wide, 0, 0, draw=False)
        # Two lines of remarks at most stand below the scale bar.
        rest = self.paper.height - (0.0 if beside else end) - found_high - 13.5
        if rest < 10 or self.paper.height - end - found_high - 13.5 < 0:
            return None
        self._draw_surface()
        draw(below, self.sheet.picture, self.top + self.high + under, self.left, lambda _: under)
        if above:
            draw(above, self.sheet.picture, self.top - over, self.left, lambda _: over)
        draw(left, self.sheet.picture, self.left - edge, self.top, lambda _: edge)
        if right:
            draw(right, self.sheet.picture, self.left + self.wide + edge, self.top, lambda _: edge)
        if self.missing:
            self.sheet.explain("note", "pieces too small for their number here: told by their size in the cut list")
        columns, key_left = (1, self.left + self.wide + room_right + _GAP) if beside else (2, 0.0)
        key_wide = wide - key_left
        if self.sheet.key_height(key_wide, columns) + _GAP > rest:
            if self.detail is Detail.ALL:
                return None
            while self.sheet.entries and self.sheet.key_height(key_wide, columns) + 8 > rest:
                self.sheet.entries.pop()
        if self.detail is not Detail.ALL:
            self.sheet.explain("note", "there is more than fits here: see the list of positions")
        if beside:
            end = max(end, self.sheet.key(key_wide, key_left, 1.0, columns) + 1.0 + _GAP)
        else:
            end += self.sheet.key(key_wide, key_left, end, columns) + _GAP
        end += self.sheet.found(blanks, wide, 0.0, end)
        alt, remark = self._alt(), self._remark()
        end += self.sheet.foot(bar(self.scale, self.job.family == "US"), words(self.scale), remark, wide, 0.0, end)
        height = min(ceil(end), self.paper.height)
        title = self._title()
        return Drawing(
            f"elevation/{self.surface.id}",
            title,
            self.sheet.picture.render(self.paper.width, height, alt),
            words(self.scale),
            alt,
            self.paper.width,
            height,
            self.sheet.shown,
        )

    def _title(self) -> str:
        title = self.surface.title or ("floor" if self.floor else f"wall {self.surface.letter}")
        return f"{plain(self.room.name)}: {plain(title)}"

    def _alt(self) -> str:
        s = self.surface
        seen = "seen from above, wall A at the top" if self.floor else "seen from inside the room"
        text = self.sheet.say(
            f"{self._title()}, set-out drawing {seen}: ", s.width, " wide, ", s.height, " deep" if self.floor else " high"
        )
        shown = list(dict.fromkeys(t.kind if t.letter else t.name for t in self.things if t.kind != "membrane"))
        if self.holes:
            shown.append("holes")
        if s.membrane_areas:
            shown.append("the extent of the membrane")
        if shown:
            text += ", with " + ", ".join(shown)
        return text + "."

    def _remark(self) -> str:
        seen = "Seen from above." if self.floor else "Seen from inside the room."
        units = "Feet and inches, millimetres in brackets" if self.job.family == "US" else "Millimetres"
        base = "to the bare wall" if self.job.measured_to == "bare wall" else "to the face of the tiles"
        star = f" {ASSUMED} assumed: confirm on site before setting out." if self.sheet.assumed else ""
        return f"{seen} {units}, {base}.{star}"

    def _blanks(self) -> tuple[Blank, ...]:
        s, say = self.surface, self.sheet.say
        if self.floor:
            corner = self.room.diagonals
            one, two = (say(corner[0]), say(corner[1])) if corner else ("", "")
            return (
                Blank("width, top", say(s.width)),
                Blank("width, middle", ""),
                Blank("width, bottom", ""),
                Blank("depth, left", say(s.height)),
                Blank("depth, middle", ""),
                Blank("depth, right", ""),
                Blank("diagonal", one),
                Blank("diagonal", two),
            )
        left, right = s.measured_heights or (s.height, s.height)
        return (
            Blank("height, left", say(left)),
            Blank("height, middle", ""),
            Blank("height, right", say(right)),
            Blank("width, bottom", say(s.width)),
            Blank("width, middle", ""),
            Blank("width, top", ""),
            Blank("out of plumb", say(s.out_of_plumb) if s.out_of_plumb else ""),
        )

    # ------------------------------------------------------------ key

    def _explain(self) -> None:
        s, sheet = self.surface, self.sheet
        say = sheet.say
        for p, letter in self.holes:
            label = say(" “", p.label, "”") if p.label else ""
            round_ = say(", ø ", p.diameter) if p.diameter else ""
            long = say(", ", p.length, " long") if p.length else ""
            if self.floor:
                where = say(p.x, " from the left, ", p.y, " from wall A")
            else:
                where = say(p.x, " from left, ", p.y, " up")
            sheet.entries.append(Entry("", letter, f"{p.kind}{label}{round_}{long}: {where}"))
        for laid in self.tiles:
            c, begin = laid.layout.covering, laid.layout.begin
            t = c.tile
            role = "" if c.role == "field" else f"{c.role}: "
            kind = ", mosaic sheets" if t.mosaic else ""
            text = say(role, plain(t.name), " ", t.width, " × ", t.height, " × ", t.thickness, kind, ", joint ", c.joint)
            start = "; ".join(dict.fromkeys(way_words(w, sheet) for w in begin.words))
            if begin.found:
                start += " (found, not said)" if len(begin.found) == 2 else f" ({begin.found[0]} found, not said)"
            drawn = {"tiles": "", "courses": "; only courses and cut pieces are drawn", "region": "; too small to draw each tile"}
            if laid.detail(self.scale) == "region" and laid.layout.role == "field" and self._guides(laid):
                drawn["region"] += ": the lines are those that are measured"
            sheet.explain("grid", f"{text}, {bond_words(c, sheet)}; {start}{drawn[laid.detail(self.scale)]}")
        if self.tiles:
            if any(self._pieces(t) for t in self.tiles):
                sheet.explain("cut", "cut or drilled: number of the cut list")
            sheet.explain("first", "first tile")
            if self.floor:
                sheet.explain("chalk", "chalk lines, square to each other")
        if not self.floor:
            sheet.explain(
                "datum",
                say("datum line ", self.room.levels.datum, " above the finished floor", "; plumb line" if self.tiles else ""),
            )
        if s.membrane_areas:
            bath = ", not behind the bath" if any(s.letter in b.walls for b in self.room.baths) else ""
            sheet.explain("membrane", f"extent of the membrane{bath}")
        if s.zones:
            whole = [_ZONE_WORDS.get(z.exposure, z.exposure) for z in s.zones if z.rect is None]
            sheet.explain("zone", "wet area" + (f" (whole surface: {', '.join(whole)})" if whole else ""))
        kinds = {t.kind for t in self.things}
        if "fitting" in kinds or "basin" in kinds:
            sheet.explain("fitting", "fittings, after tiling")
        if "niche" in kinds:
            sheet.explain("niche", "niche")
        if "boxing" in kinds:
            sheet.explain("back hatch", "boxed-in pipes")
        if "not tiled" in kinds or s.tiled_height is not None:
            sheet.explain("not tiled", "not tiled")
        if self.holes:
            sheet.explain("hole", "hole: centre cross")
        for joint in s.movement_joints:
            sheet.explain("movement", say("movement joint ", joint.width, " wide"))
        if self.floor and self.room.heating and self.room.heating.keep_out:
            sheet.explain("keep", "no heating here")
        if self.falls is not None:
            sheet.explain("fall", "edge of the fall, and where its planes meet; heights against the finished floor at its edge")
        if s.trims:
            sheet.explain("trim", "trim: " + ", ".join(dict.fromkeys(t.place for t in s.trims)))

    # ------------------------------------------------------------ the surface itself

    def spot(self, at: Spot) -> Spot:
        return self.x(at[0]), self.y(at[1])

    def _outline(self) -> Polygon:
        return tuple((self.x(px), self.y(py)) for px, py in self.outline)

    def _pieces(self, t: Tiles) -> tuple[Piece, ...]:
        """The pieces that are drawn one by one."""
        return t.layout.pieces if t.detail(self.scale) != "region" and len(t.layout.pieces) <= t.most else ()

    def _paper(self, line: Line) -> Line:
        return self.x(line[0]), self.y(line[1]), self.x(line[2]), self.y(line[3])

    def _draw_surface(self) -> None:
        p, s, sheet = self.sheet.picture, self.surface, self.sheet
        face = self.face
        outline = self._outline()
        if self.floor and self.room.heating:
            self._keep_outs(self.room.heating.keep_out)
        for laid in self.tiles:
            lines = [self._paper(line) for line in laid.lines(self.scale)]
            if laid is self.tiles[0] and laid.detail(self.scale) == "region":
                lines += self._guides(laid)
            p.lines("grid", (line for line in lines if not self._on_control_line(line)))
            hatch_cut(sheet, self._pieces(laid), self.spot)
            if laid.layout.role == "field" and laid.detail(self.scale) == "tiles":
                edges = self._first_edges(laid)
                p.lines("first", edges)
                sheet.crossing += edges
        p.polygon("heavy", outline)
        if self.plane is not None:
            p.polygon("fine", tuple(self.spot(a) for a in floats(self.plane.outline)))
        for a, b in sides(outline):
            sheet.crossing.append((*a, *b))
        if self.floor:
            ground = Ground(self.room, self.scale)
            ground.left, ground.top = self.left, self.top
            ground.draw_openings(p, swing=False)
            self._wall_letters(ground)
        if s.tiled_height is not None and not self.floor:
            self._untiled_top(face)
        self._draw_membrane(face)
        for t in self.things:
            self._draw_thing(t, face)
        self._draw_lines(face)
        self._draw_holes(face)
        self._draw_trims(face)
        self._draw_movement()
        if self.falls is not None:
            draw_falls(self.falls, sheet, self.spot, outline, heights=True)
        told = [number_cut(sheet, self._pieces(t), self.spot, face) for t in self.tiles]
        self.missing, self.hard = sum(t.missing for t in told), sum(t.hard for t in told)
        self._name_first()
        self._label(face)

    def _guides(self, laid: Tiles) -> list[Line]:
        """Where no tile can be drawn: the courses that are measured, as lines across the field."""
        if self.plane is None:
            return []
        found: list[Line] = []
        into = tuple(self.spot(a) for a in floats(self.plane.outline))
        box = bounds(into)
        out = [tuple(self.spot(a) for a in floats(r)) for r in self.plane.holes]
        level = self.begins[0].up if self.floor else self.room.levels.datum
        for axis, line in ((0, self.begins[0].across), (1, level)):
            rod = gauge(laid.layout, self.plane, axis, line, self.scale)
            for m in () if rod.moved else rod.marks:
                at = self.x(m.place.value) if axis == 0 else self.y(m.place.value)
                whole = (at, box.top - 1, at, box.bottom + 1) if axis == 0 else (box.left - 1, at, box.right + 1, at)
                found += clip(whole, (into,), out)
        return found

    def _keep_outs(self, rects: Sequence[Rect]) -> None:
        for r in rects:
            box = self.box(r).grown(-0.5)
            self.sheet.picture.box("keep", box)
            self.sheet.crossing += [(*a, *b) for a, b in sides(box.corners)]

    def _draw_movement(self) -> None:
        """Movement joints, across the surface as far as it is tiled."""
        if self.plane is None:
            return
        sheet = self.sheet
        into = tuple(self.spot(a) for a in floats(self.plane.outline))
        box = bounds(into)
        out = [tuple(self.spot(a) for a in floats(r)) for r in self.plane.holes]
        for joint in self.surface.movement_joints:
            if joint.x is not None:
                at = self.x(joint.x.value)
                line = (at, box.top - 1, at, box.bottom + 1)
            elif joint.y is not None:
                at = self.y(joint.y.value)
                line = (box.left - 1, at, box.right + 1, at)
            else:
                continue
            parts = clip(line, (into,), out)
            sheet.picture.lines("movement", parts)
            sheet.crossing += parts
            if parts:
                longest = max(parts, key=lambda q: abs(q[2] - q[0]) + abs(q[3] - q[1]))
                near = bounds((longest[:2], longest[2:])).grown(4.0)
                sheet.label((("movement joint",),), near, "top left", within=into)

    def _on_control_line(self, line: Line) -> bool:
        """A joint under the datum or plumb line would fill the gaps of its dashes."""
        x, y = self._controls()
        level = y is not None and abs(line[1] - y) < _UNDER and abs(line[3] - y) < _UNDER
        return level or (x is not None and abs(line[0] - x) < _UNDER and abs(line[2] - x) < _UNDER)

    def _controls(self) -> tuple[float | None, float | None]:
        """The upright and the level control line on paper, where they are on the surface."""
        begin = self.begins[0] if self.begins else None
        level = (begin.up if begin else None) if self.floor else self.room.levels.datum
        x = self.x(begin.across.value) if begin and self.low_x <= begin.across.value <= self.high_x else None
        y = self.y(level.value) if level is not None and self.low_y <= level.value <= self.high_y else None
        return x, y

    def _first_edges(self, laid: Tiles) -> list[Line]:
        """The outline of the first tile, as far as it lies on the surface: where no tile stays whole it may not."""
        first = tuple(self.spot(a) for a in floats(laid.layout.begin.first))
        if laid.layout.runs or self.plane is None:
            return [(*a, *b) for a, b in sides(first)]
        into = tuple(self.spot(a) for a in floats(self.plane.outline))
        out = [tuple(self.spot(a) for a in floats(r)) for r in self.plane.holes]
        return [part for a, b in sides(first) for part in clip((*a, *b), (into,), out)]

    def _name_first(self) -> None:
        field = next((t for t in self.tiles if t.layout.role == "field"), None)
        if field is None:
            return
        tile, face = bounds(self.spot(a) for a in floats(field.layout.begin.first)), self.face
        if not field.layout.runs:
            right, bottom = min(tile.right, face.right), min(tile.bottom, face.bottom)
            tile = Box(max(tile.left, face.left), max(tile.top, face.top), right, bottom)
            if tile.width < 1 or tile.height < 1:
                return
        name = shorten(field.layout.tile.name, 40, SMALL)
        shape = field.layout.begin.first
        if shape[0][1] != shape[1][1]:
            # Turned by half a right angle: the upright box inside it.
            tile = tile.grown(-min(tile.width, tile.height) / 4)
        if field.detail(self.scale) == "tiles":
            if self.sheet.label((("first tile", name), ("first tile",), ("first",)), tile.grown(-0.2)):
                return
            self.sheet.label((("first tile",),), tile.grown(9.0), turn=False, within=self._outline())
            return
        other = [self.box(t.rect) for t in self.things if t.kind not in ("zone", "membrane", "fitting", "basin")]
        if self.surface.tiled_height is not None:
            other.append(Box(face.left, face.top, face.right, self.y(self.surface.tiled_height.value)))
        self.sheet.label((("field: " + name,), (name,)), face.grown(-2.5), "bottom middle", within=self._outline(), avoid=other)

    def _wall_letters(self, ground: Ground) -> None:
        for w in self.room.walls:
            a, b, _, out = ground.wall(w)
            self.sheet.beside(w.letter, ((a[0] + b[0]) / 2 + out[0] * 2.6, (a[1] + b[1]) / 2 + out[1] * 2.6), 0.0)

    def _untiled_top(self, face: Box) -> None:
        top = self.surface.tiled_height
        if top is None or top.value >= self.high_y:
            return
        box = Box(face.left, face.top, face.right, self.y(top.value))
        self._crossed(box, self._outline())
        self.sheet.label((("not tiled",),), box, avoid=[self.box(o.rect) for o in self.surface.openings])

    def _crossed(self, box: Box, into: Polygon) -> None:
        p = self.sheet.picture
        p.box("line", box)
        holes = [self.box(o.rect).corners for o in self.surface.openings]
        for line in ((box.left, box.top, box.right, box.bottom), (box.left, box.bottom, box.right, box.top)):
            p.lines("cross", clip(line, (into,), holes))

    def _inset(self, box: Box, by: float) -> Box:
        face = self.face.grown(-by)
        return Box(max(box.left, face.left), max(box.top, face.top), min(box.right, face.right), min(box.bottom, face.bottom))

    def _draw_membrane(self, face: Box) -> None:
        s = self.surface
        if any(m.rect is None for m in s.membrane_areas):
            if len(s.outline) == 4 and not self._slanted():
                lines = union_outline((face.grown(-0.9),))
            else:
                lines = inner_outline(self._outline(), 0.9)
        else:
            lines = union_outline([self._inset(self.box(m.rect), 0.9) for m in s.membrane_areas if m.rect is not None])
        self.sheet.picture.lines("membrane", lines)
        self.sheet.crossing += lines

    def _slanted(self) -> bool:
        return any(a[0] != b[0] and a[1] != b[1] for a, b in sides(self._outline()))

    def _draw_thing(self, t: _Thing, face: Box) -> None:
        p = self.sheet.picture
        box = self.box(t.rect)
        edges = [(*a, *b) for a, b in sides(box.corners)]
        match t.kind:
            case "opening":
                p.box("gap", box)
                p.box("heavy", box)
                inner = box.grown(-0.9)
                if inner.width > 0 and inner.height > 0:
                    p.box("fine", inner)
            case "niche":
                rim = min(1.6, box.width / 4, box.height / 4)
                frame = Box(box.left + rim, box.top + rim, box.right - rim, box.bottom - rim)
                p.box("heavy", box)
                p.box("fine", frame)
                p.lines("fine", ((*a, *b) for a, b in zip(box.corners, frame.corners, strict=True)))
            case "not tiled":
                self._crossed(box, self._outline())
            case "covering" | "standing":
                p.box("line", box)
            case "boxing":
                p.lines("hatch", hatch(box.corners, 2.2, True))
                p.box("line", box)
            case "fitting":
                p.box("fitting", box)
            case "basin":
                p.line("fitting", (box.left, box.top, box.right, box.top))
                edges = edges[:1]
            case "zone":
                inner = self._inset(box, 0.9).grown(-0.8)
                p.box("zone", inner)
                edges = [(*a, *b) for a, b in sides(inner.corners)]
            case _:
                edges = []
        self.sheet.crossing += edges

    def _draw_lines(self, face: Box) -> None:
        """Datum and plumb line of a wall, chalk lines of a floor, a little beyond the edges."""
        p, sheet = self.sheet.picture, self.sheet
        x, y = self._controls()
        if y is not None:
            p.line("datum", (face.left - 1.5, y, face.right + 1.5, y))
            sheet.crossing.append((face.left, y, face.right, y))
            if not self.floor:
                for at in dict.fromkeys((min(face.left + 3.5, face.middle[0]), max(face.right - 3.5, face.middle[0]))):
                    triangle(p, (at, y))
                    sheet.taken.append(Box(at - 1.5, y - 2.5, at + 1.5, y))
        if x is not None:
            p.line("datum", (x, face.top - 1.5, x, face.bottom + 1.5))
            sheet.crossing.append((x, face.top, x, face.bottom))

    def _draw_holes(self, face: Box) -> None:
        p, sheet = self.sheet.picture, self.sheet
        for hole, _ in self.holes:
            spot = (self.x(hole.x.value), self.y(hole.y.value))
            if hole.length is not None:
                half, level = float(hole.length.value) * self.k / 2, self._runs_level(hole.along)
                channel = (
                    Box(spot[0] - half, spot[1] - 1.2, spot[0] + half, spot[1] + 1.2)
                    if level
                    else Box(spot[0] - 1.2, spot[1] - half, spot[0] + 1.2, spot[1] + half)
                )
                p.box("gap", channel)
                p.box("line", channel)
                sheet.taken.append(channel.grown(_MARGIN))
            radius = max(0.7, float(hole.diameter.value) * self.k / 2 if hole.diameter else 0.7)
            cross(p, spot, radius)
            # Only the heart of it is kept free: with pipes close together their letters have to stand somewhere.
            sheet.taken.append(Box(spot[0] - radius, spot[1] - radius, spot[0] + radius, spot[1] + radius).grown(0.2))
            arm = radius + 0.9
            sheet.crossing += [(spot[0] - arm, spot[1], spot[0] + arm, spot[1]), (spot[0], spot[1] - arm, spot[0], spot[1] + arm)]
        for hole, letter in self.holes:
            radius = max(0.7, float(hole.diameter.value) * self.k / 2 if hole.diameter else 0.7)
            sheet.beside(letter, (self.x(hole.x.value), self.y(hole.y.value)), radius * 0.75 + 0.4, sheet=face)

    def _runs_level(self, along: str | None) -> bool:
        line = place.wall_line(self.room, along) if along else None
        return line is None or line.start[1] == line.end[1]

    def _draw_trims(self, face: Box) -> None:
        p = self.sheet.picture
        at = {t.place for t in self.surface.trims}
        if "left" in at:
            p.line("trim", (face.left + 0.6, face.top, face.left + 0.6, face.bottom))
        if "right" in at:
            p.line("trim", (face.right - 0.6, face.top, face.right - 0.6, face.bottom))
        if "top" in at:
            y = self.y(self.surface.tiled_height.value) if self.surface.tiled_height else face.top
            p.line("trim", (face.left, y + 0.6, face.right, y + 0.6))
        for kind in ("openings", "niche"):
            if kind in at:
                for t in self.things:
                    if t.kind == ("opening" if kind == "openings" else "niche"):
                        p.box("trim", self.box(t.rect).grown(0.6))

    def _label(self, face: Box) -> None:
        """Names inside the surface: small things first, since large ones have more room."""

        def room_of(t: _Thing) -> Box:
            b = self.box(t.rect)
            return Box(max(b.left, face.left), max(b.top, face.top), min(b.right, face.right), min(b.bottom, face.bottom))

        small_first = sorted(
            (t for t in self.things if t.full and t.kind != "basin"),
            key=lambda t: (t.kind == "zone", t.rect.width.value * t.rect.height.value),
        )
        for t in small_first:
            box = room_of(t)
            if t.kind == "zone":
                others = [room_of(o) for o in self.things if o.kind not in ("zone", "membrane", "covering")]
                self.sheet.named(t.full, t.short, box.grown(-1.8), "top left", face, others)
            else:
                self.sheet.named(t.full, t.short, box, "middle", face, letter=t.letter)
        for t in self.things:
            if t.kind == "basin":
                b = room_of(t)
                self.sheet.named(t.full, t.short, Box(b.left, b.top - 5, b.right, b.top), "bottom left", face)
        wet = [self.box(m.rect) if m.rect is not None else face for m in self.surface.membrane_areas]
        if wet:
            largest_ = max(wet, key=lambda b: b.width * b.height)
            self.sheet.label((("membrane",),), self._inset(largest_, 1.2), "top right", within=self._outline())
