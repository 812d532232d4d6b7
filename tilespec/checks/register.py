"""The rules as a register: by subject, with the limits they rest on and how far those can be trusted.

`tilespec explain` and the page of all rules (`grammar/RULES.md`) show it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from tilespec.checks import RULES, SUBJECTS, deviation
from tilespec.checks.rule import INJURY, QUALITY, WATERPROOFING, Rule, both
from tilespec.diagnostics.entry import Entry
from tilespec.diagnostics.language import ENTRIES as LANGUAGE
from tilespec.job.types import Deviation
from tilespec.practice.lookup import PARENTS, practice
from tilespec.practice.lookup import Entry as Value
from tilespec.sequence.types import Operation, Sequence

# How a source was verified, the best first, in plain words.
SEEN = {
    "body": "seen with the body itself",
    "press": "seen in the trade's press",
    "restated": "seen only restated",
    "memory": "not seen: from memory, print as guidance",
}
GUARDS = {
    INJURY: "injury; cannot be deviated from",
    WATERPROOFING: "water in the building; cannot be deviated from",
    QUALITY: "quality; a deviation with its reason silences it",
}
NEEDS = {
    "job": "the spec alone, so it speaks while one types",
    "takeoff": "the quantities that follow from the spec",
    "sequence": "the steps of the work and their waits",
}
# Stages of the work that the rules of a subject are about: there a deviation from one is told.
STAGES = {
    "membrane": ("priming", "membrane"),
    "falls": ("setting", "base", "floor-tiling"),
    "adhesive": ("wall-tiling", "floor-tiling", "bottom-course"),
    "base": ("boards", "base", "substrate", "priming"),
    "climate": ("base", "priming", "membrane", "wall-tiling", "floor-tiling"),
    "tiling": ("set-out", "wall-tiling", "floor-tiling"),
    "slip": ("floor-tiling",),
    "heating": ("first-fix", "heating", "floor-tiling"),
    "movement": ("wall-tiling", "floor-tiling", "grouting", "sealing"),
    "safety": ("survey", "isolation", "old-materials", "strip-out"),
    "records": ("survey", "substrate", "membrane", "inspection"),
}
_TILING = ("wall-tiling", "floor-tiling", "bottom-course")
# Diagnostics of the language by their first digits.
_GROUPS = {
    "T00": ("text", "The text itself"),
    "T01": ("statements", "Statements and attributes"),
    "T02": ("words", "Words and names"),
    "T03": ("numbers", "Numbers and units"),
    "T04": ("geometry", "Geometry"),
    "T05": ("files", "Files and what they use"),
    "T06": ("entries", "Records, steps and deviations in the text"),
}


@dataclass(frozen=True, slots=True)
class Subject:
    """What a part of the catalogue is about. `key`: how it is asked for; `rules`: those of its entries that are rules."""

    key: str
    title: str
    entries: tuple[Entry, ...]
    rules: tuple[Rule, ...] = ()


@dataclass(frozen=True, slots=True)
class Held:
    """A value with the family that set it ("common" where all share it) and those that borrow it."""

    value: Value
    borrowers: tuple[str, ...]

    @property
    def text(self) -> str:
        if self.value.text:
            return self.value.text
        owner = self.value.family if self.value.family in PARENTS else "EN"
        return both(practice(owner).limit(self.value.key))


@dataclass(frozen=True, slots=True)
class LimitOf:
    """A limit that a rule rests on, family by family. `without`: families that neither hold nor borrow it."""

    key: str
    what: str
    held: tuple[Held, ...]
    without: tuple[str, ...]


@lru_cache(maxsize=None)
def subjects() -> tuple[Subject, ...]:
    """The rules of fitness by subject, as the folders of the checks have them."""
    found = []
    for module in SUBJECTS:
        rules = tuple(sorted(module.RULES, key=lambda r: r.code))
        key = module.__name__.rpartition(".")[2]
        found.append(Subject(key, (module.__doc__ or key).strip().rstrip("."), tuple(r.entry for r in rules), rules))
    return tuple(found)


@lru_cache(maxsize=None)
def catalogue() -> tuple[Subject, ...]:
    """Every diagnostic by subject: those of the language first, then the rules, then deviations from rules."""
    language = tuple(
        Subject(key, title, tuple(e for e in LANGUAGE if e.code.startswith(first))) for first, (key, title) in _GROUPS.items()
    )
    return (*language, *subjects(), Subject("deviations", "Deviations from rules", deviation.ENTRIES))


def rule_of(entry: Entry) -> Rule | None:
    """The rule that a diagnostic belongs to; None for one of the language, or about deviations."""
    return next((r for r in RULES if r.code == entry.code), None)


def steps_of(deviation: Deviation, rule: Rule, sequence: Sequence) -> tuple[Operation, ...]:
    """The steps at which a deviation is told: on each surface that it covers the first that the rule's subject is about, else the
    first that lays its tiles."""
    subject = next(s.key for s in subjects() if rule in s.rules)
    places = dict.fromkeys(p for op in sequence.operations for p in op.places if _within(p, deviation.place))
    found: set[str] = set()
    # A room speaks for itself only where it has no surface in any step.
    for place in [p for p in places if "/" in p] or list(places):
        here = [op for op in sequence.operations if any(_within(place, p) for p in op.places)]
        for stages in (STAGES[subject], _TILING):
            step = next((op for op in here if op.stage in stages), None)
            if step is not None:
                found.add(step.id)
                break
    return tuple(op for op in sequence.operations if op.id in found)


def _within(place: str, wider: str) -> bool:
    return place == wider or place.startswith(wider + "/")


def limits_of(rule: Rule) -> tuple[LimitOf, ...]:
    """The limits of a rule in the order in which it names them."""
    return tuple(_limit(key) for key in rule.limits)


@lru_cache(maxsize=None)
def _limit(key: str) -> LimitOf:
    owners: dict[str, tuple[Value, list[str]]] = {}
    without = []
    for family in PARENTS:
        value = practice(family).entry(key)
        if value is None:
            without.append(family)
            continue
        borrowers = owners.setdefault(value.family, (value, []))[1]
        if value.family != family:
            borrowers.append(family)
    held = tuple(Held(value, tuple(borrowers)) for value, borrowers in owners.values())
    if not held:
        raise KeyError(f"no practice value {key}")
    return LimitOf(key, held[0].value.what, held, tuple(without))


def verification(rule: Rule) -> str:
    """How the best of a rule's limits was verified in any family: a key of SEEN; "" for a rule that rests on no limit."""
    seen = {h.value.seen for limit in limits_of(rule) for h in limit.held}
    return next((how for how in SEEN if how in seen), "")


def count(rules: Iterable[Rule] = RULES) -> dict[str, int]:
    """How many rules there are by the best verification of their limits: every key of SEEN, and "" for no limit."""
    found = Counter(verification(r) for r in rules)
    return {how: found[how] for how in (*SEEN, "")}


def well_sourced(rules: Iterable[Rule] = RULES) -> int:
    """How many rules rest on a limit that was seen with the body itself or in the trade's press, in some family."""
    found = count(rules)
    return found["body"] + found["press"]
