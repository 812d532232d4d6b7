"""Membrane by coats and consumption, tape along what is bedded in it, collars around what goes through it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from tilespec.job.types import Product, Rect
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity, counted, work
from tilespec.quantity.total import total
from tilespec.setout import geometry
from tilespec.setout.bed import product_for
from tilespec.source import Span
from tilespec.takeoff.areas import Survey
from tilespec.takeoff.junction import RoomSurvey, doors, membrane_corner, membrane_foot, rim_against
from tilespec.takeoff.order import Share, Taken, products
from tilespec.takeoff.stretch import length, within, without
from tilespec.takeoff.types import Missing, Part

COLLARED = ("pipe", "valve", "outlet", "shower head", "drain", "channel")


def membrane_class(product: Product) -> str:
    """DM, CM or RM; what does not say it counts as a dispersion where it is flagged so, otherwise as cement."""
    for part in product.cls:
        if part[:2] in ("DM", "CM", "RM"):
            return part[:2]
    if "dispersion" in product.flags:
        return "DM"
    return "RM" if {"epoxy", "polyurethane", "resin"} & set(product.flags) else "CM"


def coats(product: Product, practice: Practice) -> Quantity:
    return product.coats or practice.limit("membrane-coats")


def take(surveys: Sequence[Survey], practice: Practice) -> Taken:
    shares: list[Share] = []
    missing: list[Missing] = []
    for s in surveys:
        product, area = product_for(s.surface, "membrane"), s.measure.membrane_area
        if s.surface.membrane_areas and product is None and s.surface.refusal("membrane") is None:
            missing.append(Missing("membrane", "", "product", (s.surface.id,)))
        if product is None or area is None:
            continue
        rate = product.consumption or practice.limit(f"membrane-rate-{membrane_class(product)}")
        net = work(
            "area * coats * consumption", "kg", source="area times coats times consumption a coat",
            area=area, coats=coats(product, practice), consumption=rate,
        )
        shares.append(Share(product, Part(s.surface.id, area, net)))
    lines = products(shares, "kg", practice.limit("membrane-allowance"), "allowance so that the film is thick enough everywhere")
    return Taken(lines, tuple(missing))


# ---------------------------------------------------------------- tape

def tape(rooms: Sequence[RoomSurvey], practice: Practice) -> Taken:
    """Wall feet, corners, thresholds, rims of baths and trays, niches and tiled reveals, wherever membrane is at them."""
    shares: list[Share] = []
    missing: list[Missing] = []
    for rs in rooms:
        for place, role, run, beside in _runs(rs):
            product = _product(rs, "tape", place)
            if rs.refuses("tape", place, *beside):
                continue
            if product is None:
                missing.append(Missing("tape", "", "product", (place,)))
            else:
                shares.append(Share(product, Part(place, run, run, role)))
    return Taken(products(shares, "m", practice.limit("tape-allowance"), "allowance for laps and cuts"), tuple(missing))


def _product(rs: RoomSurvey, kind: str, place: str) -> Product | None:
    """The product in use at a place, or on whatever surface of the room has one."""
    surveys = ([rs.floor] if rs.floor else []) + list(rs.walls)
    first = [s for s in surveys if s.surface.id == place] + [s for s in surveys if s.has_membrane]
    return next((p for s in first if (p := product_for(s.surface, kind)) is not None), None)


def _runs(rs: RoomSurvey) -> list[tuple[str, str, Quantity, tuple[str, ...]]]:
    """Place, role, length, and what else the tape is bedded on."""
    runs: list[tuple[str, str, Quantity, tuple[str, ...]]] = []
    floor = (rs.floor.surface.id,) if rs.floor else ()
    for line in rs.room.walls:
        foot = membrane_foot(rs, line)
        openings = doors(rs.wall(line.letter))
        if along := length(without(foot, openings), "foot of the wall"):
            runs.append((rs.place(line.letter), "wall-floor", along, floor))
        crossed = [piece for d in openings for piece in within(foot, d)]
        if sill := length(crossed, "thresholds"):
            runs.append((rs.place(line.letter), "threshold", sill, floor))
    for corner in rs.room.corners:
        if height := length(membrane_corner(rs, corner), "corner"):
            role = "corner" if corner.internal else "external-corner"
            runs.append((rs.place(corner.after), role, height, (rs.place(corner.before),)))
    vessels = [(b.rect, b.walls) for b in rs.room.baths] + [(s.rect, s.walls) for s in rs.room.showers if s.tray]
    for rect, letters in vessels:
        for place, side in rim_against(rs, rect, letters, tiled=False):
            if _wet_wall(rs, place):
                runs.append((place, "rim", side, ()))
    for s in rs.walls:
        runs += [(*run, ()) for run in _hollows(s)]
    return runs


def _wet_wall(rs: RoomSurvey, place: str) -> bool:
    return any(w.surface.id == place and w.has_membrane for w in rs.walls)


def _hollows(s: Survey) -> list[tuple[str, str, Quantity]]:
    runs: list[tuple[str, str, Quantity]] = []
    for n in s.surface.niches:
        if s.meets_membrane(n.rect):
            runs.append((s.surface.id, "niche", _inner_corners(n.rect, n.depth)))
    for o in s.surface.openings:
        edges = s.membrane_rim(o.rect)
        if o.reveal is None or not edges:
            continue
        frame = total(edges, "m", of="edges of the opening")
        inner = counted(_corners(s, o.rect), "inner corners of the reveal in the membrane", *([o.span] if o.span else []))
        runs.append((s.surface.id, "reveal", work(
            "frame + corners * reveal", "m", source="where reveals meet the frame and each other",
            frame=frame, corners=inner, reveal=o.reveal,
        )))
    return runs


def _corners(s: Survey, rect: Rect) -> int:
    """Corners of an opening where both of its edges border on membrane."""
    b = geometry.box(rect)
    ends: list[tuple[Fraction, Fraction]] = []
    for side, start, end in geometry.rim(b, s.in_membrane, s.membrane_boxes()):
        if side in ("low", "high"):
            level = b.low if side == "low" else b.high
            ends += [(start, level), (end, level)]
        else:
            at = b.left if side == "left" else b.right
            ends += [(at, start), (at, end)]
    corners = [(x, y) for x in (b.left, b.right) for y in (b.low, b.high)]
    return sum(ends.count(c) == 2 for c in corners)


def _inner_corners(rect: Rect, depth: Quantity) -> Quantity:
    return work(
        "2 * (width + height) + 4 * depth", "m", source="inner corners of a niche: around its back, and its four edges",
        width=rect.width, height=rect.height, depth=depth,
    )


# ---------------------------------------------------------------- collars

def collars(rooms: Sequence[RoomSurvey], practice: Practice) -> Taken:
    """One for each pipe, valve, outlet and drain that goes through membrane."""
    shares: list[Share] = []
    missing: list[Missing] = []
    for rs in rooms:
        for s in ([rs.floor] if rs.floor else []) + list(rs.walls):
            found: dict[str, list[Span | None]] = {}
            for p in s.surface.penetrations:
                if p.kind in COLLARED and s.in_membrane(p.x.value, p.y.value):
                    found.setdefault(p.kind, []).append(p.span)
            for kind, spans in found.items():
                known = [x for x in spans if x is not None]
                number = counted(len(spans), f"{kind} through the membrane on {s.surface.id}", *known)
                product = _product(rs, "collar", s.surface.id)
                if rs.refuses("collar", s.surface.id):
                    continue
                if product is None:
                    missing.append(Missing("collar", "", "product", (s.surface.id,)))
                else:
                    shares.append(Share(product, Part(s.surface.id, number, number, kind.replace(" ", "-"))))
    return Taken(products(shares, "count", None, "counted"), tuple(missing))
