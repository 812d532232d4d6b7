"""Bags of cement and the day until which they keep."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from tilespec.checks.rule import Context, Finding, Rule, both, noted, said_at, upper
from tilespec.job.types import Product, Words
from tilespec.quantity import UNITS, Quantity
from tilespec.sequence.site import cement

# Which records show the day on which a product was used.
_USED = {"adhesive": ("tiling",), "grout": ("grouting",), "membrane": ("first-coat", "second-coat", "membrane")}


@dataclass(frozen=True, slots=True)
class Old:
    product: Product
    packed: date
    keeps: Quantity
    until: date
    used: date
    by: Words | None  # the kind of record that says so; None: the day on which the job begins
    places: tuple[str, ...]


def old(context: Context) -> Iterator[Old]:
    """Cement in use that is past its date on the last day that is known of its use."""
    for product in context.job.products:
        if product.generic or product.packed is None or product.keeps is None or not cement(product):
            continue
        places = tuple(s.id for s in context.job.tiled if product in s.products)
        days: list[tuple[date, Words | None]] = [(context.job.begin, None)] if context.job.begin is not None else []
        days += [
            (r.on, r.kind) for r in context.job.records
            if r.kind.text in _USED.get(product.kind, ()) and any(p == r.place or p.startswith(r.place + "/") for p in places)
        ]  # fmt: skip
        until = product.packed + timedelta(days=int(product.keeps.value // UNITS["d"].factor))
        used = max(days, key=lambda pair: pair[0], default=None)
        if used is not None and used[0] > until:
            yield Old(product, product.packed, product.keeps, until, *used, places)


def findings(context: Context, rule: Rule, guards: str) -> Iterator[Finding]:
    """The same fault under the rule that holds in this family: of health or of setting."""
    why = context.practice.word("old-cement")
    for found in old(context) if why.text == guards else ():
        product = found.product
        when = f"the job begins on {found.used}" if found.by is None else f"`{found.by}` is of {found.used}"
        yield rule.at(
            found.places,
            context.span(said_at(found.keeps), product.span),
            f"{product.kind} {product.name} was packed on {found.packed} and keeps until {found.until}; {when}.",
            label=f"{both(found.keeps)} from the day it was packed",
            help="Take fresh bags and write the date that is on them: `packed YEAR-MONTH-DAY`.",
            notes=(upper(why.why.source + (f"; {noted(why.why.note)}." if why.why.note else ".")),),
        )
