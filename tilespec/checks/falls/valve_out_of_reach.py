"""A concealed valve is built in to a depth that its maker gives for the finished wall. Behind too thick a bed and tile its
spindle and plate no longer reach the face; behind too thin a one the body stands out of the tiling. Once the membrane and its
collar are on, it cannot be moved (common practice: the data sheet of the valve against the wall as it is built).

Set the body to the finished face before the wall is closed, take another tile, or order the maker's extension and say so in a
deviation. The depth is that of this spec: bed by the trowel, and tile.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, called, reckoned
from tilespec.diagnostics.model import Severity
from tilespec.job.types import Covering, Penetration, Surface
from tilespec.quantity import Given
from tilespec.setout import bed, geometry


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        for valve in surface.penetrations:
            laid = _over(surface, valve)
            # The thickness of a tile that nobody wrote down is asked for already.
            if valve.covers is None or laid is None or not isinstance(laid.tile.thickness.why, Given):
                continue
            least, most = valve.covers
            # Half a millimetre is not worth a word; what is said is the sum as it is.
            thick, exact = bed.thickness(surface, laid, context.practice), bed.over_base(surface, laid, context.practice)
            if least.value <= thick.value <= most.value:
                continue
            deep = thick.value > most.value
            yield RULE.at(
                (surface.id,),
                context.span(valve.span, surface.span),
                f"The {valve.kind} on {context.name(surface)} is made for {both(least)} to {both(most)} of bed and tile; "
                f"{called(laid.tile)} and its bed are {both(exact)} here.",
                label="its trim does not reach the face" if deep else "it stands out of the face",
                help="Set the valve further out before the wall is closed and write what it then covers, or take its extension "
                "and say so in a deviation." if deep else
                "Set the valve further back before the wall is closed and write what it then covers, or take a thicker tile.",
                notes=(reckoned("Bed and tile", exact),),
            )


def _over(surface: Surface, hole: Penetration) -> Covering | None:
    """What is laid at a place: a band or panel there, else the field."""
    x, y = hole.x.value, hole.y.value
    here = [c for c in surface.coverings if c.region is not None and geometry.box(c.region).holds(x, y)]
    return here[-1] if here else surface.field


RULE = Rule(
    "T2045",
    "valve-out-of-reach",
    Severity.WARNING,
    "A valve built in too deep or not deep enough for the tiling",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x9 porcelain; weight 20 kg/m2
wall A 2.4 x 2.4 shower zone
  base cement render
  tile wall-tile; joint 3
  valve 1.2 from left, 1.1 up; diameter 100; covers 15 to 40
""",
    good="""\
tile wall-tile 300x300x9 porcelain; weight 20 kg/m2
wall A 2.4 x 2.4 shower zone
  base cement render
  tile wall-tile; joint 3
  valve 1.2 from left, 1.1 up; diameter 100; covers 10 to 35
""",
)
