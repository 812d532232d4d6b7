"""Wording and sequence fit together: nothing derived that no template says, nothing said that is never derived."""

from __future__ import annotations

import re
from functools import lru_cache
from types import SimpleNamespace

import pytest

from tests.sequence.building import job, run
from tests.sequence.laws import APPLIES, ONCE
from tests.sequence.wording import FOLDER, HazardView, StepView, macros, said
from tilespec.sequence.hazards import KEYS
from tilespec.sequence.types import Sequence, Wait

KINDS = (*APPLIES, *ONCE, "trade-step")
# Facts and values that other parts read: hazards, the hand-over print, or an `else` that needs no name.
READ_ELSEWHERE = {
    "prepare-base": {"fact floor"},
    "hand-over": {"value floor-warmest", "value full-load-after"},
    "lay-screed": {"fact base-cement-screed"},
    "membrane-first-coat": {"fact class-CM"},
    "membrane-second-coat": {"fact class-CM"},
    "grout": {"fact cement"},
    "form-falls": {"fact planes-one"},
    "heating-test-before": {"fact mat", "fact cable"},
    "heating-test-covered": {"fact mat", "fact cable"},
    "heating-test-after": {"fact mat", "fact cable"},
}


@lru_cache(maxsize=None)
def sequences() -> tuple[Sequence, ...]:
    return tuple(run(job(seed)) for seed in range(250))


def test_each_kind_of_step_has_a_title_what_to_do_and_a_check() -> None:
    have = macros("operations")
    for kind in KINDS:
        for part in ("title", "do", "check"):
            assert f"{kind.replace('-', '_')}_{part}" in have, (kind, part)
    known = {k.replace("-", "_") for k in KINDS} | {"coat", "bedding", "tile_kinds", "cutting", "heating"}
    for name in have:
        assert re.sub(r"_(title|do|check|tools|test)$", "", name) in known, name


def test_steps_read_as_short_lists() -> None:
    for s in sequences():
        for op in s.operations:
            view = StepView(op, set())
            assert said("operations", op.kind, "title", view)
            lines = said("operations", op.kind, "do", view).split("\n")
            assert 1 <= len(lines) <= 14, (op.kind, len(lines))
            for line in lines:
                assert line.startswith("- ") and line == line.rstrip() and line[-1] in ".:", (op.kind, line)
                assert not re.search(r"  | [,.;:]|\.- |,\.|\.\.", line), (op.kind, line)
            check = said("operations", op.kind, "check", view)
            assert check.endswith(".") and "\n" not in check, op.kind


def test_every_fact_and_value_is_said_and_every_one_said_is_derived() -> None:
    asked: dict[str, set[str]] = {}
    given: dict[str, set[str]] = {}
    for s in sequences():
        for op in s.operations:
            view = StepView(op, asked.setdefault(op.kind, set()))
            for part in ("title", "do", "check"):
                said("operations", op.kind, part, view)
            given.setdefault(op.kind, set()).update(f"fact {f}" for f in op.facts)
            given[op.kind].update(f"value {name}" for name, _ in op.values)
    for kind in given:
        assert given[kind] - asked[kind] <= READ_ELSEWHERE.get(kind, set()), (kind, given[kind] - asked[kind])
        assert not asked[kind] - given[kind], (kind, asked[kind] - given[kind])


def test_every_wait_test_and_hazard_has_its_words() -> None:
    used: dict[str, set[str]] = {"waits": set(), "tests": set(), "hazards": set()}
    for s in sequences():
        for op in s.operations:
            for link in op.after:
                if link.wait is not None:
                    assert said("waits", link.wait.why, "why", link.wait)
                    used["waits"].add(f"{link.wait.why.replace('-', '_')}_why")
                    if isinstance(link.wait.overrun, str):
                        assert said("waits", link.wait.overrun, "overrun", link.wait)
            for test in op.point.tests if op.point else ():
                assert said("tests", test.what, "what", test)
                used["tests"].add(f"{test.what.replace('-', '_')}_what")
        for h in s.hazards:
            for part in ("title", "short", "do"):
                assert said("hazards", h.key, part, HazardView(h))
                used["hazards"].add(f"{h.key.replace('-', '_')}_{part}")
            assert all(q is not None for _, q in h.values)
    assert {m for m in macros("waits") if m.endswith("_why")} == used["waits"]
    assert set(macros("tests")) == used["tests"]
    assert set(macros("hazards")) == used["hazards"]
    assert {h.key for s in sequences() for h in s.hazards} == set(KEYS)


@pytest.mark.parametrize("overrun", ["prime-again", "coat-window", "tile-window", "ask-maker"])
def test_what_to_do_when_a_wait_is_overrun(overrun: str) -> None:
    wait = next(k.wait for s in sequences() for op in s.operations for k in op.after if k.wait)
    assert isinstance(wait, Wait) and said("waits", overrun, "overrun", wait)


@pytest.mark.parametrize("file", ["operations", "waits", "tests", "hazards"])
def test_no_number_stands_in_the_text(file: str) -> None:
    """A number on paper is a quantity with its why, never a digit in a template."""
    text = (FOLDER / f"{file}.md.j2").read_text(encoding="utf-8")
    outside = re.sub(r"\{[%#{].*?[%#}]\}", "", text, flags=re.DOTALL)
    assert not re.search(r"\d", outside)


def test_tools_are_lists() -> None:
    for name, tool in macros("operations").items():
        if name.endswith("_tools"):
            for facts in (("cm",), ("humidity",), ("cm", "humidity")):
                lines = str(tool(SimpleNamespace(facts=facts))).strip().split("\n")  # type: ignore[operator]
                assert all(line.startswith("- [ ] ") for line in lines), name


def test_every_hazard_names_first_aid_or_what_to_do_when_it_happens() -> None:
    """Whoever is hurt needs it on the same page."""
    helps = ("doctor", "rinse", "help", "call", "stop", "they come")
    for s in sequences()[:60]:
        for h in s.hazards:
            if h.key not in ("wash-out", "others-about"):
                assert any(word in said("hazards", h.key, "do", HazardView(h)).casefold() for word in helps), h.key
