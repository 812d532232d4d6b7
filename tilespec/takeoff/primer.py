"""Primer by absorbency and coats, over every surface that gets it."""

from __future__ import annotations

from collections.abc import Sequence

from tilespec.practice.lookup import Practice
from tilespec.quantity import work
from tilespec.setout.bed import product_for
from tilespec.takeoff.areas import Survey
from tilespec.takeoff.order import Share, Taken, products
from tilespec.takeoff.types import Part


def take(surveys: Sequence[Survey], practice: Practice) -> Taken:
    shares: list[Share] = []
    for s in surveys:
        area, product = s.measure.primed_area, product_for(s.surface, "primer")
        if area is None or product is None:
            continue
        absorbency = s.surface.base.absorbency
        coats = product.coats or practice.limit("primer-coats-high" if absorbency == "high" else "primer-coats")
        rate = product.consumption or practice.limit("primer-rate-dense" if absorbency == "dense" else "primer-rate")
        net = work(
            "area * coats * consumption", "kg", source="area times coats times consumption",
            area=area, coats=coats, consumption=rate,
        )
        shares.append(Share(product, Part(s.surface.id, area, net)))
    return Taken(products(shares, "kg", practice.limit("primer-allowance"), "allowance on primer"))
