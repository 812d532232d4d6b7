"""Adhesives by their class: what the tile, the base and the place ask for, and which one reason is told where several hold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.checks.adhesive.declared import instead, where_named
from tilespec.checks.rule import Context, Finding, Rule, called, cited
from tilespec.checks.wet import wetted
from tilespec.diagnostics.model import Label
from tilespec.job.product import meets
from tilespec.job.resolve import adhesive_for
from tilespec.job.types import Product, Rect, Surface, Tile
from tilespec.practice.lookup import Word
from tilespec.setout.geometry import bounds, box
from tilespec.source import Span

# Products of North American class have no equal among these classes: they are not judged by them.
TYPES = ("C1", "C2", "D1", "D2", "R1", "R2")
# What a dispersion offends, the gravest first.
_GRAVEST = ("d-adhesive-on-wet-floor", "d1-adhesive-in-shower", "d-adhesive-behind-porcelain", "d-adhesive-on-membrane")
_HEATED = "heated-floor-without-deformable-adhesive"


@dataclass(frozen=True, slots=True)
class Bedded:
    """One tile on one surface, or in a niche of it, and its adhesive."""

    surface: Surface
    tile: Tile
    region: Rect | None
    span: Span | None
    adhesive: Product


@dataclass(frozen=True, slots=True)
class Weak:
    bedded: Bedded
    asked: Word


def bedded(context: Context) -> Iterator[Bedded]:
    for surface in context.job.tiled:
        laid = [(c.tile, c.region, c.span) for c in surface.coverings]
        laid += [(n.tile, n.rect, n.span) for n in surface.niches if n.tile is not None]
        for tile, region, span in laid:
            adhesive = adhesive_for(surface, tile)
            if adhesive is not None:
                yield Bedded(surface, tile, region, span, adhesive)


def dispersion(product: Product) -> bool:
    return product.cls[:1] in (("D1",), ("D2",)) or "dispersion" in product.flags


def option(product: Product, letter: str) -> bool:
    """Whether the class has an option, such as T."""
    return any(letter in part for part in product.cls[1:] if part not in ("S1", "S2"))


def dense(context: Context, tile: Tile) -> bool:
    """No water dries through it: glass, porcelain, and whatever takes up as little."""
    low = context.practice.limit("porcelain-absorption")
    if tile.absorption is not None:
        return tile.absorption.value <= low.value
    return tile.body in ("porcelain", "glass")


def on_membrane(b: Bedded) -> bool:
    """The tile lies on a membrane that seals its place; the strip turned up from a wet floor does not count."""
    if b.surface.product("membrane") is None:
        return False
    whole = bounds(b.surface.outline)
    here = box(b.region) if b.region is not None else whole
    areas = (a for a in b.surface.membrane_areas if a.reason != "upstand")
    return any((box(a.rect) if a.rect is not None else whole).meets(here) for a in areas)


def fault_of_dispersion(context: Context, b: Bedded) -> str | None:
    """The rule that a dispersion adhesive offends at this place, the gravest first."""
    if not dispersion(b.adhesive):
        return None
    wet, sealed = wetted(context, b.surface, b.region), on_membrane(b)
    if b.surface.kind == "floor" and wet:
        return "d-adhesive-on-wet-floor"
    if wet and b.adhesive.cls[:1] == ("D1",):
        return "d1-adhesive-in-shower"
    # Between chips there are joints enough to dry through.
    if dense(context, b.tile) and not b.tile.mosaic and (wet or sealed or b.surface.base.absorbency == "dense"):
        return "d-adhesive-behind-porcelain"
    return "d-adhesive-on-membrane" if sealed else None


def dispersions(context: Context, rule: str) -> Iterator[Bedded]:
    """Where the rule is offended, unless the same adhesive under the same tile offends a graver one: one mistake, one message."""
    found = context.once("faults of dispersions", _faults_of_dispersions)
    for b, fault in found:
        same = [f for other, f in found if (other.adhesive.name, other.tile.name) == (b.adhesive.name, b.tile.name)]
        if fault == rule == min(same, key=_GRAVEST.index):
            yield b


def _faults_of_dispersions(context: Context) -> tuple[tuple[Bedded, str], ...]:
    return tuple((b, fault) for b in bedded(context) if (fault := fault_of_dispersion(context, b)) is not None)


def _asks(context: Context, b: Bedded) -> tuple[tuple[str, Word], ...]:
    """Rules that ask for a class here. Of two that ask for the same, the first is told."""
    word, limit = context.practice.word, context.practice.limit
    surface, tile, edge = b.surface, b.tile, b.tile.long_side.value
    floor = surface.kind == "floor"
    asks: list[tuple[str, Word]] = []
    if floor and context.room(surface).heating is not None:
        asks.append((_HEATED, word("adhesive-heated-floor")))
    if surface.base.kind == "old-tiles":
        asks.append(("weak-adhesive-on-old-tiles", word("adhesive-old-tiles")))
    if floor and surface.base.kind in ("timber", "plywood"):
        asks.append(("weak-adhesive-on-timber", word("adhesive-timber")))
    if tile.stone:
        asks.append(("weak-adhesive-for-stone", word("adhesive-stone")))
    if tile.body == "glass":
        asks.append(("weak-adhesive-for-glass", word("adhesive-glass")))
    elif dense(context, tile):
        asks.append(("weak-adhesive-for-porcelain", word("adhesive-porcelain")))
    if not tile.mosaic:
        if edge > limit("very-large-edge").value:
            asks.append(("weak-adhesive-for-very-large-tile", word("adhesive-very-large")))
        elif edge > limit("large-format-edge").value:
            asks.append(("weak-adhesive-for-large-tile", word("adhesive-large-format")))
        elif not floor and edge > limit("plasterboard-small-edge").value:
            asks.append(("weak-adhesive-for-wall-tile", word("adhesive-wall-large")))
    if wetted(context, surface, b.region):
        # On a membrane a wall asks for more than the guidance for bare walls.
        key = "adhesive-floor-wet" if floor else "adhesive-dispersion-membrane" if on_membrane(b) else "adhesive-wall-wet"
        asks.append(("adhesive-below-class-in-shower", word(key)))
    return tuple(asks)


def _rank(asked: Word) -> tuple[int, int]:
    first = asked.choices[0]
    return (2 if first[0] == "C2" else 1, max((int(p[1]) for p in first if p in ("S1", "S2")), default=0))


def enough(adhesive: Product, asked: Word) -> bool:
    """A stronger class always passes, and so does reaction resin."""
    return adhesive.cls[0][0] == "R" or any(meets(adhesive, choice) for choice in asked.choices)


def weak(context: Context, rule: str) -> Iterator[Weak]:
    """Tiles whose adhesive is below what this rule asks for, where no rule asks for more: one mistake, one message."""
    yield from (found for name, found in context.once("weak adhesives", _weak) if name == rule)


def _weak(context: Context) -> tuple[tuple[str, Weak], ...]:
    return tuple(_each_weak(context))


def _each_weak(context: Context) -> Iterator[tuple[str, Weak]]:
    found = context.once("faults of dispersions", _faults_of_dispersions)
    told_as_dispersion = {(b.adhesive.name, b.tile.name) for b, _ in found}
    for b in bedded(context):
        if b.adhesive.cls[:1] not in tuple((t,) for t in TYPES):
            continue
        unmet = [(name, asked) for name, asked in _asks(context, b) if not enough(b.adhesive, asked)]
        if (b.adhesive.name, b.tile.name) in told_as_dispersion:
            unmet = [(name, asked) for name, asked in unmet if _rank(asked)[1]]
        if unmet:
            name, asked = max(unmet, key=lambda u: _rank(u[1]))
            yield name, Weak(b, asked)


def place(b: Bedded) -> str:
    """How a product is said to be for this tile."""
    return f"for tile {b.tile.name}" if b.tile.named else "for floor" if b.surface.kind == "floor" else "for walls"


def spot(context: Context, b: Bedded) -> Span:
    """Where a wrong adhesive is put right: at the adhesive itself, or at the tile where a stock file declares the adhesive."""
    spec = context.job.files[0] if context.job.files else ""
    own = tuple(s for s in (b.adhesive.span, b.tile.span) if s is not None and s.file == spec)
    return context.span(*own, b.span, b.surface.span)


def also(context: Context, b: Bedded) -> tuple[Label, ...]:
    """The other place that the fault is about."""
    labels = ((b.adhesive.span, "this adhesive"), (b.tile.span, "this tile"))
    near = tuple(Label(span, text) for span, text in labels if span is not None and span != spot(context, b))
    return (*near, *where_named(b.surface, b.adhesive))


def another(context: Context, b: Bedded, what: str, values: str, where: str = "") -> str:
    """How to give the tile another adhesive."""
    return instead(context, b.surface, b.adhesive, what, values, where or place(b))


def told(rule: Rule, context: Context, found: Weak, because: str, label: str) -> Finding:
    """The finding of an adhesive that is too weak. `because`: what asks for more, as the start of a clause."""
    b, asked = found.bedded, found.asked
    first = " ".join(asked.choices[0])
    return rule.at(
        (b.surface.id,),
        spot(context, b),
        f"{called(b.tile)} on {context.name(b.surface)} is laid in {b.adhesive.name} ({' '.join(b.adhesive.cls)}); "
        f"{because} takes {asked.text} at least.",
        label=label,
        secondary=also(context, b),
        help=another(context, b, "an adhesive of that class", f"class {first}"),
        notes=(cited(asked),),
    )
