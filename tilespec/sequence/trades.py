"""Steps of other trades, put where the spec says; one that would have to come after itself is reported and stands free."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tilespec.job.types import TradeStep, Words
from tilespec.sequence import stages
from tilespec.sequence.order import Cycle, Key, order
from tilespec.sequence.site import Site
from tilespec.sequence.types import Link, Operation, StepFault


@dataclass(frozen=True, slots=True)
class Placed:
    """The operations in working order, and what was wrong with the spec's own steps."""

    operations: tuple[Operation, ...]
    faults: tuple[StepFault, ...]


@dataclass(frozen=True, slots=True)
class _Step:
    op: Operation
    key: Key
    holds_up: tuple[str, ...]   # operations that must wait for it
    title: Words
    said: Words


def place(operations: tuple[Operation, ...], keys: dict[str, Key], site: Site) -> Placed:
    """All operations and the spec's own steps in one order: stage, then room, then as derived."""
    faults: list[StepFault] = []
    steps = [_step(s, n, operations, keys, faults, site) for n, s in enumerate(site.job.steps)]
    while True:
        merged = {op.id: op for op in operations} | {s.op.id: s.op for s in steps}
        for s in steps:
            for later in s.holds_up:
                merged[later] = replace(merged[later], after=(*merged[later].after, Link(s.op.id)))
        after = {op.id: tuple(link.operation for link in op.after) for op in merged.values()}
        try:
            found = order(after, keys | {s.op.id: s.key for s in steps})
        except Cycle as cycle:
            # Derived operations never wait in a circle, so one of the steps is on it: let that one hold up nothing.
            at = next(i for i, s in enumerate(steps) if s.op.id in cycle.chain and s.holds_up)
            faults.append(StepFault("cycle", steps[at].title, steps[at].said, _names(cycle.chain, merged)))
            steps[at] = replace(steps[at], holds_up=())
            continue
        return Placed(tuple(merged[i] for i in found), tuple(faults))


def _names(chain: tuple[str, ...], operations: dict[str, Operation]) -> tuple[str, ...]:
    """What is on a circle, in words: titles of steps, stages of the rest; a stage that follows itself is said once."""
    names: list[str] = []
    for op in (operations[i] for i in chain):
        name = op.title.text if op.title else op.stage.replace("-", " ")
        if not names or names[-1] != name:
            names.append(name)
    return tuple(names)


def _step(
    step: TradeStep, n: int, operations: tuple[Operation, ...], keys: dict[str, Key], faults: list[StepFault], site: Site,
) -> _Step:
    # A step for one room still comes after what is done for the whole job.
    scope = [op for op in operations if step.room is None or op.room in (step.room, None)]
    after = _stage(step.after, step, faults)
    before = _stage(step.before, step, faults)
    if after is None and before is None:
        after = stages.StageWord("protection", "protection", "protection")
    links: tuple[Link, ...] = ()
    stage = "survey"
    if after is not None:
        stage = after.last
        links = tuple(Link(op.id) for op in _upto(scope, after))
    else:
        links = tuple(Link(op.id) for op in scope if op.kind == "survey")
    holds_up: tuple[str, ...] = ()
    if before is not None:
        holds_up = tuple(op.id for op in _from(scope, before))
        if after is None:
            stage = before.first
    elif after is not None:
        # Nothing is handed over before it is done.
        last = "inspection" if stages.index(stage) < stages.index("inspection") else "hand-over"
        holds_up = tuple(op.id for op in scope if op.stage == last and op.stage != stage)
    rooms = [r.name for r in site.job.rooms]
    at = rooms.index(step.room) if step.room in rooms else (len(rooms) if after is not None else -1)
    # After its stage: behind everything of that stage in its room. Before: in front.
    place = len(operations) + n if after is not None else n - len(site.job.steps)
    op = Operation(
        id=f"step/{n}", kind="trade-step", stage=stage, room=step.room, places=(step.room,) if step.room else tuple(rooms),
        after=links, trade=step.trade.text, labour=step.takes, title=step.title, span=step.span,
    )
    said = step.before if step.before is not None and before is not None else step.after or step.title
    return _Step(op, (stages.index(stage), at, place), holds_up, step.title, said)


def _stage(words: Words | None, step: TradeStep, faults: list[StepFault]) -> stages.StageWord | None:
    if words is None:
        return None
    found = stages.find(words.text)
    if found is None:
        faults.append(StepFault("unknown-stage", step.title, words, nearest=stages.offer(words.text)))
    return found


def misnamed(steps: tuple[TradeStep, ...]) -> tuple[StepFault, ...]:
    """The steps that name no stage of the work, as the steps alone show."""
    faults: list[StepFault] = []
    for step in steps:
        for words in (step.after, step.before):
            _stage(words, step, faults)
    return tuple(faults)


def _upto(scope: list[Operation], word: stages.StageWord) -> list[Operation]:
    """The operations of a stage; where the job has none, those of the last stage before it."""
    here = _between(scope, word)
    if here:
        return here
    earlier = [op for op in scope if stages.index(op.stage) < stages.index(word.first)]
    last = max((stages.index(op.stage) for op in earlier), default=-1)
    return [op for op in earlier if stages.index(op.stage) == last]


def _from(scope: list[Operation], word: stages.StageWord) -> list[Operation]:
    """The operations of a stage; where the job has none, those of the first stage after it."""
    here = _between(scope, word)
    if here:
        return here
    later = [op for op in scope if stages.index(op.stage) > stages.index(word.last)]
    first = min((stages.index(op.stage) for op in later), default=-1)
    return [op for op in later if stages.index(op.stage) == first]


def _between(scope: list[Operation], word: stages.StageWord) -> list[Operation]:
    return [op for op in scope if stages.index(word.first) <= stages.index(op.stage) <= stages.index(word.last)]
