"""Reads a finished SVG the way a printer does: lines, letters and where they stand, in millimetres."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from itertools import combinations
from math import cos, radians, sin
from xml.etree import ElementTree

from fontTools.ttLib import TTFont

from tilespec.resources import data_bytes

SVG = "{http://www.w3.org/2000/svg}"
POINT = 25.4 / 72
FONTS = {"": "DejaVuSansCondensed.ttf", "bold": "DejaVuSansCondensed-Bold.ttf"}


@cache
def advances(weight: str) -> tuple[dict[int, int], int]:
    """Widths of the characters in the font of the prints, and its units in an em."""
    font = TTFont(BytesIO(data_bytes(f"templates/fonts/{FONTS[weight]}")))
    widths = font["hmtx"].metrics
    return {code: widths[glyph][0] for code, glyph in font.getBestCmap().items()}, font["head"].unitsPerEm


def printed_width(text: str, size: float, weight: str = "") -> float:
    widths, em = advances(weight)
    return sum(widths[ord(c)] for c in text) / em * size


@dataclass(frozen=True)
class Text:
    text: str
    size: float
    box: tuple[float, float, float, float]


@dataclass(frozen=True)
class Read:
    width: float
    height: float
    title: str
    paths: dict[str, ElementTree.Element]
    texts: tuple[Text, ...]
    tags: set[str]


def _box(node: ElementTree.Element) -> tuple[float, float, float, float]:
    text, size = node.text or "", float(node.get("font-size", "0"))
    wide = printed_width(text, size, node.get("font-weight", ""))
    x, y = float(node.get("x", "0")), float(node.get("y", "0"))
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[node.get("text-anchor", "start")]
    turn = 0.0
    if (how := node.get("transform")) is not None:
        m = re.fullmatch(r"rotate\((\S+) (\S+) (\S+)\)", how)
        assert m and (float(m[2]), float(m[3])) == (x, y)
        turn = radians(float(m[1]))
    # Figures and capitals stand 0.73 of the size above the base line, the longest tails 0.24 below it.
    spots = [
        (u * cos(turn) - v * sin(turn), u * sin(turn) + v * cos(turn))
        for u in (start, start + wide)
        for v in (-0.73 * size, 0.2 * size)
    ]
    return (
        x + min(p[0] for p in spots),
        y + min(p[1] for p in spots),
        x + max(p[0] for p in spots),
        y + max(p[1] for p in spots),
    )


def read(svg: str) -> Read:
    root = ElementTree.fromstring(svg)
    assert root.tag == SVG + "svg"
    width, height = (float(re.fullmatch(r"([0-9.]+)mm", root.get(k, ""))[1]) for k in ("width", "height"))  # type: ignore[index]
    # One unit of the drawing is one millimetre on paper.
    assert root.get("viewBox") == f"0 0 {width:g} {height:g}"
    paths: dict[str, ElementTree.Element] = {}
    for p in root.iter(SVG + "path"):
        assert p.get("class") not in paths, "one path for each line style"
        paths[str(p.get("class"))] = p
    texts = tuple(Text(t.text or "", float(t.get("font-size", "0")), _box(t)) for t in root.iter(SVG + "text"))
    title = root.find(SVG + "title")
    assert title is not None and title.text
    return Read(width, height, title.text, paths, texts, {n.tag.removeprefix(SVG) for n in root.iter()})


def segments(path: ElementTree.Element) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """The straight lines of a path of M, L, H, V and Z."""
    found = []
    begun = at = (0.0, 0.0)
    for letter, numbers in re.findall(r"([MLHVZ])([^MLHVZ]*)", str(path.get("d"))):
        values = [float(v) for v in numbers.split()]
        match letter:
            case "H":
                to = values[0], at[1]
            case "V":
                to = at[0], values[0]
            case "Z":
                to = begun
            case _:
                to = values[0], values[1]
        if letter == "M":
            begun = to
        else:
            found.append((at, to))
        at = to
    return found


def extent(path: ElementTree.Element) -> tuple[float, float, float, float]:
    """Bounds of a path of M, L, H, V and Z."""
    x = y = 0.0
    xs, ys = [], []
    for letter, numbers in re.findall(r"([MLHVZ])([^MLHVZ]*)", str(path.get("d"))):
        values = [float(v) for v in numbers.split()]
        if letter == "H":
            x = values[0]
        elif letter == "V":
            y = values[0]
        elif letter in "ML":
            x, y = values
        xs.append(x)
        ys.append(y)
    return min(xs), min(ys), max(xs), max(ys)


def overlapping(texts: tuple[Text, ...]) -> list[tuple[str, str]]:
    found = []
    for a, b in combinations(texts, 2):
        (ax, ay, bx, by), (cx, cy, dx, dy) = a.box, b.box
        if min(bx, dx) - max(ax, cx) > 0.01 and min(by, dy) - max(ay, cy) > 0.01:
            found.append((a.text, b.text))
    return found


def faults(svg: str) -> list[str]:
    """What would make the drawing hard to read on paper."""
    r = read(svg)
    found = []
    for t in r.texts:
        # 7 pt.
        if t.size < 7 * POINT:
            found.append(f"lettering of {t.size} mm: {t.text}")
        if t.box[0] < -0.01 or t.box[1] < -0.01 or t.box[2] > r.width + 0.01 or t.box[3] > r.height + 0.01:
            found.append(f"beyond the sheet: {t.text} {t.box}")
    found += [f"overlap: {a} / {b}" for a, b in overlapping(r.texts)]
    for name, p in r.paths.items():
        line, stroke, fill = float(p.get("stroke-width", "0")), p.get("stroke", "none"), p.get("fill", "none")
        # 0.25 pt.
        if stroke != "none" and line < 0.25 * POINT:
            found.append(f"line of {line} mm: {name}")
        if stroke not in ("none", "#000") and not (name in ("hatch", "cut") and stroke == "#555"):
            found.append(f"colour {stroke}: {name}")
        if fill not in ("none", "#000", "#fff"):
            found.append(f"colour {fill}: {name}")
    if len(svg.encode()) > 200_000:
        found.append(f"{len(svg.encode())} bytes")
    if r.tags != {"svg", "title", "path", "g", "text"}:
        found.append(f"elements {sorted(r.tags)}")
    return found
