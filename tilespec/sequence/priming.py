"""Primer by the absorbency of the base, and the waits that follow it."""

from __future__ import annotations

from tilespec.job.types import Product, Surface
from tilespec.sequence import features, wait
from tilespec.sequence.site import Chain, ids, on
from tilespec.sequence.types import Link


def prime(chain: Chain) -> None:
    """One operation for each primer in the room; surfaces without one are not primed."""
    site, room = chain.site, chain.room
    assert room is not None
    groups: dict[str, tuple[Product, list[Surface]]] = {}
    for s in features.surfaces(room):
        primer = s.product("primer")
        if primer is not None and s.refusal("primer") is None:
            groups.setdefault(primer.name, (primer, []))[1].append(s)
    for primer, on_these in groups.values():
        group = tuple(on_these)
        facts = [f"base-{a}" for a in ("high", "normal", "dense") if any(s.base.absorbency == a for s in group)]
        if any(s.base.gypsum for s in group):
            facts.append("gypsum")
        op = chain.make(
            "prime", "priming", ids(group), products=(primer,), values=(("consumption", primer.consumption),), facts=tuple(facts),
            labour=site.rated(site.primed_area(group), "rate-prime"), part=primer.name if len(groups) > 1 else "",
        )
        for s in group:
            chain.primed[s.id] = op


def primer_links(chain: Chain, *places: str, to: str = "tiling") -> tuple[Link, ...]:
    """What must dry on these surfaces before `to`: "tiling" or "membrane"."""
    found = [op for place in places if (op := chain.primed.get(place)) is not None]
    return tuple(on(op, wait.after_primer(op.products[0], to, chain.site)) for op in found)
