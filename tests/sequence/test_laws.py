"""The laws of the sequence, on generated jobs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache

import pytest

from tests.sequence.building import job, run
from tests.sequence.generate import spec
from tests.sequence.laws import APPLIES, LAWS, ONCE, Case
from tilespec.diagnostics.model import Severity
from tilespec.pipeline import compile
from tilespec.sequence.types import Link, Operation
from tilespec.workspace.host import MemoryHost


@lru_cache(maxsize=None)
def case(seed: int) -> Case:
    """A job built by hand: also what the language would not let pass."""
    j = job(seed)
    return Case(f"job {seed}", j, run(j))


@lru_cache(maxsize=None)
def written(seed: int) -> Case:
    """A spec as text, read by tilespec's own front end."""
    text = spec(seed)
    compiled = compile("/job.tilespec", MemoryHost({"/job.tilespec": text}))
    errors = [d.message for d in compiled.diagnostics if d.severity is Severity.ERROR]
    assert compiled.plan is not None and not errors, f"spec {seed} is not sound: {errors}"
    # Measured by area, as checks do: the laws do not ask where the tiles lie.
    return Case(f"spec {seed}", compiled.plan.job, run(compiled.plan.job))


def test_there_are_enough_laws() -> None:
    assert len(LAWS) >= 20


@pytest.mark.parametrize("name", LAWS)
def test_law_on_a_few_jobs(name: str) -> None:
    for seed in range(60):
        LAWS[name](case(seed))
    for seed in range(25):
        LAWS[name](written(seed))


@pytest.mark.slow
@pytest.mark.parametrize("name", LAWS)
def test_law_on_hundreds_of_specs(name: str) -> None:
    for seed in range(300):
        LAWS[name](written(seed))


@pytest.mark.slow
@pytest.mark.parametrize("name", LAWS)
def test_law_on_jobs_built_by_hand(name: str) -> None:
    for seed in range(250):
        LAWS[name](case(seed))


@pytest.mark.slow
def test_every_kind_of_step_is_generated() -> None:
    """A law about a step that no generated job has would hold without saying anything."""
    known = {*APPLIES, *ONCE, "trade-step"}
    assert {op.kind for seed in range(300) for op in case(seed).sequence.operations} == known
    assert {op.kind for seed in range(150) for op in written(seed).sequence.operations} == known


def test_same_job_same_sequence() -> None:
    for seed in range(10):
        assert run(job(seed)) == run(job(seed))


def broken(c: Case) -> Iterator[Case]:
    """The case with one thing wrong at a time."""
    s = c.sequence
    ops = s.operations

    def with_ops(changed: Iterable[Operation], **more: object) -> Case:
        return Case(c.name, c.job, replace(s, operations=tuple(changed), **more))  # type: ignore[arg-type]

    yield with_ops(replace(op, after=()) for op in ops)
    yield with_ops(replace(op, after=tuple(Link(k.operation) for k in op.after)) for op in ops)
    yield with_ops(
        replace(
            op,
            after=tuple(
                Link(
                    k.operation,
                    k.wait
                    and replace(
                        k.wait,
                        minimum=k.wait.minimum.__class__(
                            k.wait.minimum.value / 1000, k.wait.minimum.kind, k.wait.minimum.shown, k.wait.minimum.why
                        ),
                        maximum=k.wait.minimum,
                        overrun=None,
                    ),
                )
                for k in op.after
            ),
        )
        for op in ops
    )
    yield with_ops(ops, hazards=())
    yield with_ops(replace(op, hazards=()) for op in ops)
    yield with_ops(replace(op, hazards=("lone-work", "asbestos", "lead")) for op in ops)
    yield with_ops(ops, hazards=tuple(replace(h, licensed="") for h in s.hazards))
    yield with_ops(replace(op, point=None) for op in ops)
    yield with_ops(reversed(ops))
    yield with_ops(ops[:-1])
    yield with_ops(op for op in ops if op.kind != "final-inspection")
    yield with_ops(replace(op, products=()) for op in ops)
    yield with_ops(replace(op, facts=("membrane",)) for op in ops)
    if len(c.rooms) > 1:
        first = next(op for op in ops if op.room)
        yield with_ops(replace(op, after=(*op.after, Link(first.id))) if op.room else op for op in ops)


@pytest.mark.slow
def test_each_law_can_be_broken() -> None:
    """Each law objects to some sequence with a fault: a law that nothing can break says nothing."""
    unbroken = dict.fromkeys(LAWS)
    for seed in range(200):
        for wrong in broken(case(seed)):
            for name in list(unbroken):
                try:
                    LAWS[name](wrong)
                except (AssertionError, KeyError, IndexError, StopIteration):
                    del unbroken[name]
        if not unbroken:
            break
    assert not unbroken
