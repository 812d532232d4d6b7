"""From parts to an order line: net, allowance, gross, whole packs, weight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tilespec.job.types import Product
from tilespec.quantity import Kind, Quantity, work
from tilespec.quantity.total import total
from tilespec.takeoff.types import Line, Missing, Part


@dataclass(frozen=True, slots=True)
class Share:
    """One part of a product's line, before parts of the same product are gathered."""

    product: Product
    part: Part


@dataclass(frozen=True, slots=True)
class Taken:
    """What a family of materials found: lines, and what it could not work out."""

    lines: tuple[Line, ...] = ()
    missing: tuple[Missing, ...] = ()


def label(part: Part) -> str:
    return f"{part.place}, {part.role.replace('-', ' ')}" if part.role else part.place


def products(shares: Sequence[Share], shown: str, allowance: Quantity | None, rule: str) -> tuple[Line, ...]:
    """One line a product, in the order of first use; packs are rounded up once for the whole job."""
    keys = dict.fromkeys((s.product.kind, s.product.name) for s in shares)
    lines: list[Line] = []
    for key in keys:
        own = [s for s in shares if (s.product.kind, s.product.name) == key]
        lines.append(product_line(own[0].product, tuple(s.part for s in own), shown, allowance, rule))
    return tuple(lines)


def product_line(product: Product, parts: tuple[Part, ...], shown: str, allowance: Quantity | None, rule: str) -> Line:
    net = total([(label(p), p.net) for p in parts], shown, of=product.name)
    gross = net if allowance is None else work("net * (1 + allowance)", shown, source=rule, net=net, allowance=allowance)
    packs = whole_packs(gross, product.pack)
    weight = None
    if packs is not None and product.pack is not None and product.pack.kind is Kind.MASS:
        weight = work("packs * pack", "kg", source="whole packs", packs=packs, pack=product.pack)
    return Line(
        product.kind, product.name, product, parts, net, allowance, gross, product.pack, packs, weight,
        pack_weight=product.pack if product.pack is not None and product.pack.kind is Kind.MASS else None,
    )


def whole_packs(gross: Quantity, pack: Quantity | None) -> Quantity | None:
    """Whole packs, rounded up; None where the pack is not known or is sold by another measure."""
    if pack is None or pack.kind is not gross.kind or pack.value <= 0:
        return None
    return work("ceil(gross / pack)", "count", source="whole packs, rounded up", gross=gross, pack=pack)


def gathered(missing: Sequence[Missing]) -> tuple[Missing, ...]:
    """What is missing, each thing once with all its places."""
    result: dict[tuple[str, str, str], Missing] = {}
    for m in missing:
        key = (m.kind, m.name, m.lacks)
        if key in result:
            places = tuple(dict.fromkeys(result[key].places + m.places))
            result[key] = replace(result[key], places=places)
        else:
            result[key] = m
    return tuple(result.values())
