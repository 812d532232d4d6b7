"""Light stone drinks: the pigments of a dark grout creep into its edges, and every tile gets a shadow round it that no cleaner
takes out. Common practice, no source: a grout of the stone's own shade, and a trial joint before the whole wall.

Choose a light grout, or seal and try out a few tiles first and say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, called
from tilespec.checks.stone import light
from tilespec.diagnostics.model import Label, Severity

DARK = ("dark", "black", "brown", "blue", "green", "red", "grey")


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        grout = surface.product("grout")
        covering = next((c for c in surface.coverings if light(c.tile)), None)
        if grout is None or covering is None or grout.colour not in DARK:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(covering.tile.span, covering.span, surface.span),
            f"{called(covering.tile)} on {context.name(surface)} is light stone, and its grout {grout.name} is {grout.colour}: "
            "it may stain the edges.",
            label="light stone",
            secondary=(Label(grout.span, "this grout"),) if grout.span is not None else (),
            help="Choose a grout of the stone's own shade, or try it out on a few sealed tiles first.",
            notes=("Common practice, no source.",),
        )


RULE = Rule(
    "T2419",
    "dark-grout-in-light-stone",
    Severity.NOTE,
    "A dark grout in light stone",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
grout fine-fill class CG2WA; colour black; pack 5 kg
tile pale 300x300x10 limestone; weight 26 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile pale; joint 3
""",
    good="""\
grout fine-fill class CG2WA; colour beige; pack 5 kg
tile pale 300x300x10 limestone; weight 26 kg/m2
wall A 2.4 x 2.4
  base cement render
  tile pale; joint 3
""",
)
