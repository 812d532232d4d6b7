"""Mould grows into the sealant of a shower and cannot be washed out. EN 15651-3, for sanitary joints in bathrooms and showers,
grades how well a sealant resists it: S1 best, then S2 and S3; an X before it means that it shrinks little. Common practice is
XS1 in showers and S2 elsewhere.

Take a sealant of class XS1 (or S1) for the shower's surfaces, and write its class from the data sheet.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Label, Severity


def find(context: Context) -> Iterator[Finding]:
    least = context.practice.word("sealant-shower")
    for surface in context.job.tiled:
        sealant = surface.product("sealant")
        shower = next((z for z in surface.zones if z.exposure == "shower"), None)
        # A class that is not said at all is asked for; a drying sealant is the worse fault.
        if shower is None or sealant is None or sealant.generic or not sealant.cls or "acrylic" in sealant.flags:
            continue
        grade = next((part for part in sealant.cls if part.lstrip("X")[:1] == "S"), None)
        if grade is not None and grade[-1:] <= least.text[-1:]:
            continue
        yield RULE.at(
            (surface.id,),
            context.span(sealant.span, shower.span, surface.span),
            f"Sealant {sealant.name} is used in the shower and "
            + (f"is of class {grade}" if grade is not None else "its class says nothing of mould")
            + f": a shower takes {least.text}.",
            label="mould grows into it",
            secondary=(Label(shower.span, "the shower"),) if shower.span is not None else (),
            help=f"Take one of class {least.text}, for example `class {least.text} 25LM`.",
            notes=(cited(least),),
        )


RULE = Rule(
    "T2715",
    "sealant-without-mould-class-in-shower",
    Severity.WARNING,
    "A sealant in a shower that mould grows into",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
sealant own-seal class S3 25LM; neutral; pack 310 mL
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    good="""\
sealant own-seal class XS1 25LM; neutral; pack 310 mL
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    limits=("sealant-shower",),
)
