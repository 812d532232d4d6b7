"""What laying walls and laying floors have in common: facts, values and labour of one surface."""

from __future__ import annotations

from tilespec.job.types import Covering, Product, Surface, Tile
from tilespec.quantity import Quantity
from tilespec.quantity.total import total
from tilespec.sequence.site import Site, adhesive_class, fast, largest, products_of, smallest, tiles_of, with_membrane
from tilespec.sequence.types import Test

BROKEN = ("diagonal", "herringbone", "basket")


def adhesives(surface: Surface) -> tuple[Product, ...]:
    return products_of((surface,), "adhesive")


def large(tile: Tile, site: Site) -> bool:
    return not tile.mosaic and tile.long_side.value >= site.limit("large-format-edge").value


def solid_bed(surface: Surface, site: Site) -> bool:
    """The bed may hold no voids at all: as much contact is asked as where it gets wet."""
    wet = site.limit("contact-wet").value
    return any(n.contact.value >= wet for t in tiles_of(surface) if (n := site.notch(surface, t)) is not None)


def facts(surface: Surface, site: Site) -> tuple[str, ...]:
    """Wording switches of one surface."""
    tiles, used = tiles_of(surface), adhesives(surface)
    notches = [n for t in tiles if (n := site.notch(surface, t)) is not None]
    found = (
        ("back-butter", any(n.back_butter for n in notches)),
        ("solid-bed", solid_bed(surface, site)),
        ("membrane", with_membrane(surface)),
        ("mosaic", any(t.mosaic for t in tiles)),
        ("large-format", any(large(t, site) for t in tiles)),
        ("stone", any(t.stone for t in tiles)),
        ("translucent", any(t.translucent for t in tiles)),
        ("fast-adhesive", any(fast(p) for p in used)),
        ("two-adhesives", len(used) > 1),
        ("bands", any(c.role != "field" for c in surface.coverings)),
        ("niche", bool(surface.niches)),
        ("openings", any(o.kind != "door" for o in surface.openings)),
        ("holes", any(p.kind not in ("drain", "channel") for p in surface.penetrations)),
        ("trims", bool(surface.trims)),
        ("untiled", bool(surface.untiled)),
        ("bond-offset", any(c.pattern.name in ("half", "third", "quarter", "run") for c in surface.coverings)),
    )
    return tuple(fact for fact, here in found if here)


def values(surface: Surface, site: Site) -> tuple[tuple[str, Quantity | None], ...]:
    tiles = tiles_of(surface)
    notches = [n for t in tiles if (n := site.notch(surface, t)) is not None]
    used = adhesives(surface)
    return (
        ("joint", surface.coverings[0].joint),
        ("notch", largest(tuple(n.notch for n in notches))),
        ("bed", largest(tuple(n.bed for n in notches))),
        ("contact", largest(tuple(n.contact for n in notches))),
        ("samples", site.limit("contact-samples")),
        ("open-time", smallest(tuple(p.open_time for p in used if p.open_time is not None)) or open_time(used, site)),
        ("pot-life", smallest(tuple(p.pot_life for p in used if p.pot_life is not None))),
        ("slide-min", site.limit("comb-slide-min")),
        ("slide-max", site.limit("comb-slide-max")),
        ("lippage", lippage(surface, site)),
    )


def open_time(used: tuple[Product, ...], site: Site) -> Quantity | None:
    """By class, where no sheet says: fast ones skin first."""
    if not used:
        return None
    options = [adhesive_class(p)[1] for p in used]
    if any("F" in o for o in options):
        return site.limit("open-time-fast")
    return site.limit("open-time-extended" if all("E" in o for o in options) else "open-time")


def lippage(surface: Surface, site: Site) -> Quantity:
    """Largest step allowed between neighbouring tiles: by the joint and the tile's face, the stricter for stone."""
    limit = _lippage_by_joint(surface, site)
    stone = site.practice.find("lippage-max-stone")
    return stone if stone is not None and stone.value < limit.value and any(t.stone for t in tiles_of(surface)) else limit


def _lippage_by_joint(surface: Surface, site: Site) -> Quantity:
    joint, find = surface.coverings[0].joint, site.practice.find
    # Some families count a joint as wide from a width, the others above one.
    start = find("lippage-wide-joint-from")
    if joint.value >= start.value if start is not None else joint.value > site.limit("lippage-wide-joint").value:
        return site.limit("lippage-max-wide")
    face, large_tiles = find("lippage-large-face"), find("lippage-max-large")
    large_face = face is not None and any(t.width.value * t.height.value > face.value for t in tiles_of(surface) if not t.mosaic)
    return large_tiles if large_tiles is not None and large_face else site.limit("lippage-max")


def contact_test(surface: Surface, site: Site) -> Test | None:
    found = [n.contact for t in tiles_of(surface) if (n := site.notch(surface, t)) is not None]
    most = largest(tuple(found))
    return Test("contact", most, compare="at least", places=(surface.id,)) if most is not None else None


def labour(surface: Surface, site: Site, kind: str) -> Quantity | None:
    """Laying time of all coverings, each at the rate of its tile. `kind` is "wall" or "floor"."""
    m = site.measure(surface.id)
    if m is None:
        return None
    if len(m.coverings) != len(surface.coverings):
        return site.rated(m.tiled_area, f"rate-{kind}-tiles")
    terms = []
    for i, (covering, area) in enumerate(zip(surface.coverings, m.coverings, strict=True)):
        time = site.rated(area, rate_key(covering, kind, site), *_factors(covering, surface, site))
        if time is not None:
            terms.append((f"{covering.role} {covering.tile.name}" if i else "field", time))
    if m.added is not None and m.added.value:
        extra = site.rated(m.added, f"rate-{kind}-tiles")
        if extra is not None:
            terms.append(("niches and reveals", extra))
    return total(terms, "h", of="laying", source="sum of the coverings") if terms else None


def rate_key(covering: Covering, kind: str, site: Site) -> str:
    if covering.tile.mosaic:
        return f"rate-{kind}-tiles-mosaic"
    return f"rate-{kind}-tiles-large" if large(covering.tile, site) else f"rate-{kind}-tiles"


def _factors(covering: Covering, surface: Surface, site: Site) -> tuple[str, ...]:
    found = []
    if covering.pattern.name in BROKEN:
        found.append("factor-pattern")
    notch = site.notch(surface, covering.tile)
    if notch is not None and notch.back_butter:
        found.append("factor-back-butter")
    return tuple(found)
