"""How long to wait, and why: the product's own time first, otherwise the practice's, longer in the cold where cement sets."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tilespec.formula import maturity
from tilespec.job.types import Product, Surface, WaitData, Words
from tilespec.quantity import Quantity
from tilespec.sequence.site import Site, adhesive_class, cement, dense, fast, membrane_class, products_of, tiles_of, with_membrane
from tilespec.sequence.types import Wait


def in_the_cold(minimum: Quantity, site: Site, latest: Quantity | None = None) -> Quantity:
    """A setting time of cement at the job's surface temperature; never shorter than the time given, nor past `latest`.

    Rounded up to whole steps. Says nothing of drying: tests decide that.
    """
    return maturity.in_the_cold(minimum, site.job.conditions.surface, site.practice, latest)


@dataclass(frozen=True, slots=True)
class Rule:
    """Where a wait comes from when the product does not say: a key of the practice, and what to do when it is overrun."""

    why: str
    before: tuple[str, ...]         # words of a data sheet that mean this wait, the best first
    key: str
    window: str | None = None       # key of the latest time, where practice has one
    overrun: str = ""               # wording key


def wait(product: Product | None, rule: Rule, site: Site) -> Wait:
    """The wait after work with `product`."""
    said = _said(product, rule.before)
    minimum = said.minimum if said else site.limit(rule.key)
    maximum: Quantity | None = None
    overrun: Words | str | None = None
    if said and said.maximum is not None:
        maximum, overrun = said.maximum, said.overrun or rule.overrun or "ask-maker"
    elif said is None and rule.window:
        maximum, overrun = site.limit(rule.window), rule.overrun
    if product is not None and cement(product):
        minimum = in_the_cold(minimum, site, maximum)
    return Wait(minimum, rule.why, maximum, overrun, product)


def _said(product: Product | None, before: tuple[str, ...]) -> WaitData | None:
    if product is None:
        return None
    return next((w for b in before if (w := product.wait(b)) is not None), None)


# ---------------------------------------------------------------- the waits of a wet room

def after_primer(product: Product, to: str, site: Site) -> Wait:
    """From primer to `to`: "membrane" or "tiling"."""
    if to == "membrane":
        rule = Rule("primer-dry", ("membrane", "tiling"), "wait-primer-membrane", "wait-primer-window", "prime-again")
        return wait(product, rule, site)
    found = wait(product, Rule("primer-dry", ("tiling", "membrane"), "wait-primer-tiling", overrun="prime-again"), site)
    # Walls without a membrane wait for the others: only a window that the sheet gives for tiling itself binds them.
    own = product.wait("tiling")
    return found if own is not None else replace(found, maximum=None, overrun=None)


def between_coats(product: Product, site: Site) -> Wait:
    key = f"wait-membrane-coats-{membrane_class(product)}"
    return wait(product, Rule("between-coats", ("coats", "second-coat"), key, overrun="coat-window"), site)


def after_membrane(product: Product, site: Site) -> Wait:
    key = f"wait-membrane-tiling-{membrane_class(product)}"
    return wait(product, Rule("membrane-cure", ("tiling",), key, overrun="tile-window"), site)


def adhesive_key(product: Product | None, surface: Surface, site: Site) -> str:
    """Key of the time that an adhesive needs on this surface before it is grouted or walked on."""
    if product is not None and fast(product):
        return "wait-adhesive-fast"
    locked_in = with_membrane(surface) and any(dense(t, site) for t in tiles_of(surface))
    dries = product is not None and adhesive_class(product)[0] == "D"
    return "wait-adhesive-dense" if locked_in or dries else "wait-adhesive"


def after_tiling(product: Product | None, surface: Surface, to: str, site: Site) -> Wait:
    """From laying to `to`: "grouting", "walking", "sealing" or "tiling" (mortar over a heating mat)."""
    why = {"walking": "walk-on", "tiling": "mat-mortar-set"}.get(to, "adhesive-set")
    before = {"walking": ("walking", "grouting"), "tiling": ("tiling", "walking", "grouting"), "sealing": ("sealing", "grouting")}
    return wait(product, Rule(why, before.get(to, ("grouting", "walking")), adhesive_key(product, surface, site)), site)


def after_laying(surface: Surface, to: str, site: Site) -> Wait:
    """The longest of the waits of the adhesives in use on a surface."""
    used = products_of((surface,), "adhesive")
    waits = [after_tiling(p, surface, to, site) for p in used] or [after_tiling(None, surface, to, site)]
    return max(waits, key=lambda w: w.minimum.value)


def after_leveller(product: Product | None, site: Site) -> Wait:
    return wait(product, Rule("leveller-dry", ("priming", "membrane", "tiling", "walking"), "wait-leveller"), site)


def after_falls(site: Site) -> Wait:
    return wait(None, Rule("falls-dry", (), "wait-falls"), site)


def after_sealer(product: Product | None, site: Site) -> Wait:
    return wait(product, Rule("sealer-dry", ("grouting",), "wait-sealer-grouting"), site)


def after_grout(product: Product | None, to: str, site: Site) -> Wait:
    """From grouting to `to`: "sealing", "impregnating" or "water" (a little, to look at the falls)."""
    if to == "impregnating":
        return wait(product, Rule("grout-dry", ("impregnating",), "wait-grout-impregnating"), site)
    if to == "water":
        # A sheet that names a time before water wins, even for the little that shows the falls.
        return wait(product, Rule("grout-firm", ("water", "walking"), "wait-grout-walking"), site)
    return wait(product, Rule("grout-firm", ("sealing", "walking"), "wait-grout-walking"), site)


def after_sealant(product: Product | None, site: Site) -> Wait:
    return wait(product, Rule("sealant-cure", ("water", "use", "impregnating"), "wait-sealant-water"), site)


def after_mirror(product: Product | None, site: Site) -> Wait:
    return wait(product, Rule("mirror-set", ("use",), "wait-mirror"), site)
