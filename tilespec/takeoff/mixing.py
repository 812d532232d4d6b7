"""Mixing cards: water for a bag, maturing, pot life, and how much can be used up before it sets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from tilespec.job.types import Product
from tilespec.practice.lookup import Practice
from tilespec.quantity import Kind, Quantity, work
from tilespec.quantity.total import total
from tilespec.setout.bed import product_for
from tilespec.takeoff import grout, membrane
from tilespec.takeoff.adhesive import Bed
from tilespec.takeoff.areas import Laid
from tilespec.takeoff.order import label
from tilespec.takeoff.types import Line, Missing, Mix


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
    main = _main_work(line, product, beds, practice)
    within = None
    if product.pot_life is not None and main is not None:
        within = work(
            "pace * pot_life * powder_a_square_metre", "kg",
            source="used up by one person within the pot life, in the work that takes most of it",
            pace=main.pace, pot_life=product.pot_life, powder_a_square_metre=main.use,
        )
    share = _share(within, pack, practice)
    powder = pack if share is None else work("pack * share", "kg", source="one mix", pack=pack, share=share)
    return Mix(
        product, pack,
        work("pack * water", "L", source="powder times water a kilogram", pack=pack, water=water),
        maturing, product.pot_life, main.pace if main else None, within,
        work("ceil(gross / powder)", "count", source="whole mixes, rounded up", gross=line.gross, powder=powder),
        share, powder,
        work("powder * water", "L", source="powder times water a kilogram", powder=powder, water=water),
        main.use if main else None,
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


@dataclass(frozen=True, slots=True)
class _Work:
    """One sort of work with a product: what one person gets done in an hour, and the powder a square metre takes in it."""

    pace: Quantity
    use: Quantity
    powder: Quantity                # all of it in this job


def _main_work(line: Line, product: Product, beds: Sequence[Bed], practice: Practice) -> _Work | None:
    """The work that takes most of the product: mixes are sized for it."""
    if line.kind == "adhesive":
        own = [b for b in beds if b.adhesive is not None and b.adhesive.name == line.name]
        found = [_Work(_laying(b, practice), _bed_use(b), _taken(b.laid, _bed_use(b))) for b in own]
    elif line.kind == "grout":
        found = []
        for b in beds:
            g = product_for(b.laid.surface, "grout", b.laid.tile)
            if g is not None and g.name == line.name:
                use = grout.rate(b.laid, g, practice)
                pace = practice.limit("rate-grout-mosaic" if b.laid.tile.mosaic else "rate-grout")
                found.append(_Work(pace, use, _taken(b.laid, use)))
    else:
        found = [_other(line, product, practice)]
    # Of the sorts of work at one pace and rate, all surfaces count together.
    sums: dict[tuple[Fraction, Fraction], Fraction] = {}
    for w in found:
        key = (w.pace.value, w.use.value)
        sums[key] = sums.get(key, Fraction(0)) + w.powder.value
    return max(found, key=lambda w: sums[w.pace.value, w.use.value], default=None)


def _bed_use(bed: Bed) -> Quantity:
    if bed.butter_rate is None:
        return bed.rate
    return work("bed + back_buttering", "kg/m2", source="bed and tile back", bed=bed.rate, back_buttering=bed.butter_rate)


def _taken(laid: Laid, use: Quantity) -> Quantity:
    return work("area * use", "kg", source="area times powder a square metre", area=laid.area, use=use)


def _other(line: Line, product: Product, practice: Practice) -> _Work:
    area = total([(label(p), p.measure) for p in line.parts], "m2", of="area")
    use = work("powder / area", "kg/m2", source="average of the job", powder=line.net, area=area)
    if line.kind == "membrane":
        use = work("all_coats / coats", "kg/m2", source="one coat", all_coats=use, coats=membrane.coats(product, practice))
    return _Work(practice.limit("rate-membrane-coat" if line.kind == "membrane" else "rate-leveller"), use, line.net)


def _laying(bed: Bed, practice: Practice) -> Quantity:
    where, tile = bed.laid.surface.kind, bed.laid.tile
    large = tile.long_side.value > practice.limit("large-format-edge").value
    size = "-mosaic" if tile.mosaic else "-large" if large else ""
    return practice.limit(f"rate-{where}-tiles{size}")
