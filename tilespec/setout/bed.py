"""How thick a tile stands on its base: notch by tile size, bed by trowel angle, and the tile itself."""

from __future__ import annotations

from tilespec.job.types import Covering, Product, Room, Surface, Tile
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, work

_STEPS = 5


def edge_joint(room: Room, practice: Practice) -> Quantity:
    """The joint all round a floor and at the foot of its walls: as the spec says it, else the practice's."""
    if room.floor is not None and room.floor.perimeter_joint is not None:
        return room.floor.perimeter_joint
    return practice.limit("perimeter-joint-heated" if room.heating is not None else "perimeter-joint-floor")


def product_for(surface: Surface, kind: str, tile: Tile | None = None) -> Product | None:
    """The product of a kind on a surface; one said to be for this very tile wins."""
    own = [p for p in surface.products if p.kind == kind]
    if tile is not None:
        if named := next((p for p in own if tile.name in p.for_), None):
            return named
        general = [p for p in own if not p.for_ or set(p.for_) & {"floor", "walls", "wall"}]
        return next(iter(general + own), None)
    return own[0] if own else None


def unit_sides(tile: Tile) -> tuple[Quantity, Quantity]:
    """Sides of what is jointed: the tile, or the chip of a mosaic."""
    if tile.mosaic and tile.chip_width is not None and tile.chip_height is not None:
        return tile.chip_width, tile.chip_height
    return tile.width, tile.height


def long_edge(tile: Tile) -> Quantity:
    a, b = unit_sides(tile)
    return a if a.value >= b.value else b


def notch_size(surface: Surface, tile: Tile, product: Product | None, practice: Practice) -> Quantity:
    """The product's own notch; otherwise the table by longest edge, on a wall some steps lower where the practice says so."""
    if product is not None and product.notch is not None:
        return product.notch
    step = _STEPS
    for n in range(1, _STEPS):
        if long_edge(tile).value <= practice.limit(f"notch-edge-{n}").value:
            step = n
            break
    if surface.kind == "wall":
        step -= int(practice.limit("notch-wall-steps").value)
    return practice.limit(f"notch-{max(step, 1)}")


def bed_thickness(notch: Quantity, practice: Practice) -> Quantity:
    """Mean bed when ribs as wide as their gaps are spread flat."""
    return work(
        "notch / 2 * sin(trowel_angle)", "mm", source="geometry of a notched trowel with ribs as wide as the gaps",
        notch=notch, trowel_angle=practice.limit("trowel-angle"),
    )


def over_base(surface: Surface, covering: Covering, practice: Practice) -> Quantity:
    """Bed and tile, as they are: for what is bought to fit them."""
    tile = covering.tile
    bed = bed_thickness(notch_size(surface, tile, product_for(surface, "adhesive", tile), practice), practice)
    return work("bed + tile", "mm", source="bed by the trowel, and tile", bed=bed, tile=tile.thickness)


def thickness(surface: Surface, covering: Covering, practice: Practice) -> Quantity:
    """How far the face of the tiles stands off the bare wall, to the whole millimetre: nobody works finer."""
    tile = covering.tile
    bed = bed_thickness(notch_size(surface, tile, product_for(surface, "adhesive", tile), practice), practice)
    one = practice.limit("set-out-step")
    return work(
        "round((bed + tile) / step) * step", "mm", source="bed and tile, to the step that is worked to",
        bed=bed, tile=tile.thickness, step=one,
    )
