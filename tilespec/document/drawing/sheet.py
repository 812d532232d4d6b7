"""One drawing while it is made: what is written, where there is room for a label, the key, the blanks and the scale bar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor

from tilespec.document.drawing.dimension import assumed
from tilespec.document.drawing.lettering import ABOVE, BELOW, CAPITAL, PITCH, SMALL, shorten, width, wrap
from tilespec.document.drawing.scale import Bar
from tilespec.document.drawing.shape import Box, Line, Polygon, Spot, clip, distance, hatch, lies_in
from tilespec.document.drawing.svg import Picture, plain
from tilespec.document.drawing.types import Show
from tilespec.job.types import Words
from tilespec.quantity import Quantity

Part = str | Words | Quantity
ASSUMED = "*"


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the key: a sample of a line or hatch, or a letter, and what it stands for."""

    sample: str
    mark: str
    text: str


@dataclass(frozen=True, slots=True)
class Blank:
    """A column of the table for what is found on site: what is measured, and what the spec says."""

    head: str
    stated: str


class Taken:
    """Boxes that are written on already, found by where they are."""

    _CELL = 12.0  # mm

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[Box]] = {}

    def _where(self, box: Box) -> Iterator[tuple[int, int]]:
        c = self._CELL
        for i in range(floor(box.left / c), floor(box.right / c) + 1):
            for j in range(floor(box.top / c), floor(box.bottom / c) + 1):
                yield i, j

    def append(self, box: Box) -> None:
        for at in self._where(box):
            self._cells.setdefault(at, []).append(box)

    def near(self, box: Box) -> Iterator[Box]:
        """Those about a box, some of them more than once."""
        for at in self._where(box):
            yield from self._cells.get(at, ())

    def meets(self, box: Box) -> bool:
        return any(box.meets(t) for t in self.near(box))


class Sheet:
    """Collects one drawing. Coordinates: millimetres on paper."""

    def __init__(self, show: Show) -> None:
        self.picture = Picture()
        self._show = show
        self._shown: dict[int, Quantity] = {}
        self.assumed = False
        self._marks = 0
        self.entries: list[Entry] = []
        self._samples: set[tuple[str, str]] = set()
        self.taken = Taken()  # no label may touch these
        self.crossing: list[Line] = []  # a label had better not cross these

    # ------------------------------------------------------------ words and numbers

    def say(self, *parts: Part) -> str:
        """Text from words and quantities. Each quantity is remembered; one that rests on a default gets a star."""
        out: list[str] = []
        for part in parts:
            if isinstance(part, Quantity):
                text = self._show(part)
                self._shown.setdefault(id(part), part)
                if assumed(part):
                    text += ASSUMED
                    self.assumed = True
                out.append(text)
            else:
                out.append(plain(part.text) if isinstance(part, Words) else part)
        return "".join(out)

    @property
    def shown(self) -> tuple[Quantity, ...]:
        return tuple(self._shown.values())

    def mark(self) -> str:
        """The next letter of the key: a, b, ... z, aa, ab, ..."""
        n, text = self._marks, ""
        self._marks += 1
        while True:
            text = chr(ord("a") + n % 26) + text
            n = n // 26 - 1
            if n < 0:
                return text

    def explain(self, sample: str, text: str, mark: str = "") -> None:
        """A line of the key, once."""
        if (sample + mark, text) not in self._samples:
            self._samples.add((sample + mark, text))
            self.entries.append(Entry(sample, mark, text))

    # ------------------------------------------------------------ labels

    def free(self, box: Box) -> bool:
        return not self.taken.meets(box)

    def cost(self, box: Box) -> float:
        return sum(1.0 for line in self.crossing if box.crossed(line))

    def _write(self, lines: Sequence[str], box: Box, size: float, turned: bool, bold: bool) -> None:
        self.picture.box("clear", box)
        self.taken.append(box.grown(0.25))
        for n, text in enumerate(lines):
            if turned:
                x = box.left + 0.3 + n * size * PITCH + ABOVE * size
                self.picture.text(x, box.middle[1], text, size, "middle", -90, bold)
            else:
                y = box.top + 0.3 + n * size * PITCH + ABOVE * size
                self.picture.text(box.middle[0], y, text, size, "middle", 0, bold)

    def label(
        self,
        variants: Sequence[Sequence[str]],
        room: Box,
        near: str = "middle",
        size: float = SMALL,
        turn: bool = True,
        bold: bool = False,
        avoid: Sequence[Box] = (),
        within: Polygon | None = None,
    ) -> Box | None:
        """Write one of several texts (the best first; each in lines) somewhere in `room`, or nothing (None).

        `near`: "middle", "top left", "bottom left", "top right" ...: where it is looked for first. `avoid`: where it would seem
        to speak of something else. `within`: an outline that it may not leave.
        """
        best: tuple[float, int, Sequence[str], Box, bool] | None = None
        tried = 0
        goal = {
            "middle": room.middle,
            "top left": (room.left, room.top),
            "bottom left": (room.left, room.bottom),
            "top right": (room.right, room.top),
            "bottom middle": (room.middle[0], room.bottom),
            "top middle": (room.middle[0], room.top),
            "bottom right": (room.right, room.bottom),
        }[near]
        for rank, lines in enumerate(variants):
            long = max(width(t, size, bold) for t in lines) + 0.8
            deep = (len(lines) - 1) * size * PITCH + size + 0.6
            for turned in (False, True) if turn else (False,):
                wide, high = (deep, long) if turned else (long, deep)
                spare_x, spare_y = room.width - 1.0 - wide, room.height - 1.0 - high
                if spare_x < 0 or spare_y < 0:
                    continue
                for i in range(9):
                    for j in range(9):
                        left, top = room.left + 0.5 + spare_x * i / 8, room.top + 0.5 + spare_y * j / 8
                        box = Box(left, top, left + wide, top + high)
                        tried += 1
                        if not self.free(box) or (within is not None and not lies_in(box, within)):
                            continue
                        away = distance(
                            box.middle,
                            (
                                min(max(goal[0], room.left + wide / 2), room.right - wide / 2),
                                min(max(goal[1], room.top + high / 2), room.bottom - high / 2),
                            ),
                        )
                        astray = 2.5 * sum(1 for a in avoid if box.meets(a))
                        cost = astray + self.cost(box) * 1.5 + away * 0.05 + rank * 1.2 + (1.6 if turned else 0)
                        if best is None or cost < best[0] - 1e-9:
                            best = cost, tried, lines, box, turned
        if best is None:
            return None
        _, _, lines, box, turned = best
        self._write(lines, box, size, turned, bold)
        return box

    def beside(
        self, text: str, spot: Spot, clear: float, size: float = SMALL, bold: bool = True, sheet: Box | None = None
    ) -> None:
        """Write a short text as near to a spot as it can stand, `clear` millimetres off it, with a leader where it is far."""
        wide, high = width(text, size, bold) + 0.5, size * CAPITAL + 0.7
        best: tuple[float, Box] | None = None
        if not clear:
            # On the spot itself, if it is free.
            box = Box(spot[0] - wide / 2, spot[1] - high / 2, spot[0] + wide / 2, spot[1] + high / 2)
            best = (0.0, box) if self.free(box) else None
        for ring in range(16) if best is None else ():
            off = clear + ring * 1.1
            for dx, dy in (
                (1, -1),
                (-1, -1),
                (1, 1),
                (-1, 1),
                (0, -1),
                (0, 1),
                (1, 0),
                (-1, 0),
                (0.5, -1),
                (-0.5, -1),
                (0.5, 1),
                (-0.5, 1),
            ):
                x = spot[0] + dx * off + (wide / 2 if dx > 0.9 else -wide / 2 if dx < -0.9 else 0)
                y = spot[1] + dy * off + (high / 2 if dy > 0.9 else -high / 2 if dy < -0.9 else 0)
                box = Box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
                if (sheet and not box.within(sheet)) or not self.free(box):
                    continue
                cost = self.cost(box) + ring * 0.7
                if best is None or cost < best[0] - 1e-9:
                    best = cost, box
            if best is not None and best[0] <= ring * 0.7:
                break
        if best is None:
            return
        box = best[1]
        x, y = box.middle
        gap = max(abs(x - spot[0]) - box.width / 2, abs(y - spot[1]) - box.height / 2)
        if gap > clear + 1.2:
            parts = clip((spot[0], spot[1], x, y), (Box(-999, -999, 9999, 9999).corners,), (box.corners,))
            self.picture.lines("fine", parts[:1])
        self.picture.box("clear", box)
        self.taken.append(box)
        self.picture.text(x, y + size * CAPITAL / 2, text, size, "middle", 0, bold)

    def named(
        self,
        full: Sequence[Sequence[str]],
        short: str,
        room: Box,
        near: str = "middle",
        sheet: Box | None = None,
        avoid: Sequence[Box] = (),
        letter: str = "",
    ) -> None:
        """A label that says everything; where that finds no room, a letter (with a word) that the key explains.

        `letter`: the one it already has in the key.
        """
        if self.label(full, room, near, avoid=avoid) is not None:
            return
        if not letter:
            letter = self.mark()
            self.entries.append(Entry("", letter, ", ".join(full[0])))
        if not short or self.label(((f"{letter} {short}",), (letter, short)), room, near, avoid=avoid) is None:
            if self.label(((letter,),), room.grown(0.5), near, turn=False, bold=True) is None:
                self.beside(letter, room.middle, 1.0, sheet=sheet)

    # ------------------------------------------------------------ below the drawing

    def key_height(self, wide: float, columns: int = 2) -> float:
        return self._key(wide, 0.0, 0.0, columns, draw=False)

    def key(self, wide: float, left: float, top: float, columns: int = 2) -> float:
        """Draw the key in one or two columns; returns its height."""
        return self._key(wide, left, top, columns, draw=True)

    def _key(self, wide: float, left: float, top: float, columns: int, draw: bool) -> float:
        gap, indent = 4.0, 11.5
        column = (wide - gap) / 2 if columns == 2 else wide
        pitch = SMALL * PITCH + 0.25
        lettered = sorted(self.entries, key=lambda e: (not e.mark, len(e.mark), e.mark))
        blocks = [(e, wrap(e.text, column - indent, SMALL, 4 if columns == 2 else 9) or ("",)) for e in lettered]
        total = sum(len(lines) for _, lines in blocks)
        half: list[tuple[Entry, tuple[str, ...], int, int]] = []  # entry, lines, column, first line
        at, side = 0, 0
        heights = [0, 0]
        for e, lines in blocks:
            if columns == 2 and side == 0 and at and at + len(lines) > (total + 1) // 2:
                side, at = 1, 0
            half.append((e, lines, side, at))
            at += len(lines)
            heights[side] = at
        if draw:
            for e, lines, side, first in half:
                x, y = left + side * (column + gap), top + first * pitch
                self._sample(e, x, y + pitch / 2)
                for n, text in enumerate(lines):
                    self.picture.text(x + indent, y + n * pitch + pitch / 2 + SMALL * CAPITAL / 2, text)
        return max(heights) * pitch

    def _sample(self, e: Entry, x: float, y: float) -> None:
        p = self.picture
        if e.mark:
            p.text(x + 8.5, y + SMALL * CAPITAL / 2, e.mark, SMALL, "end", bold=True)
            return
        box = Box(x + 1, y - 1.2, x + 9, y + 1.2)
        match e.sample:
            case "" | "note":
                return
            case "hatch" | "back hatch":
                p.lines("hatch", hatch(box.corners, 1.4, e.sample == "back hatch"))
                p.box("fine", box)
            case "not tiled":
                p.box("line", box)
                p.line("cross", (box.left, box.top, box.right, box.bottom))
                p.line("cross", (box.left, box.bottom, box.right, box.top))
            case "hole":
                cross(p, (x + 5, y), 0.9)
            case "first":
                p.polygon("first", Box(x + 2.5, y - 1.1, x + 7.5, y + 1.1).corners)
            case "arrow":
                arrow(p, (x + 1, y), (x + 9, y))
            case "niche":
                frame = box.grown(-0.7)
                p.box("heavy", box)
                p.box("fine", frame)
                p.lines("fine", ((*a, *b) for a, b in zip(box.corners, frame.corners, strict=True)))
            case "keep":
                p.box("keep", box)
            case "cut":
                p.lines("cut", hatch(box.corners, 1.5))
                p.box("fine", box)
            case "sensor":
                p.circle("line", x + 5, y, 1.1)
                p.circle("solid", x + 5, y, 0.4)
            case "swing":
                p.arc("fitting", (x + 2, y - 1.2), (x + 8, y + 1.2), 6.2, True)
            case "datum":
                p.line("datum", (x, y, x + 10, y))
                triangle(p, (x + 3, y), 0.5)
            case "chalk":
                p.line("datum", (x, y, x + 10, y))
            case ink:
                p.line(ink, (x, y, x + 10, y))

    def found(self, blanks: Sequence[Blank], wide: float, left: float, top: float, draw: bool = True) -> float:
        """The table with a blank row for what the crew measures; returns its height. Long ones take several bands."""
        head, stated, blank, first = 4.0, 4.0, 7.5, 16.0
        least = max([15.0] + [width(t, SMALL) + 2 for b in blanks for t in (b.head, b.stated)])
        most = max(1, int((wide - first) // min(least, wide - first)))
        bands = [blanks[i : i + most] for i in range(0, len(blanks), most)]
        if not draw:
            return len(bands) * (head + stated + blank + 1.5)
        p, y = self.picture, top
        for band in bands:
            column = (wide - first) / max(most if len(bands) > 1 else len(band), 1)
            right = left + first + column * len(band)
            rows = (y, y + head, y + head + stated, y + head + stated + blank)
            for row in rows:
                p.line("line", (left, row, right, row))
            for x in [left, *(left + first + column * n for n in range(len(band) + 1))]:
                p.line("line", (x, rows[0], x, rows[3]))
            for text, low, high in (("stated", rows[1], rows[2]), ("as found", rows[2], rows[3])):
                p.text(left + 1, (low + high) / 2 + SMALL * CAPITAL / 2, text)
            for n, b in enumerate(band):
                x = left + first + column * (n + 0.5)
                p.text(x, (rows[0] + rows[1]) / 2 + SMALL * CAPITAL / 2, shorten(b.head, column - 1, SMALL), anchor="middle")
                p.text(x, (rows[1] + rows[2]) / 2 + SMALL * CAPITAL / 2, shorten(b.stated, column - 1, SMALL), anchor="middle")
            y = rows[3] + 1.5
        return y - top

    def foot(self, bar: Bar, scale: str, remark: str, wide: float, left: float, top: float) -> float:
        """Scale bar, scale and a remark; returns their height."""
        p = self.picture
        high = 1.6
        for n in range(bar.parts):
            box = Box(left + n * bar.part, top + 0.5, left + (n + 1) * bar.part, top + 0.5 + high)
            p.box("line", box)
            if n % 2 == 0:
                p.box("solid", box)
        end = left + bar.parts * bar.part
        base = top + 0.5 + high / 2 + SMALL * CAPITAL / 2
        said = f"{bar.words} · scale {scale} when printed at full size"
        p.text(end + 2, base, said)
        lines = wrap(remark, wide, SMALL, 3)
        for n, text in enumerate(lines):
            p.text(left, top + high + 1.6 + n * SMALL * PITCH + ABOVE * SMALL, text)
        return high + 1.6 + len(lines) * SMALL * PITCH + BELOW


def cross(p: Picture, spot: Spot, radius: float) -> None:
    """A hole: its circle and a centre cross."""
    x, y = spot
    arm = radius + 0.9
    p.line("line", (x - arm, y, x + arm, y))
    p.line("line", (x, y - arm, x, y + arm))
    p.circle("line", x, y, radius)


def arrow(p: Picture, start: Spot, end: Spot) -> None:
    """A line with a filled head at its end."""
    long = distance(start, end)
    if long == 0:
        return
    ux, uy = (end[0] - start[0]) / long, (end[1] - start[1]) / long
    head = min(2.0, long / 2)
    back = (end[0] - ux * head, end[1] - uy * head)
    p.line("line", (*start, *back))
    p.polygon(
        "solid",
        (end, (back[0] - uy * head * 0.35, back[1] + ux * head * 0.35), (back[0] + uy * head * 0.35, back[1] - ux * head * 0.35)),
    )


def triangle(p: Picture, tip: Spot, size: float = 1.0) -> None:
    """The level mark: a triangle that stands on its tip."""
    x, y = tip
    p.polygon("solid", ((x, y), (x - 1.4 * size, y - 2.4 * size), (x + 1.4 * size, y - 2.4 * size)))
