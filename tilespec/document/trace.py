"""Reference marks: every printed quantity carries one, and the lists at the end say what stands behind it.

    L14   said in the spec, on line 14 (a stock file's lines carry its letter: La14)
    D3    a default in use until somebody answers
    R7    a limit or planning value of the practice, with its source
    W21   worked out: formula, inputs each with their own mark, source; or a count of things in the job

Two quantities with the same reason share one mark. Defaults of one basis, limits of one source and workings of one formula
are numbered together, so that the list can say the basis, the source or the formula once and still runs by number.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, fields, is_dataclass
from pathlib import PurePath

from tilespec.document.show import formula_words
from tilespec.document.text import Ref, Said
from tilespec.practice.lookup import NAMES, Word, entries
from tilespec.quantity import Counted, Default, Given, Limit, Quantity, Worked
from tilespec.source import Source, Span

# What carries a reference mark: a number with its why, or a word of the practice with its source.
Marked = Quantity | Word

# How a source was checked, as a wording key of the list of sources.
SEEN = ("body", "press", "restated", "memory")


class Untraced(Exception):
    """A quantity reached paper that the document does not hold: a bug in tilespec or in a firm's wording."""


@dataclass(frozen=True, slots=True)
class File:
    """A text that was read: the spec (letter "") and the stock files (a, b, ...)."""

    name: Said
    letter: Ref
    source: Source


@dataclass(frozen=True, slots=True)
class DefaultEntry:
    mark: Ref
    quantity: Quantity
    question: Said


@dataclass(frozen=True, slots=True)
class DefaultGroup:
    """The defaults that have one basis, and who would know better."""

    basis: Ref
    ask: str
    entries: tuple[DefaultEntry, ...]


@dataclass(frozen=True, slots=True)
class LimitEntry:
    """`quantity`: a number, or a word such as a class."""

    mark: Ref
    quantity: Marked
    key: Ref
    what: Ref
    note: Ref


@dataclass(frozen=True, slots=True)
class LimitGroup:
    """The limits that one source gives. `borrowed`: the job's family has no value of its own and takes this one."""

    source: Ref
    family: str
    family_name: str
    borrowed: bool
    seen: str
    entries: tuple[LimitEntry, ...]


@dataclass(frozen=True, slots=True)
class Input:
    """One named input of a working."""

    name: Ref
    quantity: Quantity


@dataclass(frozen=True, slots=True)
class Working:
    """`told`: its inputs are told with it; else they are those of the next working."""

    mark: Ref
    quantity: Quantity
    inputs: tuple[Input, ...]
    told: bool = True


@dataclass(frozen=True, slots=True)
class Formula:
    """One formula with all that was worked out by it. `adds`: nothing but a sum of its inputs, whatever they are called."""

    text: Ref
    adds: bool
    source: Ref
    workings: tuple[Working, ...]


@dataclass(frozen=True, slots=True)
class Count:
    """Things of the job counted, and the lines that speak of them."""

    mark: Ref
    quantity: Quantity
    of: Ref
    lines: tuple[Ref, ...]


@dataclass(frozen=True, slots=True)
class Traces:
    """All marks of a document."""

    files: tuple[File, ...]
    defaults: tuple[DefaultGroup, ...]
    limits: tuple[LimitGroup, ...]
    counts: tuple[Count, ...]
    formulas: tuple[Formula, ...]
    _keys: _Keys = field(compare=False, repr=False)
    _marks: dict[int, str] = field(compare=False, repr=False)
    _below: dict[str, tuple[str, ...]] = field(compare=False, repr=False)

    def mark(self, q: Marked) -> str:
        """The reference mark of a quantity, or of a word of the practice. Raises Untraced."""
        try:
            return self._marks[self._keys.of(q)]
        except KeyError:
            raise Untraced(f"a quantity without a trace: {q!r}") from None

    def reached(self, marks: Iterable[str]) -> frozenset[str]:
        """These marks and all that they lead to."""
        found: set[str] = set()
        todo = list(marks)
        while todo:
            mark = todo.pop()
            if mark not in found:
                found.add(mark)
                todo.extend(self._below.get(mark, ()))
        return frozenset(found)

    def all(self) -> frozenset[str]:
        """Every mark of the document."""
        return frozenset(self._below)


class _Keys:
    """What makes two quantities share a mark: value, kind and reason. The unit shown does not.

    Reasons are numbered, so that a working that is used a hundred times is compared once.
    """

    def __init__(self) -> None:
        self._known: dict[int, tuple[Marked, int]] = {}
        self._numbers: dict[tuple[object, ...], int] = {}

    def of(self, q: Marked) -> int:
        known = self._known.get(id(q))
        if known is not None and known[0] is q:
            return known[1]
        reason = self._reason(q)
        number = self._numbers.setdefault(reason, len(self._numbers))
        self._known[id(q)] = (q, number)
        return number

    def _reason(self, q: Marked) -> tuple[object, ...]:
        if isinstance(q, Word):
            return (q.text, q.why.key, q.why.family)
        why = q.why
        if isinstance(why, Worked):
            return (q.value, q.kind, why.formula, why.source, tuple((name, self.of(i)) for name, i in why.inputs))
        if isinstance(why, Given):
            return (q.value, q.kind, why.span)
        if isinstance(why, Limit):
            return (q.value, q.kind, why.key, why.family)
        if isinstance(why, Default):
            return (q.value, q.kind, why.question, why.basis)
        return (q.value, q.kind, why.of, why.spans)


def quantities(node: object) -> Iterator[Marked]:
    """Every quantity and every word of the practice that a frozen structure holds, in its order; not those behind workings."""
    if isinstance(node, (Quantity, Word)):
        yield node
    elif isinstance(node, tuple):
        for item in node:
            yield from quantities(item)
    elif is_dataclass(node) and not isinstance(node, (Said, Ref, Source, type)):
        for f in fields(node):
            yield from quantities(getattr(node, f.name))


class _Book:
    """Gathers quantities before marks are given."""

    def __init__(self, sources: tuple[Source, ...]) -> None:
        letters = file_letters(sources)
        # Without its folder: a print is the same wherever the job lies.
        self.files = {s.name: File(Said(PurePath(s.name).name), Ref(letters[s.name], "letter"), s) for s in sources}
        self.keys = _Keys()
        self.first: dict[int, Marked] = {}

    def add(self, q: Marked) -> None:
        key = self.keys.of(q)
        if key not in self.first:
            self.first[key] = q
            if isinstance(q, Quantity) and isinstance(q.why, Worked):
                for _, i in q.why.inputs:
                    self.add(i)

    def line(self, file: str, start: int) -> str:
        found = self.files.get(file)
        if found is None:
            raise Untraced(f"no text for {file!r}")
        line, _ = found.source.line_column(start)
        return f"L{found.letter.text}{line}"

    def lines(self, spans: tuple[Span, ...]) -> tuple[Ref, ...]:
        """The lines of several places, each once: several things may stand on one line."""
        return tuple(Ref(line, "mark") for line in dict.fromkeys(self.line(s.file, s.start) for s in spans))


def file_letters(sources: tuple[Source, ...]) -> dict[str, str]:
    """The letters of the texts: none for the spec, then a, b, ..."""
    return {s.name: "" if not i else _letter(i - 1) for i, s in enumerate(sources)}


def _letter(index: int) -> str:
    return chr(ord("a") + index) if index < 26 else _letter(index // 26 - 1) + _letter(index % 26)


def _what(why: Limit) -> str:
    found = entries(why.family).get(why.key)
    return found.what if found else why.key.replace("-", " ")


def trace(node: object, sources: tuple[Source, ...], room: str = "") -> Traces:
    """Marks for everything that `node` holds. `sources`: the spec first, then the stock files in reading order.

    `room`: the only room of the job, whose name then need not stand in every working.

    Raises Untraced when a quantity points into a text that is not among them.
    """
    book = _Book(sources)
    for q in quantities(node):
        book.add(q)
    marks: dict[int, str] = {}
    defaults: dict[tuple[str, str], list[tuple[int, Quantity, Default]]] = {}
    limits: dict[tuple[str, str, bool, str], list[tuple[int, Marked, Limit]]] = {}
    counted: list[tuple[int, Quantity, Counted]] = []
    formulas: dict[tuple[str, bool, str], list[tuple[int, Quantity, Worked]]] = {}
    for key, q in book.first.items():
        why = q.why
        if isinstance(why, Limit):
            borrowed = why.family not in (why.asked, "common")
            limits.setdefault((why.source, why.family, borrowed, why.seen), []).append((key, q, why))
        elif isinstance(q, Word):
            raise Untraced(f"a word without a limit: {q!r}")
        elif isinstance(why, Given):
            marks[key] = book.line(why.span.file, why.span.start)
        elif isinstance(why, Default):
            defaults.setdefault((why.basis, why.ask), []).append((key, q, why))
        elif isinstance(why, Counted):
            counted.append((key, q, why))
        else:
            adds = why.formula == " + ".join(name for name, _ in why.inputs) and len(why.inputs) > 1
            formulas.setdefault(("" if adds else why.formula, adds, why.source), []).append((key, q, why))
    _number(marks, "D", [key for group in defaults.values() for key, _, _ in group])
    _number(marks, "R", [key for group in limits.values() for key, _, _ in group])
    _number(marks, "W", [key for key, _, _ in counted] + [key for each in formulas.values() for key, _, _ in each])

    def mark(key: int) -> Ref:
        return Ref(marks[key], "mark")

    def short(text: str) -> str:
        return text.replace(f"{room}/", "") if room else text

    def inputs(why: Worked) -> tuple[Input, ...]:
        return tuple(Input(Ref(short(name), "formula"), i) for name, i in why.inputs)

    def same(one: Worked, other: Worked) -> bool:
        """The same inputs with the same marks: equal values with another reason are others."""
        return [(n, book.keys.of(i)) for n, i in one.inputs] == [(n, book.keys.of(i)) for n, i in other.inputs]

    counts = tuple(Count(mark(key), q, Ref(short(why.of), "source"), book.lines(why.spans)) for key, q, why in counted)
    worked = tuple(
        Formula(
            Ref(formula_words(short(text)), "formula"),
            adds,
            Ref(source, "source"),
            tuple(
                Working(mark(key), q, inputs(why), n + 1 == len(each) or not same(why, each[n + 1][2]))
                for n, (key, q, why) in enumerate(each)
            ),
        )
        for (text, adds, source), each in formulas.items()
    )
    below: dict[str, tuple[str, ...]] = {m: () for m in marks.values()}
    for count in counts:
        below[count.mark.text] = tuple(line.text for line in count.lines)
        below.update({line.text: () for line in count.lines})
    for formula in worked:
        for w in formula.workings:
            below[w.mark.text] = tuple(marks[book.keys.of(i.quantity)] for i in w.inputs)
    return Traces(
        tuple(book.files.values()),
        tuple(
            DefaultGroup(
                Ref(basis, "source"), ask, tuple(DefaultEntry(mark(key), q, Said(why.question)) for key, q, why in group)
            )
            for (basis, ask), group in defaults.items()
        ),
        tuple(
            LimitGroup(
                Ref(source, "source"),
                family,
                NAMES[family],
                borrowed,
                seen,
                tuple(_limit(mark(key), q, why) for key, q, why in group),
            )
            for (source, family, borrowed, seen), group in limits.items()
        ),
        counts,
        worked,
        book.keys,
        marks,
        below,
    )


def _number(marks: dict[int, str], letter: str, keys: list[int]) -> None:
    for number, key in enumerate(keys, 1):
        marks[key] = f"{letter}{number}"


def _limit(mark: Ref, q: Marked, why: Limit) -> LimitEntry:
    return LimitEntry(mark, q, Ref(why.key, "code"), Ref(_what(why), "source"), Ref(why.note, "source"))


_MARK = re.compile(r"(L[a-z]*|[DRW])([0-9]+)")


def mark_order(mark: str) -> tuple[str, int]:
    """Sorts marks by letter and number."""
    m = _MARK.fullmatch(mark)
    if not m:
        raise ValueError(f"not a reference mark: {mark!r}")
    return m[1], int(m[2])
