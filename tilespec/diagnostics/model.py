"""What a diagnostic is. Built by the stages, drawn by the renderers beside this file."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from tilespec.source import Span


class Severity(Enum):
    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Label:
    """A place and what it is."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Edit:
    """Put `text` where `span` is."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Fix:
    """What to write instead. `safe`: does not change what the writer can have meant."""

    title: str
    edits: tuple[Edit, ...]
    safe: bool = False


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One mistake, one message.

    name      the rule's name; code, severity and explanation are looked up in the catalogue
    message   what is wrong, in the user's words
    primary   the words that caused it
    help      what to write instead, or what to do
    """

    name: str
    code: str
    severity: Severity
    stage: str
    message: str
    primary: Label
    secondary: tuple[Label, ...] = ()
    notes: tuple[str, ...] = ()
    help: str = ""
    fixes: tuple[Fix, ...] = ()
