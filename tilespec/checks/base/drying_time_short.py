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

from tilespec.checks.base.age import age, ready
from tilespec.checks.base.moisture import last_readings
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited, reckoned, said_at
from tilespec.diagnostics.model import Severity
from tilespec.formula.drying import drying_time, good_air
from tilespec.quantity.typed import typed


def find(context: Context) -> Iterator[Finding]:
    measured = {found.surface.id for found in last_readings(context) if found.limit is not None}
    for surface in context.job.tiled:
        base, heating = surface.base, context.room(surface).heating
        dried_by_pipes = surface.kind == "floor" and heating is not None and heating.kind == "pipes"
        old = age(context, surface)
        if old is None or base.laid is None or base.thickness is None or dried_by_pipes or surface.id in measured:
            continue
        takes, rate = drying_time(base.kind, base.thickness, context.practice), context.practice.find(f"drying-{base.kind}")
        if takes is None or rate is None or old.value >= takes.value:
            continue
        words = base.words.text if base.words is not None else base.kind.replace("-", " ")
        yield RULE.at(
            (surface.id,),
            context.span(base.span, surface.span),
            f"{context.name(surface)} is {words}, {typed(base.thickness)} thick and {typed(old)} old when the job begins; "
            f"it takes about {typed(takes)} to dry.",
            label="still wet by then",
            help=f"It may be dry on {ready(base.laid, takes).isoformat()}: begin then, or measure before and write the reading.",
            notes=(reckoned("Drying", takes), cited(rate), *_slower(context)),
        )


def _slower(context: Context) -> Iterator[str]:
    """Said where the air is worse than the rule presumes."""
    now = context.job.conditions
    if said_at(now.air) is None or said_at(now.humidity) is None or good_air(now.air, now.humidity, context.practice):
        return
    air, damp = (context.practice.limit(f"drying-good-{part}") for part in ("temperature", "humidity"))
    yield (
        f"In air of {typed(now.air)} and {typed(now.humidity)} it takes longer: "
        f"the rule is for {typed(air)} or more and {typed(damp)} or less."
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
