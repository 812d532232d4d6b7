"""A tile cannot be split. One that is heavier than the crew may lift by the revised NIOSH lifting equation (NIOSH 94-110; two
people two thirds of what each could alone, three one half, HSE L23) hurts backs, and is dropped. Boxes are unpacked and bags
opened; a bag or bucket that two may not lift even at its best, close to the body and at hip height, is told too.

Plan another pair of hands, a lifting frame (`aids lifting frame`), or a smaller tile or pack. Suction lifters (`aids suction
lifters`) make a good grip of a smooth face, and are reckoned as that: the weight stays. The equation is for standing on a good
floor: in a bathroom it is less. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, cited, reckoned, said_at
from tilespec.diagnostics.model import Severity
from tilespec.quantity import Quantity
from tilespec.quantity.total import total
from tilespec.sequence.lifting import team, team_of_three
from tilespec.sequence.types import Lift

# A box of tiles is unpacked where it was set down: nobody has to carry it whole.
_WORDS = {"bag": "a bag of", "bucket": "a bucket of", "single-tile": "one tile"}


def find(context: Context) -> Iterator[Finding]:
    assert context.sequence is not None
    practice, crew = context.practice, context.job.crew
    persons = total(list(crew), "count", of="crew")
    for lift in context.sequence.lifts:
        if lift.what not in _WORDS:
            continue
        single = lift.what == "single-tile"
        three = single and persons.value >= 3
        alone = lift.limit if single else practice.limit("lift-constant")
        most = team_of_three(alone, practice) if three else team(alone, practice)
        if lift.load.value > most.value and lift.measure != "frame":
            yield _finding(context, lift, most, f"more than {'three' if three else 'two'} people may lift together")
        elif single and lift.measure != "alone" and persons.value < 2:
            yield _finding(context, lift, lift.limit, "more than one person may lift, and one is in the crew")


def _finding(context: Context, lift: Lift, limit: Quantity, fault: str) -> Finding:
    job = context.job
    tile = next((t for t in job.tiles if t.name == lift.name), None)
    product = next((p for p in job.products if p.name == lift.name), None)
    span = context.span(*(said_at(q) for q in (job.crew[0][1],)) if "one is in the crew" in fault else (None,),
                        tile.span if tile else None, product.span if product else None)
    help = "Add a helper to the crew"
    if "one is in the crew" not in fault:
        frame = "Plan a lifting frame and say so in the job, `aids lifting frame`"
        third = "; or let three people lift it, `crew tiler 2, helper 1`" if "two people" in fault else ""
        help = frame + third if tile else "Plan a lifting frame"
    return RULE.at(
        tuple(r.name for r in job.rooms),
        span,
        f"{_WORDS[lift.what]} {lift.name} weighs {both(lift.load)}: {fault} ({both(limit)}).",
        label="too heavy",
        help=f"{help}, or choose a smaller {'tile' if tile else 'pack'}.",
        notes=(reckoned("Limit for one person", lift.limit), cited(context.practice.limit("lift-constant"))),
    )


RULE = Rule(
    "T2804",
    "load-beyond-the-crew",
    Severity.WARNING,
    "A load beyond the crew",
    INJURY,
    "sequence",
    __doc__,
    find,
    bad="""\
job "Guest shower room"
  crew tiler 1
tile slab 1200x600x9 porcelain; weight 20 kg/m2; box of 2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
""",
    good="""\
job "Guest shower room"
  crew tiler 1, helper 1
tile slab 1200x600x9 porcelain; weight 20 kg/m2; box of 2
wall A 2.4 x 2.4
  base cement render
  tile slab; joint 3
""",
    limits=("lift-constant", "lift-team-two", "lift-team-three", "lift-index-aim"),
)
