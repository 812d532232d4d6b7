"""In the United States a bonded waterproof membrane under thin-set tile is one of ANSI A118.10; the model plumbing and
residential codes name it. A product that states another class may be as good, and the inspector still asks for that one.

Write `class A118.10` if the data sheet says that the product meets it, or take one that does. Local code decides: where it
takes another listing, say so in a deviation.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited
from tilespec.diagnostics.model import Severity


def find(context: Context) -> Iterator[Finding]:
    # Only the US family has such a word.
    if context.practice.entry("membrane-standard") is None:
        return
    standard = context.practice.word("membrane-standard")
    for product in context.job.products:
        if product.kind != "membrane" or product.generic or standard.text in product.cls:
            continue
        said = f"is of class {' '.join(product.cls)}" if product.cls else "has no class"
        yield RULE.at(
            tuple(s.id for s in context.job.surfaces if product in s.products),
            context.span(product.span),
            f"Membrane {product.name} {said}: below thin-set tile the codes ask for ANSI {standard.text}.",
            label="not of this standard",
            help=f"Write `class {standard.text}` if its data sheet says so, or take a membrane that meets it.",
            notes=(cited(standard),),
        )


RULE = Rule(
    "T2011",
    "membrane-without-standard",
    Severity.WARNING,
    "A membrane that is not of the standard that codes ask for",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
job "Hall bath"
  practice US
membrane own-film class DM; pack 30 lb; coats 2; consumption 0.75 kg/m2
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    good="""\
job "Hall bath"
  practice US
membrane own-film class A118.10; pack 30 lb; coats 2; consumption 0.75 kg/m2
tile wall-tile 300x300x9 porcelain
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3
  shower zone
""",
    limits=("membrane-standard",),
    whole=True,
)
