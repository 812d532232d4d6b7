"""The working order of each example, read by hand when it changes: step, where, what it waits for and how long."""

from __future__ import annotations

from pathlib import Path

import pytest
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

from tilespec.document.show import show
from tilespec.pipeline import Plan, compile
from tilespec.sequence.types import Operation, Sequence, Wait
from tilespec.workspace.host import DiskHost


class TextFile(SingleFileSnapshotExtension):
    _write_mode = WriteMode.TEXT
    file_extension = "txt"


FOLDER = Path(__file__).resolve().parents[2] / "examples"
# A firm's stock is no job.
EXAMPLES = [p for p in sorted(FOLDER.glob("*.tilespec")) if not p.stem.endswith("stock")]


def waited(wait: Wait | None, family: str) -> str:
    if wait is None:
        return ""
    window = f" to {show(wait.maximum, family)}" if wait.maximum else ""
    return f" {show(wait.minimum, family)}{window} ({wait.why})"


def line(op: Operation, number: int, numbers: dict[str, int], family: str) -> str:
    point = f" [{op.point.kind}: {op.point.releases}]" if op.point else ""
    name = op.title.text if op.title else op.kind
    after = ", ".join(f"{numbers[k.operation]}{waited(k.wait, family)}" for k in op.after)
    return f"{number:3} {op.stage}: {name} | {'; '.join(op.places)} | {op.trade}{point} | after {after or 'nothing'}"


def told(s: Sequence, family: str) -> str:
    numbers = {op.id: i for i, op in enumerate(s.operations, 1)}
    lines = [line(op, numbers[op.id], numbers, family) for op in s.operations]
    lines += [f"hazard {h.key}: {', '.join(str(numbers[o]) for o in h.operations)}" for h in s.hazards]
    lines += [f"lift {f.what} {f.name}: {show(f.load, family)}, {f.measure}" for f in s.lifts]
    return "\n".join(lines)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_order_of_the_example(path: Path, snapshot: SnapshotAssertion) -> None:
    plan = compile(str(path), DiskHost()).plan
    assert isinstance(plan, Plan)
    assert not plan.sequence.faults
    assert told(plan.sequence, plan.job.family) == snapshot(extension_class=TextFile)
