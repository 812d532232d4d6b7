"""Deviations: what a written reason silences, and what none does."""

from __future__ import annotations

import pytest

from tests.checks.specs import PATH, at, mended, names, only, said, wall
from tilespec import pipeline
from tilespec.checks import RULES, review
from tilespec.checks.rule import QUALITY
from tilespec.diagnostics.catalogue import entries, explain
from tilespec.workspace.host import MemoryHost

CUT = explain("low-window-cut").bad


def deviation(rule: str, place: str = "wall A") -> str:
    return f'deviation {rule} on {place} because "agreed by the client 2026-02-20"\n'


@pytest.mark.parametrize("named", ["low-window-cut", "T2402", "t2402"])
def test_a_reason_silences_a_rule_of_quality(named: str) -> None:
    assert names(CUT) == ["low-window-cut"]
    assert names(CUT + deviation(named)) == []


def test_what_was_silenced_goes_to_the_register() -> None:
    plan = pipeline.compile(PATH, MemoryHost({PATH: CUT + deviation("low-window-cut")})).plan
    assert plan is not None
    found = review(plan.job, plan.practice, plan.takeoff, plan.sequence)
    assert found.diagnostics == ()
    assert [(w.deviation.reason.text, w.diagnostic.name) for w in found.waived] == [
        ("agreed by the client 2026-02-20", "low-window-cut")
    ]


def test_it_holds_for_its_place_only() -> None:
    two = CUT + CUT.split("wall A")[1].join(["wall B", ""])
    assert names(two) == ["low-window-cut", "low-window-cut"]
    assert names(two + deviation("low-window-cut")) == ["low-window-cut"]
    assert names(two + deviation("low-window-cut") + deviation("low-window-cut", "wall B")) == []


def test_a_room_covers_its_walls() -> None:
    spec = f'room "Bath" height 2.4\n{CUT}room "Toilet" height 2.4\n{CUT.split("datum")[0].split(chr(10), 1)[1]}'
    spec = spec.replace("wall A 2.4 x 2.4", "floor 2.4 x 1.8; base concrete\nwall A")
    if "low-window-cut" not in names(spec):
        pytest.fail(str([d.message for d in said(spec)]))
    assert "low-window-cut" not in names(spec + deviation("low-window-cut", '"Bath"'))
    assert "low-window-cut" in names(spec + deviation("low-window-cut", '"Toilet"'))


def test_the_message_offers_the_line_that_silences_it() -> None:
    note = only(CUT, "low-window-cut").notes[-1]
    line = note.split("`")[1]
    assert line == 'deviation low-window-cut on wall A because "..."'
    assert names(CUT + line.replace("...", "matches the hall") + "\n") == []


@pytest.mark.parametrize("rule", [r for r in RULES if r.guards == QUALITY], ids=lambda r: r.name)
def test_the_offered_line_silences_every_rule_of_quality(rule) -> None:  # type: ignore[no-untyped-def]
    found = [d for d in said(rule.bad) if d.name == rule.name]
    lines = dict.fromkeys(d.notes[-1].split("`")[1].replace("...", "agreed 2026-02-20") for d in found)
    assert rule.name not in names(rule.bad + "\n".join(lines) + "\n")


@pytest.mark.parametrize("rule", [r for r in RULES if r.guards != QUALITY], ids=lambda r: r.name)
def test_what_guards_against_injury_or_water_cannot_be_silenced(rule) -> None:  # type: ignore[no-untyped-def]
    place = "floor" if "\nfloor" in rule.bad else "wall A"
    spec = rule.bad + deviation(rule.name, place)
    found = names(spec)
    assert rule.name in found and "deviation-refused" in found
    assert at(spec, only(spec, "deviation-refused")) == rule.name
    assert not any("deviation " in n for d in said(rule.bad) if d.name == rule.name for n in d.notes)


def test_a_message_about_the_spec_cannot_be_deviated_from() -> None:
    language = next(e for e in entries() if e.stage == "syntax")
    assert "deviation-refused" in names(CUT + deviation(language.name))


def test_an_unknown_rule_is_named_with_the_nearest() -> None:
    spec = CUT + deviation("low-windw-cut")
    found = only(spec, "deviation-of-unknown-rule")
    assert found.help == "Did you mean `low-window-cut`?"
    assert names(mended(spec, found)) == []


def test_an_unknown_rule_with_nothing_near() -> None:
    found = only(CUT + deviation("anything-else-at-all"), "deviation-of-unknown-rule")
    assert found.fixes == () and "explain" in found.help


def test_a_deviation_that_silences_nothing_is_told() -> None:
    spec = wall("base cement render", "tile wall-tile; joint 3") + deviation("joint-too-narrow")
    assert names(spec) == ["deviation-without-effect"]
