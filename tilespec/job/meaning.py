"""What a class stands for: "C2TE S1" taken apart into what each letter was tested for, and written back in its standard's
order."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tilespec.job.product import class_parts
from tilespec.practice.lookup import Practice
from tilespec.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a class: its letters, what they say in words, and the figure of the test where it is held."""

    letters: str
    words: str
    figure: tuple[str, Quantity] | None     # what is measured, and how much


@dataclass(frozen=True, slots=True)
class Meaning:
    """written   in the order of the standard
    what      "adhesive", "grout", "membrane", "sealant", "grip" or "tile"
    """

    written: str
    what: str
    standard: str
    parts: tuple[Part, ...]


_STANDARDS = {
    "adhesive": "EN 12004-1", "grout": "EN 13888", "membrane": "EN 14891", "sealant": "ISO 11600, EN 15651-3",
    "grip": "DIN 51097, DIN 51130", "tile": "EN 14411, ISO 13006",
}
# Letters, what they say, key of the figure.
_WORDS: dict[str, dict[str, tuple[str, str]]] = {
    "adhesive": {
        "C1": ("cement-based, normal", "class-C1"),
        "C2": ("cement-based, improved", "class-C2"),
        "D1": ("ready-mixed dispersion, normal", ""),
        "D2": ("ready-mixed dispersion, improved: stronger when wet", ""),
        "R1": ("reaction resin, normal", "class-R1"),
        "R2": ("reaction resin, improved", "class-R2"),
        "F": ("sets fast", "class-F"),
        "T": ("tiles do not slip on a wall", "class-T"),
        "E": ("longer open time", "class-E"),
        "S1": ("deformable", "class-S1"),
        "S2": ("highly deformable", "class-S2"),
    },
    "grout": {
        "CG1": ("cement grout, normal", "class-CG1"),
        "CG2": ("cement grout, improved", "class-CG2"),
        "RG": ("reaction resin grout", "class-RG"),
        "F": ("hardens fast", ""),
        "W": ("takes up little water", "class-W"),
        "A": ("resists wear", ""),
    },
    "membrane": {
        "CM": ("cement with polymers", "class-bridging"),
        "DM": ("dispersion: dries", "class-bridging"),
        "RM": ("reaction resin", "class-bridging"),
        "O1": ("bridges cracks in the cold", "class-O1"),
        "O2": ("bridges cracks in hard frost", "class-O2"),
        "P": ("stands chlorinated water", ""),
    },
    "sealant": {
        "X": ("shrinks little", ""),
        "S1": ("resists mould best", ""),
        "S2": ("resists mould", ""),
        "S3": ("does not resist mould", ""),
        "25": ("movement class 25", "class-25"),
        "20": ("movement class 20", "class-20"),
        "12.5": ("movement class 12.5", "class-12-5"),
        "7.5": ("movement class 7.5", "class-7-5"),
        "LM": ("soft (low modulus)", "class-LM"),
        "HM": ("stiff (high modulus)", ""),
        "E": ("elastic", ""),
        "P": ("plastic", ""),
    },
    "grip": {
        "A": ("barefoot class A", "class-barefoot-A"),
        "B": ("barefoot class B", "class-barefoot-B"),
        "C": ("barefoot class C", "class-barefoot-C"),
        **{f"R{n}": ("in boots, on oil: says nothing of bare feet", f"class-R{n}") for n in (9, 10, 11, 12, 13)},
    },
    "tile": {
        "BIa": ("pressed, hardly takes up water (porcelain)", "class-BIa"),
        "BIb": ("pressed, takes up little water", "class-BIb"),
        "BIIa": ("pressed, takes up some water", "class-BIIa"),
        "BIIb": ("pressed, takes up water", "class-BIIb"),
        "BIII": ("pressed, takes up much water: for dry walls", "class-BIII"),
    },
}


def meaning(text: str, practice: Practice) -> Meaning | None:
    """The class that a text names, however its letters are spaced; None when no standard here has it."""
    said = "".join(text.split())
    for what in ("adhesive", "grout", "membrane", "sealant"):
        parts = class_parts(what, said.upper())
        if parts and not parts[0].startswith("A118"):
            letters = tuple(x for part in parts for x in _letters(part, what))
            return _told(what, " ".join(_joined(what, parts)), letters, practice)
    for what in ("grip", "tile"):
        name = next((k for k in _WORDS[what] if k.casefold() == said.casefold()), None)
        if name is not None:
            return _told(what, name, (name,), practice)
    return None


def _joined(what: str, parts: tuple[str, ...]) -> tuple[str, ...]:
    """As the standard writes it: type and options run on, what follows stands apart."""
    if what == "sealant":
        return parts
    options = tuple(p for p in parts[1:] if p not in ("S1", "S2"))
    apart = tuple(p for p in parts[1:] if p in ("S1", "S2"))
    return ("".join((parts[0], *options)) if what != "membrane" else " ".join((parts[0], *options)), *apart)


def _letters(part: str, what: str) -> tuple[str, ...]:
    if part in _WORDS[what]:
        return (part,)
    return tuple(re.findall(r"12\.5|7\.5|25|20|LM|HM|O[12]|S[123]|[A-Z]", part))


def _told(what: str, written: str, letters: tuple[str, ...], practice: Practice) -> Meaning:
    parts = []
    for x in letters:
        words, key = _WORDS[what][x]
        entry = practice.entry(key) if key else None
        parts.append(Part(x, words, (entry.what, practice.limit(key)) if entry is not None else None))
    return Meaning(written, what, _STANDARDS[what], tuple(parts))
