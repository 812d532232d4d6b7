"""A wall base carries so much tiling and no more: plaster 20, plasterboard without skim 32 kg for each square metre, after
BS 5385-1:2018. The tiling is tile, adhesive and grout together; where boards are fixed to the base by adhesive, the weakest layer
governs. What is too heavy comes down with the plaster behind it.

Choose a lighter tile or a stronger base, fix a board mechanically to the structure, or write what the board's maker allows:
`carries 40 kg/m2` beside the base. Tiles that fall hurt people: this rule cannot be deviated from.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import INJURY, Context, Finding, Rule, both, called, cited, reckoned, said_at
from tilespec.diagnostics.model import Label, Severity
from tilespec.job.types import Surface
from tilespec.quantity import Quantity


def carries(context: Context, surface: Surface) -> Quantity | None:
    """What the weakest layer carries, where that is known."""
    base = surface.base
    skim = "-skimmed" if base.kind == "gypsum-plasterboard" and base.skim else ""
    key = base.weight_limit_key or f"wall-load-{base.kind}{skim}"
    board = surface.product("board")
    layers = [base.carries or context.practice.find(key), board.carries if board is not None else None]
    known = [q for q in layers if q is not None]
    return min(known, key=lambda q: q.value) if known else None


def _help(surface: Surface) -> str:
    """Plaster has no maker who allows more; a board that it was skimmed over is held to the skim."""
    base = surface.base
    if base.kind == "gypsum-plaster" or base.kind == "gypsum-plasterboard" and base.skim:
        return "Take a lighter tile, or a board that is fixed to the structure: `base tile-backer board` or `base cement board`."
    return "Take a lighter tile or a stronger base; or write `carries` with the board maker's value beside the base."


def find(context: Context) -> Iterator[Finding]:
    weights = dict(context.takeoff.tiling_weight) if context.takeoff is not None else {}
    for surface in context.job.tiled:
        weight = weights.get(surface.id)
        limit = carries(context, surface) if surface.kind == "wall" else None
        if weight is None or limit is None or weight.value <= limit.value:
            continue
        base = surface.base
        guessed = next((c.tile for c in surface.coverings if c.tile.weight is None), None)
        tile = max(surface.coverings, key=lambda c: c.tile.weight.value if c.tile.weight is not None else 0)
        yield RULE.at(
            (surface.id,),
            context.span(base.span, surface.span),
            f"The tiling on {context.name(surface)} weighs {both(weight)}; "
            f"{base.words.text if base.words is not None else base.kind.replace('-', ' ')} carries {both(limit)}.",
            label="too weak for it",
            secondary=(Label(tile.span, "this weighs most"),) if tile.span is not None else (),
            help=_help(surface),
            notes=(
                "Limit: said in the spec." if said_at(limit) is not None else cited(limit),
                reckoned("Weight", weight),
                *(
                    (f"The weight of {called(guessed)} is worked out from its thickness: write the data sheet's.",)
                    if guessed
                    else ()
                ),
            ),
        )


RULE = Rule(
    "T2202",
    "tiling-too-heavy-for-base",
    Severity.ERROR,
    "More tiling than the wall carries",
    INJURY,
    "takeoff",
    __doc__,
    find,
    bad="""\
tile wall-tile 300x300x12 porcelain; weight 28 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard skimmed
  tile wall-tile; joint 3
""",
    good="""\
tile wall-tile 200x200x6 ceramic; weight 12 kg/m2
wall A 2.4 x 2.4
  base gypsum plasterboard skimmed
  tile wall-tile; joint 3
""",
    limits=(
        "wall-load-gypsum-plaster", "wall-load-gypsum-plasterboard-skimmed", "wall-load-gypsum-plasterboard",
        "wall-load-gypsum-fibreboard", "wall-load-cement-board", "wall-load-tile-backer-board", "wall-load-plywood",
    ),
)
