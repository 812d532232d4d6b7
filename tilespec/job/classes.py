"""What a place asks of its products and because of what: the practice's words, one for each reason."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tilespec.job.types import Product, Tile
from tilespec.practice.lookup import Practice, Word
from tilespec.quantity import Quantity

# Bases that ask for a class of adhesive of their own, whatever lies on them.
_BASES = {
    "timber": "adhesive-timber",
    "plywood": "adhesive-timber",
    "old-tiles": "adhesive-old-tiles",
    "calcium-sulfate-screed": "adhesive-calcium-sulfate",
}


@dataclass(frozen=True, slots=True)
class Ask:
    """One class or property that a place asks of a product.

    because  wording keys: what wets the place ("shower", "bath", "splash", "wet floor"), "dry", "heated-floor", "edge-over",
             "absorption-up-to", "porcelain", "glass", "stone", "translucent", "mirror", "dispersion-membrane", or the base's kind
    word     what is asked, with its source
    flags    the property as products declare it; () for a class
    over     the size from which it is asked
    """

    because: tuple[str, ...]
    word: Word
    flags: tuple[str, ...] = ()
    over: Quantity | None = None


def strongest(asks: Sequence[Ask]) -> Ask:
    """The most demanding of several asked classes (each may list alternatives; the first is the usual one)."""

    def rank(ask: Ask) -> tuple[int, int]:
        first = ask.word.choices[0]
        base = {"D1": 0, "C1": 1, "D2": 1, "C2": 2, "R2": 3}.get(first[0], 1)
        return base, max((int(p[1]) for p in first if p in ("S1", "S2")), default=0)

    return max(asks, key=rank)


def adhesive_asks(
    practice: Practice, tile: Tile, floor: bool, wet: tuple[str, ...], heated: bool, base: str, membrane: Product | None
) -> tuple[Ask, ...]:
    """Least class of adhesive for a tile at a place (reference rows B-30 to B-45). `wet`: what wets it."""
    word, limit = practice.word, practice.limit
    # Of a mosaic the chips count: the sheet bends round what is not flat.
    chips = [q for q in (tile.chip_width, tile.chip_height) if q is not None] if tile.mosaic else []
    edge = max(chips, key=lambda q: q.value) if chips else tile.long_side
    place = "floor" if floor else "wall"
    asks = [Ask(wet or ("dry",), word(f"adhesive-{place}-{'wet' if wet else 'dry'}"))]
    if floor and heated:
        asks.append(Ask(("heated-floor",), word("adhesive-heated-floor")))
    sizes = [("very-large-edge", "adhesive-very-large"), ("large-format-edge", "adhesive-large-format")]
    if not floor:
        sizes.append(("plasterboard-small-edge", "adhesive-wall-large"))
    for size, key in sizes:
        if edge.value > limit(size).value:
            asks.append(Ask(("edge-over",), word(key), over=limit(size)))
            break
    if tile.body in ("porcelain", "glass"):
        asks.append(Ask((tile.body,), word("adhesive-porcelain")))
    elif tile.absorption is not None and tile.absorption.value <= limit("porcelain-absorption").value:
        asks.append(Ask(("absorption-up-to",), word("adhesive-porcelain"), over=limit("porcelain-absorption")))
    if tile.stone:
        asks.append(Ask(("stone",), word("adhesive-stone")))
    if base in _BASES:
        asks.append(Ask((base,), word(_BASES[base])))
    if membrane is not None and ("dispersion" in membrane.flags or membrane.cls[:1] == ("DM",)):
        asks.append(Ask(("dispersion-membrane",), word("adhesive-dispersion-membrane")))
    return tuple(asks)


def adhesive_looks(practice: Practice, tile: Tile) -> tuple[Ask, ...]:
    """The colour and the setting that show through a tile or mark it (reference row B-39)."""
    if tile.translucent:
        return (Ask(("translucent",), practice.word("adhesive-translucent"), ("fast", "white")),)
    if tile.stone and "dark" not in tile.words:
        return (Ask(("stone",), practice.word("adhesive-light-stone"), ("white",)),)
    return ()


def grout_ask(practice: Practice, floor: bool, wet: tuple[str, ...], heated: bool) -> Ask:
    """Least class of grout at a place (reference row C-10)."""
    if heated:
        return Ask(("heated-floor",), practice.word("grout-heated-floor"))
    if wet:
        return Ask(wet, practice.word("grout-wet"))
    return Ask(("dry",), practice.word("grout-bathroom" if floor else "grout-dry"))


def sealant_asks(practice: Practice, wet: tuple[str, ...], stone: bool, mirror: bool) -> tuple[Ask, ...]:
    """Least class of sealant at a place (reference rows G-23, G-24)."""
    asks = [Ask(wet or ("dry",), practice.word("sealant-shower" if wet else "sealant-bathroom"))]
    because = ("stone",) * stone + ("mirror",) * mirror
    if because:
        asks.append(Ask(because, practice.word("sealant-neutral"), ("neutral",)))
    return tuple(asks)


def membrane_ask(practice: Practice, reasons: tuple[str, ...]) -> Ask:
    """The kind of membrane (reference row D-02). `reasons`: why there is one."""
    return Ask(reasons, practice.word("membrane-class"))
