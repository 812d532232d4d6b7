"""Mirror adhesive: vertical beads, so that water behind the mirror runs out below."""

from __future__ import annotations

from collections.abc import Sequence

from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work
from tilespec.setout.bed import product_for
from tilespec.takeoff.areas import Survey
from tilespec.takeoff.order import Share, Taken, products
from tilespec.takeoff.types import Missing, Part

KIND = "mirror-adhesive"
_SOURCE = "vertical beads, common practice"


def beads(width: Quantity, practice: Practice) -> Quantity:
    """Number of beads on a mirror this wide: at least two."""
    return work(
        "max(ceil((width - 2 * edge) / spacing), 1) + 1", "count", source=_SOURCE,
        width=width, edge=practice.limit("mirror-bead-edge"), spacing=practice.limit("mirror-bead-spacing"),
    )


def bead_length(height: Quantity, practice: Practice) -> Quantity:
    return work("max(height - 2 * edge, height / 2)", "m", source=_SOURCE, height=height, edge=practice.limit("mirror-bead-edge"))


def take(surveys: Sequence[Survey], practice: Practice) -> Taken:
    shares: list[Share] = []
    missing: list[Missing] = []
    for s in surveys:
        for f in s.surface.fittings:
            if f.kind != "mirror":
                continue
            product = product_for(s.surface, KIND)
            if product is None:
                missing.append(Missing(KIND, "", "product", (s.surface.id,)))
                continue
            run = work("beads * length", "m", source=_SOURCE,
                       beads=beads(f.rect.width, practice), length=bead_length(f.rect.height, practice))
            net = work("length * width * depth", "mL", source="section of the bead times its length",
                       length=run, width=practice.limit("mirror-bead-width"), depth=practice.limit("mirror-bead-depth"))
            shares.append(Share(product, Part(s.surface.id, run, net, "bead")))
    return Taken(products(shares, "mL", practice.limit("mirror-allowance"), "allowance for the nozzle"), tuple(missing))
