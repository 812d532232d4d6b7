"""The starter spec of one room from a few facts, with all that is still to be asked as comments at its end."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from tilespec import pipeline
from tilespec.diagnostics.model import Severity
from tilespec.diagnostics.printable import printable
from tilespec.job.types import Question
from tilespec.syntax.tidy import tidy
from tilespec.workspace.host import MemoryHost

_PATH = "job.tilespec"
# By whom, in the order of the survey sheet.
_WHO = {
    "survey": "Look and measure on site:", "client": "Ask the client or the site:", "designer": "Ask the designer:",
    "data sheet": "Read on the data sheet or the box:",
}  # fmt: skip
# What each size is, how it is said, and how many sides it has.
_SIZES = {
    "size": ("size of a floor", "Write its two sides, as in", 2, 2), "height": ("height", "Write it as in", 1, 1),
    "tile": ("size of a tile", "Write width x height x thickness, as in", 2, 3),
    "floor_tile": ("size of a tile", "Write width x height x thickness, as in", 2, 3),
}  # fmt: skip
_TIMES = re.compile("[x×*]", re.IGNORECASE)
_CORNER = re.compile(r"\s*([A-Za-z])[ ,]*([A-Za-z])(?:[ ,]+(?=[0-9])(.*))?\s*")


@dataclass(frozen=True, slots=True)
class Facts:
    """What is said of the room; what is None is taken meanwhile, and the spec says so.

    shower  its corner and perhaps its size, as in "D A" or "D A, 0.9 x 1.2"; "" for none
    """

    practice: str = "EN"
    room: str | None = None
    size: str | None = None
    height: str | None = None
    shower: str = ""
    heated: bool = False
    tile: str | None = None
    floor_tile: str | None = None
    title: str | None = None


@dataclass(frozen=True, slots=True)
class Starter:
    """The finished text. `open`: how many questions stand at its end."""

    text: str
    open: int


class Unfit(Exception):
    """A fact that makes no spec: which, what is wrong with it, and what to write instead."""

    def __init__(self, fact: str, message: str, help: str = "") -> None:
        super().__init__(message)
        self.fact, self.message, self.help = fact, message, help


def taken(facts: Facts) -> dict[str, str]:
    """What stands for a fact that nobody has said: common practice, no source."""
    us = facts.practice == "US"
    return {
        "room": "Bathroom",
        "size": "8 ft x 6 ft" if us else "2.4 x 1.8",
        "height": "8 ft" if us else "2.4",
        "shower": "3 ft x 3 ft" if us else "0.9 x 0.9",
        "tile": "12 in x 24 in x 3/8 in" if us else "300x600x9",
        "floor_tile": "12 in x 12 in x 3/8 in" if us else "300x300x9",
    }


def starter(facts: Facts) -> Starter:
    """A spec without errors in canonical form. Raises Unfit."""
    lines = list(_lines(facts))
    compiled = pipeline.compile(_PATH, MemoryHost({f"/{_PATH}": "".join(f"{text}\n" for _, text in lines)}))
    for d in compiled.diagnostics:
        if d.severity is Severity.ERROR:
            line, _ = compiled.sources[d.primary.span.file].line_column(d.primary.span.start)
            raise Unfit(lines[min(line, len(lines)) - 1][0], d.message, d.help)
    assert compiled.plan is not None
    asks = list(_asks(compiled.plan.job.questions))
    text = "\n".join([*_head(facts), "", *(text for _, text in lines), "", *asks])
    return Starter(tidy(text + "\n"), sum(line.startswith("# ask: ") for line in asks))


def _lines(facts: Facts) -> Iterator[tuple[str, str]]:
    """The lines of the spec, each with the fact that it rests on."""
    meanwhile = taken(facts)
    name = _words("room", facts.room) if facts.room is not None else meanwhile["room"]
    size, height, tile, floor_tile = (
        _sized(key, _words(key, said), meanwhile[key]) if (said := getattr(facts, key)) is not None else meanwhile[key]
        for key in _SIZES
    )
    title = _words("title", facts.title) if facts.title is not None else ""
    for fact, what, said in (("room", "A room's name", name), ("title", "The title", title)):
        if '"' in said or len(said) > 80 or (not said and getattr(facts, fact) is not None):
            raise Unfit(fact, f"{what} is one to 80 characters long and holds no quotation mark.")
    yield "title", f'job "{title}"' if title else "job"
    yield "practice", f"  practice {facts.practice}"
    yield "", ""
    yield "floor_tile", f"tile floor-tile {floor_tile}"
    yield "tile", f"tile wall-tile {tile}"
    yield "", ""
    yield "room", f'room "{name}"'
    yield "height", f"  height {height}"
    yield "size", f"floor {size}"
    if facts.heated:
        yield "heated", "  heated"
    yield "floor_tile", "  tile floor-tile"
    if facts.shower:
        first, second, wide = _shower(facts.shower)
        yield "shower", f"shower in corner {first} {second}, {wide or meanwhile['shower']}"
    for letter in "ABCD":
        yield "tile", f"wall {letter}"
        yield "tile", "  tile wall-tile"


def _words(fact: str, said: str) -> str:
    """What is said stays on its line, and ends no piece of it."""
    if said != printable(said) or (fact not in ("room", "title") and re.search("[;#]", said)):
        raise Unfit(fact, "This cannot be written on one line of a spec.", "Say it in plain words and numbers.")
    return said.strip()


def _sized(fact: str, said: str, example: str) -> str:
    """A size is told by its shape before the language looks at it: of a line of the spec nobody has been asked."""
    what, how, least, most = _SIZES[fact]
    sides = _TIMES.split(said)
    if not least <= len(sides) <= most or not all(re.search("[0-9]", side) for side in sides):
        raise Unfit(fact, f"`{said}` is no {what}.", f"{how} {example}.")
    return said


def _shower(said: str) -> tuple[str, str, str]:
    found = _CORNER.fullmatch(_words("shower", said))
    if found is None:
        raise Unfit("shower", "The shower stands in a corner.", 'Say its two walls, and its size if known: "D A, 0.9 x 0.9".')
    return found[1].upper(), found[2].upper(), (found[3] or "").strip()


def _head(facts: Facts) -> Iterator[str]:
    yield "# Walls run clockwise seen from above: A along the top of the plan. What you leave out is assumed and asked."
    names = {
        "size": "the size of the floor", "height": "the height of the room", "tile": "the wall tile",
        "floor_tile": "the floor tile",
    }  # fmt: skip
    missing = [words for key, words in names.items() if getattr(facts, key) is None]
    if facts.shower and not _shower(facts.shower)[2]:
        missing.append("the size of the shower")
    if missing:
        listed = f"{', '.join(missing[:-1])} and {missing[-1]}" if len(missing) > 1 else missing[0]
        yield f"# Nobody has said {listed}:"
        yield "# what stands here is a common size, no more. Put yours in its place."


def _asks(questions: tuple[Question, ...]) -> Iterator[str]:
    """Each question once."""
    yield "# Still open. Write the answer into the spec and take the line out; `tilespec survey` prints what is left."
    for who, heading in _WHO.items():
        texts = dict.fromkeys(printable(q.text) for q in questions if q.ask == who)
        if texts:
            yield f"# {heading}"
            yield from (f"# ask: {text}" for text in texts)
