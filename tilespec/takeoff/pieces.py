"""The take-off by pieces: what a set-out makes of areas, tiles, joints and saw cuts that would else be reckoned from sizes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tilespec.job.types import Tile
from tilespec.practice.lookup import Practice
from tilespec.quantity import UNITS, Kind, Quantity, Worked, counted, work
from tilespec.quantity.total import total
from tilespec.setout.lengths import cut_length, edge_length
from tilespec.setout.types import Layout, Row, SetOut
from tilespec.takeoff.areas import Laid, Survey
from tilespec.takeoff.types import SawWork


def surveyed(surveys: Sequence[Survey], setout: SetOut) -> tuple[Survey, ...]:
    """The surveys with the areas that are really tiled, as they were set out; a surface that could not be keeps its own."""
    return tuple(_surveyed(s, setout) for s in surveys)


def _surveyed(s: Survey, setout: SetOut) -> Survey:
    layouts = setout.on(s.surface.id)
    if not layouts:
        return s
    laid = []
    areas: list[tuple[str, Quantity]] = []
    joints: list[tuple[str, Quantity]] = []
    for n, group in enumerate(_groups(layouts), 1):
        first = group[0]
        area = _sum([x.area for x in group], "m2", first.role)
        c = first.covering
        found = Laid(s.surface, c.tile, c.joint, c.pattern, first.role, area, joint_area(group, area))
        laid.append(found)
        areas.append((f"{first.role} {n}", area))
        joints.append((f"{first.role} {n}", found.joint_length))
    tiled = total(areas, "m2", of="tiled area") if len(areas) > 1 else areas[0][1]
    coverings = tuple(
        next((x.area for x in layouts if x.face == s.surface.id and x.covering is c), old)
        for c, old in zip(s.surface.coverings, s.measure.coverings, strict=True)
    )
    added = [(name, q) for (name, q), x in zip(areas, laid, strict=True) if x.role in ("niche", "reveal", "boxing")]
    measure = replace(
        s.measure, tiled_area=tiled, coverings=coverings, joint_length=total(joints, "m", of="joints"),
        added=total(added, "m2", of="added faces") if added else None,
    )
    return replace(s, laid=tuple(laid), measure=measure)


def _sum(terms: Sequence[Quantity], unit: str, of: str) -> Quantity:
    return terms[0] if len(terms) == 1 else total([(f"part {n}", q) for n, q in enumerate(terms, 1)], unit, of=of)


def _groups(layouts: Sequence[Layout]) -> list[list[Layout]]:
    """What is laid in one way: the five faces of a niche are one."""
    found: dict[tuple[str, Tile, Fraction], list[Layout]] = {}
    for x in layouts:
        found.setdefault((x.role, x.tile, x.joint.value), []).append(x)
    return list(found.values())


def joint_area(group: Sequence[Layout], area: Quantity) -> Quantity:
    """Area of the joints of what is laid: what its tiles leave free."""
    tiles = sum((x.tile_area for x in group), Fraction(0))
    first = group[0]
    full = _sum([x.full for x in group], "count", "full tiles")
    cut = counted(sum(len(x.pieces) for x in group), "cut tiles of one kind")
    why = Worked("full tiles, and what is left of the cut ones, by their sizes", (
        ("full tiles", full), ("cut tiles", cut), ("width", first.width), ("height", first.height),
    ), "set-out by pieces")
    laid = Quantity(tiles, Kind.AREA, UNITS["m2"], why)
    return work("area - tiles", "m2", source="what the tiles leave free", area=area, tiles=laid)


def saw_work(setout: SetOut, practice: Practice) -> tuple[SawWork, ...]:
    """Cuts of each tile: their length, what of it can be snapped, the time at the wet saw. Mosaic is cut with a knife: none."""
    groups: dict[str, list[Layout]] = {}
    for x in setout.layouts:
        if not x.tile.mosaic and x.rows:
            groups.setdefault(x.tile.name, []).append(x)
    found = []
    for name, layouts in groups.items():
        tile = layouts[0].tile
        terms = [(f"{x.face}, {x.role}", length) for x in layouts if (length := cut_length(x)) is not None]
        if not terms:
            continue
        length = total(terms, "m", of="cuts") if len(terms) > 1 else terms[0][1]
        holes = sum(int(r.count.value) * len(r.holes) for x in layouts for r in x.rows)
        found.append(SawWork(
            name, tile, length, saw_time(length, tile, practice),
            _of_kind(layouts, "snap", practice), _of_kind(layouts, "saw", practice), _of_kind(layouts, "shaped", practice),
            counted(holes, "holes in the cut list") if holes else None,
        ))
    return tuple(found)


def saw_time(length: Quantity, tile: Tile, practice: Practice) -> Quantity:
    hard = tile.body in ("porcelain", "stone", "not stated")
    rate = practice.limit("saw-rate-hard" if hard else "saw-rate-soft")
    return work("length / rate", "h", source="length of the cuts over the pace of the saw", length=length, rate=rate)


_WORDS = {"snap": "to snap", "saw": "to saw straight", "shaped": "to saw out of the straight"}


def _of_kind(layouts: Sequence[Layout], kind: str, practice: Practice) -> Quantity | None:
    terms = []
    for x in layouts:
        rows = [r for r in x.rows if cut_kind(r, x, practice) == kind]
        if rows and (length := edge_length(x, rows, _WORDS[kind])) is not None:
            terms.append((f"{x.face}, {x.role}", length))
    return total(terms, "m", of="cuts") if terms else None


def cut_kind(row: Row, layout: Layout, practice: Practice) -> str:
    """How the edges of a row are cut: "snap", "saw" (straight, but not to be snapped), "shaped"; "" for a hole only."""
    if row.kind == "hole":
        return ""
    if row.kind not in ("width", "height", "both") or row.notches or row.folds or len(row.outline.rings) > 1:
        return "shaped"
    return "snap" if snaps(layout.tile, practice) and _strips_snap(row, layout, practice) else "saw"


def snaps(tile: Tile, practice: Practice) -> bool:
    """Fired tiles and glass, thin and short enough; stone has no glaze to score and breaks where it likes."""
    return (
        not tile.mosaic and not tile.stone and tile.body != "stone"
        and tile.thickness.value <= practice.limit("snap-thickness-max").value
        and tile.long_side.value <= practice.limit("snap-edge-max").value
    )


def _strips_snap(row: Row, layout: Layout, practice: Practice) -> bool:
    """Both parts of each cut are wide enough to break cleanly; where both sides come off, the two strips count as equal."""
    least = practice.limit("snap-strip-min").value
    for whole, piece, ends in (
        (layout.width, row.width, ("left", "right")), (layout.height, row.height, ("low", "high")),
    ):
        cuts = len(set(ends).intersection(row.sides))
        if cuts and min(piece.value, (whole.value - piece.value) / cuts) < least:
            return False
    return True


def saw_work_by_area(surveys: Sequence[Survey], practice: Practice) -> tuple[SawWork, ...]:
    """The same before anything is set out: on each surface one course and one column of cuts, notches round its openings, and its
    pipes drilled."""
    groups: dict[str, list[Survey]] = {}
    for s in surveys:
        first = s.surface.field
        if first is not None and not first.tile.mosaic:
            groups.setdefault(first.tile.name, []).append(s)
    found = []
    for name, here in groups.items():
        tile = here[0].surface.coverings[0].tile
        edges = total([(f"{side} of {s.surface.title}", q) for s in here
                       for side, q in (("width", s.surface.width), ("height", s.surface.height))],
                      "m", of="cuts", source="one course and one column of cuts on each surface: common practice, no source")
        openings = [o.rect for s in here for o in s.surface.openings]
        shaped = total([(f"{side} of an opening", q) for r in openings
                        for side, q in (("width", r.width), ("height", r.height)) for _ in range(2)],
                       "m", of="cuts", source="round each opening: common practice, no source") if openings else None
        length = total([("edges", edges), ("openings", shaped)], "m", of="cuts") if shaped is not None else edges
        pipes = [p for s in here for p in s.surface.penetrations]
        snapped = snaps(tile, practice)
        found.append(SawWork(
            name, tile, length, saw_time(length, tile, practice),
            edges if snapped else None, None if snapped else edges, shaped,
            counted(len(pipes), "holes", *(p.span for p in pipes if p.span)) if pipes else None, True,
        ))
    return tuple(found)
