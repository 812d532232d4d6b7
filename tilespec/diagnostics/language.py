"""Diagnostics of the language: text (T00xx), syntax (T01xx), words and names (T02xx), numbers and units (T03xx),
geometry (T04xx), files and `use` (T05xx), records, steps and deviations (T06xx)."""

from __future__ import annotations

from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.model import Severity

E, W, N = Severity.ERROR, Severity.WARNING, Severity.NOTE


def _entry(code: str, name: str, severity: Severity, title: str, explanation: str = "", bad: str = "", good: str = "") -> Entry:
    return Entry(code, name, severity, title, explanation, bad, good)


ENTRIES: tuple[Entry, ...] = (
    _entry("T0001", "hidden-character", E, "A character that cannot be seen"),
    _entry("T0002", "control-character", E, "A control character in the text"),
    _entry("T0003", "foreign-digit", E, "A digit of another script"),
    _entry("T0004", "foreign-x", E, "A letter that only looks like x"),
    _entry("T0005", "open-text", E, "A text that is not closed"),
    _entry("T0101", "unknown-statement", E, "A line that starts no statement"),
    _entry("T0102", "attribute-at-margin", E, "An attribute at the margin"),
    _entry("T0103", "nothing-above", E, "An attribute with no statement above"),
    _entry("T0104", "statement-indented", E, "A statement on an indented line"),
    _entry("T0105", "indented-below-several", E, "An indented line below several statements"),
    _entry("T0106", "cannot-read", E, "A piece that cannot be read"),
    _entry("T0107", "unknown-word", E, "A word that is not known here"),
    _entry("T0108", "misplaced-attribute", E, "An attribute of another statement"),
    _entry("T0109", "said-twice", E, "Said twice"),
    _entry("T0201", "unknown-tile", E, "A tile that is not declared"),
    _entry("T0202", "unknown-product", E, "A product that is not declared"),
    _entry("T0203", "duplicate-name", E, "A name used twice"),
    _entry("T0204", "unknown-wall", E, "A wall that the room does not have"),
    _entry("T0205", "unknown-room", E, "A room that is not in the spec"),
    _entry("T0206", "unknown-substrate", E, "A base that is not known"),
    _entry("T0207", "unknown-description", E, "A describing word that is not known"),
    _entry("T0208", "unknown-class", E, "A class that its standard does not have"),
    _entry("T0209", "unknown-family", E, "A practice family that is not known"),
    _entry("T0210", "no-tile", E, "A surface with no tile"),
    _entry("T0211", "unknown-choice", E, "A choice that is not offered"),
    _entry("T0212", "place-needed", E, "The place must be named"),
    _entry("T0213", "missing-detail", E, "Something this needs is missing"),
    _entry("T0214", "nothing-tiled", E, "A spec in which nothing is tiled"),
    _entry("T0217", "stock-only", N, "A file that holds stock only"),
    _entry("T0215", "unknown-limit", E, "A limit that the practice does not hold"),
    _entry("T0216", "limit-looser", E, "A firm's limit that is looser than the practice"),
    _entry("T0301", "decimal-comma", E, "A comma between digits"),
    _entry("T0302", "wrong-unit", E, "A unit of another kind"),
    _entry("T0303", "implausible-value", E, "A value that cannot be meant"),
    _entry("T0304", "bad-date", E, "A date that does not exist"),
    _entry("T0305", "bad-hours", E, "Working hours that cannot be"),
    _entry("T0306", "bad-number", E, "A number that cannot be read"),
    _entry("T0307", "range-reversed", E, "A range that ends before it starts"),
    _entry("T0401", "walk-open", E, "A walk that does not close"),
    _entry("T0402", "wall-size-differs", W, "A wall that does not fit the floor"),
    _entry("T0403", "outside-surface", E, "Something that reaches outside its surface"),
    _entry("T0404", "openings-overlap", E, "Two openings that overlap"),
    _entry("T0405", "not-a-corner", E, "Two walls that do not meet"),
    _entry("T0406", "shower-wall-left-out", E, "A shower with a wall left out"),
    _entry("T0407", "drain-outside-shower", E, "A drain outside the wet area of the outlet"),
    _entry("T0408", "tile-larger-than-surface", E, "A tile larger than its surface"),
    _entry("T0409", "joint-wider-than-tile", E, "A joint wider than the tile"),
    _entry("T0410", "finished-floor-differs", W, "A floor level that does not fit its build-up"),
    _entry("T0411", "room-without-floor", N, "A room with no floor said"),
    _entry("T0412", "diagonals-impossible", E, "Diagonals that no such room can have"),
    _entry("T0413", "basket-size", E, "A tile that does not fit the pattern"),
    _entry("T0501", "file-unreadable", E, "A file that cannot be read"),
    _entry("T0502", "use-outside", E, "A stock file outside the spec's folder"),
    _entry("T0503", "use-circle", E, "Files that use each other in a circle"),
    _entry("T0504", "not-stock", E, "A statement that does not belong in a stock file"),
    _entry("T0505", "too-many-files", E, "Too many files"),
    _entry("T0601", "record-out-of-order", E, "Records in an order that cannot be"),
    _entry("T0602", "unknown-record", E, "A record of a kind that is not known"),
    _entry("T0603", "step-circle", E, "Steps that wait for each other"),
    _entry("T0604", "unknown-stage", E, "A stage of the work that is not known"),
    _entry("T0605", "record-unit", E, "A reading in the wrong unit"),
    _entry("T0606", "record-superseded", N, "An earlier statement replaced by a record"),
)
