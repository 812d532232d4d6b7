"""A step in a doorway is stumbled over, most of all with wet feet, and stops a wheelchair or a walking frame. DIN 18040 still
calls 20 mm barrier-free (as the trade's press quotes it); 4 mm already counts as a trip point in workplaces (DGUV 207-006,
3.2).

Let the build-up bring both floors nearer, ramp the difference, or lower the threshold. Where the step is there and stays, say
so in a deviation, and mark its edge in another colour.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.falls.doors import runs_out, ways_out
from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, said_at
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Room
from tilespec.quantity import Quantity, work
from tilespec.source import Span


def find(context: Context) -> Iterator[Finding]:
    most, trip = context.practice.limit("threshold-max"), context.practice.limit("trip-step-max")
    for room in context.job.rooms:
        # A floor that lies higher than the hall and gets wet is a worse fault of the same words.
        if room.floor is None or runs_out(room):
            continue
        for step, what, place, span in _steps(room):
            if step.value <= most.value:
                continue
            yield RULE.at(
                (place,),
                context.span(span, room.floor.span),
                f"{what} makes a step of {both(step)} in the doorway of {context.name(room.floor)}; {both(most)} is the most "
                "that still counts as barrier-free.",
                label="a step to stumble over",
                help=f"Bring it down to {both(most)} or less, or ramp it and say so in a deviation.",
                notes=(cited(most), f"From {both(trip)} a step counts as a trip point: mark what remains."),
            )


def _steps(room: Room) -> Iterator[tuple[Quantity, str, str, Span | None]]:
    """The highest step at each door: up to its threshold from the lower floor, or between the two floors."""
    hall = room.levels.hall
    dammed = False
    for surface, opening in ways_out(room):
        threshold = opening.threshold
        if threshold is None or threshold.value <= 0:
            continue
        dammed = True
        step = threshold
        if hall is not None and hall.value < 0:
            step = work("threshold - hall", "mm", source="threshold above the hall", threshold=threshold, hall=hall)
        elif hall is not None and hall.value > threshold.value:
            step = hall
        yield step, "The threshold", surface.id, said_at(threshold) or opening.span
    if hall is not None and room.floor is not None and not dammed:
        step = work("abs(hall)", "mm", source="between the two floors", hall=hall)
        yield step, f"The hall floor, {'lower' if hall.value < 0 else 'higher'} than this one,", room.floor.id, said_at(hall)


RULE = Rule(
    "T2044",
    "step-at-door-too-high",
    Severity.WARNING,
    "A step at a door that is stumbled over",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  hall floor +30
  tile floor-tile; joint 3
""",
    good="""\
tile floor-tile 100x100x8 porcelain; barefoot class B
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-10-01
  hall floor +20
  tile floor-tile; joint 3
""",
    limits=("threshold-max", "trip-step-max"),
)
