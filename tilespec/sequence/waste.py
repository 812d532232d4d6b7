"""What the job leaves behind: empty packs by the order list, and the solids that a wet saw washes out of its cuts."""

from __future__ import annotations

from tilespec.job.types import Product
from tilespec.quantity import Quantity, work
from tilespec.quantity.total import total
from tilespec.sequence.exposure import WET
from tilespec.sequence.site import Site, adhesive_class, membrane_class, powder, resin_grout
from tilespec.sequence.types import Thrown, Waste
from tilespec.takeoff.types import Line, SawWork

# In the order in which they are printed.
_KINDS = ("bag", "bucket", "can", "cartridge", "roll", "box")
_PACKED = {
    "primer": "can", "impregnator": "can", "sealer": "can", "sealant": "cartridge", "mirror-adhesive": "cartridge", "tile": "box",
}


def waste(site: Site) -> Waste:
    groups: dict[tuple[str, bool], list[tuple[str, Quantity]]] = {}
    for line in site.takeoff.lines:
        what = _pack(line)
        if what and line.packs is not None and line.packs.value:
            groups.setdefault((what, _hazardous(line)), []).append((f"{line.kind} {line.name} {line.role}".strip(), line.packs))
    thrown = tuple(
        Thrown(what, total(terms, "count", of="packs", source="packs of the order list"), hazardous)
        for hazardous in (False, True) for what in _KINDS if (terms := groups.get((what, hazardous)))
    )
    solids = _solids(site)
    return Waste(thrown, solids, site.limit("saw-water") if solids is not None else None)


def _pack(line: Line) -> str:
    item = line.item
    if isinstance(item, Product) and item.kind in ("adhesive", "grout", "leveller", "membrane"):
        return "bag" if powder(item) else "bucket"
    return _PACKED.get(line.kind, "")


def _hazardous(line: Line) -> bool:
    """What must not go with rubble: resins, hardeners, solvents."""
    item = line.item
    if not isinstance(item, Product):
        return False
    if {"solvent", "epoxy", "resin", "polyurethane"}.intersection(item.flags):
        return True
    return (item.kind == "grout" and resin_grout(item)) or (item.kind == "adhesive" and adhesive_class(item)[0] == "R") \
        or (item.kind == "membrane" and membrane_class(item) == "RM")


def _solids(site: Site) -> Quantity | None:
    """Kerf times thickness times length of what is sawn wet; nothing of it where no wet saw is planned."""
    methods = {c.method for c in site.job.cutting}
    if methods - {"snap"} and not methods.intersection(WET):
        return None
    terms = []
    for w in site.takeoff.sawing:
        length = _sawn(w, "snap" in methods)
        if length is not None:
            terms.append((w.name, work(
                "kerf * thickness * length", "L", source="what the blade takes out",
                kerf=site.limit("saw-kerf"), thickness=w.tile.thickness, length=length,
            )))
    return total(terms, "L", of="slurry") if terms else None


def _sawn(w: SawWork, snap: bool) -> Quantity | None:
    parts = [(name, q) for name, q in (("straight", w.saw), ("shaped", w.shaped), ("not snapped", None if snap else w.snap)) if q]
    return total(parts, "m", of="sawn cuts") if parts else None
