"""Areas of every surface: field, openings, untiled parts, coverings, niches, reveals, sides of boxings, membrane, primer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from tilespec.job.types import Covering, Job, Opening, Pattern, Rect, Room, Surface, Tile
from tilespec.quantity import Quantity, work
from tilespec.quantity.total import total
from tilespec.setout import geometry
from tilespec.setout.bed import long_edge, unit_sides
from tilespec.setout.frame import Frame, Named, frame, nought, numbered
from tilespec.setout.geometry import Box
from tilespec.setout.standing import behind_baths, boxing_faces, standing
from tilespec.takeoff.types import SurfaceMeasure

_PLANE = "plane geometry"


@dataclass(frozen=True, slots=True)
class Laid:
    """One tile laid over one part of a surface: what tiles, adhesive and grout are worked out from."""

    surface: Surface
    tile: Tile
    joint: Quantity
    pattern: Pattern
    role: str                       # "field", "band", "panel", "niche", "reveal", "boxing"
    area: Quantity
    joints: Quantity | None = None  # area of the joints between its tiles, where they were set out

    @property
    def unit_sides(self) -> tuple[Quantity, Quantity]:
        """Sides of what is jointed: the tile, or the chip of a mosaic."""
        return unit_sides(self.tile)

    @property
    def long_edge(self) -> Quantity:
        return long_edge(self.tile)

    @property
    def joint_length(self) -> Quantity:
        """Metres of joint: of the tiles as they are set out, or of an endless grid; in mosaic those between chips."""
        if self.joints is not None and not self.tile.mosaic:
            return work("joints / width", "m", source="area of the joints over their width", joints=self.joints, width=self.joint)
        width, height = self.unit_sides
        return work(
            "area * (1 / width + 1 / height)", "m", source="joints of a grid, each shared by two tiles",
            area=self.area, width=width, height=height,
        )


@dataclass(frozen=True, slots=True)
class Survey:
    """A surface with all that was measured on it."""

    room: Room
    surface: Surface
    frame: Frame                    # the tiled field
    whole: Frame                    # the surface to its full height
    laid: tuple[Laid, ...]
    measure: SurfaceMeasure
    hidden: tuple[Named, ...] = ()  # under and behind what is set before the base is primed: baths, trays, boxings

    @property
    def is_floor(self) -> bool:
        return self.surface.kind == "floor"

    @property
    def is_tiled(self) -> bool:
        return bool(self.surface.coverings)

    @property
    def has_membrane(self) -> bool:
        return bool(self.surface.membrane_areas) and self.surface.product("membrane") is not None

    def in_membrane(self, x: Fraction, y: Fraction) -> bool:
        """A point of the surface that gets membrane."""
        if not self.has_membrane or any(n.box.holds(x, y) for n in self.hidden):
            return False
        return self.whole.holds(x, y) and any(b.holds(x, y) for b in self.membrane_boxes())

    def membrane_boxes(self) -> tuple[Box, ...]:
        if not self.has_membrane:
            return ()
        return tuple(self.whole.box if a.rect is None else geometry.box(a.rect) for a in self.surface.membrane_areas)

    def meets_membrane(self, rect: Rect) -> bool:
        """Some part of a rectangle lies where the membrane goes."""
        return any(b.meets(geometry.box(rect)) for b in self.membrane_boxes())

    def field_rim(self, rect: Rect) -> tuple[tuple[str, Quantity], ...]:
        """The edges of a rectangle that border on the tiled field."""
        return self.frame.rim(rect, self.frame.holds, (self.frame.box,))

    def membrane_rim(self, rect: Rect) -> tuple[tuple[str, Quantity], ...]:
        """The edges of a rectangle that border on membrane."""
        return self.whole.rim(rect, self.in_membrane, (*self.membrane_boxes(), self.whole.box))


def survey(job: Job) -> tuple[Survey, ...]:
    """Every surface of the job, in its order."""
    return tuple(_survey(room, surface) for room in job.rooms for surface in room.surfaces)


def _openings(surface: Surface) -> tuple[Named, ...]:
    named: list[Named] = []
    for kind in dict.fromkeys(o.kind for o in surface.openings):
        named += numbered(kind, [o.rect for o in surface.openings if o.kind == kind])
    return tuple(named)


def _survey(room: Room, surface: Surface) -> Survey:
    openings = _openings(surface)
    mouths = numbered("niche", [n.rect for n in surface.niches])
    hidden = standing(room) if surface.kind == "floor" else numbered("bath", behind_baths(room, surface))
    untiled = (*numbered("untiled part", surface.untiled), *hidden)
    rects = [n.rect for n in (*openings, *mouths, *untiled)]
    rects += [c.region for c in surface.coverings if c.region] + [a.rect for a in surface.membrane_areas if a.rect]
    whole = frame(surface, room, rects)
    field = frame(surface, room, rects, surface.tiled_height)

    opening_area = field.area(openings, "openings")
    untiled_area = field.area_without(untiled, openings, "untiled parts")
    mouth_area = field.area_without(mouths, (*openings, *untiled), "niches")
    face = _less(field.gross, {"openings": opening_area, "untiled_parts": untiled_area, "niche_mouths": mouth_area})
    areas = _coverings(surface, field, face, (*openings, *untiled, *mouths))
    pairs = zip(surface.coverings, areas, strict=True)
    laid = [Laid(surface, c.tile, c.joint, c.pattern, c.role, a) for c, a in pairs if a.value > 0]
    added = _added(room, surface, field) if surface.coverings else []
    inside = [(f"{a.role} {n}" if len(added) > 1 else a.role, a.area) for n, a in enumerate(added, 1)]
    if not surface.coverings:
        tiled = field.area((), "tiles on this surface")
    elif surface.field is not None:
        tiled = total([("face", face), *inside], "m2", of="tiled area")
    else:
        tiled = total([*((f"{a.role} {n}", a.area) for n, a in enumerate(laid, 1)), *inside], "m2", of="tiled area")
    more = total(inside, "m2", of="added faces") if inside else None
    if more is not None and mouth_area.value:
        more = work("added_faces - niche_mouths", "m2", source="niches lined inside", added_faces=more, niche_mouths=mouth_area)
    laid += added
    measure = SurfaceMeasure(
        surface.id, field.gross, opening_area, untiled_area, tiled, tuple(areas), None, _joints(laid), more,
    )
    made = Survey(room, surface, field, whole, tuple(laid), measure, tuple(hidden))
    return replace(made, measure=replace(measure, membrane_area=_membrane(made), primed_area=_primed(made, openings, untiled)))


def _joints(laid: Sequence[Laid]) -> Quantity | None:
    return total([(f"{a.role} {n}", a.joint_length) for n, a in enumerate(laid, 1)], "m", of="joints") if laid else None


def _less(gross: Quantity, taken: dict[str, Quantity]) -> Quantity:
    kept = {name: q for name, q in taken.items() if q.value}
    if not kept:
        return gross
    return work(" - ".join(["gross_area", *kept]), "m2", source=_PLANE, gross_area=gross, **kept)


def _coverings(surface: Surface, field: Frame, face: Quantity, taken: Sequence[Named]) -> list[Quantity]:
    """Area of each covering on the face. A later band or panel covers an earlier one; the field is what is left."""
    areas: dict[int, Quantity] = {}
    for i, c in enumerate(surface.coverings):
        if c.region is not None:
            later = [Named(o.role, o.region) for o in surface.coverings[i + 1:] if o.region]
            areas[i] = field.area_without((Named(c.role, c.region),), (*later, *taken), c.role)
    if areas and len(areas) < len(surface.coverings):
        known = {f"{surface.coverings[i].role}_{n}": a for n, (i, a) in enumerate(areas.items(), 1)}
        rest = work(" - ".join(["face", *known]), "m2", source="field without its bands and panels", face=face, **known)
    else:
        rest = face
    result: list[Quantity] = []
    for i in range(len(surface.coverings)):
        if i in areas:
            result.append(areas[i])
        else:
            # A second covering of the whole field would count it twice: the job knows one.
            result.append(rest)
            rest = field.area((), "field")
    return result


def _covering_at(surface: Surface, rect: Rect) -> Covering:
    """The covering that a thing sits in, by its middle."""
    x, y = (rect.x.value + rect.right) / 2, (rect.y.value + rect.top) / 2
    for c in reversed(surface.coverings):
        if c.region is not None and geometry.box(c.region).holds(x, y):
            return c
    return surface.field or surface.coverings[0]


def _added(room: Room, surface: Surface, field: Frame) -> list[Laid]:
    """Tiled faces that do not lie in the plane of the surface."""
    result: list[Laid] = []
    for niche in surface.niches:
        if not field.meets(geometry.box(niche.rect)):
            continue
        around = _covering_at(surface, niche.rect)
        tile = niche.tile or around.tile
        joint = tile.chip_joint if tile.mosaic and tile.chip_joint is not None else around.joint
        result.append(Laid(surface, tile, joint, around.pattern, "niche", niche_faces(niche.rect, niche.depth)))
    for opening in surface.openings:
        around = _covering_at(surface, opening.rect)
        edges = field.rim(opening.rect, field.holds, (field.box,))
        if area := reveal_faces(opening, edges):
            result.append(Laid(surface, around.tile, around.joint, around.pattern, "reveal", area))
    if surface.kind == "wall":
        base = surface.field or surface.coverings[0]
        for area in boxing_faces(room, surface, field.up.at(field.box.high)):
            result.append(Laid(surface, base.tile, base.joint, base.pattern, "boxing", area))
    return result


def niche_faces(rect: Rect, depth: Quantity) -> Quantity:
    return work(
        "width * height + 2 * (width + height) * depth", "m2", source="five faces of a niche",
        width=rect.width, height=rect.height, depth=depth,
    )


def reveal_faces(opening: Opening, edges: Sequence[tuple[str, Quantity]]) -> Quantity | None:
    """Faces inside an opening along these of its edges; None where its reveals stay as they are."""
    if opening.reveal is None or not edges:
        return None
    length = total(edges, "m", of="edges of the opening")
    return work("edge_length * reveal", "m2", source="inside faces of an opening", edge_length=length, reveal=opening.reveal)


# ---------------------------------------------------------------- membrane and primer

def _membrane(made: Survey) -> Quantity | None:
    """Union of the membrane's areas, less openings and what nobody can reach under or behind a bath or tray.

    Niches count with their five faces, reveals along the edges in the membrane.
    """
    surface, whole = made.surface, made.whole
    if not made.has_membrane:
        return None
    rects = [a.rect for a in surface.membrane_areas if a.rect]
    everywhere = len(rects) < len(surface.membrane_areas)
    covered = whole.gross if everywhere else whole.area(numbered("membrane part", _different(rects)), "membrane")
    niches = [n for n in surface.niches if made.meets_membrane(n.rect)]
    mouths = numbered("niche", [n.rect for n in niches])
    hollow = (*_openings(surface), *mouths, *made.hidden)
    # What is missing from the face: openings and niches where they lie in the membrane, each counted once.
    if all(any(n.box.within(b) == n.box for b in made.membrane_boxes()) for n in hollow if made.meets_membrane(n.rect)):
        missing = whole.area([n for n in hollow if made.meets_membrane(n.rect)], "openings")
    else:
        extent = numbered("membrane part", rects) if not everywhere else ()
        missing = whole.area((*hollow, *extent), "openings", _Both(tuple(n.box for n in hollow), made))
    name = "left_out" if made.hidden else "openings_and_niches" if mouths else "openings"
    face = _less(covered, {name: missing})
    terms: list[tuple[str, Quantity]] = [("face", face)]
    terms += [(f"niche {n}", niche_faces(niche.rect, niche.depth)) for n, niche in enumerate(niches, 1)]
    for n, opening in enumerate(surface.openings, 1):
        if area := reveal_faces(opening, made.membrane_rim(opening.rect)):
            terms.append((f"reveal {n}", area))
    return total(terms, "m2", of="membrane")


@dataclass(frozen=True, slots=True)
class _Both:
    """In one of the boxes and in the membrane."""

    boxes: tuple[Box, ...]
    made: Survey

    def __call__(self, x: Fraction, y: Fraction) -> bool:
        return any(b.holds(x, y) for b in self.boxes) and any(b.holds(x, y) for b in self.made.membrane_boxes())


def _different(rects: Sequence[Rect]) -> list[Rect]:
    """Each rectangle once, and none that lies wholly in another: two reasons for the same membrane are one membrane."""
    kept: list[Rect] = []
    for r in rects:
        b = geometry.box(r)
        if any(b.within(geometry.box(k)) == b for k in kept):
            continue
        kept = [k for k in kept if geometry.box(k).within(b) != geometry.box(k)] + [r]
    return kept


def _primed(made: Survey, openings: Sequence[Named], untiled: Sequence[Named]) -> Quantity | None:
    """Where adhesive or membrane meets the base: the tiled field and what membrane there is beyond it, less openings."""
    surface, whole, field = made.surface, made.whole, made.frame
    if surface.product("primer") is None or not (made.is_tiled or made.has_membrane):
        return None
    membrane = made.membrane_boxes()
    outside_field = any(b.within(whole.box).within(field.box) != b.within(whole.box) for b in membrane)
    hidden = [n.box for n in made.hidden]
    over_untiled = any(b.meets(n.box) for b in membrane for n in untiled if n not in made.hidden)
    if surface.field is not None and not outside_field and not over_untiled:
        return _less(field.gross, {"openings": made.measure.openings, "untiled_parts": made.measure.untiled})
    open_boxes, not_tiled = [n.box for n in openings], [n.box for n in untiled]
    if surface.field is not None:
        tiled = [field.box]
    else:
        tiled = [geometry.box(c.region) for c in surface.coverings if c.region]

    def primed(x: Fraction, y: Fraction) -> bool:
        if any(b.holds(x, y) for b in (*open_boxes, *hidden)):
            return False
        on_tiles = any(b.holds(x, y) for b in tiled) and not any(b.holds(x, y) for b in not_tiled)
        return on_tiles or any(b.holds(x, y) for b in membrane)

    rects = [Named("surface", _all(surface, whole)), Named("field", _all(surface, field)), *openings, *untiled]
    rects += [Named(c.role, c.region) for c in surface.coverings if c.region]
    rects += [Named("membrane", a.rect) for a in surface.membrane_areas if a.rect]
    return whole.area(rects, "primed area", primed)


def _all(surface: Surface, field: Frame) -> Rect:
    left, low = nought("left edge of the surface"), nought("lower edge of the surface")
    return Rect(left, low, surface.width, field.up.at(field.box.high))
