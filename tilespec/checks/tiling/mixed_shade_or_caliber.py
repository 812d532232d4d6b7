"""Tiles are fired and sorted in lots. Those of another shade show as a patch in the light, those of another caliber are a
millimetre larger and the joints wander. The whole order comes from one lot: trade practice, in the trade's press for the
caliber.

Send back what differs, or lay each lot on a surface of its own and say so in a deviation. Mix the boxes of one lot while
laying.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.checks.tiling.came import places
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Words


def differ(one: Words | None, other: Words | None) -> bool:
    return one is not None and other is not None and one.text.casefold() != other.text.casefold()


def find(context: Context) -> Iterator[Finding]:
    came = context.job.deliveries
    for n, later in enumerate(came):
        first = next((d for d in came[:n] if d.tile.name == later.tile.name and
                      (differ(d.shade, later.shade) or differ(d.caliber, later.caliber))), None)  # fmt: skip
        if first is None:
            continue
        pairs = (("shade", later.shade, first.shade), ("caliber", later.caliber, first.caliber))
        what, new, old = next((what, a, b) for what, a, b in pairs if a is not None and b is not None and differ(a, b))
        yield RULE.at(
            places(context, later.tile),
            context.span(new.span, later.span),
            f"{called(later.tile)} came in {what} {new} and in {what} {old}.",
            label=f"another {what}",
            secondary=(Label(old.span, "came before"),),
            help=f"Send back what does not match, or lay each {what} on a surface of its own.",
        )


RULE = Rule(
    "T2442",
    "mixed-shade-or-caliber",
    Severity.WARNING,
    "One tile delivered in two shades or calibers",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-02; shade K12; caliber 4
delivery wall-tile 2026-03-05; shade K14; caliber 4
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
delivery wall-tile 2026-03-02; shade K12; caliber 4
delivery wall-tile 2026-03-05; shade K12; caliber 4
""",
    whole=True,
)
