"""Places that stay the same while the text around them changes.

What is kept from one keystroke to the next must not hold places in the text: all of them move when a line is typed above. So each
statement gets a seat, a number far apart from its neighbours', and keeps it as long as it stands; everything behind the reading
works with seats in the place of offsets, in the order of the text. Only what is shown is translated back.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from tilespec.diagnostics.model import Diagnostic, Edit, Fix, Label
from tilespec.outcome import Outcome
from tilespec.source import Source, Span
from tilespec.syntax.nodes import Comment, Statement, Tree
from tilespec.syntax.parse import Block, Kept, Read
from tilespec.syntax.split import Cleaned, blocks, clean

# Seats of a file that is read for the first time, and the most that lies between a statement typed later and the one above it.
_APART = 1 << 100
_STEP = 1 << 60
# More than the longest text that is read.
_ROOM = 1 << 25


@dataclass(frozen=True, slots=True)
class Cut:
    """A text cut into parts that are read alone (see `blocks`).

    at      where each begins
    firsts  how many statements stand above each; at last, how many there are
    starts  where each statement begins
    """

    text: str = ""
    at: tuple[int, ...] = ()
    blocks: tuple[Block, ...] = ()
    firsts: tuple[int, ...] = (0,)
    starts: tuple[int, ...] = ()
    reads: tuple[Read, ...] = ()


@dataclass(frozen=True, slots=True)
class Seated:
    """One version of a text: its statements at their seats, and where these are.

    cut    of the text without characters that cannot be seen
    seats  of each statement, in order
    """

    source: Source
    cleaned: Cleaned
    cut: Cut
    tree: Tree
    seats: tuple[int, ...]

    @property
    def starts(self) -> tuple[int, ...]:
        return self.cut.starts

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
        old = before.cut if before is not None else Cut()
        head, tail = _untouched(old, cleaned.text)
        cut = self._cut(old, cleaned.text, head, tail)
        self.kept.turn(cut.reads)
        seats, statements = _seated(before, cut.reads, old.firsts[head], old.firsts[-1] - old.firsts[len(old.blocks) - tail])
        comments = tuple(
            Comment(cleaned.back(begin + c.start), cleaned.back(begin + c.end - 1) + 1)
            for begin, block in zip(cut.at, cut.blocks) if block.comments for c in block.comments
        )
        version = Seated(source, cleaned, cut, Tree(source.name, statements, comments), seats)

        def seated(span: Span) -> Span:
            # The end belongs to what it ends, not to the next statement that may begin there.
            start = version.seat(span.start)
            return Span(span.file, start, version.seat(span.end - 1) + 1 if span.end > span.start else start)

        # What is taken out before the reading has no seat: its places are kept as they are, below nought.
        found = [moved(d, lambda s: Span(s.file, -1 - s.start, -1 - s.end)) for d in cleaned.diagnostics]
        for begin, block in zip(cut.at, cut.blocks):
            if block.diagnostics:
                found += [moved(moved(d, partial(_shifted, begin)), seated) for d in block.diagnostics]
        for read, seat in zip(cut.reads, seats):
            if read.diagnostics:
                found += [moved(d, partial(_shifted, seat)) for d in read.diagnostics]
        self.version, self._outcome = version, Outcome(version.tree, tuple(found))
        return self._outcome

    def _cut(self, old: Cut, text: str, head: int, tail: int) -> Cut:
        """The text cut anew between so many parts at its head and at its tail that are as they were."""
        last = len(old.blocks) - tail
        begin, by = (old.at[head] if head < len(old.at) else 0), len(text) - len(old.text)
        end = old.at[last] + by if tail else len(text)
        same = {
            old.text[a:b]: block
            for a, b, block in zip(old.at[head:last], (*old.at[head + 1 : last], end - by), old.blocks[head:last])
        }
        at = tuple(begin + n for n in blocks(text[begin:end]))
        new = tuple(same.get(part := text[a:b]) or self.kept.block(part) for a, b in zip(at, (*at[1:], end)))
        firsts = list(old.firsts[: head + 1])
        for block in new:
            firsts.append(firsts[-1] + len(block.reads))
        more = firsts.pop() - old.firsts[last]
        above, below = old.firsts[head], old.firsts[last]
        starts = (a + n for a, block in zip(at, new) for n in block.starts)
        return Cut(
            text,
            (*old.at[:head], *at, *(n + by for n in old.at[last:])),
            (*old.blocks[:head], *new, *old.blocks[last:]),
            (*firsts, *(n + more for n in old.firsts[last:])),
            (*old.starts[:above], *starts, *(n + by for n in old.starts[below:])),
            (*old.reads[:above], *(read for block in new for read in block.reads), *old.reads[below:]),
        )


def _untouched(old: Cut, text: str) -> tuple[int, int]:
    """How many parts at the head and at the tail an edit has left as they were, with the lines that end and begin them."""
    most = min(len(old.text), len(text))
    equal = _common(most, lambda a, b: old.text[a:b] == text[a:b])
    line = old.text.rfind("\n", 0, equal) + 1
    # The line may now belong to the part above it.
    head = max(0, bisect_left(old.at, line) - 1)
    n, m = len(old.text), len(text)
    equal = _common(most - equal, lambda a, b: old.text[n - b : n - a] == text[m - b : m - a])
    # A part begins a line: the break above it is the same too.
    return head, len(old.at) - max(bisect_left(old.at, n - equal + 1), min(head + 1, len(old.at)))


def _common(most: int, same: Callable[[int, int], bool]) -> int:
    """How many characters are the same in two texts, counted from one of their ends."""
    low, high = 0, most
    while low < high:
        middle = (low + high + 1) // 2
        if same(low, middle):
            low = middle
        else:
            high = middle - 1
    return low


def _shifted(by: int, span: Span) -> Span:
    return Span(span.file, span.start + by, span.end + by)


def _seated(
    before: Seated | None, reads: tuple[Read, ...], head: int, tail: int
) -> tuple[tuple[int, ...], tuple[Statement, ...]]:
    """Seats for the statements of a new version, and the statements at them: those above and below the edit stay as they are, at
    least so many at the head and at the tail."""
    old = before.cut.reads if before else ()
    most = min(len(old), len(reads))
    head = next((n for n in range(head, most) if old[n] is not reads[n]), most)
    tail = next((n for n in range(min(tail, most - head), most - head) if old[-1 - n] is not reads[-1 - n]), most - head)
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
