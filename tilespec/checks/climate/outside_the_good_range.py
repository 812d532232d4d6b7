"""Tiling can be done between about 5 and 30 degrees C, but it goes well in a narrower range, about 10 to 25 (in the US
50 to 70 F, from before the work until two days after). Colder, cement sets so slowly that a day's wait becomes two;
warmer, adhesive skins over before the tile is in it, and the bond is lost without a sign.

Heat or shade the room, or take it into account: longer waits in the cold, small areas spread at a time in the warm, and
a tile lifted every so often to look at the contact. Accept it with a deviation that says how.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.climate.ranges import broken, by_product, measured, window
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.formula import maturity
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity


def find(context: Context) -> Iterator[Finding]:
    low, high = (context.practice.limit(f"work-temperature-good-{end}") for end in ("min", "max"))
    for words, q in measured(context):
        limit = broken(q, low, high)
        span = said_at(q)
        # What was not said is asked; what is worse than this, another rule says.
        if limit is None or span is None or broken(q, *window(context)) is not None or any(by_product(context, q)):
            continue
        cold = q.value < limit.value
        slow = (_slower(q, context.practice),) if cold and words == "base" else ()
        yield RULE.at(
            tuple(s.id for s in context.job.tiled),
            span,
            f"The {words} is at {both(q)}; tiling goes well from {both(low)} to {both(high)}.",
            label="slow to set" if cold else "skins over soon",
            help=f"{'Heat' if cold else 'Shade or cool'} the room before and while it sets, and write what it then has.",
            notes=(cited(limit), *slow),
        )


def _slower(surface: Quantity, practice: Practice) -> str:
    """What the cold does to the usual wait, by the models of concrete practice and by the rule that the programme goes by."""
    day, reference = practice.limit("wait-adhesive"), practice.limit("maturity-reference").shown_in(surface.shown)
    rates = (
        maturity.straight(surface, reference, practice.limit("maturity-datum")),
        maturity.straight(surface, reference, practice.limit("maturity-datum-warm")),
        maturity.curved(surface, reference, practice.limit("maturity-activation"), practice),
        maturity.curved(surface, reference, practice.limit("maturity-activation-low"), practice),
    )
    times = sorted((maturity.corrected(day, rate) for rate in rates), key=lambda t: t.value)
    ours = maturity.in_the_cold(day, surface, practice)
    return (
        f"Cement that needs {both(day)} at {both(reference)} needs {both(times[0])} to {both(times[-1])} at {both(surface)} "
        f"(Nurse-Saul and Arrhenius maturity, from memory); waits are reckoned with {both(ours)}."
    )


RULE = Rule(
    "T2303",
    "outside-the-good-range",
    Severity.WARNING,
    "Colder or warmer than is good for tiling",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
conditions air 9 C; humidity 60 %; surface 8 C
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    good="""\
conditions air 19 C; humidity 60 %; surface 17 C
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
""",
    limits=(
        "work-temperature-good-min", "work-temperature-good-max", "wait-adhesive", "wait-cold-below", "wait-cold-step",
        "maturity-reference", "maturity-datum", "maturity-datum-warm", "maturity-activation", "maturity-activation-low",
    ),
    whole=True,
)
