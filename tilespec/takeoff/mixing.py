"""Mixing cards: water for a bag, maturing, pot life, and how much can be used up before it sets."""

from __future__ import annotations

from collections.abc import Sequence

from tilespec.job.types import Product
from tilespec.practice.lookup import Practice
from tilespec.quantity import Kind, Quantity, work
from tilespec.quantity.total import total
from tilespec.takeoff import membrane
from tilespec.takeoff.adhesive import Bed
from tilespec.takeoff.order import label, product_for
from tilespec.takeoff.types import Line, Missing, Mix, Part

# Layers that are laid in another step than the one that sets the pace.
_BESIDE = ("back-butter", "mat-bed", "mat-cover")


def is_powder(product: Product) -> bool:
    """Mixed with water on site: cement adhesives, grouts, membranes and levelling compounds."""
    if product.kind not in ("adhesive", "grout", "membrane", "leveller"):
        return False
    if product.water is not None:
        return True
    if {"resin", "epoxy", "polyurethane", "dispersion"} & set(product.flags):
        return False
    by_class = {"C1", "C2", "CG1", "CG2", "CM"} & set(product.cls[:1])
    return product.kind == "leveller" or "cement" in product.flags or bool(by_class)


def cards(lines: Sequence[Line], beds: Sequence[Bed], practice: Practice) -> tuple[tuple[Mix, ...], tuple[Missing, ...]]:
    mixes: list[Mix] = []
    missing: list[Missing] = []
    for line in lines:
        product = line.item
        if not isinstance(product, Product) or not is_powder(product):
            continue
        places = tuple(dict.fromkeys(p.place for p in line.parts))
        if product.pack is None or product.pack.kind is not Kind.MASS:
            missing.append(Missing(line.kind, line.name, "pack", places))
        elif product.water is None:
            missing.append(Missing(line.kind, line.name, "water", places))
        else:
            mixes.append(_card(line, product, product.pack, product.water, beds, practice))
    return tuple(mixes), tuple(missing)


def _card(line: Line, product: Product, pack: Quantity, water: Quantity, beds: Sequence[Bed], practice: Practice) -> Mix:
    maturing = product.maturing
    if maturing is None and product.kind == "grout":
        maturing = practice.limit("grout-maturing")
    pace, use = _pace(line, beds, practice), _use(line.parts)
    if use is not None and product.kind == "membrane":
        use = work("all_coats / coats", "kg/m2", source="one coat", all_coats=use, coats=membrane.coats(product, practice))
    within = None
    if product.pot_life is not None and use is not None:
        within = work("pace * pot_life * powder_a_square_metre", "kg", source="used up by one person within the pot life",
                      pace=pace, pot_life=product.pot_life, powder_a_square_metre=use)
    share = _share(within, pack, practice)
    powder = pack if share is None else work("pack * share", "kg", source="one mix", pack=pack, share=share)
    return Mix(
        product, pack,
        work("pack * water", "L", source="powder times water a kilogram", pack=pack, water=water),
        maturing, product.pot_life, pace, within,
        work("ceil(gross / powder)", "count", source="whole mixes, rounded up", gross=line.gross, powder=powder),
        share, powder,
        work("powder * water", "L", source="powder times water a kilogram", powder=powder, water=water),
        use,
    )


def _share(within: Quantity | None, pack: Quantity, practice: Practice) -> Quantity | None:
    """Part of a bag in one mix: never more than a bag, in parts that can be weighed on site, and never more than sets in time."""
    if within is None:
        return None
    steps = practice.limit("mix-steps")
    if within.value * steps.value < pack.value:
        return work(
            "within_pot_life / pack", "", source="less than the smallest part of a bag: weigh it",
            within_pot_life=within, pack=pack,
        )
    return work("min(1, floor(within_pot_life / pack * parts) / parts)", "", source="parts of a bag, rounded down",
                within_pot_life=within, pack=pack, parts=steps)


def _use(parts: Sequence[Part]) -> Quantity | None:
    """Powder a square metre in the step that sets the pace: bed and back-buttering, on the average of the job."""
    laid = [p for p in parts if p.role not in _BESIDE]
    used = [p for p in parts if p.role not in ("mat-bed", "mat-cover")]
    if not laid:
        laid = used = [p for p in parts if p.role == "mat-cover"]
    area = total([(label(p), p.measure) for p in laid], "m2", of="area")
    if area.value == 0:
        return None
    powder = total([(label(p), p.net) for p in used], "kg", of="powder")
    return work("powder / area", "kg/m2", source="average of the job", powder=powder, area=area)


def _pace(line: Line, beds: Sequence[Bed], practice: Practice) -> Quantity:
    """What one person gets done in an hour; of several, the slowest: then no mix is too large."""
    if line.kind == "adhesive":
        own = [b for b in beds if b.adhesive is not None and b.adhesive.name == line.name]
        paces = [_laying(b, practice) for b in own] or [practice.limit("rate-mat-bed")]
        return min(paces, key=lambda q: q.value)
    if line.kind == "grout":
        mosaic = any(b.laid.tile.mosaic and _grouted_with(b) == line.name for b in beds)
        return practice.limit("rate-grout-mosaic" if mosaic else "rate-grout")
    return practice.limit("rate-membrane-coat" if line.kind == "membrane" else "rate-leveller")


def _grouted_with(bed: Bed) -> str | None:
    product = product_for(bed.laid.surface, "grout", bed.laid.tile)
    return product.name if product is not None else None


def _laying(bed: Bed, practice: Practice) -> Quantity:
    where, tile = bed.laid.surface.kind, bed.laid.tile
    large = tile.long_side.value > practice.limit("large-format-edge").value
    size = "-mosaic" if tile.mosaic else "-large" if large else ""
    return practice.limit(f"rate-{where}-tiles{size}")
