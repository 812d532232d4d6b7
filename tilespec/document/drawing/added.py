"""Small drawings of what lies outside a surface's plane: insides of niches, reveals of openings, sides of boxings."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from tilespec.document.drawing.dimension import standard
from tilespec.document.drawing.lettering import CAPITAL, PITCH, SMALL, width
from tilespec.document.drawing.scale import SCALES, Paper, bar, paper, words
from tilespec.document.drawing.shape import Box, Line, Spot, bounds, sides
from tilespec.document.drawing.sheet import ASSUMED, Sheet
from tilespec.document.drawing.svg import plain
from tilespec.document.drawing.tiles import Tiles, floats, hatch_cut, laid_on, number_cut
from tilespec.document.drawing.types import Drawing, Show
from tilespec.job.types import Job, Room, Surface
from tilespec.setout.types import Face, SetOut

_SCALES = (5, *SCALES)
_GAP = 5.0
_BELOW = SMALL + 2.4  # for the width
_ABOVE = 2 * SMALL * PITCH + 1.2  # for two lines of words
_SEEN = {
    "left": "facing the left side",
    "right": "facing the right side",
    "bottom": "from above",
    "top": "from below",
    "back": "from the front",
    "front": "from the front",
}


@dataclass(frozen=True, slots=True)
class _Cell:
    face: Face
    tiles: tuple[Tiles, ...]
    box: Box  # of the face on paper
    lines: tuple[str, ...]
    beside: float  # room for the height on its left


def added_faces(surface: Surface, room: Room, job: Job, setout: SetOut, show: Show | None = None) -> Drawing | None:
    """One sheet with every added face of a surface, each face-on, at the largest scale that fits; None where there is none.

    `show` as for `elevation`. Raises ValueError where they fit no sheet at any scale.
    """
    faces = tuple(f for f in setout.faces if f.surface == surface.id and f.id != surface.id)
    laid = {f.id: laid_on(setout.on(surface.id), f.id) for f in faces}
    faces = tuple(f for f in faces if laid[f.id])
    if not faces:
        return None
    sheet = paper(job.paper)
    for scale in _SCALES:
        made = _Added(surface, room, job, faces, laid, show or standard(job.family), scale, sheet).drawn()
        if made is not None:
            return made
    raise ValueError("fits no sheet at any scale")


class _Added:
    def __init__(
        self,
        surface: Surface,
        room: Room,
        job: Job,
        faces: tuple[Face, ...],
        laid: dict[str, tuple[Tiles, ...]],
        show: Show,
        scale: int,
        sheet: Paper,
    ) -> None:
        self.surface, self.room, self.job, self.faces, self.laid = surface, room, job, faces, laid
        self.scale, self.paper, self.k = scale, sheet, 1000 / scale
        self.sheet = Sheet(show)

    def drawn(self) -> Drawing | None:
        cells = self._cells()
        if cells is None:
            return None
        sheet, p = self.sheet, self.sheet.picture
        missing = sum(self._draw(c) for c in cells)
        sheet.explain("cut", "cut or drilled: number of the cut list")
        if any(_front(f, Box(0, 0, 1, 1)) is not None for f in self.faces):
            sheet.explain("front", "edge towards the room")
        if missing:
            sheet.explain("note", "pieces too small for their number here: told by their size in the cut list")
        wide = float(self.paper.width)
        end = max(c.box.bottom for c in cells) + _BELOW + _GAP / 2
        end += sheet.key(wide, 0.0, end) + 2.0
        title = f"{plain(self.room.name)}: {plain(self.surface.title or 'floor')}: insides and sides"
        names = dict.fromkeys(f"{f.kind} {f.side}" for f in self.faces)
        alt = f"{title}, each seen face-on: {', '.join(names)}."
        star = f" {ASSUMED} assumed: confirm on site before setting out." if sheet.assumed else ""
        units = "Feet and inches, millimetres in brackets" if self.job.family == "US" else "Millimetres"
        scale_bar = bar(self.scale, self.job.family == "US")
        end += sheet.foot(scale_bar, words(self.scale), f"{units}, of the tiled face.{star}", wide, 0.0, end)
        if end > self.paper.height:
            return None
        high = ceil(end)
        svg = p.render(self.paper.width, high, alt)
        return Drawing(
            f"added/{self.surface.id}", title, svg, words(self.scale), alt, self.paper.width, high, sheet.shown,
        )

    def _cells(self) -> tuple[_Cell, ...] | None:
        """The faces side by side in rows; None where they run over the page."""
        found: list[_Cell] = []
        x, y, row = 0.0, 1.0, 0.0
        for face in self.faces:
            low_x, low_y, high_x, high_y = _size(face)
            wide, high = (high_x - low_x) * self.k, (high_y - low_y) * self.k
            name = face.id.removeprefix(face.surface + "/")
            what, _, side = name.rpartition(" ")
            # Several of one kind are told apart by their number, which counts the openings as they are listed.
            what = what if sum(f.side == face.side and f.kind == face.kind for f in self.faces) > 1 else what.rpartition(" ")[0]
            seen = "from above" if what.startswith("boxing") and face.side == "top" else _SEEN.get(face.side, "")
            lines = (plain(f"{what}, {side}"), seen)
            size = self.sheet.say(face.up.whole)
            beside = width(size, SMALL) + 3.4
            need = max(wide, width(self.sheet.say(face.across.whole), SMALL), *(width(t, SMALL) for t in lines)) + beside
            if need > self.paper.width:
                return None
            if x and x + need > self.paper.width:
                x, y, row = 0.0, y + row + _GAP, 0.0
            box = Box(x + beside, y + _ABOVE, x + beside + wide, y + _ABOVE + high)
            found.append(_Cell(face, self.laid[face.id], box, lines, beside))
            x, row = x + need + _GAP, max(row, _ABOVE + high + _BELOW)
        return tuple(found) if y + row < self.paper.height - 14 else None

    def _draw(self, cell: _Cell) -> int:
        sheet, p, box, face = self.sheet, self.sheet.picture, cell.box, cell.face
        low_x, low_y, _, _ = _size(face)

        def place(spot: Spot) -> Spot:
            return box.left + (spot[0] - low_x) * self.k, box.bottom - (spot[1] - low_y) * self.k

        outline = tuple(place(a) for a in floats(face.outline))
        for n, text in enumerate(cell.lines):
            p.text(box.left, box.top - _ABOVE + (n + 1) * SMALL * PITCH - 0.9, text)
        across, up = sheet.say(face.across.whole), sheet.say(face.up.whole)
        p.text(box.middle[0] if box.width > width(across, SMALL) else box.left, box.bottom + 1.4 + SMALL * CAPITAL, across,
               anchor="middle" if box.width > width(across, SMALL) else "start")
        p.text(box.left - 1.4, box.middle[1] + SMALL * CAPITAL / 2, up, anchor="end")
        missing = 0
        p.polygon("line", outline)
        for a, b in sides(outline):
            sheet.crossing.append((*a, *b))
        for t in cell.tiles:
            drawn = t.detail(self.scale) != "region"
            p.lines("grid", ((*place(q[:2]), *place(q[2:])) for q in t.lines(self.scale)))
            pieces = t.layout.pieces if drawn else ()
            hatch_cut(sheet, pieces, place)
            missing += number_cut(sheet, pieces, place, self._around(cell)).missing
            c = t.layout.covering
            self.sheet.explain("grid", self.sheet.say(plain(c.tile.name), " ", t.layout.width, " × ", t.layout.height,
                                                      ", joint ", c.joint))
        front = _front(face, bounds(outline))
        if front is not None:
            p.line("front", front)
        return missing

    def _around(self, cell: _Cell) -> Box:
        """A number that finds no room in its piece may stand on the right of the face, no further than half way to the next."""
        return Box(cell.box.left, cell.box.top, cell.box.right + _GAP, cell.box.bottom)


def _front(face: Face, box: Box) -> Line | None:
    """The edge towards the room of the deep faces of niches and reveals: who turns to the left side has the room on the left."""
    if face.kind == "boxing":
        return None
    match face.side:
        case "left":
            return box.left, box.top, box.left, box.bottom
        case "right":
            return box.right, box.top, box.right, box.bottom
        case "bottom" | "top":
            return box.left, box.bottom, box.right, box.bottom
    return None


def _size(face: Face) -> tuple[float, float, float, float]:
    spots = floats(face.outline)
    box = bounds(spots)
    return box.left, box.top, box.right, box.bottom
