"""Whoever grouts kneels and leans on the tiles. While the adhesive is soft they move, the bond is broken where nobody sees
it, and water from the bed dries through the joints and leaves them patchy. Adhesives of normal setting take 24 hours, between
a membrane and porcelain 48, fast ones 6: common practice in the trade's press; the data sheet wins, and the cold makes it
longer.

Correct the date if it is wrong. Otherwise sound the tiles and look at the joints before they are sealed. Only whole days that
are missing between the two records are told.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.records.waits import basis, stretched, too_early
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Product, Surface
from tilespec.quantity import Quantity
from tilespec.sequence.laying import adhesives
from tilespec.sequence.site import Site
from tilespec.sequence.wait import adhesive_key


def longest(context: Context, surface: Surface) -> tuple[Quantity, Product] | None:
    """The longest wait of the adhesives chosen for a surface: a generic one, taken for want of another, says nothing."""
    if context.takeoff is None:
        return None
    site = Site(context.job, context.practice, context.takeoff)
    found = []
    for product in adhesives(surface):
        said = product.wait("grouting") or product.wait("walking")
        if not product.generic:
            wait = said.minimum if said is not None else site.limit(adhesive_key(product, surface, site))
            found.append((stretched(context, product, wait), product))
    return max(found, key=lambda pair: pair[0].value, default=None)


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        needed = longest(context, surface)
        early = too_early(context, surface, "tiling", "grouting", needed[0]) if needed is not None else None
        if needed is None or early is None:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(early.later.span),
            f"{context.name(surface)} was tiled by {early.first.on} and grouted on {early.later.on}; "
            f"adhesive {needed[1].name} sets for {both(early.wait)} first.",
            label="too early",
            secondary=(Label(early.first.span, "tiled here"),) if early.first.span is not None else (),
            help=f"{early.ready} would be the first day. If the dates are right, sound the tiles before they are sealed.",
            notes=(basis(early.wait, needed[1]),),
        )


RULE = Rule(
    "T2959",
    "grouted-too-early",
    Severity.WARNING,
    "Joints filled before the adhesive had set",
    QUALITY,
    "takeoff",
    __doc__,
    find,
    bad="""\
adhesive firm-grip class C2TE S1; pack 25 kg; wait 24 h before grouting
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
record grouting on wall A 2026-03-12 by "A. Finch"
""",
    good="""\
adhesive firm-grip class C2TE S1; pack 25 kg; wait 24 h before grouting
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
record substrate on wall A 2026-03-09 by "A. Finch"
record tiling on wall A 2026-03-12 by "A. Finch"
record grouting on wall A 2026-03-13 by "A. Finch"
""",
    limits=("wait-adhesive", "wait-adhesive-dense", "wait-adhesive-fast", "wait-cold-below", "wait-cold-step"),
)
