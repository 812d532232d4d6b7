"""What each stage returns: its result and what there is to say about the input."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

from tilespec.diagnostics.model import Diagnostic

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Outcome(Generic[T]):
    """A stage's value with its diagnostics. A mistake in the user's file never raises."""

    value: T
    diagnostics: tuple[Diagnostic, ...] = ()
