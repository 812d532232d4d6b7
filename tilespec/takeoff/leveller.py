"""Levelling compound: thickness in the build-up, times area and density."""

from __future__ import annotations

from collections.abc import Sequence

from tilespec.practice.lookup import Practice
from tilespec.quantity import work
from tilespec.setout.bed import product_for
from tilespec.takeoff.areas import Survey
from tilespec.takeoff.order import Share, Taken, products
from tilespec.takeoff.types import Missing, Part

LAYER = "leveller"


def take(surveys: Sequence[Survey], practice: Practice) -> Taken:
    shares: list[Share] = []
    missing: list[Missing] = []
    for s in surveys:
        layers = [q for name, q in s.room.levels.build_up if name == LAYER]
        if not s.is_floor or not layers:
            continue
        product = product_for(s.surface, LAYER)
        if product is None:
            missing.append(Missing(LAYER, "", "product", (s.surface.id,)))
            continue
        rate = product.density or practice.limit("leveller-density")
        for thickness in layers:
            net = work("area * thickness * density", "kg", source="area times thickness times dry density",
                       area=s.whole.gross, thickness=thickness, density=rate)
            shares.append(Share(product, Part(s.surface.id, s.whole.gross, net)))
    lines = products(shares, "kg", practice.limit("leveller-allowance"), "allowance for hollows in the base")
    return Taken(lines, tuple(missing))
