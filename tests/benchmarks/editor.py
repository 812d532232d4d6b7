"""What a keystroke costs while a spec is written, by replaying one: `python tests/benchmarks/editor.py`.

Nothing here is timed against a limit: a machine's speed is no property of tilespec. What is held is how much work is done: one
statement read, one room built and looked at, whatever the length of the job. Read the ratios, and compare them with the goals
beside them; the milliseconds are this machine's, of the processor, from the change to the messages.
"""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(Path(__file__).resolve().parent)]

from measure import say, spec  # noqa: E402

from tilespec import pipeline  # noqa: E402
from tilespec.editor.desk import Desk  # noqa: E402
from tilespec.workspace.host import MemoryHost  # noqa: E402

SPEC = "/job.tilespec"
ADDED = "wall C\n  base tile-backer board\n  tile field; joint 3; full tile at datum\n"


def trace(text: str) -> Iterator[tuple[str, str]]:
    """What is typed, letter by letter, and the text then: a number changed, a wall added in the middle, a comment at the top, a
    tile of everybody changed."""
    at = text.index("joint 3; full", len(text) // 2)
    for new in ("joint 30", "joint 3", "joint ", "joint 4", "joint 4;", "joint 4"):
        yield "number", text[:at] + new + text[at + 7 :]
    text = text[:at] + "joint 4" + text[at + 7 :]
    at = text.index("wall D\n", len(text) // 2)
    for n in range(1, len(ADDED) + 1):
        yield "wall", text[:at] + ADDED[:n] + ("" if ADDED[n - 1] == "\n" else "\n") + text[at:]
    text = text[:at] + ADDED + text[at:]
    at = text.index("tile ground 300")
    for n in range(1, 24):
        yield "comment", text[:at] + "# measured on a Tuesday"[:n] + "\n" + text[at:]
    at = text.index("weight 20 kg/m2; box of 6")
    for new in ("weight 2", "weight 21", "weight 21 kg/m2"):
        yield "tile of all", text[:at] + new + text[at + 15 :]


@dataclass(frozen=True, slots=True)
class Replay:
    """Milliseconds by what was typed, and the most that one keystroke read, built and looked at anew."""

    times: dict[str, list[float]]
    read: int
    built: int
    looked: int

    @property
    def all(self) -> list[float]:
        return sorted(t for listed in self.times.values() for t in listed)

    def at(self, share: float) -> float:
        return self.all[int(len(self.all) * share)]


def opened(rooms: int) -> Desk:
    """A job of so many rooms, after the pause that follows opening."""
    text = spec(rooms)
    desk = Desk(MemoryHost({SPEC: text}))
    desk.write(SPEC, text)
    work = desk.work(SPEC)
    behind = work.run() if work is not None else None
    assert behind is not None
    desk.settle(SPEC, behind)
    return desk


def replay(sizes: tuple[int, ...]) -> list[Replay]:
    """One trace in jobs of so many rooms, keystroke by keystroke in turn: a machine that slows down slows them all."""
    desks = [opened(rooms) for rooms in sizes]
    done = [Replay({}, 0, 0, 0) for _ in sizes]
    for steps in zip(*(trace(spec(rooms)) for rooms in sizes)):
        for n, (desk, (what, now)) in enumerate(zip(desks, steps)):
            page, r = desk.pages[SPEC], done[n]
            before = page.typed[SPEC].kept.count, page.writing.parts.made.get("room", 0), page.writing.rules.looked
            start = time.process_time()
            desk.found(desk.write(SPEC, now))
            r.times.setdefault(what, []).append((time.process_time() - start) * 1000)
            if what != "tile of all":
                read = page.typed[SPEC].kept.count - before[0]
                built = page.writing.parts.made.get("room", 0) - before[1]
                looked = page.writing.rules.looked - before[2]
                done[n] = Replay(r.times, max(r.read, read), max(r.built, built), max(r.looked, looked))
    return done


class Editor:
    """Speaks with the language server as an editor does, over its standard input and output."""

    def __init__(self) -> None:
        command = [sys.executable, "-m", "tilespec", "editor"]
        self.server = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=ROOT)

    def send(self, method: str, params: dict[str, object], number: int | None = None) -> None:
        said = {"jsonrpc": "2.0", "method": method, "params": params, **({"id": number} if number is not None else {})}
        body = json.dumps(said).encode()
        assert self.server.stdin is not None
        self.server.stdin.write(b"Content-Length: %d\r\n\r\n" % len(body) + body)
        self.server.stdin.flush()

    def hear(self) -> dict[str, object]:
        assert self.server.stdout is not None
        size = 0
        while line := self.server.stdout.readline().strip():
            if line.lower().startswith(b"content-length:"):
                size = int(line.split(b":")[1])
        heard: dict[str, object] = json.loads(self.server.stdout.read(size))
        return heard

    def told(self, version: int) -> None:
        """Wait for the messages of a version of the text."""
        while True:
            heard = self.hear()
            params = heard.get("params")
            messages = heard.get("method") == "textDocument/publishDiagnostics"
            if messages and isinstance(params, dict) and params.get("version") == version:
                return


def spoken(rooms: int, rest: float) -> dict[str, list[float]]:
    """Milliseconds of the clock from a change to its messages. `rest`: seconds of pause after opening."""
    text, times = spec(rooms), dict[str, list[float]]()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "job.tilespec")
        path.write_text(text, encoding="utf-8")
        editor, document = Editor(), {"uri": path.as_uri(), "languageId": "tilespec"}
        editor.send("initialize", {"processId": None, "rootUri": None, "capabilities": {}}, 1)
        while editor.hear().get("id") != 1:
            pass
        editor.send("initialized", {})
        editor.send("textDocument/didOpen", {"textDocument": {**document, "version": 0, "text": text}})
        editor.told(0)
        time.sleep(rest)
        for version, (what, now) in enumerate(trace(text), 1):
            change = {"textDocument": {**document, "version": version}, "contentChanges": [{"text": now}]}
            start = time.perf_counter()
            editor.send("textDocument/didChange", change)
            editor.told(version)
            times.setdefault(what, []).append((time.perf_counter() - start) * 1000)
        editor.server.kill()
        editor.server.wait()
    return times


def main() -> None:
    few, usual, many = replay((5, 20, 80))
    for r in (few, usual, many):
        assert (r.read, r.built, r.looked) == (1, 1, 1), "a keystroke does the work of one statement and one room"
    host = MemoryHost({SPEC: spec(20)})
    pipeline.compile(SPEC, host)
    start = time.process_time()
    pipeline.compile(SPEC, host)
    whole = (time.process_time() - start) * 1000
    say("keystroke in 300 lines / checking them from nothing", statistics.median(usual.all) / whole, "-")
    say("keystroke in 1200 lines / in 75 lines", statistics.median(many.all) / statistics.median(few.all), "1")
    say("keystroke in 1200 lines / in 300 lines", statistics.median(many.all) / statistics.median(usual.all), "1")
    print(f"300 lines, ms here: {statistics.median(usual.all):.1f} median (goal 16), {usual.at(0.95):.1f} at 95 % (goal 50)")
    for what, listed in usual.times.items():
        print(f"    {what:12} {statistics.median(listed):6.1f} median {max(listed):6.1f} most")
    for rooms in (20, 80):
        heard = Replay(spoken(rooms, rooms / 4), 1, 1, 1)
        median, most = statistics.median(heard.all), heard.at(0.95)
        print(f"{15 * rooms} lines, through the protocol, by the clock: {median:.1f} median, {most:.1f} at 95 %")


if __name__ == "__main__":
    main()
