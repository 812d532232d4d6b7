"""A thin strip of tile at the edge of a wall or floor is seen for as long as the room stands; it is hard to cut, it chips, and it
shows every millimetre by which the corner is out. Common practice after ANSI A108.02, 4.3: no sliver at an edge, cuts at opposite
edges equal and as wide as can be.

The message names the nearest start without such a strip, and how far the courses move. Take it, or leave the start open: then the
best one is looked for. The usual cure is to move the courses by half a tile, which turns a remainder r into two cuts of
(r + tile) / 2.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, local, reckoned
from tilespec.diagnostics.model import Severity
from tilespec.quantity import UNITS, Quantity
from tilespec.setout.said import Sliver, slivers
from tilespec.setout.start import Placed, Site

# How a start that has a name is written in a spec.
_WRITTEN = {
    "joint on centre": "joint on centre", "tile on centre": "tile on centre", "full tile at the left": "full tile at left",
    "full tile at the right": "full tile at right", "full tile at the foot": "full tile at floor",
    "full tile at the top": "full tile at top", "course on the datum line": "full tile at datum",
}
_AWAY = {0: ("right", "left"), 1: ("up", "down")}


def find(context: Context) -> Iterator[Finding]:
    for one in context.starts:
        found = tuple(slivers(one, context.practice))
        if found:
            yield _finding(context, found)


def _finding(context: Context, found: tuple[Sliver, ...]) -> Finding:
    one = found[0].stated
    site, start = one.site, one.site.covering.start
    tile = site.size(one.axis)
    listed = " and ".join(f"{local(context, s.cut)} at the {s.where}" for s in found)
    size = "wide" if one.axis == 0 else "high"
    share, least = (context.practice.limit(k) for k in ("cut-poor-share", "cut-poor-size"))
    span = start.up_span if one.axis == 1 and start.up_span is not None else start.span
    return RULE.at(
        (one.surface.id,),
        context.span(span, site.covering.span, one.surface.span),
        f"{context.name(one.surface)} gets cuts of {listed}, of a tile {both(tile)} {size}; "
        f"{local(context, found[0].least)} is the least that should be left.",
        label=one.placed.words,
        help=_help(context, found[0], site),
        notes=(cited(share), cited(least), *(reckoned(f"The cut at the {s.where}", s.cut, context) for s in found)),
    )


def _help(context: Context, s: Sliver, site: Site) -> str:
    if s.cure is None or s.shift is None:
        return "No start leaves more here: change the tile, the joint or the pattern."
    move = _moved(context, s, site)
    words = _words(s.cure, site)
    if words:
        return f"Write `{words}`: the courses move {move}, and no cut at an edge is thinner than that."
    return f"Move the courses {move}, or leave this start open: then the best one is looked for."


def _moved(context: Context, s: Sliver, site: Site) -> str:
    assert s.shift is not None
    away = ("down the plan", "up the plan") if site.floor and s.stated.axis == 1 else _AWAY[s.stated.axis]
    text = local(context, Quantity(abs(s.shift.value), s.shift.kind, UNITS["mm"], s.shift.why))
    return f"{text} to the {away[s.shift.value < 0]}" if s.stated.axis == 0 else f"{text} {away[s.shift.value < 0]}"


def _words(cure: Placed, site: Site) -> str:
    words = _WRITTEN.get(cure.words, "")
    # A floor has no foot and no top; there a middle is said both ways at once.
    return "" if site.floor and words not in ("full tile at left", "full tile at right") else words


RULE = Rule(
    "T2403",
    "sliver-cut",
    Severity.WARNING,
    "A sliver at an edge",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
wall A 2.46 x 2.4
  base cement render
  tile wall-tile; joint 3; full tile at left
""",
    good="""\
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
wall A 2.46 x 2.4
  base cement render
  tile wall-tile; joint 3; tile on centre
""",
    limits=("cut-poor-share", "cut-poor-size"),
)
