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
from tilespec.job.declared import Asked, Declared
from tilespec.practice.lookup import Practice, practice
from tilespec.syntax.nodes import Statement

T = TypeVar("T")


# For how many versions of the job a part is kept that none of them needed: half-typed words come and go.
_TURNS = 24
# Of the same statements, with other things around them.
_LIKES = 3


@dataclass(slots=True)
class _Part:
    value: object
    context: Context
    lost: frozenset[str]
    asked: Asked | None
    made_of: tuple[object, ...]  # held, so that no other object can take its identity
    turn: int = 0


@dataclass(slots=True)
class _Lasting:
    value: object
    made_of: tuple[object, ...]
    turn: int = 0


class Kept:
    """Lends parts of earlier versions of a job to the next one. Empty, it changes nothing.

    made  how many parts were made in earnest so far, by what they are: "tile", "product", "room" ...
    """

    def __init__(self) -> None:
        self.made: dict[str, int] = {}
        self._turn = 0
        self._practice = practice("EN")
        self._parts: dict[Hashable, list[_Part]] = {}
        self._lasting: dict[Hashable, _Lasting] = {}
        self._chapters: dict[int, Chapter] = {}

    def turn(self) -> None:
        """A new version of the job."""
        self._turn += 1
        if self._turn % _TURNS == 0:
            since = self._turn - _TURNS
            self._parts = {key: living for key, parts in self._parts.items() if (living := [p for p in parts if p.turn > since])}
            self._lasting = {key: one for key, one in self._lasting.items() if one.turn > since}

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

    def lasting(self, made_of: tuple[object, ...], said: tuple[Hashable, ...], make: Callable[[], T]) -> T:
        """The same object as long as it is made of these objects and says this."""
        key = tuple(map(id, made_of)), said
        found = self._lasting.get(key)
        if found is None:
            found = self._lasting[key] = _Lasting(make(), made_of)
        found.turn = self._turn
        return cast(T, found.value)

    def part(
        self,
        what: str,
        statements: tuple[Statement, ...],
        context: Context,
        make: Callable[[Context], T],
        *,
        of: object = None,
        around: object = None,
        asked: Asked | None = None,
        declared: Declared | None = None,
        unread: bool = False,
    ) -> T:
        """What `make` gives, and what it reports, assumes and asks, in a context of its own.

        statements  that it is made of and may report on
        of          one object that stands for these, where there is one
        around      one that it depends on besides
        asked       what it asks of `declared` while it is made
        unread      see Context
        """
        made_of = (*(statements if of is None else (of,)), around, context.practice)
        doubtful = context.doubts(statements)
        key = what, tuple(map(id, made_of)), context.sizes_in_mm, unread, doubtful
        parts = self._parts.setdefault(key, [])
        found = next((p for p in parts if _stands(p, context, declared)), None)
        if found is None:
            apart = context.apart(doubtful, unread)
            lost = frozenset(context.lost)
            found = _Part(make(apart), apart, lost, asked, made_of)
            parts[:] = [found, *parts[: _LIKES - 1]]
            self.made[what] = self.made.get(what, 0) + 1
        found.turn = self._turn
        context.take(found.context)
        return cast(T, found.value)


def _stands(part: _Part, context: Context, declared: Declared | None) -> bool:
    """Whether all that the part has asked while it was made would be answered as it was."""
    if part.context.asked_lost and part.lost != context.lost:
        return False
    return part.asked is None or declared is None or part.asked.answered(declared)
