"""Air that meets a base colder than its dew point leaves water on it, mostly unseen: primer, membrane and adhesive then
lie on a film of water and do not hold. A margin of about 3 K keeps clear of it (coating practice, ISO 8502-4); the dew
point is worked out by the Magnus formula from the air and its humidity.

Warm the base, or dry and air the room, and write what it then has. A heater that burns fuel makes the air damper, not
drier.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.formula.dew import MAGNUS, dew_point, least_surface


def find(context: Context) -> Iterator[Finding]:
    now = context.job.conditions
    air, humidity, surface = (said_at(q) for q in (now.air, now.humidity, now.surface))
    # All three have to be said: a warning never rests on what was assumed.
    if air is None or humidity is None or surface is None:
        return
    dew, margin = dew_point(now.air, now.humidity, context.practice), context.practice.limit("dew-point-margin")
    least = least_surface(dew, margin)
    if now.surface.value >= least.value:
        return
    yield RULE.at(
        tuple(s.id for s in context.job.tiled),
        surface,
        f"The base is at {both(now.surface)}, and dew forms at {both(dew)}: it has to be at {both(least)} at least.",
        label="damp with dew" if now.surface.value <= dew.value else "near the dew point",
        secondary=(Label(humidity, "in air this damp"),),
        help="Warm the base, or dry and air the room, and write the temperatures and the humidity it then has.",
        notes=(f"Dew point: {MAGNUS}, with air {both(now.air)} and humidity {both(now.humidity)}.", cited(margin)),
    )


RULE = Rule(
    "T2304",
    "surface-near-dew-point",
    Severity.WARNING,
    "A base so cold that dew forms on it",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
conditions air 20 C; humidity 75 %; surface 14 C
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
conditions air 20 C; humidity 55 %; surface 14 C
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=("dew-point-margin", "dew-point-a", "dew-point-b"),
    whole=True,
)
