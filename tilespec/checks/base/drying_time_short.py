"""A screed holds more water the thicker it is. For planning, a cement screed dries a millimetre a day for its first 50
mm and half of that deeper down (BS 8203), calcium sulfate for its first 40 (NHBC Standards 9.3.5), in good drying air
of about 20 degrees C and 65 % humidity. Colder or damper it takes longer; no source gives a figure. A moisture reading
planned for an earlier day will likely fail, and the programme stops on that day.

Begin later, or measure: a moisture reading in the spec takes the place of this reckoning. It never takes the place of
the reading. Where a screed is made to dry fast, say so in a deviation with its data sheet. A floor whose heating pipes
dry it is left out.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.base.age import damp, young
from tilespec.checks.base.screed_too_young import KINDS
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, reckoned, said_at
from tilespec.diagnostics.model import Severity
from tilespec.formula.drying import good_air


def find(context: Context) -> Iterator[Finding]:
    old_enough = {found.surface.id: found.ready for found in young(context, KINDS)}
    for found in damp(context):
        surface, base, name = found.surface, found.surface.base, context.name(found.surface)
        words = base.words.text if base.words is not None else base.kind.replace("-", " ")
        old = old_enough.get(surface.id)
        yield RULE.at(
            (surface.id,),
            context.span(base.span, surface.span),
            f"{name} is {words}, {both(found.thickness)} thick and {both(found.age)} old when the job begins; "
            f"it takes about {both(found.takes)} to dry.",
            label="still wet by then",
            help=f"It may be dry on {found.ready}: tile {name} then, or measure before and write the reading."
            if old is None or old <= found.ready
            else f"It may be dry on {found.ready} and is old enough on {old}: tile {name} then or later.",
            notes=(reckoned("Drying", found.takes), cited(found.rate), *_slower(context)),
        )


def _slower(context: Context) -> Iterator[str]:
    """Said where the air is worse than the rule presumes."""
    now = context.job.conditions
    if said_at(now.air) is None or said_at(now.humidity) is None or good_air(now.air, now.humidity, context.practice):
        return
    air, damp = (context.practice.limit(f"drying-good-{part}") for part in ("temperature", "humidity"))
    yield (
        f"In air of {both(now.air)} and {both(now.humidity)} it takes longer: "
        f"the rule is for {both(air)} or more and {both(damp)} or less."
    )


RULE = Rule(
    "T2208",
    "drying-time-short",
    Severity.WARNING,
    "A screed that will still be wet when the job begins",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Bathroom"
  begin 2026-03-09
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
floor 2.4 x 1.8
  base cement screed; thickness 75 mm; laid 2026-01-05
  tile plain-tile; joint 3
""",
    good="""\
job "Bathroom"
  begin 2026-03-09
tile plain-tile 200x200x7 ceramic; weight 13 kg/m2
floor 2.4 x 1.8
  base cement screed; thickness 75 mm; laid 2025-11-24
  tile plain-tile; joint 3
""",
    limits=(
        "drying-cement-screed", "drying-cement-screed-break", "drying-cement-screed-deep",
        "drying-calcium-sulfate-screed", "drying-calcium-sulfate-screed-break", "drying-calcium-sulfate-screed-deep",
        "drying-good-temperature", "drying-good-humidity",
    ),
)
