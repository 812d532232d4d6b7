"""What the practice wants known and a finished job still does not say: each asked once, of whoever would know it.

What a statement leaves out while it is read is asked where it is read; here stands what can only be told from the whole room.
Nothing is asked that changes neither the print nor a rule, and nothing that the spec has no words for.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tilespec.job.types import Job, Question, Room, Surface
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity

# Bases that hold moisture which a limit is set for; the age of a screed is asked where its base is read.
_DAMP = ("cement-screed", "calcium-sulfate-screed", "concrete")
_AGEING = {"concrete": "concrete", "gypsum-plaster": "plaster", "cement-render": "render"}
# Read as a render too, but nothing was put on them whose age would count.
_HIDING = ("old-tiles", "painted")
_BARE = ("brick", "block", "masonry")
# What wets a floor for long or often; after the rules on slip.
_SOAKED = ("shower", "bath", "wet floor")
_FITTED = ("pipe", "valve", "outlet")


def missing(job: Job, practice: Practice) -> Iterator[Question]:
    """In the order in which they are asked: by room, then for tiles, then for the job."""
    for room in job.rooms:
        tiled = tuple(s for s in room.surfaces if s.coverings)
        if tiled:
            yield from _shape(room, tiled)
            yield from _bases(job, room, tiled, practice)
            yield from _holes(room)
            yield from _water_and_current(job, room, practice)
    yield from _slip(job, practice)
    if job.occupied is None:
        yield Question("occupied", "job", "client", "Is the building lived in or used during the work?")
    if any(p.generic for p in job.products):
        yield Question("products", "job", "data sheet", "Which products are bought in place of the generic ones?")


# ---------------------------------------------------------------- the room


def _shape(room: Room, tiled: tuple[Surface, ...]) -> Iterator[Question]:
    walls = tuple(s for s in tiled if s.kind == "wall")
    if len(room.walls) == 4 and room.diagonals is None and room.floor is not None:
        yield Question("diagonals", room.name, "survey", f"What do the diagonals of the floor of {room.name} measure?",
                       span=room.floor.span)
    unmeasured = tuple(s for s in walls if s.measured_heights is None and s.out_of_plumb is None)
    if unmeasured:
        yield Question("wall-true", room.name, "survey", f"How high left and right, and how far out of plumb, {_are(unmeasured)}"
                       f" in {room.name}?", span=unmeasured[0].span, each=_each(unmeasured))
    openings = tuple(o for s in room.wall_surfaces for o in s.openings)
    if room.floor in tiled and not any(o.kind == "door" or o.kind == "opening" and not o.rect.y.value for o in openings):
        yield Question("door", room.name, "survey", f"In which wall is the door of {room.name}, and how large is it?",
                       span=room.floor.span if room.floor else None)


def _each(walls: tuple[Surface, ...]) -> tuple[str, ...]:
    return tuple(f"wall {s.letter}" for s in walls)


def _are(walls: tuple[Surface, ...]) -> str:
    letters = [s.letter for s in walls]
    if len(letters) == 1:
        return f"is wall {letters[0]}"
    return f"are walls {', '.join(letters[:-1])} and {letters[-1]}"


def _bases(job: Job, room: Room, tiled: tuple[Surface, ...], practice: Practice) -> Iterator[Question]:
    for s in tiled:
        of = f"{'the floor' if s.kind == 'floor' else f'wall {s.letter}'} in {room.name}"
        base = s.base
        least = practice.find(f"age-{base.kind}") if base.kind in _AGEING else None
        bare = base.words is not None and any(w in base.words.text.lower() for w in _BARE)
        if least is not None and base.laid is None and not base.existing and not bare:
            ask = f"When was the {_AGEING[base.kind]} of {of} placed?"
            yield Question("base-age", s.id, "survey", ask, span=base.span, limits=(least,))
        if base.kind == "timber" and s.kind == "floor" and base.deflection is None:
            stone = any(c.tile.stone for c in s.coverings)
            share = practice.limit("deflection-max-stone" if stone else "deflection-max")
            ask = f"How far does {of} bend under its load?"
            yield Question("deflection", s.id, "designer", ask, span=base.span, limits=(share,))
        if base.kind in _HIDING and s.kind == "wall" and base.carries is None:
            yield Question("wall-load", s.id, "survey", f"What is behind {of}, and what does it still carry?", span=base.span)
        measured = moisture_limit(s.base.kind, s.kind == "floor" and room.heating is not None, practice)
        if measured is not None and not _recorded(job, "substrate-moisture", (s,), s.kind == "floor"):
            yield Question("moisture", s.id, "survey", f"How moist is the base of {of}?", span=base.span, limits=(measured,))
    edge = practice.find("flatness-large-edge")
    for kind in ("floor", "wall"):
        # An unknown base is asked about as a whole.
        large = tuple(s for s in tiled if s.kind == kind and s.base.kind != "not-stated" and edge and _longest(s) >= edge.value)
        limits = practice.find(f"flatness-{kind}-large"), practice.find(f"flatness-{kind}-large-length")
        accepted = any(large and _recorded(job, record, large, True) for record in ("substrate", "substrate-flatness"))
        if large and limits[0] and limits[1] and not accepted:
            of = f"the floor of {room.name}" if kind == "floor" else f"{_are(large).partition(' ')[2]} of {room.name}"
            yield Question(f"flat-{kind}", room.name, "survey", f"How flat {'is' if len(large) == 1 else 'are'} {of}?",
                           span=large[0].span, limits=(limits[0], limits[1]), each=_each(large) if kind == "wall" else ())


def _longest(surface: Surface) -> Fraction:
    """The longest side of a tile on it. Sheets of mosaic follow the base."""
    return max((c.tile.long_side.value for c in surface.coverings if not c.tile.mosaic), default=Fraction(0))


def moisture_limit(kind: str, heated: bool, practice: Practice) -> Quantity | None:
    """The most moisture of a base, by the method that the family measures with; None where this base is not measured."""
    if kind not in _DAMP:
        return None
    warm = "-heated" if heated else ""
    carbide = next((k for k in (f"cm-limit-{kind}{warm}", f"cm-limit-{kind}") if practice.entry(k)), None)
    box = next((k for k in (f"rh-limit-{kind}{warm}", f"rh-limit-{kind}", "rh-limit") if practice.entry(k)), None)
    if carbide is None or box is None:
        key = carbide or box
    else:
        # Both are known: the one that is the family's own, and not its parent's.
        own, borrowed = practice.entry(box), practice.entry(carbide)
        key = box if own and borrowed and own.family == practice.family != borrowed.family else carbide
    return practice.find(key) if key else None


def _recorded(job: Job, kind: str, surfaces: tuple[Surface, ...], room_too: bool) -> bool:
    """Whether a record of this kind stands for each of the surfaces, or for their room or the job where that counts."""
    found = (r for r in job.records if r.kind.text.casefold().replace(" ", "-") == kind)
    places = {r.place for r in found if kind in ("substrate", "heating-cycle") or r.reading is not None}
    whole = room_too and bool(places & {"job", surfaces[0].room})
    return whole or all(s.id in places for s in surfaces)


def _holes(room: Room) -> Iterator[Question]:
    tiled = {s.letter: s for s in room.wall_surfaces if s.coverings}
    for shower in room.showers[:1]:
        walls = tuple(tiled[w] for w in shower.walls if w in tiled)
        if walls and shower.valve_wall is None and not _holed(walls, ("valve",)):
            yield Question("valve", room.name, "survey", f"Where is the valve of the shower in {room.name}?", span=shower.span)
    for basin in room.basins[:1]:
        if basin.wall in tiled and not _holed((tiled[basin.wall],), _FITTED):
            ask = f"Where do pipes and waste of the basin on wall {basin.wall} in {room.name} come out?"
            yield Question("basin-pipes", room.name, "survey", ask, span=basin.span)


def _holed(surfaces: tuple[Surface, ...], kinds: tuple[str, ...]) -> bool:
    return any(p.kind in kinds for s in surfaces for p in s.penetrations)


def _water_and_current(job: Job, room: Room, practice: Practice) -> Iterator[Question]:
    holes = [p for s in room.wall_surfaces if s.coverings for p in s.penetrations]
    if any(p.kind == "valve" and p.covers is None for p in holes):
        ask = f"For how much bed and tile is the valve in {room.name} made, where it is built in?"
        yield Question("valve-depth", room.name, "data sheet", ask, span=room.span)
    given, taken = [s.flow for s in room.showers if not s.tray], [d.flow for d in room.drains]
    unknown = tuple(who for who, flows in (("shower", given), ("drain", taken)) if None in flows)
    if given and taken and unknown:
        ask = f"How much water does the shower in {room.name} give, and how much does its drain take away?"
        yield Question("flow", room.name, "data sheet", ask, span=room.drains[0].span, each=unknown)
    heating = room.heating
    electric = heating is not None and heating.kind != "pipes"
    if room.floor is not None and room.rcd is None and (electric or any(p.kind == "socket" for p in holes)):
        ask = f"At what current does the residual current device of {room.name} trip?"
        yield Question("rcd", room.name, "survey", ask, span=room.span, limits=(practice.limit("rcd-max"),))
    if heating and not electric and room.floor is not None and not _recorded(job, "heating-cycle", (room.floor,), True):
        ask = f"When was the screed of {room.name} heated up and cooled down, and who has the record of it?"
        yield Question("heating-cycle", room.name, "client", ask, span=heating.span)


# ---------------------------------------------------------------- tiles and products


def _slip(job: Job, practice: Practice) -> Iterator[Question]:
    """Tiles of floors that are stood on wet. Under a tray or a bath nobody stands."""
    asked: set[str] = set()
    for room in job.rooms:
        floor = room.floor
        trays = tuple(s.rect for s in room.showers if s.tray)
        if floor is None or not any(z.exposure in _SOAKED and z.cause != "bath" and z.rect not in trays for z in floor.zones):
            continue
        for c in floor.coverings:
            t = c.tile
            shod = t.slip is not None and practice.find(f"pendulum-{t.slip}") is None  # measured with boots
            if t.name in asked or t.barefoot or t.dcof or t.pendulum or t.slip and not shod:
                continue
            asked.add(t.name)
            called = f"tile {t.name}" if t.named else "the tile"
            match practice.word("slip-measure").text:
                case "dcof" | "pendulum" as measure:
                    rating = "wet DCOF" if measure == "dcof" else "pendulum value"
                    limits: tuple[Quantity, ...] = (practice.limit(f"{measure}-min"),)
                    ask = f"Which {rating} does {called} have?"
                case _:
                    least = practice.word("barefoot-class-shower").text
                    ask, limits = f"Which barefoot class does {called} have? ({least} at least)", ()
            yield Question("tile-slip", t.name, "data sheet", ask, span=t.span, limits=limits)

