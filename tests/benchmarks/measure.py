"""What things cost, as ratios measured in one run: `python tests/benchmarks/measure.py`.

Nothing here passes or fails: a machine's speed is no property of tilespec. Read the ratios, and compare them with the goals
beside them.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
RUNS = 7


def room(number: int) -> str:
    """A room of fifteen lines."""
    return f"""room "Room {number}" height 2.4
floor 2.4 x 1.8
  base cement screed; thickness 65 mm; laid 2025-12-08
  tile ground; joint 3; straight; joint on centre
  fall 1:60 four planes; drain 0.45 from wall D, 0.45 from wall A
shower in corner D A, 0.9 x 0.9; head at height 2.1; valve on wall A 0.45 from left, 1.1 up
wall A
  base tile-backer board
  tile field; joint 3; full tile at datum
wall B
  base tile-backer board
  tile field; joint 3; full tile at datum
wall D
  base tile-backer board
  tile field; joint 3; full tile at datum
"""


def spec(rooms: int) -> str:
    head = """job "Benchmark"
  practice EN; begin 2026-03-09
tile ground 300x300x9 porcelain; weight 20 kg/m2; box of 11; barefoot class B
tile field 600x300x9 porcelain landscape; weight 20 kg/m2; box of 6
"""
    return head + "".join(room(n) for n in range(rooms))


def wall(command: list[str]) -> float:
    """Median seconds of a whole process."""
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        subprocess.run(command, check=True, capture_output=True, cwd=ROOT)
        times.append(time.perf_counter() - start)
    return statistics.median(times[1:])


def inside(work: Callable[[], object], runs: int = 3) -> float:
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def say(what: str, ratio: float, goal: str) -> None:
    print(f"{what:74} {ratio:8.2f}   goal {goal}")


def main() -> None:
    sys.path.insert(0, str(ROOT))
    from tilespec.source import Source
    from tilespec.syntax.parse import parse

    python = sys.executable
    with tempfile.TemporaryDirectory() as folder:
        small = Path(folder) / "small.tilespec"
        small.write_text(spec(19), encoding="utf-8")
        lines = small.read_text(encoding="utf-8").count("\n")
        floor = wall([python, "-c", "import click, lark"])
        checked = wall([python, "-m", "tilespec", "check", str(small)])
        say(f"check of {lines} lines / (start and import of click and lark)", checked / floor, "<= 1.5")
        shower = wall([python, "-m", "tilespec", "check", "examples/shower-room.tilespec"])
        say("check of the shower room / (start and import of click and lark)", shower / floor, "-")

    few, many = spec(20), spec(2000)
    parse(Source("warm", few))
    texts = (("few", few), ("many", many))
    rate = {n: text.count("\n") / inside(lambda text=text: parse(Source("x", text))) for n, text in texts}
    say(f"parsing: lines a second at {many.count(chr(10))} lines / at {few.count(chr(10))}", rate["many"] / rate["few"], ">= 0.8")

    from tilespec import pipeline
    from tilespec.workspace.host import MemoryHost

    def compiled(rooms: int) -> float:
        host = MemoryHost({"/job.tilespec": spec(rooms)})
        return inside(lambda: pipeline.compile("/job.tilespec", host), 2)

    compiled(2)
    say("compiling 16 rooms / 8 rooms (up to the sequence)", compiled(16) / compiled(8), "<= 2.1")

    from tilespec.document import compose, html, pdf
    from tilespec.document.templates import Templates
    from tilespec.workspace.host import DiskHost

    made = pipeline.compile(str(ROOT / "examples" / "shower-room.tilespec"), DiskHost())
    plan = made.plan
    assert plan is not None
    sources = tuple(made.sources.values())
    document = compose(
        plan.job, plan.practice, plan.setout, plan.offcuts, plan.takeoff, plan.sequence, plan.programme, made.diagnostics,
        sources,
    )
    page = html.page(document, Templates(None))
    whole = inside(lambda: pipeline.render(made, pipeline.Order("pdf")))

    def press_alone() -> None:
        with pdf.Press() as press:
            press.print(page)

    say("print of the shower room / typesetting the same HTML alone", whole / inside(press_alone), "<= 1.10")


if __name__ == "__main__":
    main()
