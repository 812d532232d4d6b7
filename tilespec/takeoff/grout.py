"""Grout from joint geometry and density."""

from __future__ import annotations

from collections.abc import Sequence

from tilespec.job.types import Product
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work
from tilespec.setout.bed import product_for
from tilespec.takeoff.areas import Laid, Survey
from tilespec.takeoff.order import Share, Taken, products
from tilespec.takeoff.types import Missing, Part

FORMULA_SOURCE = "trade formula for grout: joint length a square metre times joint section times density, slightly high"


def is_resin(product: Product) -> bool:
    return any(c.startswith("RG") for c in product.cls) or bool({"epoxy", "polyurethane"} & set(product.flags))


def density(product: Product | None, practice: Practice) -> Quantity:
    """kg for each litre of joint."""
    if product is not None and product.density is not None:
        return product.density
    return practice.limit("grout-density-resin" if product is not None and is_resin(product) else "grout-density")


def joint_width(laid: Laid) -> Quantity:
    """The joint between tiles; inside a mosaic sheet the sheet's own."""
    if laid.tile.mosaic and laid.tile.chip_joint is not None:
        return laid.tile.chip_joint
    return laid.joint


def rate(laid: Laid, product: Product | None, practice: Practice) -> Quantity:
    """kg/m2: (A + B) ÷ (A × B) × joint width × depth × density, with the tile's thickness as depth."""
    if product is not None and product.consumption is not None:
        return product.consumption
    width, height = laid.unit_sides
    return work(
        "(width + height) / (width * height) * joint * depth * density", "kg/m2", source=FORMULA_SOURCE,
        width=width, height=height, joint=joint_width(laid), depth=laid.tile.thickness, density=density(product, practice),
    )


def take(surveys: Sequence[Survey], practice: Practice) -> Taken:
    shares: list[Share] = []
    missing: list[Missing] = []
    for s in surveys:
        for laid in s.laid:
            product = product_for(s.surface, "grout", laid.tile)
            if product is None:
                if s.surface.refusal("grout") is None:
                    missing.append(Missing("grout", "", "product", (s.surface.id,)))
                continue
            if laid.joints is not None and not laid.tile.mosaic and product.consumption is None:
                net = work(
                    "joints * depth * density", "kg", source="joints as set out: their area times depth and density",
                    joints=laid.joints, depth=laid.tile.thickness, density=density(product, practice),
                )
            else:
                each = rate(laid, product, practice)
                net = work("area * rate", "kg", source="area times grout a square metre", area=laid.area, rate=each)
            shares.append(Share(product, Part(s.surface.id, laid.area, net, laid.role)))
    return Taken(products(shares, "kg", practice.limit("grout-allowance"), "allowance on grout"), tuple(missing))
