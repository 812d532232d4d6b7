"""Water that gets at young grout and sealant washes them out, and what they should keep dry gets wet from the first day. A
shower is used seven days after it was grouted and sealed, fourteen by a cautious guidance in the UK: common practice. What
grout or sealant ask for on their sheets may be longer.

Keep the room shut until then; tape the tap and write the day on the door. Correct the date if it is wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from math import ceil

from tilespec.checks.recorded import about, last
from tilespec.checks.records.waits import basis, ready, stretched
from tilespec.checks.rule import QUALITY, Context, Finding, Rule
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Product, Surface
from tilespec.quantity import UNITS, Quantity


def needed(context: Context, surface: Surface) -> tuple[Quantity, Product | None]:
    """The longest of what the practice and the products' sheets ask for."""
    found: list[tuple[Quantity, Product | None]] = [(context.practice.limit("wait-shower-use"), None)]
    for product in (surface.product("grout"), surface.product("sealant")):
        for before in ("use", "water"):
            said = product.wait(before) if product is not None and not product.generic else None
            if said is not None and product is not None:
                found.append((stretched(context, product, said.minimum), product))
    return max(found, key=lambda pair: pair[0].value)


def find(context: Context) -> Iterator[Finding]:
    for record in context.job.records:
        if record.kind.text != "first-use":
            continue
        for surface in context.job.tiled:
            done = [r for kind in ("grouting", "sealing") if (r := last(context, kind, surface)) is not None]
            if not about(record, surface) or not surface.wet or not done:
                continue
            finished, (wait, product) = max(done, key=lambda r: r.on), needed(context, surface)
            day = ready(finished.on, wait)
            if not finished.on <= record.on < day:
                continue
            # A record says no hour: told is what is too early at any, and the day that is named is late enough at any.
            whole = ceil(wait.value / UNITS["d"].factor)
            yield RULE.at(
                (surface.id,),
                context.span(record.span),
                f"{context.name(surface)} was used on {record.on}, and its `{finished.kind}` is of {finished.on}; "
                f"{whole} days lie between them at least.",
                label="too early",
                secondary=(Label(finished.span, "finished here"),) if finished.span is not None else (),
                help=f"{finished.on + timedelta(days=whole)} would be the first day. Keep it dry until then and look at "
                "joints and sealant again.",
                notes=(basis(wait, product),),
            )


RULE = Rule(
    "T2961",
    "used-too-early",
    Severity.WARNING,
    "A shower used before its joints are ready for water",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record substrate on wall A 2026-03-06 by "A. Finch"
record membrane on wall A 2026-03-10 by "A. Finch"
record grouting on wall A 2026-03-16 by "A. Finch"
record first-use on wall A 2026-03-20 by "A. Finch"
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
record substrate on wall A 2026-03-06 by "A. Finch"
record membrane on wall A 2026-03-10 by "A. Finch"
record grouting on wall A 2026-03-16 by "A. Finch"
record first-use on wall A 2026-03-23 by "A. Finch"
""",
    limits=("wait-shower-use", "wait-cold-below", "wait-cold-step"),
)
