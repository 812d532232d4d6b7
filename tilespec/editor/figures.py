"""What follows from a surface, a tile, a product or a heating, in a few words, for hovers and hints."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from tilespec.checks import RULES
from tilespec.checks.deviation import covers, named
from tilespec.checks.rule import QUALITY, Context
from tilespec.editor.desk import Page
from tilespec.job.types import Heating, Product, Surface, Tile
from tilespec.quantity.typed import typed
from tilespec.source import Span
from tilespec.takeoff.types import Line, TakeOff

# What is worked out while one types goes by area, with a larger allowance: nobody may order from it.
COUNTED = "the print counts piece by piece"


@dataclass(frozen=True, slots=True)
class Hint:
    """What is shown beside a surface. `span`: where the surface is said, in the text."""

    span: Span
    text: str


def takeoff_of(page: Page) -> TakeOff | None:
    """The take-off of this very text, if a pause has worked it out."""
    return page.behind.rest.takeoff if page.fresh and page.behind is not None else None


def silenced(page: Page, place: Span) -> list[str]:
    """What the deviation whose rule stands at this place silences, one a line, if a pause has worked this very text out."""
    if not page.fresh or page.behind is None:
        return []
    rest = page.behind.rest
    deviation = next((d for d in rest.look.job.deviations if d.rule.span == place), None)
    rule = named(deviation, RULES) if deviation is not None else None
    if deviation is None or rule is None or rule.guards != QUALITY:
        return []
    context = Context(rest.look.job, rest.look.practice, rest.takeoff, rest.sequence)
    return [f"Silences: {f.diagnostic.message}" for f in rule.find(context) if covers(deviation, f)]


def hints(page: Page) -> list[Hint]:
    """Area, tiles and boxes beside each surface; those of the last pause, as long as the surface is the same."""
    if page.behind is None or page.look is None:
        return []
    there = page.behind.rest
    now = {s.id: s for s in page.look.job.tiled}
    found = []
    for surface in there.look.job.tiled:
        if surface.span is not None and now.get(surface.id) is surface:
            found.append(Hint(page.back(surface.span), surface_words(surface, there.takeoff)))
    return found


def surface_words(surface: Surface, takeoff: TakeOff) -> str:
    """`about 5.8 m2; wall-tile: 31 tiles, 6 boxes; the print counts piece by piece`."""
    parts = [f"about {typed(takeoff.measure(surface.id).tiled_area)}"]
    for line in takeoff.lines_of("tile"):
        if not line.role and any(p.place == surface.id for p in line.parts):
            parts.append(tile_words(line, surface.id))
    return "; ".join((*parts, COUNTED))


def tile_words(line: Line, place: str) -> str:
    """How many tiles of a line one surface takes, by its area with the allowance, and in how many boxes they come."""
    tile = line.item
    assert isinstance(tile, Tile)
    area = tile.width.value * tile.height.value
    here = [p for p in line.parts if p.place == place]
    most = sum((p.net.value * (1 + (p.allowance.value if p.allowance else Fraction(0))) for p in here), Fraction(0))
    count = ceil(most / area)
    boxes = f", {_number(ceil(count / line.pack.value), 'box', 'boxes')}" if line.pack is not None and line.pack.value else ""
    return f"{line.name}: {_number(count, 'tile', 'tiles')}{boxes}"


def _number(n: int, one: str, more: str) -> str:
    return f"{n} {one if n == 1 else more}"


def order_words(name: str, takeoff: TakeOff) -> str:
    """What the whole job takes of a tile."""
    for line in takeoff.lines_of("tile"):
        if line.name == name and not line.role:
            words = f"{typed(line.net)} to tile"
            if line.allowance is not None:
                words += f", {typed(line.gross)} with {typed(line.allowance)} allowance"
            count = f", {_number(int(line.pieces.value), 'tile', 'tiles')}" if line.pieces is not None else ""
            boxes = f", {_number(int(line.packs.value), 'box', 'boxes')}" if line.packs is not None else ""
            return f"In this job about {words}{count}{boxes}; {COUNTED}: order by that."
    return ""


def size_words(tile: Tile) -> str:
    sides = " x ".join(typed(q) for q in (tile.width, tile.height, tile.thickness))
    return f"{sides}, {tile.body}" + (f", {typed(tile.box)} in a box" if tile.box is not None else "")


def product_words(product: Product, takeoff: TakeOff | None) -> list[str]:
    """Class, waits and quantity of a product."""
    said = []
    if product.cls:
        said.append(f"Class {' '.join(product.cls)}.")
    for wait in product.waits:
        last = f" to {typed(wait.maximum)}" if wait.maximum is not None else ""
        between = "between coats" if wait.before == "coats" else f"before {wait.before}"
        said.append(f"Wait {typed(wait.minimum)}{last} {between}.")
    if product.generic:
        said.append("Generic: to be confirmed on the data sheet of the product that is bought.")
    if takeoff is not None:
        for line in takeoff.lines:
            if line.kind == product.kind and line.name == product.name and not line.role:
                packs = f", {_number(int(line.packs.value), 'pack', 'packs')}" if line.packs is not None else ""
                said.append(f"In this job about {typed(line.gross)}{packs}; {COUNTED}: order by that.")
    return said


def heating_words(room: str, heating: Heating, takeoff: TakeOff) -> str:
    for h in takeoff.heating:
        if h.room == room:
            current = f", {typed(h.current)}" if h.current is not None else ""
            laid = f", of which whole mats cover {typed(h.laid_area)}" if h.laid_area is not None else ""
            return f"{heating.kind}: {typed(h.power)}{current} on {typed(h.free_area)} free floor{laid}."
    return ""
