"""Places that stay the same while the text around them changes.

What is kept from one keystroke to the next must not hold places in the text: all of them move when a line is typed above. So each
statement gets a seat, a number far apart from its neighbours', and keeps it as long as it stands; everything behind the reading
works with seats in the place of offsets, in the order of the text. Only what is shown is translated back.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from tilespec.diagnostics.model import Diagnostic, Edit, Fix, Label
from tilespec.outcome import Outcome
from tilespec.source import Source, Span
from tilespec.syntax.nodes import Comment, Statement, Tree
from tilespec.syntax.parse import Kept, Read
from tilespec.syntax.split import Cleaned, blocks, clean

# Seats of a file that is read for the first time, and the most that lies between a statement typed later and the one above it.
_APART = 1 << 100
_STEP = 1 << 60
# More than the longest text that is read.
_ROOM = 1 << 25


@dataclass(frozen=True, slots=True)
class Seated:
    """One version of a text: its statements at their seats, and where these are.

    seats, starts  of each statement, in order; `starts` in the text without characters that cannot be seen
    """

    source: Source
    cleaned: Cleaned
    tree: Tree
    seats: tuple[int, ...]
    starts: tuple[int, ...]
    reads: tuple[Read, ...]

    def at_seat(self, seat: int) -> Statement | None:
        """The statement that a place behind its seat belongs to."""
        n = bisect_right(self.seats, seat) - 1
        return self.tree.statements[n] if n >= 0 else None

    def offset(self, seat: int) -> int:
        """The offset in the text."""
        n = bisect_right(self.seats, seat) - 1
        at = self.starts[n] + seat - self.seats[n] if n >= 0 else seat
        return min(self.cleaned.back(at), len(self.source.text))

    def seat(self, offset: int) -> int:
        """The seat of an offset in the text without characters that cannot be seen."""
        n = bisect_right(self.starts, offset) - 1
        return self.seats[n] + offset - self.starts[n] if n >= 0 else offset

    def back(self, span: Span) -> Span:
        """A span of seats as one of offsets."""
        if span.start < 0:
            return Span(span.file, -1 - span.start, -1 - span.end)
        start = self.offset(span.start)
        end = self.offset(span.end - 1) + 1 if span.end > span.start else start
        return Span(span.file, start, max(start, end))

    def index(self, offset: int) -> int:
        """Which statement an offset in the text lies in or behind; -1 above the first."""
        taken = sum(1 for n in self.cleaned.taken if n < offset)
        return bisect_right(self.starts, offset - taken) - 1

    def start(self, n: int) -> int:
        """The offset of a statement in the text."""
        return self.cleaned.back(self.starts[n])


Moved = Callable[[Span], Span]


def moved(d: Diagnostic, to: Moved) -> Diagnostic:
    """The diagnostic with all its places translated."""

    def label(old: Label) -> Label:
        return replace(old, span=to(old.span))

    def fix(old: Fix) -> Fix:
        return replace(old, edits=tuple(Edit(to(e.span), e.text) for e in old.edits))

    return replace(
        d, primary=label(d.primary), secondary=tuple(label(x) for x in d.secondary), fixes=tuple(fix(x) for x in d.fixes)
    )


class Typed:
    """One file while it is being written. `kept` counts what was read in earnest."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.kept = Kept(name)
        self.version: Seated | None = None
        self._outcome: Outcome[Tree] | None = None

    def read(self, source: Source) -> Outcome[Tree]:
        """The tree of this version, with seats in the place of offsets; so are the places of the diagnostics."""
        before = self.version
        if before is not None and before.source.text == source.text and self._outcome is not None:
            return self._outcome
        cleaned = clean(source)
        self.kept.turn()
        reads: list[Read] = []
        starts: list[int] = []
        comments: list[Comment] = []
        of_text: list[Diagnostic] = []
        at = blocks(cleaned.text)
        for begin, end in zip(at, (*at[1:], len(cleaned.text))):
            block = self.kept.block(cleaned.text[begin:end])
            reads += block.reads
            starts += [begin + start for start in block.starts]
            comments += [Comment(cleaned.back(begin + c.start), cleaned.back(begin + c.end - 1) + 1) for c in block.comments]
            of_text += [moved(d, partial(_shifted, begin)) for d in block.diagnostics]
        seats, statements = _seated(before, tuple(reads))
        tree = Tree(source.name, statements, tuple(comments))
        version = Seated(source, cleaned, tree, seats, tuple(starts), tuple(reads))

        def seated(span: Span) -> Span:
            # The end belongs to what it ends, not to the next statement that may begin there.
            start = version.seat(span.start)
            return Span(span.file, start, version.seat(span.end - 1) + 1 if span.end > span.start else start)

        # What is taken out before the reading has no seat: its places are kept as they are, below nought.
        found = [moved(d, lambda s: Span(s.file, -1 - s.start, -1 - s.end)) for d in cleaned.diagnostics]
        found += [moved(d, seated) for d in of_text]
        for read, seat in zip(reads, seats):
            found += [moved(d, partial(_shifted, seat)) for d in read.diagnostics]
        self.version, self._outcome = version, Outcome(version.tree, tuple(found))
        return self._outcome


def _shifted(by: int, span: Span) -> Span:
    return Span(span.file, span.start + by, span.end + by)


def _seated(before: Seated | None, reads: tuple[Read, ...]) -> tuple[tuple[int, ...], tuple[Statement, ...]]:
    """Seats for the statements of a new version, and the statements at them: those above and below the edit stay as they are."""
    old = before.reads if before else ()
    most = min(len(old), len(reads))
    head = next((n for n in range(most) if old[n] is not reads[n]), most)
    tail = next((n for n in range(most - head) if old[-1 - n] is not reads[-1 - n]), most - head)
    if before is not None:
        middle = _between(before.seats, head, tail, len(reads) - head - tail)
        if middle is not None:
            seats = (*before.seats[:head], *middle, *before.seats[len(old) - tail :])
            new = tuple(
                replace(read.statement, base=seat) for read, seat in zip(reads[head : len(reads) - tail], middle)
            )
            listed = before.tree.statements
            return seats, (*listed[:head], *new, *listed[len(old) - tail :])
    seats = tuple((n + 1) * _APART for n in range(len(reads)))
    return seats, tuple(replace(read.statement, base=seat) for read, seat in zip(reads, seats))


def _between(seats: tuple[int, ...], head: int, tail: int, count: int) -> tuple[int, ...] | None:
    """Seats for the statements of the edit: those that were there, then new ones. None where there is no room left."""
    found = list(seats[head : len(seats) - tail])[:count]
    after = seats[len(seats) - tail] if tail else None
    while len(found) < count:
        last = found[-1] if found else seats[head - 1] if head else 0
        step = _APART if after is None else min(_STEP, (after - last) // 2)
        if step < _ROOM:
            return None
        found.append(last + step)
    return tuple(found)
