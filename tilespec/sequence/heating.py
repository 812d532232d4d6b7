"""Heated floors: a mat in the adhesive, a cable in the leveller, pipes in the screed. Each has its own place and tests."""

from __future__ import annotations

from tilespec.job.types import Product, Room
from tilespec.quantity import Quantity
from tilespec.sequence import features, wait
from tilespec.sequence.priming import primer_links
from tilespec.sequence.site import Chain, Site, adhesive_class, on, products_of, with_membrane
from tilespec.sequence.types import Operation, Point, Test
from tilespec.takeoff.types import HeatingMeasure

ELECTRICIAN = "licensed electrician"


def measure(room: Room, site: Site) -> HeatingMeasure | None:
    return next((m for m in site.takeoff.heating if m.room == room.name), None)


def element_tests(room: Room, site: Site, record: str) -> tuple[Test, ...]:
    """Resistance of the element and of its insulation, as on the label and by the practice, with a reading if there is one."""
    m = measure(room, site)
    floor = room.floor.id if room.floor else room.name
    found = site.record(record, room.name, (floor,))
    reading = found.reading if found else None
    ohms, insulation = (None, reading) if reading is not None and reading.shown.symbol == "Mohm" else (reading, None)
    by = found.by if found else None
    low, high = (m.resistance_low, m.resistance_high) if m else (None, None)
    compare = "between" if low is not None and high is not None else "none"
    return (
        Test("heating-resistance", low, high, compare, ohms, by if ohms else None),
        Test(
            "insulation-resistance", site.limit("insulation-resistance-min"), None, "at least",
            insulation, by if insulation else None,
        ),
    )


def test_values(room: Room, site: Site) -> tuple[tuple[str, Quantity | None], ...]:
    m = measure(room, site)
    return (
        ("resistance", m.resistance if m else None), ("power", m.power if m else None),
        ("test-voltage", site.limit("insulation-test-voltage")), ("rcd", site.limit("rcd-max")),
    )


def proof(chain: Chain, kind: str, stage: str, record: str) -> Operation:
    """A test of the heating element; work goes on only when the electrician has released it."""
    site, room = chain.site, chain.room
    assert room is not None and room.floor is not None and room.heating is not None
    floor = room.floor.id
    return chain.make(
        kind, stage, (floor,), trade="electrician", products=(room.heating.product,), values=test_values(room, site),
        facts=(room.heating.kind,), labour=site.timed("time-test-heating"),
        point=Point("hold", ELECTRICIAN, element_tests(room, site, record), site.signed(record, room.name, (floor,))),
    )


def cable_in_leveller(chain: Chain) -> None:
    """Cable tested and laid on the cleaned base, tested again before the levelling compound covers it."""
    site, room = chain.site, chain.room
    assert room is not None and room.floor is not None and room.heating is not None
    chain.pass_through(proof(chain, "heating-test-before", "base", "heating-before"))
    m = measure(room, site)
    chain.pass_through(chain.make(
        "lay-cable", "base", (room.floor.id,), products=(room.heating.product,), facts=_keep_out(room),
        values=(("area", m.free_area if m else None), *test_values(room, site)),
        point=Point("witness", ELECTRICIAN, element_tests(room, site, "heating-cover")),
        labour=site.rated(m.free_area if m else None, "rate-cable"),
    ))


def _keep_out(room: Room) -> tuple[str, ...]:
    return ("keep-out",) if room.heating and room.heating.keep_out else ()


def mat_in_adhesive(chain: Chain) -> None:
    """Mat bedded between two layers of mortar, on the finished membrane or on the primed base."""
    site, room = chain.site, chain.room
    if room is None or not features.mat(room) or room.floor is None or room.heating is None:
        return
    floor = room.floor
    m = measure(room, site)
    area = m.free_area if m else None
    bed = products_of((floor,), "adhesive")
    mortar = bed_mortar(bed)
    products = (mortar,) if mortar else ()
    covered = with_membrane(floor)
    facts = ("on-membrane",) if covered else ()
    bare = () if covered else primer_links(chain, floor.id)
    chain.pass_through(proof(chain, "heating-test-before", "heating", "heating-before"))
    first = chain.make(
        "mat-first-layer", "heating", (floor.id,), products=products, facts=facts,
        values=(("notch", site.limit("mat-bed-notch")),), after=chain.also(*bare),
        labour=site.rated(area, "rate-mat-bed"),
    )
    chain.pass_through(first)
    chain.pass_through(chain.make(
        "lay-mat", "heating", (floor.id,), products=(room.heating.product, *products), facts=(*facts, *_keep_out(room)),
        values=(("area", area), *test_values(room, site)),
        point=Point("witness", ELECTRICIAN, element_tests(room, site, "heating-cover")), labour=site.rated(area, "rate-mat"),
    ))
    cover = chain.make(
        "mat-second-layer", "heating", (floor.id,), products=products, values=(("cover", site.limit("heating-cover-min")),),
        labour=site.rated(area, "rate-mat-bed"),
    )
    chain.pass_through(cover, wait=wait.after_tiling(mortar, floor, "tiling", site))
    chain.pass_through(proof(chain, "heating-test-covered", "heating", "heating-cover"))


def bed_mortar(bed: tuple[Product, ...]) -> Product | None:
    """The most deformable of the floor's adhesives: S2 before S1 before the rest."""
    rank = {"S2": 0, "S1": 1, "": 2}
    return min(bed, key=lambda p: rank[adhesive_class(p)[2]], default=None)


def after_tiling(chain: Chain, tiled: tuple[Operation, ...]) -> Operation | None:
    """The last test, when the tiles are on and can be walked on. Returns it; the gate stays as it is."""
    site, room = chain.site, chain.room
    if room is None or not features.electric_heating(room) or room.floor is None:
        return None
    floor = room.floor
    adhesive = next(iter(products_of((floor,), "adhesive")), None)
    walk = wait.after_tiling(adhesive, floor, "walking", site)
    gate = chain.gate
    chain.gate = tuple(on(op, walk) for op in tiled)
    op = proof(chain, "heating-test-after", "floor-tiling", "heating-after")
    chain.gate = gate
    return op
