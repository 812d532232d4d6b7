"""Loading the practice data and looking a limit up.

A file of the data is a TOML table of entries; an entry is

    [joint-min-floor]
    what = "Narrowest joint on a floor"        # plain words, printed in the list of sources
    value = "3 mm"                             # one quantity: number and unit (bare number: "12"; slope: "1:60")
    source = "NHBC Standards 9.1.7 (2025)"     # document and clause
    row = "C-26"                               # row of the values list that the figure was taken from
    seen = "body"                              # body | press | restated | memory
    stricter = "higher"                        # which way a firm's own value may go: higher | lower
    note = "..."                               # optional: condition or caution, printed beside it

A value that is a word, such as a class of product, has `text` in the place of `value` ("C2 S1"; "C2 or R2" where each
will do) and is asked for with `Practice.word`.

`common/*.toml` hold planning values that do not differ by family; `data/NAME.toml` hold limits by family.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from importlib.resources import files

from tilespec.quantity import UNITS, Kind, Limit, Quantity
from tilespec.quantity.read import Reading, read

# Which family a family borrows from where it has no value of its own.
PARENTS = {"EN": None, "DE": "EN", "UK": "EN", "US": "EN", "AU": "EN"}
NAMES = {
    "EN": "European standards", "DE": "Germany", "UK": "United Kingdom", "US": "United States", "AU": "Australia",
    "common": "common practice",
}


@dataclass(frozen=True, slots=True)
class Entry:
    key: str
    family: str
    what: str
    value: Fraction
    kind: Kind
    shown: str
    text: str                       # "" where the value is a number
    source: str
    row: str
    seen: str
    stricter: str
    note: str


@dataclass(frozen=True, slots=True)
class Word:
    """A value that is a word, such as the least class of adhesive, with the limit it comes from."""

    text: str
    why: Limit

    @property
    def choices(self) -> tuple[tuple[str, ...], ...]:
        """Each alternative in its parts: "C2 S1 or R2" gives ("C2", "S1") and ("R2",)."""
        return tuple(tuple(part.split()) for part in self.text.split(" or "))


def _entry(key: str, family: str, table: dict[str, str]) -> Entry:
    text = table.get("text", "")
    if bool(text) == ("value" in table):
        raise ValueError(f"practice value {key} needs either a value or a text")
    reading = Reading(Fraction(0), None) if text else read(table["value"])
    u = reading.unit or UNITS[table.get("unit", "")]
    return Entry(
        key, family, table["what"], reading.number * u.factor + u.offset, u.kind, u.symbol, text, table["source"],
        table.get("row", ""), table["seen"], table.get("stricter", ""), table.get("note", ""),
    )


@lru_cache(maxsize=None)
def entries(family: str) -> dict[str, Entry]:
    """The entries that a family sets itself; "common" for the shared planning values."""
    root = files("tilespec.practice")
    result: dict[str, Entry] = {}
    shared = family == "common"
    paths = sorted((root / "common").iterdir(), key=lambda p: p.name) if shared else [root / "data" / f"{family}.toml"]
    for path in paths:
        if not path.name.endswith(".toml"):
            continue
        for key, table in tomllib.loads(path.read_text(encoding="utf-8")).items():
            if key in result:
                raise ValueError(f"practice value {key} stands twice in {family}")
            result[key] = _entry(key, family, table)
    return result


@dataclass(frozen=True, slots=True)
class FirmValue:
    """A firm's own, stricter value and where it was written."""

    key: str
    value: Quantity


@dataclass(frozen=True, slots=True)
class Practice:
    """The limits of one family, borrowed ones included, with a firm's stricter values on top."""

    family: str
    firm: tuple[FirmValue, ...] = ()

    def entry(self, key: str) -> Entry | None:
        family: str | None = self.family
        while family:
            if found := entries(family).get(key):
                return found
            family = PARENTS[family]
        return entries("common").get(key)

    def find(self, key: str) -> Quantity | None:
        """The limit as a traced quantity, or None when neither the family nor common practice has it."""
        for own in self.firm:
            if own.key == key:
                return own.value
        e = self.entry(key)
        if e is None:
            return None
        if e.text:
            raise KeyError(f"practice value {key} is a word: ask for it with word()")
        return Quantity(e.value, e.kind, UNITS[e.shown], self._why(e))

    def _why(self, e: Entry) -> Limit:
        return Limit(e.key, e.family, self.family, e.source, e.seen, e.note)

    def word(self, key: str) -> Word:
        """A value that is a word, with its source. KeyError when nobody holds it or it is a number: a bug in tilespec."""
        e = self.entry(key)
        if e is None or not e.text:
            raise KeyError(f"no practice word {key}")
        return Word(e.text, self._why(e))

    def limit(self, key: str) -> Quantity:
        """The same; a key that nobody holds is a bug in tilespec (KeyError)."""
        q = self.find(key)
        if q is None:
            raise KeyError(f"no practice value {key}")
        return q

    def keys(self) -> tuple[str, ...]:
        names: dict[str, None] = {}
        family: str | None = self.family
        while family:
            names.update(dict.fromkeys(entries(family)))
            family = PARENTS[family]
        names.update(dict.fromkeys(entries("common")))
        return tuple(sorted(names))


def practice(family: str, firm: tuple[FirmValue, ...] = ()) -> Practice:
    """The practice of a family: EN, DE, UK, US or AU. KeyError for any other name."""
    PARENTS[family]
    return Practice(family, firm)
