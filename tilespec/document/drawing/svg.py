"""A small SVG writer: one path for each line style, text escaped, same input same bytes. Everything in millimetres."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from html import unescape

from tilespec.document.drawing.lettering import ABOVE, BELOW, FONT, SMALL, known, width
from tilespec.document.drawing.shape import Box, Line, Polygon, text_box


@dataclass(frozen=True, slots=True)
class Ink:
    """How one kind of line or face is drawn. Nothing is told apart by colour: dashes, weights and labels do that."""

    name: str
    line: float = 0.0  # width in mm; 0: no line
    dash: tuple[float, ...] = ()
    stroke: str = "#000"
    fill: str = "none"
    round: bool = False


# In the order in which they lie on each other. The thinnest line is 0.28 pt. Grey (67 % black) is for hatches only.
INKS = (
    Ink("hatch", 0.12, stroke="#555"),
    Ink("cut", 0.1, stroke="#555"),
    Ink("grid", 0.1),
    Ink("keep", 0.2, (0.5, 0.9)),
    Ink("heavy", 0.5),
    Ink("gap", fill="#fff"),
    Ink("fine", 0.12),
    Ink("cross", 0.12),
    Ink("line", 0.25),
    Ink("movement", 0.6, (0.7, 0.7)),
    Ink("trim", 0.5, (1.6, 1.0)),
    Ink("membrane", 0.3, (2.6, 1.2)),
    Ink("zone", 0.3, (4.0, 0.9, 0.6, 0.9, 0.6, 0.9)),
    Ink("fitting", 0.35, (0.01, 0.9), round=True),
    Ink("datum", 0.25, (7.0, 1.1, 1.3, 1.1)),
    Ink("fall", 0.18, (1.2, 0.8)),
    Ink("first", 0.6),
    Ink("front", 0.6),
    Ink("clear", fill="#fff"),
    Ink("solid", fill="#000"),
    Ink("top", 0.18),
)
_NAMES = frozenset(i.name for i in INKS)
_LONGEST_NAME = 60  # characters
_ILLEGAL = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def escape(text: str) -> str:
    """Text as XML character data or attribute value; what XML forbids becomes a blank."""
    text = _ILLEGAL.sub(" ", text)
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;").replace("'", "&#39;")


def plain(name: str) -> str:
    """A name from the spec as written on a drawing: one line, without control characters, not endless."""
    text = " ".join(_ILLEGAL.sub(" ", name).split())
    return text if len(text) <= _LONGEST_NAME else text[: _LONGEST_NAME - 1].rstrip() + "…"


def number(value: float) -> str:
    """A coordinate to a hundredth of a millimetre, without needless zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


@dataclass(frozen=True, slots=True)
class Lettering:
    """One line of text: its anchor on the base line, turned by `turn` degrees."""

    x: float
    y: float
    text: str
    size: float
    anchor: str
    turn: float
    bold: bool

    @property
    def box(self) -> Box:
        wide = width(self.text, self.size, self.bold)
        return text_box(self.x, self.y, wide, ABOVE * self.size, BELOW * self.size, self.anchor, self.turn)


class Picture:
    """What has been drawn so far, by ink."""

    def __init__(self) -> None:
        self._paths: dict[str, list[str]] = {}
        self.letterings: list[Lettering] = []

    def _add(self, ink: str, data: str) -> None:
        if ink not in _NAMES:
            raise KeyError(f"no ink {ink}")
        self._paths.setdefault(ink, []).append(data)

    def line(self, ink: str, line: Line) -> None:
        x1, y1, x2, y2 = (number(v) for v in line)
        if (x1, y1) == (x2, y2):
            return
        if y1 == y2:
            self._add(ink, f"M{x1} {y1}H{x2}")
        elif x1 == x2:
            self._add(ink, f"M{x1} {y1}V{y2}")
        else:
            self._add(ink, f"M{x1} {y1}L{x2} {y2}")

    def lines(self, ink: str, lines: Iterable[Line]) -> None:
        for line in lines:
            self.line(ink, line)

    def polygon(self, ink: str, spots: Polygon) -> None:
        self._add(ink, "M" + "L".join(f"{number(x)} {number(y)}" for x, y in spots) + "Z")

    def box(self, ink: str, box: Box) -> None:
        self.polygon(ink, box.corners)

    def circle(self, ink: str, x: float, y: float, radius: float) -> None:
        r, d = number(radius), number(2 * radius)
        self._add(ink, f"M{number(x - radius)} {number(y)}a{r} {r} 0 1 0 {d} 0a{r} {r} 0 1 0 -{d} 0Z")

    def arc(self, ink: str, start: tuple[float, float], end: tuple[float, float], radius: float, clockwise: bool) -> None:
        r = number(radius)
        self._add(ink, f"M{number(start[0])} {number(start[1])}A{r} {r} 0 0 {int(clockwise)} {number(end[0])} {number(end[1])}")

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float = SMALL,
        anchor: str = "start",
        turn: float = 0.0,
        bold: bool = False,
    ) -> Lettering:
        if size < SMALL:
            raise ValueError(f"lettering of {size} mm is too small to read")
        made = Lettering(x, y, " ".join(text.split()), size, anchor, turn, bold)
        self.letterings.append(made)
        return made

    def render(self, across: int, down: int, title: str) -> str:
        """The picture as a complete SVG of `across` by `down` millimetres."""
        out = [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}mm" height="{down}mm" '
            f'viewBox="0 0 {across} {down}" role="img">',
            f"<title>{escape(title)}</title>",
        ]
        for ink in INKS:
            data = self._paths.get(ink.name)
            if not data:
                continue
            style = f'fill="{ink.fill}"'
            if ink.line:
                style += f' stroke="{ink.stroke}" stroke-width="{number(ink.line)}"'
                if ink.dash:
                    style += f' stroke-dasharray="{" ".join(number(d) for d in ink.dash)}"'
                if ink.round:
                    style += ' stroke-linecap="round"'
            out.append(f'<path class="{ink.name}" {style} d="{"".join(data)}"/>')
        out.append(f'<g font-family="{FONT}" fill="#000">')
        for t in self.letterings:
            if not t.text:
                continue
            place = f'x="{number(t.x)}" y="{number(t.y)}" font-size="{number(t.size)}"'
            if t.anchor != "start":
                place += f' text-anchor="{t.anchor}"'
            if t.bold:
                place += ' font-weight="bold"'
            if t.turn:
                place += f' transform="rotate({number(t.turn)} {number(t.x)} {number(t.y)})"'
            out.append(f"<text {place}>{escape(t.text)}</text>")
        out.append("</g>")
        out.append("</svg>")
        return "\n".join(out) + "\n"


_TEXT = re.compile(r'<text (?P<place>[^>]*?font-size="(?P<size>[0-9.]+)"[^>]*)>(?P<words>[^<]*)</text>')


def standing_alone(svg: str) -> str:
    """A drawing for a file of its own: its lettering takes the room that was left for it in whatever font the reader has."""

    def held(found: re.Match[str]) -> str:
        words = unescape(found["words"])
        if "font-weight" in found["place"] or not known(words):
            return found[0]
        length = number(width(words, float(found["size"])))
        return f'<text {found["place"]} textLength="{length}" lengthAdjust="spacingAndGlyphs">{found["words"]}</text>'

    return _TEXT.sub(held, svg)
