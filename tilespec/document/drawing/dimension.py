"""Running dimensions, the way they are marked with a tape: every place from one edge or line, whole millimetres, named.

Places are quantities. Beside an edge they stand in one row; where numbers would touch they are staggered, and where that
does not do either, turned and moved apart with a leader.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from tilespec.document.drawing.lettering import ABOVE, BELOW, CAPITAL, PITCH, SMALL, shorten, width
from tilespec.document.drawing.shape import Box, Line, apart, text_box
from tilespec.document.drawing.svg import Picture
from tilespec.document.drawing.types import Show
from tilespec.quantity import Default, Kind, Quantity, Worked, work

SOURCE = "place on the drawing"


# ---------------------------------------------------------------- numbers as text


def _whole(value: Fraction) -> int:
    return floor(value + Fraction(1, 2))


def _millimetres(mm: Fraction) -> str:
    size = abs(mm)
    if size >= 10 or size.denominator == 1:
        text = str(_whole(size))
    else:
        text = f"{_whole(size * 10) // 10}.{_whole(size * 10) % 10}"
    return ("−" if mm < 0 and text.strip("0.") else "") + text


def _customary(mm: Fraction) -> str:
    sixteenths = _whole(abs(mm) / Fraction(254, 10) * 16)
    feet, rest = divmod(sixteenths, 12 * 16)
    inches, part = divmod(rest, 16)
    broken = f"{Fraction(part, 16).numerator}/{Fraction(part, 16).denominator}" if part else ""
    words = " ".join(w for w in (str(inches) if inches or not broken else "", broken) if w) + "″"
    return ("−" if mm < 0 and sixteenths else "") + (f"{feet}′ {words}" if feet else words)


def standard(family: str) -> Show:
    """Whole millimetres without their unit, as a tape is read; US: feet and inches to a sixteenth, millimetres in brackets."""

    def show(q: Quantity) -> str:
        if q.kind is Kind.LENGTH:
            return f"{_customary(q.mm)} ({_millimetres(q.mm)})" if family == "US" else _millimetres(q.mm)
        if q.kind is Kind.SLOPE and q.value:
            ratio = 1 / q.value
            return f"1:{_millimetres(ratio)}"
        return f"{_millimetres(q.number)} {q.shown.symbol}".strip()

    return show


def assumed(q: Quantity) -> bool:
    """Does a default, which somebody has to confirm, stand behind this quantity?"""
    if isinstance(q.why, Default):
        return True
    return isinstance(q.why, Worked) and any(assumed(i) for _, i in q.why.inputs)


# ---------------------------------------------------------------- places along an edge


def sum_of(a: Quantity, b: Quantity, first: str, second: str) -> Quantity:
    return work(f"{first} + {second}", "mm", source=SOURCE, **{first: a, second: b})


def away_from(q: Quantity, line: Quantity, name: str) -> Quantity:
    """Distance of a place from a line, never below nought."""
    if q.value >= line.value:
        return work(f"place - {name}", "mm", source=SOURCE, place=q, **{name: line})
    return work(f"{name} - place", "mm", source=SOURCE, place=q, **{name: line})


class Chain:
    """The places to be dimensioned from one edge: each once, with all that stands there."""

    def __init__(self) -> None:
        self._places: dict[Fraction, tuple[Quantity, list[str]]] = {}

    def add(self, q: Quantity, name: str = "") -> None:
        _, names = self._places.setdefault(q.value, (q, []))
        if name and name not in names:
            names.append(name)

    def places(self) -> tuple[tuple[Quantity, tuple[str, ...]], ...]:
        return tuple((q, tuple(names)) for _, (q, names) in sorted(self._places.items()))


@dataclass(frozen=True, slots=True)
class Stop:
    """One number of a row: where it points to along the edge (mm on paper), and its text."""

    at: float
    text: str


@dataclass(frozen=True, slots=True)
class _Text:
    along: float
    away: float
    text: str
    anchor: str
    turn: float


@dataclass(frozen=True, slots=True)
class Row:
    """Running dimensions laid out beside an edge: coordinates along the edge, and away from it."""

    side: str  # "below", "above", "left", "right"
    stops: tuple[Stop, ...]
    origin: float | None
    leaders: tuple[Line, ...]
    texts: tuple[_Text, ...]
    low: float
    high: float
    depth: float


BASE = 2.6  # from the edge to the line that the ticks stand on
_SPACE = 1.0  # between two texts of a row
_LONGEST = 42.0  # of one text


def _clear_rows(stops: tuple[Stop, ...], size: float, most: int) -> tuple[int, ...] | None:
    """A row for each text, level with the edge, so that no text touches another or another's leader. None: no room."""
    rows: list[int] = []
    placed: list[tuple[float, float, int, float]] = []  # left, right, row, leader
    for stop in stops:
        half = width(stop.text, size) / 2 + _SPACE / 2
        left, right = stop.at - half, stop.at + half
        for row in range(most):
            touches = any(row == r and left < b and a < right for a, b, r, _ in placed)
            # Its leader runs through the rows nearer to the edge, theirs through this one.
            crosses = any((r < row and a < stop.at < b) or (r > row and left < p < right) for a, b, r, p in placed)
            if not touches and not crosses:
                rows.append(row)
                placed.append((left, right, row, stop.at))
                break
        else:
            return None
    return tuple(rows)


def lay(side: str, stops: tuple[Stop, ...], origin: float | None, title: str, size: float = SMALL) -> Row:
    """Lay out the running dimensions of one side. `title` says what they are measured from."""
    stops = tuple(Stop(s.at, shorten(s.text, _LONGEST, size)) for s in sorted(stops, key=lambda s: s.at))
    leaders: list[Line] = []
    texts: list[_Text] = []
    middle = (stops[0].at + stops[-1].at) / 2 if stops else 0.0
    level = side in ("below", "above")
    rows = _clear_rows(stops, size, 4) if level else None
    depth = BASE + 1.0
    if rows is not None:
        for stop, row in zip(stops, rows):
            near = BASE + 1.2 + row * size * PITCH
            if row:
                leaders.append((stop.at, BASE, stop.at, near))
            texts.append(_Text(stop.at, near + (ABOVE if side == "below" else BELOW) * size, stop.text, "middle", 0))
            depth = max(depth, near + size)
    else:
        spots = apart([s.at for s in stops], [size * 1.15] * len(stops))
        moved = max((abs(a - s.at) for a, s in zip(spots, stops)), default=0.0)
        bend = 0.0 if moved < 0.05 else 2.4 if moved < 6 else 4.5
        for stop, spot in zip(stops, spots):
            if bend:
                leaders.append((stop.at, BASE + 0.6, spot, BASE + 0.6 + bend))
            near = BASE + 1.2 + bend
            if level:
                texts.append(_Text(spot + CAPITAL / 2 * size, near, stop.text, "end" if side == "below" else "start", -90))
            else:
                texts.append(_Text(spot + CAPITAL / 2 * size, near, stop.text, "end" if side == "left" else "start", 0))
            depth = max(depth, near + width(stop.text, size))
    depth += 0.8
    if level:
        texts.append(_Text(middle, depth + (ABOVE if side == "below" else BELOW) * size, title, "middle", 0))
    else:
        texts.append(_Text(middle, depth + (BELOW if side == "left" else ABOVE) * size, title, "middle", -90))
    depth += size
    boxes = [_box(side, t, size) for t in texts]
    low = min([s.at for s in stops] + [b.left if level else b.top for b in boxes])
    high = max([s.at for s in stops] + [b.right if level else b.bottom for b in boxes])
    return Row(side, stops, origin, tuple(leaders), tuple(texts), low, high, depth)


def _place(side: str, edge: float, along: float, away: float) -> tuple[float, float]:
    if side == "below":
        return along, edge + away
    if side == "above":
        return along, edge - away
    if side == "left":
        return edge - away, along
    return edge + away, along


def _box(side: str, t: _Text, size: float, edge: float = 0.0) -> Box:
    x, y = _place(side, edge, t.along, t.away)
    return text_box(x, y, width(t.text, size), ABOVE * size, BELOW * size, t.anchor, t.turn)


def draw(
    row: Row, picture: Picture, edge: float, shift: float, reach: Callable[[float], float] | None = None, size: float = SMALL
) -> None:
    """Draw a row: its base line lies BASE from `edge`; `shift` moves it along.

    `reach`: how far behind the edge the extension line of a place begins.
    """

    def at(along: float, away: float) -> tuple[float, float]:
        return _place(row.side, edge, along + shift, away)

    if row.stops:
        ends = [s.at for s in row.stops] + ([row.origin] if row.origin is not None else [])
        picture.line("fine", (*at(min(ends), BASE), *at(max(ends), BASE)))
    for stop in row.stops:
        begin = -(reach(stop.at) if reach else 0.0)
        picture.line("fine", (*at(stop.at, begin + 0.5), *at(stop.at, BASE + 0.6)))
        picture.line("line", (*at(stop.at - 0.55, BASE - 0.55), *at(stop.at + 0.55, BASE + 0.55)))
    if row.origin is not None:
        begin = -(reach(row.origin) if reach else 0.0)
        picture.line("fine", (*at(row.origin, begin + 0.5), *at(row.origin, BASE)))
        picture.circle("top", *at(row.origin, BASE), 0.8)
    for a, away_a, b, away_b in row.leaders:
        picture.line("fine", (*at(a, away_a), *at(b, away_b)))
    for t in row.texts:
        x, y = at(t.along, t.away)
        picture.text(x, y, t.text, size, t.anchor, t.turn)
