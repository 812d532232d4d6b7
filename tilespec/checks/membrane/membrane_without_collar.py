"""Every pipe and valve is a hole in the membrane. Paint drawn up to the pipe comes off it with the first movement; a collar is
bedded in the membrane and grips the pipe. Common practice for any liquid system, from memory; the membrane's own system
governs. A drain whose own flange is said needs none: the membrane is bonded to the flange.

Take `collar none` out. This rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import WATERPROOFING, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Penetration, Surface
from tilespec.sequence.site import with_membrane
from tilespec.setout.geometry import box
from tilespec.takeoff.membrane import COLLARED


def through(surface: Surface) -> tuple[Penetration, ...]:
    """What goes through the membrane of a surface and needs a collar."""
    return tuple(
        p for p in surface.penetrations
        if p.kind in COLLARED and p.flange is None
        and any(a.rect is None or box(a.rect).holds(p.x.value, p.y.value) for a in surface.membrane_areas)
    )  # fmt: skip


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        refused = surface.refusal("collar")
        holes = through(surface) if refused is not None and with_membrane(surface) else ()
        if not holes:
            continue
        kinds = " and ".join(dict.fromkeys(p.kind for p in holes))
        yield RULE.at(
            (surface.id,),
            context.span(refused, surface.span),
            f"Through the membrane of {context.name(surface)} goes a {kinds}, and no collar seals it.",
            label="no collar here",
            secondary=tuple(Label(p.span, "goes through") for p in holes if p.span is not None)[:1],
            help="Take `collar none` out: each of them then gets one.",
            notes=(cited(context.practice.word("membrane-details")),),
        )


RULE = Rule(
    "T2029",
    "membrane-without-collar",
    Severity.ERROR,
    "A pipe through the membrane without a collar",
    WATERPROOFING,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; collar none
  shower zone
  pipe 1.2 from left, 1.1 up
""",
    good="""\
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
  pipe 1.2 from left, 1.1 up
""",
    limits=("membrane-details",),
)
