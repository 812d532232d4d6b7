"""The plan on the blank survey sheet: four walls with boxes to write their sizes into, over squares for what is in the room."""

from __future__ import annotations

from tilespec.document.drawing.lettering import CAPITAL, PLAIN
from tilespec.document.drawing.shape import Box, Spot
from tilespec.document.drawing.svg import Picture
from tilespec.document.drawing.types import Drawing

_WIDE, _HIGH = 180, 83
_ROOM = Box(34, 13, 146, 70)
_SQUARE = 5.0
_LETTER = 6.0
_ALT = (
    "A room seen from above, with walls A to D clockwise, A along the top: a box outside each wall for its width, a box on each"
    " diagonal, squares inside for drain, pipes, door and what stands in the room"
)


def blank_plan() -> Drawing:
    """Not to scale. Words on it are few: left and right are as one sees them facing the wall."""
    picture, r = Picture(), _ROOM
    across, down = int(r.width / _SQUARE), int(r.height / _SQUARE)
    picture.lines("hatch", ((r.left + n * _SQUARE, r.top, r.left + n * _SQUARE, r.bottom) for n in range(1, across + 1)))
    picture.lines("hatch", ((r.left, r.top + n * _SQUARE, r.right, r.top + n * _SQUARE) for n in range(1, down)))
    picture.line("fall", (r.left, r.top, r.right, r.bottom))
    picture.line("fall", (r.right, r.top, r.left, r.bottom))
    picture.box("first", r)
    x, y = r.middle
    for n in (-1, 1):
        _write(picture, (x + n * 0.25 * r.width, y - 0.25 * r.height), 26, 9)
    for spot, wide in (((x, 6), 50), ((x, _HIGH - 6), 50), ((_WIDE - 16, y), 30), ((16, y), 30)):
        _write(picture, spot, wide, 11)
    inset = 8.0
    _wall(picture, "A", (x, r.top + inset), 0)
    _wall(picture, "B", (r.right - inset, y), 90)
    _wall(picture, "C", (x, r.bottom - inset), 180)
    _wall(picture, "D", (r.left + inset, y), 270)
    return Drawing("blank-plan", "Plan", picture.render(_WIDE, _HIGH, _ALT), "not to scale", _ALT, _WIDE, _HIGH)


def _write(picture: Picture, at: Spot, wide: float, high: float) -> None:
    box = Box(at[0] - wide / 2, at[1] - high / 2, at[0] + wide / 2, at[1] + high / 2)
    picture.box("clear", box)
    picture.box("top", box)


def _wall(picture: Picture, letter: str, at: Spot, turn: int) -> None:
    """The letter upright on white, and beside it which end is which as one faces the wall."""
    x, y = at
    picture.box("clear", Box(x - 4, y - 4, x + 4, y + 4))
    picture.text(x, y + CAPITAL * _LETTER / 2, letter, _LETTER, "middle", bold=True)
    along = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[turn]
    for word, way in (("left", -1), ("right", 1)):
        spot = x + 13 * way * along[0], y + 13 * way * along[1]
        half = (5.0, 2.2) if turn in (0, 180) else (2.2, 5.0)
        picture.box("clear", Box(spot[0] - half[0], spot[1] - half[1], spot[0] + half[0], spot[1] + half[1]))
        sink = CAPITAL * PLAIN / 2
        if turn in (0, 180):
            picture.text(spot[0], spot[1] + sink, word, PLAIN, "middle")
        elif turn == 90:
            picture.text(spot[0] - sink, spot[1], word, PLAIN, "middle", 90)
        else:
            picture.text(spot[0] + sink, spot[1], word, PLAIN, "middle", -90)
