"""Water weighs 10 kg on a square metre for each centimetre of its depth (ASTM D5957, which asks to look at the structure
first). More than the floor is said to carry may bend it for good, or bring it down on whoever is below. A structural
engineer says what it carries; the figure in the spec is held against the water alone.

Let the water down, and test with less or by spraying. People may stand below: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.dated import places, ponding
from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited, reckoned, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Surface
from tilespec.quantity import Quantity, work


def load(context: Context, depth: Quantity) -> Quantity:
    """What water of this depth weighs on each square metre."""
    return work("depth * load", "kg/m2", source="weight of water", depth=depth, load=context.practice.limit("ponding-load"))


def too_heavy(context: Context, floor: Surface, depth: Quantity) -> bool:
    carries = floor.base.carries
    return carries is not None and load(context, depth).value > carries.value


def find(context: Context) -> Iterator[Finding]:
    for record, _, floor in ponding(context):
        depth, carries = record.reading, floor.base.carries
        if depth is None or carries is None or not too_heavy(context, floor, depth):
            continue
        weight = load(context, depth)
        yield RULE.at(
            places(context, record),
            context.span(said_at(depth), record.span),
            f"{both(depth)} of water weighs {both(weight)}, and {context.name(floor)} carries {both(carries)}.",
            label="too heavy",
            secondary=(Label(span, "what it carries"),) if (span := said_at(carries)) is not None else (),
            help="Let the water down, test with less or by spraying, and add the new record.",
            notes=(reckoned("Weight", weight), cited(context.practice.limit("ponding-load"))),
        )


RULE = Rule(
    "T2024",
    "ponding-too-heavy-for-floor",
    Severity.ERROR,
    "Water too heavy for the floor it stood on",
    INJURY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01; carries 60 kg/m2
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record ponding on floor 2026-03-12 by "A. Finch"; reading 80 mm; lasted 24 h
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01; carries 60 kg/m2
  tile floor-tile; joint 3
  fall 1:60 four planes; drain 1.2 from wall D, 0.9 from wall A
wall A 2.4 x 2.4 shower zone; base cement render; tile floor-tile; joint 3
record ponding on floor 2026-03-12 by "A. Finch"; reading 40 mm; lasted 24 h
""",
    limits=("ponding-load",),
)
