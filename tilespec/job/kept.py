"""Parts of a job that were built before: while a spec is being written, only what has changed is built again.

A part is known by the very objects that it was made of: trees, tiles and products that are equal but stand elsewhere in the
text make another part, so a kept one never shows an old place.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import TypeVar, cast

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


class Kept:
    """Lends parts of earlier versions of a job to the next one. Empty, it changes nothing.

    made  how many parts were made in earnest so far, by what they are: "tile", "product", "room" ...
    """

    def __init__(self) -> None:
        self.made: dict[str, int] = {}
        self._turn = 0
        self._practice = practice("EN")
        self._parts: dict[Hashable, _Part] = {}

    def turn(self) -> None:
        """A new version of the job."""
        self._turn += 1
        if self._turn % _TURNS == 0:
            self._parts = {key: part for key, part in self._parts.items() if part.turn > self._turn - _TURNS}

    def practice(self, wanted: Practice) -> Practice:
        """The practice of the version before, where it says the same."""
        if self._practice != wanted:
            self._practice = wanted
        return self._practice

    def part(
        self,
        what: str,
        made_of: tuple[object, ...],
        said: tuple[Hashable, ...],
        context: Context,
        make: Callable[[Context], T],
        unread: bool = False,
    ) -> T:
        """What `make` gives, and what it reports, assumes and asks, in a context of its own.

        made_of  objects that it depends on, by identity; the statements that it may report on are among them
        said     values that it depends on, by what they say
        unread   see Context
        """
        apart = context.apart({x.base for x in made_of if isinstance(x, Statement)}, unread)
        key = (
            what, tuple(map(id, made_of)), said, id(context.practice), context.sizes_in_mm, unread, frozenset(apart.lost),
            tuple(apart.doubtful),
        )
        found = self._parts.get(key)
        if found is None:
            found = self._parts[key] = _Part(make(apart), apart, (*made_of, context.practice))
            self.made[what] = self.made.get(what, 0) + 1
        found.turn = self._turn
        context.take(found.context)
        return cast(T, found.value)
