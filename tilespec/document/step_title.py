"""How a step is called in the print, for those who name it elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from tilespec.document.templates import Templates
from tilespec.document.terminal import plain
from tilespec.document.text import Said
from tilespec.sequence.types import Operation


@dataclass(frozen=True, slots=True)
class _Titled:
    """What the titles of steps rest on."""

    kind: str
    facts: tuple[str, ...]
    places: tuple[Said, ...]


def step_titles() -> Callable[[Operation, Iterable[str]], str]:
    """What says the title of a step as the print has it, at places that are called so; as plain text."""
    templates = Templates()

    def title(op: Operation, places: Iterable[str]) -> str:
        if op.title is not None:
            return op.title.text
        titled = _Titled(op.kind, op.facts, tuple(map(Said, places)))
        return plain(str(templates.word("operations", op.kind, "title", titled)))

    return title
