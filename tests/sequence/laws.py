"""Laws of the work: what comes before what, what must be there and what must not. Each is a function over a job and its sequence.

They restate the order of a wet room as common practice has it; none of them looks into how the sequence is derived.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property

from tilespec.job.types import Job, Room, Surface
from tilespec.practice.lookup import practice
from tilespec.sequence.types import Link, Operation, Sequence

LAWS: dict[str, Callable[[Case], None]] = {}


def law(f: Callable[[Case], None]) -> Callable[[Case], None]:
    LAWS[f.__name__] = f
    return f


@dataclass(frozen=True)
class Case:
    name: str
    job: Job
    sequence: Sequence

    @cached_property
    def by_id(self) -> dict[str, Operation]:
        return {op.id: op for op in self.sequence.operations}

    @cached_property
    def ancestors(self) -> dict[str, set[str]]:
        """Everything that an operation waits for, however far back."""
        found: dict[str, set[str]] = {}
        for op in self.sequence.operations:
            found[op.id] = {link.operation for link in op.after}
            for link in op.after:
                found[op.id] |= found[link.operation]
        return found

    @property
    def rooms(self) -> tuple[Room, ...]:
        return tuple(r for r in self.job.rooms if any(s.coverings for s in r.surfaces))

    def ops(self, kind: str, room: Room | None = None) -> list[Operation]:
        return [op for op in self.sequence.operations if op.kind == kind and (room is None or op.room in (room.name, None))]

    def never_before(self, first: str, then: str) -> None:
        """In every room each `then` waits for each `first`, wherever both are done."""
        for room in self.rooms:
            for b in self.ops(then, room):
                for a in self.ops(first, room):
                    assert a.id in self.ancestors[b.id], f"{self.name}: {b.id} does not wait for {a.id}"

    def link(self, first: str, then: str, why: str) -> None:
        """In every room each `then` that comes straight after a `first` keeps a wait of this kind."""
        for room in self.rooms:
            for b in self.ops(then, room):
                for a in self.ops(first, room):
                    links = [k for k in b.after if k.operation == a.id]
                    assert links and links[0].wait and links[0].wait.why == why, f"{self.name}: {a.id} to {b.id} without {why}"


def tiled(room: Room) -> tuple[Surface, ...]:
    return tuple(s for s in room.surfaces if s.coverings)


def waterproofed(room: Room) -> tuple[Surface, ...]:
    return tuple(s for s in tiled(room) if s.membrane_areas and s.refusal("membrane") is None and s.product("membrane"))


def floor(room: Room) -> Surface | None:
    return room.floor if room.floor and room.floor.coverings else None


def walls(room: Room) -> tuple[Surface, ...]:
    return tuple(s for s in room.wall_surfaces if s.coverings)


def to_the_floor(room: Room) -> tuple[Surface, ...]:
    """Walls that get a bottom course later: the field has no region, so it starts at the floor; no bath or tray is as long."""
    low = [(b.walls, b.rect) for b in room.baths] + [(t.walls, t.rect) for t in room.showers if t.tray]

    def hidden(s: Surface) -> bool:
        long = {"A": "width", "C": "width", "B": "height", "D": "height"}
        return any(s.letter in w and getattr(r, long[s.letter]).value >= s.width.value for w, r in low)

    free = tuple(s for s in walls(room) if any(c.region is None for c in s.coverings) and not hidden(s))
    return free if floor(room) else ()


def electric(room: Room, kind: str = "") -> bool:
    return bool(room.heating and floor(room) and room.heating.kind in ("mat", "cable") and kind in ("", room.heating.kind))


def links(case: Case) -> Iterator[tuple[Operation, Link]]:
    for op in case.sequence.operations:
        for link in op.after:
            yield op, link


# ---------------------------------------------------------------- before and after


@law
def survey_comes_first(case: Case) -> None:
    assert case.sequence.operations[0].kind == "survey"
    for op in case.sequence.operations[1:]:
        assert "job/survey" in case.ancestors[op.id], op.id


@law
def hand_over_comes_last(case: Case) -> None:
    last = case.sequence.operations[-1]
    assert last.kind == "hand-over"
    assert case.ancestors[last.id] == {op.id for op in case.sequence.operations[:-1]}


@law
def every_operation_follows_what_it_waits_for(case: Case) -> None:
    done: set[str] = set()
    for op in case.sequence.operations:
        assert {link.operation for link in op.after} <= done, op.id
        done.add(op.id)


@law
def services_are_isolated_before_anything_is_opened(case: Case) -> None:
    for kind in ("strip-out", "first-fix-plumbing", "first-fix-electrics", "sensor-tube", "boards"):
        case.never_before("isolate-services", kind)


@law
def asbestos_and_lead_are_cleared_before_strip_out(case: Case) -> None:
    for hold in ("asbestos-hold", "lead-hold"):
        case.never_before(hold, "strip-out")
        case.never_before(hold, "prepare-base")


@law
def pipes_are_proved_before_boards_and_screed_cover_them(case: Case) -> None:
    case.never_before("first-fix-plumbing", "pressure-test")
    for cover in ("boards", "lay-screed", "prepare-base", "membrane-first-coat"):
        case.never_before("pressure-test", cover)


@law
def first_fix_comes_before_the_base_is_accepted(case: Case) -> None:
    for kind in ("first-fix-plumbing", "first-fix-electrics", "boards"):
        case.never_before(kind, "accept-substrate")


@law
def sensor_tube_comes_before_membrane_and_wall_tiles(case: Case) -> None:
    for later in ("membrane-details", "membrane-first-coat", "wall-tiles", "lay-mat", "lay-cable"):
        case.never_before("sensor-tube", later)


@law
def drain_is_proved_before_falls_and_membrane(case: Case) -> None:
    for later in ("level-floor", "form-falls", "membrane-details", "membrane-first-coat"):
        case.never_before("set-drain", later)


@law
def bath_and_tray_are_set_before_walls_are_coated_and_tiled(case: Case) -> None:
    for first in ("set-bath", "set-tray"):
        for later in ("membrane-details", "membrane-first-coat", "wall-tiles"):
            case.never_before(first, later)


@law
def screed_is_heated_before_it_is_tested(case: Case) -> None:
    case.never_before("lay-screed", "heat-screed")
    case.never_before("heat-screed", "test-moisture")


@law
def moisture_is_tested_before_the_base_is_covered(case: Case) -> None:
    for later in ("lay-cable", "level-floor", "form-falls", "accept-substrate"):
        case.never_before("test-moisture", later)


@law
def leveller_and_falls_come_before_acceptance(case: Case) -> None:
    case.never_before("level-floor", "form-falls")
    for first in ("prepare-base", "level-floor", "form-falls"):
        case.never_before(first, "accept-substrate")


@law
def base_is_accepted_before_primer_membrane_and_tiles(case: Case) -> None:
    for later in ("prime", "membrane-details", "membrane-first-coat", "wall-tiles", "floor-tiles"):
        case.never_before("accept-substrate", later)


@law
def primer_dries_before_the_membrane(case: Case) -> None:
    for room in case.rooms:
        for prime in case.ops("prime", room):
            wet = {s.id for s in waterproofed(room)} & set(prime.places)
            for op in case.ops("membrane-details", room) or case.ops("membrane-first-coat", room):
                if wet & set(op.places):
                    found = [k for k in op.after if k.operation == prime.id]
                    assert found and found[0].wait and found[0].wait.why == "primer-dry", op.id


@law
def primer_dries_before_tiles_where_no_membrane_is(case: Case) -> None:
    for room in case.rooms:
        bare = {s.id for s in tiled(room)} - {s.id for s in waterproofed(room)}
        for prime in case.ops("prime", room):
            for place in bare & set(prime.places):
                mat = electric(room, "mat") and floor(room) and place == floor(room).id  # type: ignore[union-attr]
                first = [
                    op
                    for op in case.sequence.operations
                    if place in op.places and op.kind in (("mat-first-layer",) if mat else ("wall-tiles", "floor-tiles"))
                ]
                assert first
                found = [k for k in first[0].after if k.operation == prime.id]
                assert found and found[0].wait and found[0].wait.why == "primer-dry", place


@law
def details_come_before_the_coats_and_each_coat_dries(case: Case) -> None:
    case.never_before("membrane-details", "membrane-first-coat")
    for room in case.rooms:
        for product in dict.fromkeys(p for op in case.ops("membrane-first-coat", room) for p in op.products):
            coats = [
                op
                for kind in ("membrane-first-coat", "membrane-second-coat", "membrane-further-coat")
                for op in case.ops(kind, room)
                if product in op.products
            ]
            for a, b in zip(coats, coats[1:], strict=False):
                found = [k for k in b.after if k.operation == a.id]
                assert found and found[0].wait and found[0].wait.why == "between-coats", b.id


@law
def membrane_cures_and_is_released_before_tiles_and_protection(case: Case) -> None:
    for later in ("protect-membrane", "set-out", "wall-tiles", "floor-tiles", "mat-first-layer", "fix-ledger"):
        case.never_before("accept-membrane", later)
    for room in case.rooms:
        for hold in case.ops("accept-membrane", room):
            assert hold.point and hold.point.kind == "hold"
            back = {link.operation: link for op in (hold, *case.ops("ponding-test", room)) for link in op.after}
            for op in case.sequence.operations:
                if (
                    op.room == room.name
                    and op.kind.endswith("-coat")
                    and not any(
                        op.id in {k.operation for k in o.after} for o in case.sequence.operations if o.kind.endswith("-coat")
                    )
                ):
                    assert back[op.id].wait is not None, f"{op.id} is not given its time"


@law
def water_stands_before_the_membrane_is_released(case: Case) -> None:
    case.never_before("membrane-first-coat", "ponding-test")
    case.link("ponding-test", "accept-membrane", "ponding")


@law
def membrane_on_the_floor_is_protected_before_others_walk_on_it(case: Case) -> None:
    for later in ("set-out", "fix-ledger", "wall-tiles"):
        case.never_before("protect-membrane", later)


@law
def what_stays_untiled_is_marked_before_tiles(case: Case) -> None:
    case.never_before("mark-untiled", "wall-tiles")
    case.never_before("mark-untiled", "floor-tiles")


@law
def set_out_and_sample_come_before_tiles(case: Case) -> None:
    case.never_before("set-out", "sample-area")
    for later in ("fix-ledger", "wall-tiles", "floor-tiles", "mat-first-layer"):
        case.never_before("sample-area", later)


@law
def ledger_goes_up_before_and_comes_off_after_wall_tiles(case: Case) -> None:
    case.never_before("fix-ledger", "wall-tiles")
    case.never_before("wall-tiles", "take-off-ledger")
    for room in case.rooms:
        for off in case.ops("take-off-ledger", room):
            for link in off.after:
                if set(case.by_id[link.operation].places) & set(off.places):
                    assert link.wait is not None and link.wait.why == "adhesive-set"


@law
def membrane_is_looked_at_again_before_it_is_covered(case: Case) -> None:
    case.never_before("take-off-ledger", "recheck-membrane")
    for later in ("floor-tiles", "mat-first-layer", "bottom-course"):
        case.never_before("recheck-membrane", later)


@law
def walls_are_tiled_before_the_floor(case: Case) -> None:
    case.never_before("wall-tiles", "floor-tiles")
    case.never_before("wall-tiles", "mat-first-layer")


@law
def heating_mat_lies_between_two_layers_and_two_tests(case: Case) -> None:
    for room in case.rooms:
        if not electric(room, "mat"):
            continue
        chain = (
            "heating-test-before",
            "mat-first-layer",
            "lay-mat",
            "mat-second-layer",
            "heating-test-covered",
            "floor-tiles",
            "heating-test-after",
        )
        for a, b in zip(chain, chain[1:], strict=False):
            assert case.ops(a, room)[0].id in case.ancestors[case.ops(b, room)[0].id], (a, b)
        case.link("mat-second-layer", "heating-test-covered", "mat-mortar-set") if len(case.rooms) == 1 else None


@law
def heating_cable_lies_in_the_leveller_between_two_tests(case: Case) -> None:
    for room in case.rooms:
        if not electric(room, "cable"):
            continue
        chain = (
            "heating-test-before",
            "lay-cable",
            "level-floor",
            "heating-test-covered",
            "accept-substrate",
            "floor-tiles",
            "heating-test-after",
        )
        for a, b in zip(chain, chain[1:], strict=False):
            assert case.ops(a, room)[0].id in case.ancestors[case.ops(b, room)[0].id], (a, b)


@law
def heating_is_released_only_by_an_electrician(case: Case) -> None:
    for op in case.sequence.operations:
        if op.kind.startswith("heating-test"):
            assert op.point and op.point.kind == "hold" and op.point.releases == "licensed electrician"
            assert {t.what for t in op.point.tests} == {"heating-resistance", "insulation-resistance"}


@law
def floor_is_walked_on_only_when_it_has_set(case: Case) -> None:
    for later in ("bottom-course", "bath-front", "heating-test-after"):
        case.link("floor-tiles", later, "walk-on")


@law
def bottom_course_and_bath_front_come_before_grouting(case: Case) -> None:
    for first in ("bottom-course", "bath-front", "heating-test-after"):
        case.never_before(first, "grout")


@law
def joints_are_cleared_and_porous_tiles_sealed_before_grouting(case: Case) -> None:
    case.never_before("clear-joints", "grout")
    case.link("seal-porous", "grout", "sealer-dry") if not len(case.rooms) > 1 and len(case.ops("grout")) == 1 else None
    case.never_before("seal-porous", "grout")


@law
def grout_waits_for_the_adhesive_of_every_tile_it_fills_between(case: Case) -> None:
    for op in case.sequence.operations:
        if op.kind == "grout":
            for other in case.sequence.operations:
                if other.kind in ("wall-tiles", "floor-tiles", "bottom-course") and set(other.places) & set(op.places):
                    found = [k for k in op.after if k.operation == other.id]
                    assert found and found[0].wait and found[0].wait.why == "adhesive-set", (op.id, other.id)


@law
def sealant_comes_after_firm_grout(case: Case) -> None:
    case.link("grout", "seal-joints", "grout-firm")


@law
def mirror_and_impregnation_come_after_sealant(case: Case) -> None:
    case.never_before("seal-joints", "fix-mirror")
    case.never_before("fix-mirror", "impregnate")
    case.link("seal-joints", "impregnate", "sealant-cure")
    case.link("grout", "impregnate", "grout-dry")


@law
def finished_work_is_protected_before_second_fix(case: Case) -> None:
    for first in ("seal-joints", "fix-mirror", "impregnate"):
        case.never_before(first, "protect-finished")
    for later in ("second-fix-plumbing", "second-fix-electrics", "fix-fittings"):
        case.never_before("protect-finished", later)


@law
def leak_test_comes_after_second_fix_and_cured_sealant(case: Case) -> None:
    case.never_before("second-fix-plumbing", "leak-test")
    case.link("seal-joints", "leak-test", "sealant-cure")


@law
def inspection_comes_after_everything_in_its_room(case: Case) -> None:
    for room in case.rooms:
        last = case.ops("final-inspection", room)[0]
        mine = {op.id for op in case.sequence.operations if op.room == room.name and op.kind != "trade-step"}
        assert mine - {last.id} <= case.ancestors[last.id]


@law
def rooms_do_not_wait_for_each_other(case: Case) -> None:
    if any(op.kind == "trade-step" and op.room is None for op in case.sequence.operations):
        return
    for op in case.sequence.operations:
        if op.room is not None:
            for before in case.ancestors[op.id]:
                assert case.by_id[before].room in (op.room, None), (op.id, before)


@law
def steps_of_other_trades_stand_where_the_spec_says(case: Case) -> None:
    """The stages here are those of the words used by the generator."""
    at = {
        "sealing": ("seal-joints",),
        "grouting": ("clear-joints", "seal-porous", "grout"),
        "tiling": ("wall-tiles", "floor-tiles", "bottom-course"),
        "membrane": ("membrane-details", "membrane-first-coat", "accept-membrane"),
        "first fix": ("first-fix-plumbing", "pressure-test"),
        "survey": ("survey",),
        "second fix": ("second-fix-plumbing", "leak-test", "second-fix-electrics", "fix-fittings"),
    }
    for n, step in enumerate(case.job.steps):
        me = case.by_id[f"step/{n}"]
        scope = [op for op in case.sequence.operations if step.room is None or op.room in (step.room, None)]
        for op in scope:
            if step.after and op.kind in at[step.after.text]:
                assert op.id in case.ancestors[me.id], (step, op.id)
            if step.before and op.kind in at[step.before.text]:
                assert me.id in case.ancestors[op.id], (step, op.id)
    assert not case.sequence.faults


# ---------------------------------------------------------------- nothing that does not apply, nothing missing


def _old(job: Job) -> bool:
    return any(s.base.existing for s in job.surfaces) or (job.built is not None and job.built.value < 2026)


def _kept(job: Job, year: str) -> bool:
    return _old(job) and (job.built is None or job.built.value < practice(job.family).limit(year).value)


def _pipes(room: Room) -> bool:
    holes = {p.kind for s in room.surfaces for p in s.penetrations}
    wc = any(f.label and f.label.text == "WC" for s in room.surfaces for f in s.fittings)
    return bool(holes & {"pipe", "valve", "drain", "channel"} or room.baths or room.basins or room.showers or wc)


def _sockets(room: Room) -> bool:
    return any(p.kind == "socket" for s in room.surfaces for p in s.penetrations)


def _coats(room: Room) -> int:
    return max((int(p.coats.value) if p.coats else 2 for s in waterproofed(room) if (p := s.product("membrane"))), default=0)


def _screed_to_come(room: Room) -> bool:
    f = floor(room)
    return bool(f and f.base.kind.endswith("screed") and f.base.laid and f.base.laid.isoformat() >= "2026-03-09")


_BOARDS = ("gypsum-plasterboard", "gypsum-fibreboard", "cement-board", "tile-backer-board", "plywood")

# What each kind of step is there for, said again in other words: number of operations in the room (or True for one).
APPLIES: dict[str, Callable[[Job, Room], int | bool]] = {
    "strip-out": lambda j, r: _old(j),
    "first-fix-plumbing": lambda j, r: _pipes(r),
    "first-fix-electrics": lambda j, r: _sockets(r),
    "sensor-tube": lambda j, r: electric(r),
    "pressure-test": lambda j, r: _pipes(r) or bool(r.heating and r.heating.kind == "pipes"),
    "boards": lambda j, r: any(s.base.kind in _BOARDS for s in tiled(r)),
    "set-drain": lambda j, r: bool(r.drains),
    "set-bath": lambda j, r: bool(r.baths),
    "set-tray": lambda j, r: any(s.tray for s in r.showers),
    "lay-screed": lambda j, r: _screed_to_come(r),
    "heat-screed": lambda j, r: bool(floor(r) and r.heating and r.heating.kind == "pipes"),
    "prepare-base": lambda j, r: True,
    "test-moisture": lambda j, r: bool(
        floor(r) and floor(r).base.kind in ("cement-screed", "calcium-sulfate-screed", "concrete")
    ),  # type: ignore
    "level-floor": lambda j, r: (
        bool(floor(r)) and (electric(r, "cable") or any(layer == "leveller" for layer, _ in r.levels.build_up))
    ),
    "lay-cable": lambda j, r: electric(r, "cable"),
    "form-falls": lambda j, r: r.fall is not None,
    "accept-substrate": lambda j, r: True,
    "prime": lambda j, r: any(s.product("primer") for s in tiled(r)),
    "membrane-details": lambda j, r: bool(waterproofed(r)) and None,  # type: ignore[dict-item]
    "membrane-first-coat": lambda j, r: len({s.product("membrane").name for s in waterproofed(r)}),  # type: ignore[union-attr]
    "membrane-second-coat": lambda j, r: _coats(r) > 1,
    "membrane-further-coat": lambda j, r: max(0, _coats(r) - 2),
    "accept-membrane": lambda j, r: bool(waterproofed(r)),
    "ponding-test": lambda j, r: (
        j.family == "US" and bool(r.drains) and floor(r) in waterproofed(r) and floor(r).base.kind not in ("timber", "plywood")
    ),  # type: ignore[union-attr]
    "protect-membrane": lambda j, r: floor(r) in waterproofed(r),
    "mark-untiled": lambda j, r: any(s.untiled for s in tiled(r)),
    "set-out": lambda j, r: True,
    "sample-area": lambda j, r: True,
    "fix-ledger": lambda j, r: bool(to_the_floor(r)),
    "wall-tiles": lambda j, r: len(walls(r)),
    "take-off-ledger": lambda j, r: bool(to_the_floor(r)),
    "recheck-membrane": lambda j, r: (
        bool(walls(r))
        and (floor(r) in waterproofed(r) or bool({s.id for s in to_the_floor(r)} & {s.id for s in waterproofed(r)}))
    ),
    "heating-test-before": lambda j, r: electric(r),
    "heating-test-covered": lambda j, r: electric(r),
    "heating-test-after": lambda j, r: electric(r),
    "mat-first-layer": lambda j, r: electric(r, "mat"),
    "lay-mat": lambda j, r: electric(r, "mat"),
    "mat-second-layer": lambda j, r: electric(r, "mat"),
    "floor-tiles": lambda j, r: floor(r) is not None,
    "bottom-course": lambda j, r: bool(to_the_floor(r)),
    "bath-front": lambda j, r: bool(r.baths),
    "clear-joints": lambda j, r: True,
    "seal-porous": lambda j, r: any(c.tile.porous for s in tiled(r) for c in s.coverings),
    "grout": lambda j, r: len({tuple(p.name for p in s.products if p.kind == "grout") for s in tiled(r)}),
    "seal-joints": lambda j, r: True,
    "fix-mirror": lambda j, r: any(f.kind == "mirror" for s in r.wall_surfaces for f in s.fittings),
    "impregnate": lambda j, r: any(s.product("impregnator") for s in tiled(r)),
    "protect-finished": lambda j, r: True,
    "second-fix-plumbing": lambda j, r: _pipes(r),
    "leak-test": lambda j, r: _pipes(r),
    "second-fix-electrics": lambda j, r: _sockets(r) or electric(r),
    "fix-fittings": lambda j, r: any(f.kind == "fitting" for s in r.wall_surfaces for f in s.fittings),
    "final-inspection": lambda j, r: True,
}

ONCE: dict[str, Callable[[Job, tuple[Room, ...]], bool]] = {
    "survey": lambda j, rs: True,
    "isolate-services": lambda j, rs: _old(j) or any(_pipes(r) or _sockets(r) or (r.heating and floor(r)) for r in rs),
    "asbestos-hold": lambda j, rs: _kept(j, "asbestos-year"),
    "lead-hold": lambda j, rs: _kept(j, "lead-year"),
    "hand-over": lambda j, rs: True,
}


@law
def each_step_is_there_where_it_applies_and_nowhere_else(case: Case) -> None:
    for room in case.rooms:
        for kind, applies in APPLIES.items():
            expected = applies(case.job, room)
            if expected is None:
                continue  # membrane details: a single bare wall has none
            there = [op for op in case.sequence.operations if op.kind == kind and op.room == room.name]
            assert len(there) == int(expected), f"{case.name}: {room.name}: {kind} stands {len(there)} times, not {int(expected)}"
    for kind, once in ONCE.items():
        there = [op for op in case.sequence.operations if op.kind == kind]
        assert len(there) == int(bool(once(case.job, case.rooms))), f"{case.name}: {kind} stands {len(there)} times"
    assert {op.kind for op in case.sequence.operations} <= {*APPLIES, *ONCE, "trade-step"}


@law
def a_dry_room_has_no_membrane_steps(case: Case) -> None:
    for room in case.rooms:
        if not waterproofed(room):
            mine = [op for op in case.sequence.operations if op.room == room.name]
            assert not [op for op in mine if "membrane" in op.kind or "ponding" in op.kind or "membrane" in op.facts]


@law
def every_tiled_surface_is_prepared_tiled_grouted_and_inspected(case: Case) -> None:
    for room in case.rooms:
        for s in tiled(room):
            for kind in (
                "prepare-base",
                "accept-substrate",
                "set-out",
                "clear-joints",
                "grout",
                "seal-joints",
                "final-inspection",
            ):
                assert any(s.id in op.places for op in case.ops(kind, room)), (kind, s.id)
            assert any(s.id in op.places for op in case.ops("floor-tiles" if s.kind == "floor" else "wall-tiles", room))


@law
def every_product_in_use_meets_a_step(case: Case) -> None:
    used = {(p.kind, p.name) for op in case.sequence.operations for p in op.products}
    for room in case.rooms:
        for s in tiled(room):
            for p in s.products:
                if p.kind in ("tape", "collar") and s not in waterproofed(room) or p.kind == "leveller":
                    continue
                if p.kind in ("tape", "collar") and not case.ops("membrane-details", room):
                    continue
                assert (p.kind, p.name) in used, (s.id, p.kind, p.name)


# ---------------------------------------------------------------- waits


@law
def waits_have_a_length_and_a_window_that_can_be_kept(case: Case) -> None:
    for op, link in links(case):
        if link.wait is not None:
            assert link.wait.minimum.value > 0, op.id
            if link.wait.maximum is not None:
                assert link.wait.maximum.value >= link.wait.minimum.value, op.id
                assert link.wait.overrun, op.id


@law
def waits_are_never_shorter_than_a_data_sheet_says(case: Case) -> None:
    means = {"between-coats": ("coats",), "membrane-cure": ("tiling",), "adhesive-set": ("grouting",)}
    for op, link in links(case):
        w = link.wait
        if w is not None and w.product is not None:
            for before in means.get(w.why, ()):
                said = w.product.wait(before)
                assert said is None or w.minimum.value >= said.minimum.value, op.id


@law
def a_film_with_declared_waits_prints_exactly_those(case: Case) -> None:
    for _, link in links(case):
        w = link.wait
        if (
            w is not None
            and w.product is not None
            and w.product.name == "quick-film"
            and w.why in ("between-coats", "membrane-cure")
        ):
            assert w.minimum.hours * 2 == (3 if w.why == "between-coats" else 8)


# ---------------------------------------------------------------- hazards


@law
def cement_powder_brings_cement_dust_and_wash_out(case: Case) -> None:
    for op in case.sequence.operations:
        if any(p.kind in ("adhesive", "grout", "leveller") and "cement" in p.flags for p in op.products):
            assert {"cement", "silica", "wash-out"} <= set(op.hazards), op.id


@law
def cutting_tiles_brings_dust_noise_and_sharp_edges(case: Case) -> None:
    for op in case.sequence.operations:
        if op.kind in ("wall-tiles", "floor-tiles", "bottom-course"):
            assert {"silica", "noise", "sharp-edges", "electricity", "slips"} <= set(op.hazards), op.id


@law
def resins_and_solvents_bring_their_hazards(case: Case) -> None:
    for op in case.sequence.operations:
        flags = {f for p in op.products for f in p.flags}
        if "epoxy" in flags:
            assert {"resin", "vapours"} <= set(op.hazards), op.id
        if "polyurethane" in flags:
            assert "isocyanate" in op.hazards, op.id
        if "solvent" in flags:
            assert "vapours" in op.hazards, op.id


@law
def old_fabric_brings_asbestos_and_lead(case: Case) -> None:
    for key in ("asbestos", "lead"):
        marked = {op.kind for op in case.sequence.operations if key in op.hazards}
        assert ("strip-out" in marked) == _kept(case.job, f"{key}-year")


@law
def one_person_works_alone(case: Case) -> None:
    alone = sum(n.value for _, n in case.job.crew) == 1
    assert any(h.key == "lone-work" for h in case.sequence.hazards) == alone


@law
def each_hazard_is_listed_once_with_all_its_steps(case: Case) -> None:
    listed = {h.key: h.operations for h in case.sequence.hazards}
    assert len(listed) == len(case.sequence.hazards)
    for op in case.sequence.operations:
        for key in op.hazards:
            assert op.id in listed[key]
    assert sum(map(len, listed.values())) == sum(len(op.hazards) for op in case.sequence.operations)
    for h in case.sequence.hazards:
        if h.key in ("electricity", "heated-floor"):
            assert h.licensed == "licensed electrician"


@law
def heated_floors_and_wet_floors_are_marked(case: Case) -> None:
    for op in case.sequence.operations:
        if op.kind in ("lay-mat", "lay-cable", "heating-test-after"):
            assert {"heated-floor", "electricity"} <= set(op.hazards)
        if op.kind == "floor-tiles":
            assert "kneeling" in op.hazards
