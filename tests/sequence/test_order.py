"""The working order as read by hand, records, and steps of the spec that stand in the wrong place."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import networkx
import pytest

from tests.sequence.building import HERE, job, q, record, run, said
from tests.sequence.rooms import dry_floor, shower_room
from tilespec.diagnostics.model import Diagnostic, Severity
from tilespec.job.types import TradeStep
from tilespec.pipeline import compile
from tilespec.sequence import stages
from tilespec.sequence.order import Cycle, order
from tilespec.workspace.host import MemoryHost


def kinds(j) -> list[str]:  # type: ignore[no-untyped-def]
    return [op.title.text if op.title else op.kind for op in run(j).operations]


def test_the_shower_room_in_order() -> None:
    """Read by hand against the order of a wet room as common practice has it."""
    assert kinds(shower_room()) == [
        "survey",
        "isolate-services",
        "first-fix-plumbing",
        "sensor-tube",
        "pressure-test",
        "boards",
        "set-drain",
        "prepare-base",
        "test-moisture",
        "level-floor",
        "form-falls",
        "accept-substrate",
        "prime",
        "membrane-details",
        "membrane-first-coat",
        "membrane-second-coat",
        "accept-membrane",
        "protect-membrane",
        "set-out",
        "sample-area",
        "fix-ledger",
        "wall-tiles",
        "wall-tiles",
        "wall-tiles",
        "wall-tiles",
        "take-off-ledger",
        "recheck-membrane",
        "heating-test-before",
        "mat-first-layer",
        "lay-mat",
        "mat-second-layer",
        "heating-test-covered",
        "floor-tiles",
        "heating-test-after",
        "bottom-course",
        "clear-joints",
        "seal-porous",
        "grout",
        "seal-joints",
        "Fit shower screen",
        "fix-mirror",
        "protect-finished",
        "second-fix-plumbing",
        "leak-test",
        "second-fix-electrics",
        "final-inspection",
        "hand-over",
    ]


def test_a_dry_floor_in_order() -> None:
    assert kinds(dry_floor()) == [
        "survey",
        "prepare-base",
        "test-moisture",
        "accept-substrate",
        "prime",
        "set-out",
        "sample-area",
        "floor-tiles",
        "clear-joints",
        "grout",
        "seal-joints",
        "protect-finished",
        "final-inspection",
        "hand-over",
    ]


def test_hold_points_of_the_shower_room() -> None:
    points = [(op.kind, op.point.kind, op.point.releases) for op in run(shower_room()).operations if op.point]
    assert [p for p in points if p[1] == "hold"] == [
        ("pressure-test", "hold", "licensed plumber"),
        ("set-drain", "hold", "licensed plumber"),
        ("accept-substrate", "hold", "tiler"),
        ("accept-membrane", "hold", "site manager"),
        ("recheck-membrane", "hold", "tiler"),
        ("heating-test-before", "hold", "licensed electrician"),
        ("heating-test-covered", "hold", "licensed electrician"),
        ("heating-test-after", "hold", "licensed electrician"),
        ("leak-test", "hold", "licensed plumber"),
        ("final-inspection", "hold", "client"),
    ]


def test_a_library_agrees_that_there_is_no_circle() -> None:
    """networkx 3: the graph of generated jobs is acyclic, and the order is one of its topological orders."""
    for seed in range(40):
        s = run(job(seed))
        g = networkx.DiGraph([(link.operation, op.id) for op in s.operations for link in op.after])
        g.add_nodes_from(op.id for op in s.operations)
        assert networkx.is_directed_acyclic_graph(g)
        place = {op.id: i for i, op in enumerate(s.operations)}
        assert all(place[a] < place[b] for a, b in g.edges)


def test_smallest_key_first_and_the_chain_of_a_circle() -> None:
    assert order({"b": (), "a": (), "c": ("b",)}, {"a": (1, 0, 0), "b": (0, 0, 0), "c": (0, 0, 1)}) == ("b", "c", "a")
    with pytest.raises(Cycle) as caught:
        order({"a": ("c",), "b": ("a",), "c": ("b",), "d": ("c",)}, {k: (0, 0, i) for i, k in enumerate("abcd")})
    assert caught.value.chain == ("a", "b", "c", "a")


# ---------------------------------------------------------------- steps of the spec


def step(after: str | None, before: str | None, name: str = "Fit the screen") -> TradeStep:
    return TradeStep(
        said(name), said("glazier"), said(after) if after else None, said(before) if before else None, q(3, "h"), None, HERE
    )


def test_a_step_that_would_come_after_itself_is_named_with_its_chain() -> None:
    s = run(replace(shower_room(), steps=(step("grouting", "membrane"),)))
    (fault,) = s.faults
    assert fault.kind == "cycle" and fault.step.text == "Fit the screen"
    assert (
        fault.chain[0] == fault.chain[-1]
        and "Fit the screen" in fault.chain
        and "grouting" in fault.chain
        and "membrane" in fault.chain
    )
    assert [op.kind for op in s.operations].count("trade-step") == 1


def test_two_steps_that_wait_for_each_other_through_the_work() -> None:
    s = run(replace(shower_room(), steps=(step("sealing", "grouting", "First"), step("final inspection", "tiling", "Second"))))
    assert [f.kind for f in s.faults] == ["cycle", "cycle"]
    assert len(s.operations) == len(run(shower_room()).operations) + 1


def test_sound_steps_are_no_fault() -> None:
    s = run(
        replace(
            shower_room(), steps=(step("membrane", "grouting"), step(None, "first fix", "Scaffold"), step(None, None, "Clean"))
        )
    )
    place = {op.title.text if op.title else op.kind: i for i, op in enumerate(s.operations)}
    assert not s.faults
    assert place["accept-membrane"] < place["Fit the screen"] < place["grout"]
    assert place["survey"] < place["Scaffold"] < place["first-fix-plumbing"]
    assert place["protect-finished"] < place["Clean"] < place["final-inspection"]


def test_an_unknown_stage_offers_the_nearest() -> None:
    (fault,) = run(replace(shower_room(), steps=(step("seeling", None),))).faults
    assert fault.kind == "unknown-stage" and fault.words.text == "seeling" and fault.nearest == "sealing"


def test_a_stage_that_the_job_has_not_takes_its_place_all_the_same() -> None:
    """No membrane here: after the membrane means after what would come before it."""
    s = run(replace(dry_floor(), steps=(step("membrane", None), step(None, "impregnating", "Deliver"))))
    place = {op.title.text if op.title else op.kind: i for i, op in enumerate(s.operations)}
    assert place["prime"] < place["Fit the screen"] and place["Deliver"] < place["protect-finished"]


def test_stage_words() -> None:
    assert {w.first for w in stages.WORDS} | {w.last for w in stages.WORDS} == set(stages.STAGES)
    tiling = stages.find("Tiling")
    assert tiling is not None and (tiling.first, tiling.last) == ("wall-tiling", "bottom-course")
    assert stages.find("second-fix") == stages.find("Second Fix") is not None
    assert stages.find("teatime") is None and stages.offer("teatime") is None


# ---------------------------------------------------------------- records


def hold(j, kind: str):  # type: ignore[no-untyped-def]
    return next(op.point for op in run(j).operations if op.kind == kind)


def test_a_record_signs_its_hold_point() -> None:
    j = shower_room()
    assert hold(j, "accept-membrane").signed is None
    signed = hold(replace(j, records=(record("membrane", "Shower room", result="pass"),)), "accept-membrane")
    assert signed.signed is not None and signed.signed.text == "J. Rook"


def test_a_failed_record_signs_nothing() -> None:
    j = replace(shower_room(), records=(record("membrane", "Shower room", result="fail"),))
    assert hold(j, "accept-membrane").signed is None


def test_a_record_of_one_surface_does_not_sign_for_all() -> None:
    floor = record("membrane", "Shower room/floor", result="pass")
    j = replace(shower_room(), records=(floor,))
    assert hold(j, "accept-membrane").signed is None
    others = tuple(record("membrane", f"Shower room/wall {a}", result="pass") for a in "AD")
    assert hold(replace(j, records=(floor, *others)), "accept-membrane").signed is not None


def test_a_reading_stands_in_its_test() -> None:
    j = replace(shower_room(), records=(record("substrate-moisture", "Shower room/floor", reading=q("1.6", "CM%")),))
    (test,) = [t for t in hold(j, "accept-substrate").tests if t.what == "moisture-cm"]
    # Heated cement screed in Germany and by common trade rules: 1.8 CM-%.
    assert test.limit == q("1.8", "CM%") and test.recorded == q("1.6", "CM%") and test.places == ("Shower room/floor",)
    assert test.recorded_by is not None and test.recorded_by.text == "J. Rook"


def test_a_british_job_measures_humidity_and_waits_for_the_box() -> None:
    s = run(replace(shower_room(), family="UK"))
    box = next(op for op in s.operations if op.kind == "test-moisture")
    assert "humidity" in box.facts and box.value("limit-humidity") == q(75, "%RH")
    level = next(op for op in s.operations if op.kind == "level-floor")
    assert (
        level.after[0].wait is not None and level.after[0].wait.why == "hygrometer" and level.after[0].wait.minimum == q(3, "d")
    )


def test_a_young_screed_is_waited_for() -> None:
    """Laid nine days before the start: 28 d of age and an estimate of 80 d for 65 mm; 71 d are still to come."""
    j = shower_room()
    floor = j.rooms[0].floor
    assert floor is not None
    young = replace(floor, base=replace(floor.base, laid=date(2026, 2, 28)))
    s = run(replace(j, rooms=(replace(j.rooms[0], floor=young),)))
    accepted = next(op for op in s.operations if op.kind == "accept-substrate")
    late = next(k for k in accepted.after if k.operation == "job/survey")
    assert late.wait is not None and late.wait.why == "base-age" and late.wait.minimum == q(71, "d")


def test_water_stands_where_the_practice_asks_and_the_floor_carries_it() -> None:
    """US code texts: 2 in at the threshold; ASTM D5957: 24 h, 100 mm at most, 10 kg/m2 for each centimetre."""
    us = replace(shower_room(), family="US")
    ponding = next(op for op in run(us).operations if op.kind == "ponding-test")
    assert ponding.value("depth") == q(2, "in") and ponding.value("duration") == q(24, "h")
    load = ponding.value("load")
    assert load is not None and abs(float(load.value) - 50.8) < 0.01
    # Not within 24 h of the last coat, even where the film itself is ready for tiles after 4 h.
    assert ponding.after[0].wait is not None and ponding.after[0].wait.minimum == q(24, "h")
    cold = replace(us, conditions=replace(us.conditions, surface=q(9, "C")))
    late = next(op for op in run(cold).operations if op.kind == "ponding-test")
    assert late.after[0].wait is not None and late.after[0].wait.minimum == q(48, "h")
    floor = us.rooms[0].floor
    assert floor is not None
    timber = replace(floor, base=replace(floor.base, kind="timber", laid=None))
    held = run(replace(us, rooms=(replace(us.rooms[0], floor=timber),)))
    assert not [op for op in held.operations if op.kind == "ponding-test"]
    assert "ponding-not-carried" in next(op for op in held.operations if op.kind == "accept-membrane").facts
    assert not [op for op in run(shower_room()).operations if op.kind == "ponding-test"]


# ---------------------------------------------------------------- what the writer is told

SPEC = """tile field 300x300x9 porcelain
floor 2.4 x 1.8
  base concrete
  tile field; joint 3
wall A
  base tile-backer board
  tile field; joint 3
step "Fit the screen" by glazier; {}
"""


def told(where: str) -> list[Diagnostic]:
    compiled = compile("/job.tilespec", MemoryHost({"/job.tilespec": SPEC.format(where)}))
    return [d for d in compiled.diagnostics if d.name in ("step-circle", "unknown-stage")]


def test_a_circle_is_an_error_that_names_its_chain() -> None:
    (d,) = told("after grouting; before wall tiles")
    assert d.name == "step-circle" and d.severity is Severity.ERROR
    assert d.message == '"Fit the screen" would have to come after itself.'
    assert d.notes == (
        "The circle: wall tiling, then grouting, then Fit the screen, then wall tiling.",
    )
    text = SPEC.format("after grouting; before wall tiles")
    assert text[d.primary.span.start : d.primary.span.end] == "wall tiles"


def test_what_is_offered_mends_it() -> None:
    (d,) = told("after seeling")
    assert d.name == "unknown-stage" and d.help == "Did you mean `sealing`?"
    edit = d.fixes[0].edits[0]
    text = SPEC.format("after seeling")
    mended = text[: edit.span.start] + edit.text + text[edit.span.end :]
    assert mended == SPEC.format("after sealing") and not told("after sealing")


def test_a_far_word_gets_the_whole_list() -> None:
    (d,) = told("after teatime")
    assert "sealing" in d.help and "second fix" in d.help and not d.fixes
    for word in stages.OFFERED:
        assert not told(f"after {word}"), word
