"""Parts of a job that were built before: while a spec is being written, only what has changed is built again.

A part is known by the very objects that it was made of: trees, tiles and products that are equal but stand elsewhere in the
text make another part, so a kept one never shows an old place.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import TypeVar, cast

from tilespec.job.chapter import Chapter
from tilespec.job.context import Context
from tilespec.practice.lookup import Practice, practice
from tilespec.syntax.nodes import Statement

T = TypeVar("T")


# For how many versions of the job a part is kept that none of them needed: half-typed words come and go.
_TURNS = 24


@dataclass(slots=True)
class _Part:
    value: object
    context: Context
    made_of: tuple[object, ...]  # held, so that no other object can take its identity
    turn: int = 0


@dataclass(slots=True, eq=False)
class Around:
    """What several parts depend on beside their own statements: the same object as long as it says the same."""

    made_of: tuple[object, ...]
    said: tuple[Hashable, ...]
    turn: int = 0


class Kept:
    """Lends parts of earlier versions of a job to the next one. Empty, it changes nothing.

    made  how many parts were made in earnest so far, by what they are: "tile", "product", "room" ...
    """

    def __init__(self) -> None:
        self.made: dict[str, int] = {}
        self._turn = 0
        self._practice = practice("EN")
        self._parts: dict[Hashable, _Part] = {}
        self._arounds: dict[Hashable, Around] = {}
        self._chapters: dict[int, Chapter] = {}

    def turn(self) -> None:
        """A new version of the job."""
        self._turn += 1
        if self._turn % _TURNS == 0:
            since = self._turn - _TURNS
            self._parts = {key: part for key, part in self._parts.items() if part.turn > since}
            self._arounds = {key: around for key, around in self._arounds.items() if around.turn > since}

    def practice(self, wanted: Practice) -> Practice:
        """The practice of the version before, where it says the same."""
        if self._practice != wanted:
            self._practice = wanted
        return self._practice

    def chapters(self, cut: list[tuple[Statement, ...]]) -> tuple[Chapter, ...]:
        """The chapters of this version: those of the version before, where they are made of the same statements."""
        before, self._chapters = self._chapters, {}
        for statements in cut:
            held = before.get(id(statements[0]))
            new = held if held is not None and held.holds(statements) else Chapter(statements)
            self._chapters[id(statements[0])] = new
        return tuple(self._chapters.values())

    def around(self, made_of: tuple[object, ...], said: tuple[Hashable, ...]) -> Around:
        """One object for all that is made of these objects and says this."""
        key = tuple(map(id, made_of)), said
        found = self._arounds.get(key)
        if found is None:
            found = self._arounds[key] = Around(made_of, said)
        found.turn = self._turn
        return found

    def part(
        self,
        what: str,
        statements: tuple[Statement, ...],
        around: Around | None,
        context: Context,
        make: Callable[[Context], T],
        unread: bool = False,
        of: object = None,
    ) -> T:
        """What `make` gives, and what it reports, assumes and asks, in a context of its own.

        statements  that it is made of and may report on
        around      what else it depends on
        unread      see Context
        of          one object that stands for the statements, where there is one
        """
        made_of = (of,) if of is not None else statements
        doubtful = context.doubts(statements)
        key = (
            what, tuple(map(id, made_of)), id(around), id(context.practice), context.sizes_in_mm, unread,
            frozenset(context.lost), doubtful,
        )
        found = self._parts.get(key)
        if found is None:
            apart = context.apart(doubtful, unread)
            found = self._parts[key] = _Part(make(apart), apart, (*made_of, around, context.practice))
            self.made[what] = self.made.get(what, 0) + 1
        found.turn = self._turn
        context.take(found.context)
        return cast(T, found.value)
