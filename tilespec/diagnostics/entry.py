"""What the catalogue holds about one diagnostic."""

from __future__ import annotations

from dataclasses import dataclass

from tilespec.diagnostics.model import Diagnostic, Fix, Label, Severity
from tilespec.source import Span

# Stage that reports a code, by its first digits. Codes are never reused or renumbered.
_STAGES = (
    ("T00", "source"),      # the text itself: encoding, control characters
    ("T01", "syntax"),      # statements and attributes
    ("T02", "job"),         # words and names
    ("T03", "job"),         # numbers and units
    ("T04", "job"),         # geometry
    ("T05", "workspace"),   # files and `use`
    ("T06", "job"),         # records, steps, deviations
    ("T2", "checks"),       # fitness for the work
)


@dataclass(frozen=True, slots=True)
class Entry:
    """One diagnostic as `explain` shows it.

    code         "T0312"; the first digits name the stage
    name         kebab-case, named for the fault, so that `deviation NAME on ...` reads right
    title        the fault in a few words
    explanation  why it matters and what to do; plain text, blank lines between paragraphs
    bad, good    a short spec that has the fault, and the nearest one that has not
    """

    code: str
    name: str
    severity: Severity
    title: str
    explanation: str
    bad: str
    good: str

    @property
    def stage(self) -> str:
        return next(stage for first, stage in _STAGES if self.code.startswith(first))

    def at(
        self,
        span: Span,
        message: str,
        label: str = "",
        help: str = "",
        fixes: tuple[Fix, ...] = (),
        notes: tuple[str, ...] = (),
        secondary: tuple[Label, ...] = (),
    ) -> Diagnostic:
        """This diagnostic at a place."""
        primary = Label(span, label)
        return Diagnostic(self.name, self.code, self.severity, self.stage, message, primary, secondary, notes, help, fixes)
