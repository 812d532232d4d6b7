"""A thin strip of tile above a window or under its sill is the first thing one sees, and the first to crack. Common practice
after ANSI A108.02, 4.3.2: usually no cut of less than half a tile.

Start the courses elsewhere (`full tile at datum`, `full tile at floor`, `full tile at top`), move the datum line, or say in a
deviation why the cut stays: that it matches the next room, say. The heights are those of the opening as measured, without its
trim.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from tilespec.checks.rule import QUALITY, Context, Finding, Rule, both, cited, local, reckoned
from tilespec.diagnostics.model import Edit, Fix, Severity
from tilespec.job.types import Covering, Opening, Surface
from tilespec.quantity import UNITS, Quantity, work
from tilespec.setout.said import Stated
from tilespec.setout.search import search
from tilespec.setout.start import Site, said

SOURCE = "courses counted up and down from the start of the set-out"
STARTS = ("full tile at datum", "full tile at floor", "full tile at top")
# Bonds whose courses run level.
COURSED = ("straight", "stack", "half", "third", "quarter", "run")


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut course at a window. `height` is what is left of the tile, in millimetres when shown."""

    where: str
    height: Quantity


def cuts(site: Site, window: Opening, first: Quantity) -> Iterator[Cut]:
    """The cut courses under the sill and above the head of a window. `first`: the lower edge of a full tile."""
    tile, joint = site.height, site.covering.joint
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
    if 0 < below.value < tile.value and sill.value - below.value >= site.frame.low:
        yield Cut("under the sill", below)
    head = work("sill + window", "m", source="head of the window", sill=sill, window=window.rect.height)
    top = site.edge(1, True)
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


def least_cut(context: Context, site: Site) -> Quantity:
    share = context.practice.limit("cut-min-share")
    return work("tile * share", "mm", source="smallest cut", tile=site.height, share=share)


def find(context: Context) -> Iterator[Finding]:
    # A start that the spec leaves open is looked for with the windows in view.
    for one in context.starts:
        site, surface, covering = one.site, one.surface, one.site.covering
        pattern = covering.pattern
        if one.axis == 0 or surface.kind != "wall" or covering.role != "field" or covering.tile.mosaic:
            continue
        if pattern.name not in COURSED or pattern.upright:
            continue
        windows = [o for o in surface.openings if o.kind == "window"]
        for window in windows:
            least = least_cut(context, site)
            found = cuts(site, window, one.placed.corner)
            small = [c for c in found if c.height.value < least.value and not _banded(surface, window, c)]
            if small:
                yield _finding(context, one, window, small, _better(site, windows, least), windows, least)


def _better(site: Site, windows: list[Opening], least: Quantity) -> str | None:
    """Another start that leaves no small cut at any window of the wall."""
    for other in STARTS:
        covering = replace(site.covering, start=replace(site.covering.start, up=other))
        placed = said(replace(site, covering=covering), 1)
        if placed is None or other == site.covering.start.up:
            continue
        if all(c.height.value >= least.value for w in windows for c in cuts(site, w, placed.corner)):
            return other
    return None


def _open(context: Context, site: Site, windows: list[Opening], least: Quantity) -> bool:
    """Whether the start that is looked for where none is said leaves no small cut at any window of the wall."""
    covering = replace(site.covering, start=replace(site.covering.start, up="found"))
    at = search(replace(site, covering=covering), 1, context.practice).placed.corner
    return all(c.height.value >= least.value for w in windows for c in cuts(site, w, at))


def _nearest(site: Site, at: Quantity, windows: list[Opening], least: Quantity) -> Fraction | None:
    """How far the courses must move at least to leave no small cut at any window (m, up is more); None where no start does.

    Where cuts stop being too small, one of them is full, is gone, or is just as large as it must be.
    """
    tile, pitch = site.height.value, site.module(1)
    ends: set[Fraction] = set()
    for w in windows:
        for part in (Fraction(0), tile, least.value):
            ends |= {w.rect.y.value - part, w.rect.top + part - tile}
    ups = {(end - at.value) % pitch for end in ends}
    moves = {*ups, *(up - pitch for up in ups)}
    # What is said is said in millimetres: to the next, so that it is enough.
    whole = {Fraction(ceil(abs(m) * 1000), 1000) * (1 if m > 0 else -1) for m in moves}
    for move in (*sorted(whole, key=lambda m: (abs(m), m)), *sorted(moves, key=lambda m: (abs(m), m))):
        moved = Quantity(at.value + move, at.kind, at.shown, at.why)
        if all(c.height.value >= least.value for w in windows for c in cuts(site, w, moved)):
            return move
    return None


def _cure(context: Context, one: Stated, windows: list[Opening], least: Quantity) -> str:
    """What to do where no start that has a name leaves larger cuts."""
    site, at = one.site, one.placed.corner
    if _open(context, site, windows, least):
        return "Leave the start upwards open: then one is found with no cut at a window smaller than that."
    move = _nearest(site, at, windows, least)
    if move is None:
        return "No start leaves larger cuts here: change the tile or the joint, or lay a band over the cut."
    shown = local(context, Quantity(abs(move), at.kind, UNITS["mm"], at.why))
    way = "up" if move > 0 else "down"
    if site.covering.start.up == "full tile at datum":
        return f"Move the datum line {shown} {way}: then no cut at a window is smaller than that."
    return f"Start at the datum line, and put it so that the courses move {shown} {way}: then no cut at a window is smaller."


def _banded(surface: Surface, window: Opening, cut: Cut) -> bool:
    """Another tile lies over the whole cut."""
    level = window.rect.y.value if cut.where == "under the sill" else window.rect.top
    low, high = (level - cut.height.value, level) if cut.where == "under the sill" else (level, level + cut.height.value)
    regions = [c.region for c in surface.coverings if c.region is not None]
    return any(
        r.y.value <= low and r.top >= high and r.x.value <= window.rect.x.value and r.right >= window.rect.right for r in regions
    )


def _finding(
    context: Context, one: Stated, window: Opening, small: list[Cut], better: str | None, windows: list[Opening],
    least: Quantity,
) -> Finding:
    surface, covering = one.surface, one.site.covering
    listed = " and ".join(f"{local(context, c.height)} {c.where}" for c in small)
    share = context.practice.limit("cut-min-share")
    worked = tuple(reckoned(f"The cut {c.where}", c.height, context) for c in small)
    return RULE.at(
        (surface.id,),
        context.span(window.span, surface.span),
        f"{context.name(surface)} has a cut of {listed}, of a tile {both(covering.tile.height)} high; "
        f"{local(context, least)} is the smallest that looks right.",
        label=one.placed.words,
        help=f"Write `{better}`: then no cut at a window is smaller than that."
        if better
        else _cure(context, one, windows, least),
        fixes=_fix(covering, better) if better is not None else (),
        notes=(cited(share), *worked),
    )


def _fix(covering: Covering, text: str) -> tuple[Fix, ...]:
    """Put the start where another one stands. None where the words to replace are not known."""
    start = covering.start
    span = start.up_span if start.up_span is not None else start.span if start.across == "found" else None
    return (Fix(f"write {text}", (Edit(span, text),)),) if span is not None else ()


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
    limits=("cut-min-share",),
)
