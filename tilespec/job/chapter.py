"""A spec cut at its rooms: what stands above the first `room`, then each `room` with all that stands below it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from operator import is_

from tilespec.job.records import notes
from tilespec.job.types import Note
from tilespec.syntax.nodes import Statement

SURFACES = ("floor", "wall", "shower", "bath", "basin", "boxing", "datum")


# No slots: its notes are gathered once. Compared by identity, as its statements are.
@dataclass(frozen=True, eq=False)
class Chapter:
    """plain: a room and its surfaces, all of them read, and nothing else."""

    statements: tuple[Statement, ...]

    @cached_property
    def plain(self) -> bool:
        first, *others = self.statements
        return first.kind == "room" and not first.broken and all(s.kind in SURFACES and not s.broken for s in others)

    @cached_property
    def notes(self) -> tuple[Note, ...]:
        return tuple(note for st in self.statements for note in notes(st))

    def holds(self, statements: tuple[Statement, ...]) -> bool:
        """Whether it is made of these very statements."""
        return len(statements) == len(self.statements) and all(map(is_, statements, self.statements))


def cut(statements: tuple[Statement, ...]) -> list[tuple[Statement, ...]]:
    """The statements of each chapter; none is empty."""
    at = [n for n, st in enumerate(statements) if st.kind == "room"]
    edges = [0, *at, len(statements)]
    return [statements[a:b] for a, b in zip(edges, edges[1:]) if a < b]
