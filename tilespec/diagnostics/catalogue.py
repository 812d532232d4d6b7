"""The one register of diagnostics: every code with its name, severity and explanation.

The language's entries stand in `diagnostics/language.py`; a check's entry is made from its own file in `checks/`.
Checks are loaded only when one of their codes is asked for. The catalogue lists them; it never runs them.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.language import ENTRIES as LANGUAGE
from tilespec.diagnostics.model import Diagnostic, Fix, Label
from tilespec.diagnostics.suggest import nearest
from tilespec.source import Span

__all__ = ["Entry", "UnknownDiagnostic", "entries", "explain", "problem"]


class UnknownDiagnostic(Exception):
    """No diagnostic has this code or name. `suggestion` is the nearest one, or None."""

    def __init__(self, asked: str, suggestion: str | None) -> None:
        super().__init__(f"no diagnostic is called {asked!r}" + (f"; did you mean {suggestion}?" if suggestion else ""))
        self.asked = asked
        self.suggestion = suggestion


@lru_cache(maxsize=None)
def entries() -> tuple[Entry, ...]:
    """All entries, by code. ValueError when a code or a name stands twice: a bug in tilespec."""
    from tilespec.checks import ENTRIES as checks

    result = tuple(sorted((*LANGUAGE, *checks), key=lambda e: e.code))
    _index(result)
    return result


def _index(listed: Iterable[Entry]) -> dict[str, Entry]:
    found: dict[str, Entry] = {}
    for e in listed:
        for key in (e.code, e.name):
            if key in found:
                raise ValueError(f"diagnostic {key} stands twice")
            found[key] = e
    return found


@lru_cache(maxsize=None)
def _language() -> dict[str, Entry]:
    return _index(LANGUAGE)


@lru_cache(maxsize=None)
def _all() -> dict[str, Entry]:
    return _index(entries())


def explain(code_or_name: str) -> Entry:
    """The entry of a code (`T2001`, any capitals) or of a name. UnknownDiagnostic, with the nearest, otherwise."""
    asked = code_or_name.strip()
    known = _all()
    found = known.get(asked.upper()) or known.get(asked.lower())
    if found is None:
        is_code = asked[:1] in "Tt" and asked[1:].isdigit()
        pool = [e.code if is_code else e.name for e in entries()]
        raise UnknownDiagnostic(asked, nearest(asked, pool))
    return found


def problem(
    name: str,
    span: Span,
    message: str,
    label: str = "",
    help: str = "",
    fixes: tuple[Fix, ...] = (),
    notes: tuple[str, ...] = (),
    secondary: tuple[Label, ...] = (),
) -> Diagnostic:
    """A diagnostic of the catalogue at a place; code, severity and stage come from its entry.

    A name that the catalogue does not hold is a bug in tilespec (KeyError).
    """
    entry = _language().get(name) or _all()[name]
    return entry.at(span, message, label, help, fixes, notes, secondary)
