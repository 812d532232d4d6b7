"""Electric heating: the area a mat may cover, its power, current and resistance (Ohm's law; band as makers give it)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from tilespec.practice.lookup import Practice
from tilespec.quantity import Kind, Quantity, work
from tilespec.setout import geometry
from tilespec.setout.frame import Frame, Named, Scale, numbered, shoelace
from tilespec.setout.standing import standing
from tilespec.takeoff.areas import Survey
from tilespec.takeoff.junction import RoomSurvey
from tilespec.takeoff.types import HeatingMeasure, Line, Missing, Part
from tilespec.vocabulary import ELECTRIC

_OHM = "Ohm's law"


def free_frame(s: Survey, edge: Quantity) -> Frame | None:
    """The floor without a strip along its walls; None when nothing is left."""
    try:
        outline = geometry.set_back(s.whole.outline, [edge.value] * len(s.whole.outline))
    except ValueError:
        return None
    box = geometry.bounds(outline)
    whole = s.whole
    sides = {whole.box.left + edge.value: whole.box.left, whole.box.right - edge.value: whole.box.right}
    rises = {whole.box.low + edge.value: whole.box.low, whole.box.high - edge.value: whole.box.high}
    across = tuple((at, _moved(whole.across, old, edge, at > old)) for at, old in sides.items())
    up = tuple((at, _moved(whole.up, old, edge, at > old)) for at, old in rises.items())
    scale_x, scale_y = Scale(across + whole.across.places, whole.across.whole), Scale(up + whole.up.places, whole.up.whole)
    if geometry.upright(outline) and whole.upright:
        gross = work(
            "(width - 2 * edge) * (depth - 2 * edge)", "m2", source="floor without a strip along the walls",
            width=s.surface.width, depth=s.surface.height, edge=edge,
        )
    else:
        gross = shoelace(outline, scale_x, scale_y)
    return Frame(outline, box, scale_x, scale_y, gross)


def _moved(scale: Scale, at: Fraction, edge: Quantity, inwards: bool) -> Quantity:
    return work("wall + edge" if inwards else "wall - edge", "m", source="kept clear of the wall", wall=scale.at(at), edge=edge)


def kept_free(rs: RoomSurvey, s: Survey) -> tuple[Named, ...]:
    """What must have no heating below it: untiled parts, what stands on the floor, fixtures, what the spec keeps out."""
    heating = rs.room.heating
    assert heating is not None
    return (
        *numbered("untiled part", s.surface.untiled),
        *standing(rs.room),
        *numbered("fixture", [f.rect for f in s.surface.fittings if f.kind == "fixture"]),
        *numbered("part kept free", heating.keep_out),
    )


def measure(
    rooms: Sequence[RoomSurvey], practice: Practice,
) -> tuple[tuple[HeatingMeasure, ...], tuple[Line, ...], tuple[Missing, ...]]:
    """Each electrically heated floor with its order line."""
    measures: list[HeatingMeasure] = []
    lines: list[Line] = []
    missing: list[Missing] = []
    for rs in rooms:
        heating, s = rs.room.heating, rs.floor
        if heating is None or s is None or heating.kind not in ELECTRIC:
            continue
        product = heating.product
        frame = free_frame(s, practice.limit("heating-edge-distance"))
        if product.output is None or frame is None:
            missing.append(Missing("heating", product.name, "output" if frame else "room-for-it", (rs.room.name,)))
            continue
        taken = frame.area(kept_free(rs, s), "parts kept free")
        free = frame.gross
        if taken.value:
            free = work("area_clear_of_walls - parts_kept_free", "m2", source="floor that may be heated",
                        area_clear_of_walls=frame.gross, parts_kept_free=taken)
        voltage = product.voltage or practice.limit("mains-voltage")
        m = _electric(rs.room.name, free, product.output, voltage, practice)
        pack, packs = product.pack, None
        if pack is not None and pack.kind is Kind.AREA and pack.value <= free.value:
            # A mat is never cut: whole mats that fit, rounded down.
            packs = work("floor(free_area / mat)", "count", source="whole mats that fit", free_area=free, mat=pack)
            laid = work("mats * mat", "m2", source="whole mats that fit", mats=packs, mat=pack)
            m = replace(_electric(rs.room.name, laid, product.output, voltage, practice), free_area=free, laid_area=laid)
        if product.resistance is not None:
            m = _labelled(m, product.resistance, packs, practice)
        measures.append(m)
        order = m.laid_area or free
        parts = (Part(s.surface.id, free, order),)
        lines.append(Line("heating", product.name, product, parts, order, None, order, pack, packs, None))
    return tuple(measures), tuple(lines), tuple(missing)


def _electric(room: str, area: Quantity, output: Quantity, voltage: Quantity, practice: Practice) -> HeatingMeasure:
    power = work("area * output", "W", source="area times output", area=area, output=output)
    if power.value == 0:
        return HeatingMeasure(room, area, power, None, None, None, None)
    resistance = work("voltage ** 2 / power", "ohm", source=_OHM, voltage=voltage, power=power)
    current = work("power / voltage", "A", source=_OHM, power=power, voltage=voltage)
    return HeatingMeasure(room, area, power, current, resistance, *band(resistance, practice))


def _labelled(m: HeatingMeasure, label: Quantity, mats: Quantity | None, practice: Practice) -> HeatingMeasure:
    """The same with the resistance that stands on the label; several mats lie side by side on one supply."""
    resistance = label
    if mats is not None and mats.value > 1:
        resistance = work("label / mats", "ohm", source="equal resistances side by side", label=label, mats=mats)
    low, high = band(resistance, practice)
    return replace(m, resistance=resistance, resistance_low=low, resistance_high=high)


def band(resistance: Quantity, practice: Practice) -> tuple[Quantity, Quantity]:
    """Lowest and highest reading that still goes for this resistance."""
    low, high = practice.limit("heating-resistance-low"), practice.limit("heating-resistance-high")
    source = "usual tolerance of the label"
    return (
        work("resistance * (1 - below)", "ohm", source=source, resistance=resistance, below=low),
        work("resistance * (1 + above)", "ohm", source=source, resistance=resistance, above=high),
    )

