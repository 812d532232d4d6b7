"""A thin strip of tile above a window or under its sill is the first thing one sees, and the first to crack. Common practice
after ANSI A108.02, 4.3.2: usually no cut of less than half a tile.

Start the courses elsewhere (`full tile at datum`, `full tile at floor`, `full tile at top`), move the datum line, or say in a
deviation why the cut stays: that it matches the next room, say. The heights are those of the opening as measured, without its
trim.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, cited, reckoned
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.job.types import Covering, Opening, Surface
from tilespec.quantity import Quantity, work
from tilespec.quantity.typed import typed
from tilespec.source import Span

SOURCE = "courses counted up and down from the start of the set-out"
STARTS = ("full tile at datum", "full tile at floor", "full tile at top")
# Bonds whose courses run level.
COURSED = ("straight", "stack", "half", "third", "quarter", "run")


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut course at a window. `height` is what is left of the tile, in millimetres when shown."""

    where: str
    height: Quantity


def starts_at(covering: Covering) -> str:
    """The start of the courses: at the datum line where none is said."""
    match covering.start.up:
        case "found" | "full tile at datum":
            return STARTS[0]
        case "full tile at top" | "from top":
            return STARTS[2]
        case _:
            return STARTS[1]


def cuts(context: Context, surface: Surface, covering: Covering, window: Opening, start: str) -> Iterator[Cut]:
    """The cut courses under the sill and above the head of a window, when the courses start there."""
    tile, joint = covering.tile.height, covering.joint
    first = first_course(context, surface, covering, start)
    sill = window.rect.y
    below = work(
        "sill - start - floor((sill - start) / (tile + joint)) * (tile + joint)",
        "mm",
        source=SOURCE,
        sill=sill,
        start=first,
        tile=tile,
        joint=joint,
    )
    if 0 < below.value < tile.value and sill.value >= below.value:
        yield Cut("under the sill", below)
    head = work("sill + window", "m", source="head of the window", sill=sill, window=window.rect.height)
    top = surface.tiled_height or surface.height
    if head.value >= top.value:
        return
    above = work(
        "start + ceil((head - start) / (tile + joint)) * (tile + joint) - joint - head",
        "mm",
        source=SOURCE,
        start=first,
        head=head,
        tile=tile,
        joint=joint,
    )
    room = work("top - head", "mm", source=SOURCE, top=top, head=head)
    if 0 < above.value < tile.value:
        yield Cut("above the window", above if above.value <= room.value else room)


def first_course(context: Context, surface: Surface, covering: Covering, start: str) -> Quantity:
    """Height of the lower edge of a full tile."""
    if start == "full tile at top":
        top = surface.tiled_height or surface.height
        return work("top - tile", "m", source=SOURCE, top=top, tile=covering.tile.height)
    datum = context.room(surface).levels.datum
    if start == "full tile at floor":
        return work("datum - datum", "m", source="finished floor", datum=datum)
    return datum


def least_cut(context: Context, covering: Covering) -> Quantity:
    share = context.practice.limit("cut-min-share")
    return work("tile * share", "mm", source="smallest cut", tile=covering.tile.height, share=share)


def find(context: Context) -> Iterator[Finding]:
    for surface in context.job.tiled:
        covering = surface.field
        if surface.kind != "wall" or covering is None or covering.tile.mosaic or covering.pattern.name not in COURSED:
            continue
        start = starts_at(covering)
        windows = [o for o in surface.openings if o.kind == "window"]
        for window in windows:
            least = least_cut(context, covering)
            found = cuts(context, surface, covering, window, start)
            small = [c for c in found if c.height.value < least.value and not _banded(surface, window, c)]
            if small:
                better = _better(context, surface, covering, windows, start, least)
                yield _finding(context, surface, covering, window, start, small, better, least)


def _better(
    context: Context, surface: Surface, covering: Covering, windows: list[Opening], start: str, least: Quantity
) -> str | None:
    """Another start that leaves no small cut at any window of the wall."""
    for other in STARTS:
        heights = (c.height for w in windows for c in cuts(context, surface, covering, w, other))
        if other != start and all(h.value >= least.value for h in heights):
            return other
    return None


def _banded(surface: Surface, window: Opening, cut: Cut) -> bool:
    """Another tile lies over the whole cut."""
    level = window.rect.y.value if cut.where == "under the sill" else window.rect.top
    low, high = (level - cut.height.value, level) if cut.where == "under the sill" else (level, level + cut.height.value)
    regions = [c.region for c in surface.coverings if c.region is not None]
    return any(
        r.y.value <= low and r.top >= high and r.x.value <= window.rect.x.value and r.right >= window.rect.right for r in regions
    )


def _finding(
    context: Context,
    surface: Surface,
    covering: Covering,
    window: Opening,
    start: str,
    small: list[Cut],
    better: str | None,
    least: Quantity,
) -> Finding:
    listed = " and ".join(f"{typed(c.height)} {c.where}" for c in small)
    share = context.practice.limit("cut-min-share")
    worked = tuple(reckoned(f"The cut {c.where}", c.height) for c in small)
    return RULE.at(
        (surface.id,),
        context.span(window.span, surface.span),
        f"{context.name(surface)} has a cut of {listed}, of a tile {typed(covering.tile.height)} high; "
        f"{typed(least)} is the smallest that looks right.",
        label=f"courses from the {start.removeprefix('full tile at ')}",
        help=f"Write `{better}`: then no cut at a window is smaller than that."
        if better
        else "Move the datum line, or change the tile or the joint: no other start gives larger cuts here.",
        fixes=_fix(covering, better) if better is not None else (),
        notes=(cited(share), *worked),
    )


def _fix(covering: Covering, text: str) -> tuple[Fix, ...]:
    """Put the start where another one stands, or after the tile's name. None where both directions are said: which words to
    replace is then not known."""
    start, tile = covering.start, covering.span
    if start.up != "found" and start.across == "found" and start.span is not None:
        return (Fix(f"write {text}", (Edit(start.span, text),)),)
    if start.up == "found" and tile is not None:
        return (Fix(f"write {text}", (Edit(Span(tile.file, tile.end, tile.end), f"; {text}"),)),)
    return ()


RULE = Rule(
    "T2402",
    "low-window-cut",
    Severity.WARNING,
    "A thin cut at a window",
    QUALITY,
    "job",
    __doc__,
    find,
    bad="""\
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
datum 1.0 above finished floor
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; full tile at datum
  window 0.6 x 0.9; 0.6 from left, 1.2 up
""",
    good="""\
tile wall-tile 600x300x9 porcelain landscape; weight 20 kg/m2
datum 1.0 above finished floor
wall A 2.4 x 2.4
  base cement render
  tile wall-tile; joint 3; full tile at datum
  window 0.6 x 0.85; 0.6 from left, 1.2 up
""",
)
