"""The job's own statements: job, conditions, firm's limits."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from datetime import time

from tilespec.diagnostics.model import Label
from tilespec.diagnostics.suggest import nearest
from tilespec.job.context import Context
from tilespec.job.parts import take_apart
from tilespec.job.types import Conditions, Cutter, FirmLimit, Hours, Words
from tilespec.practice.lookup import NAMES, PARENTS, FirmValue, Practice, practice
from tilespec.quantity import Given, Quantity
from tilespec.quantity.read import read
from tilespec.quantity.typed import typed
from tilespec.quantity.unit import Kind
from tilespec.source import Span
from tilespec.syntax.nodes import Atom, Statement
from tilespec.vocabulary import AIDS, CREW, CUTTERS, DAYS, JOB_WORDS, MEASURED, OUTDOORS, PAPERS


@dataclass(slots=True)
class Header:
    title: Words | None = None
    reference: Words | None = None
    revision: Words | None = None
    date: datetime.date | None = None
    site: Words | None = None
    client: Words | None = None
    firm: Words | None = None
    author: Words | None = None
    family: str = "EN"
    family_given: bool = False
    begin: datetime.date | None = None
    hours: Hours | None = None
    crew: tuple[tuple[str, Quantity], ...] = ()
    cutting: tuple[Cutter, ...] = ()
    aids: tuple[str, ...] = ()
    closed: tuple[datetime.date, ...] = ()
    built: Quantity | None = None
    occupied: bool | None = None
    measured_to: str | None = None
    paper: str | None = None
    notice: Quantity | None = None
    span: Span | None = None
    limits: list[FirmLimit] = field(default_factory=list)


def family_of(statements: tuple[Statement, ...]) -> str:
    """The practice family a spec asks for (EN where it says none or one that is not known: that is reported later)."""
    for st in statements:
        if st.kind == "job":
            for line in st.lines:
                for a in line.attributes:
                    if a.kind == "practice" and a.args and a.args[0].text in PARENTS:
                        return a.args[0].text
    return "EN"


def sizes_in_mm(statements: tuple[Statement, ...]) -> bool:
    return any(
        a.kind == "sizes" and a.args and a.args[0].text == "mm"
        for st in statements
        if st.kind == "job"
        for line in st.lines
        for a in line.attributes
    )


def job(st: Statement, header: Header, context: Context) -> None:
    """Read a `job` statement into the header."""
    parts = take_apart(st, context)
    header.span = st.span()
    if st.args:
        header.title = context.words(st, st.args[0])
    for a in parts.own:
        first = a.args[0] if a.args else None
        if a.kind in ("ref", "revision", "site", "client", "firm", "author") and first:
            setattr(header, {"ref": "reference"}.get(a.kind, a.kind), context.words(st, first))
        elif a.kind == "date" and first:
            header.date = context.day(st, first)
        elif a.kind == "begin" and first:
            header.begin = context.day(st, first)
        elif a.kind == "closed":
            header.closed = (*header.closed, *(d for x in a.args if (d := context.day(st, x))))
        elif a.kind == "practice" and first:
            header.family_given = True
            if first.text in PARENTS:
                header.family = first.text
            elif first.text.upper() in PARENTS:
                context.report(
                    "unknown-family",
                    st.span(first),
                    f"`{first.text}` is no practice family.",
                    help=f"Write `{first.text.upper()}`.",
                    fixes=context.write(st.span(first), first.text.upper()),
                )
            else:
                listed = ", ".join(f"{f} ({NAMES[f]})" for f in PARENTS)
                context.report(
                    "unknown-family",
                    st.span(first),
                    f"`{first.text}` is no practice family.",
                    help=f"It can be: {listed}.",
                    fixes=tuple(fix for f in PARENTS for fix in context.write(st.span(first), f)),
                )
        elif a.kind == "hours":
            header.hours = _hours(st, a.args, context)
        elif a.kind == "crew":
            header.crew = _crew(st, a.args, context)
        elif a.kind == "cutting":
            header.cutting = _cutting(st, a.args, context)
        elif a.kind == "aids":
            header.aids = _aids(st, a.args, context)
        elif a.kind == "built" and first:
            header.built = context.number(st, first, "built")
        elif a.kind == "notice" and first:
            header.notice = context.number(st, first, "notice")
        elif a.kind == "measured":
            text = " ".join(x.text for x in a.args)
            if text in MEASURED:
                header.measured_to = MEASURED[text]
            else:
                span = st.span(a.args[0]).to(st.span(a.args[-1]))
                context.unknown("unknown-choice", span, f"Rooms are not measured to `{text}`.", text, ("bare wall", "tile face"))
        elif a.kind == "sizes" and first:
            if first.text not in ("mm", "m"):
                context.unknown(
                    "unknown-choice", st.span(first), f"Sizes in `{first.text}` is not offered.", first.text, ("mm", "m")
                )
        elif a.kind == "paper" and first:
            choice = {"a4": "A4", "letter": "Letter"}.get(first.text.lower())
            if choice is None:
                context.unknown("unknown-choice", st.span(first), f"There is no paper `{first.text}`.", first.text, PAPERS)
            header.paper = choice
        elif a.kind == "words":
            for w in context.described(st, a.args, JOB_WORDS, "a job"):
                header.occupied = w.text.lower() == "occupied"


def _hours(st: Statement, args: tuple[Atom, ...], context: Context) -> Hours | None:
    names, clocks = args[0], args[-1]
    days: list[int] = []
    for part in names.text.lower().split(","):
        ends = [p[:3] for p in part.split("-")]
        if any(e not in DAYS for e in ends) or len(ends) > 2:
            right = [e if e in DAYS else nearest(e, DAYS) or "" for e in part.split("-")]
            near = "-".join(right) if all(right) and len(right) < 3 and "," not in names.text else None
            context.report(
                "bad-hours",
                st.span(names),
                f"`{names.text}` names no days.",
                help=f"Did you mean `{near}`?" if near else "Write days as in `mon-fri`.",
                fixes=context.write(st.span(names), near) if near else (),
            )
            return None
        first, last = DAYS.index(ends[0]), DAYS.index(ends[-1])
        days.extend(range(first, last + 1) if last >= first else [*range(first, 7), *range(last + 1)])
    times = []
    for text in clocks.text.replace("–", "-").replace(" ", "").replace("\t", "").split("-"):
        hour, minute = (int(x) for x in text.split(":"))
        if hour > 23 or minute > 59:
            context.report("bad-hours", st.span(clocks), f"There is no time `{text}`.", help="Write times as in `07:30-16:00`.")
            return None
        times.append(time(hour, minute))
    if times[0] >= times[1]:
        text = f"{times[1]:%H:%M}-{times[0]:%H:%M}"
        context.report(
            "bad-hours",
            st.span(clocks),
            f"The working day ends ({times[1]:%H:%M}) before it starts ({times[0]:%H:%M}).",
            help=f"Did you mean `{text}`?",
            fixes=context.write(st.span(clocks), text) if times[0] != times[1] else (),
        )
        return None
    return Hours(tuple(sorted(set(days))), times[0], times[1], True, st.span(names).to(st.span(clocks)))


def _crew(st: Statement, args: tuple[Atom, ...], context: Context) -> tuple[tuple[str, Quantity], ...]:
    crew: list[tuple[str, Quantity]] = []
    for name, number in zip(args[::2], args[1::2], strict=True):
        role = name.text.lower().rstrip("s")
        if role not in CREW:
            context.unknown("unknown-choice", st.span(name), f"A crew has no `{name.text}`.", name.text, CREW)
            continue
        q = context.number(st, number, "crew")
        if any(r == role for r, _ in crew):
            context.report("said-twice", st.span(name), f"The {role}s of the crew are said twice.", help="Keep one of the two.")
        elif q is not None:
            crew.append((role, q))
    return tuple(crew)


def _cutting(st: Statement, args: tuple[Atom, ...], context: Context) -> tuple[Cutter, ...]:
    """Ways of cutting, each in one or more words: the longest that is known, from each place on."""
    found: dict[str, Cutter] = {}
    at = 0
    while at < len(args):
        taken = _known_words(args, at, CUTTERS)
        if not taken:
            at = _unknown(st, args, at, CUTTERS, "way of cutting", context)
            continue
        end = at + taken
        method = CUTTERS[" ".join(a.text.lower() for a in args[at:end])]
        outdoors = end < len(args) and args[end].text.lower() == OUTDOORS
        end += outdoors
        found.setdefault(method, Cutter(method, outdoors, st.span(args[at]).to(st.span(args[end - 1]))))
        at = end
    return tuple(found.values())


def _aids(st: Statement, args: tuple[Atom, ...], context: Context) -> tuple[str, ...]:
    """Aids for lifting, each in one or more words."""
    found: list[str] = []
    at = 0
    while at < len(args):
        taken = _known_words(args, at, AIDS)
        if taken:
            found.append(AIDS[" ".join(a.text.lower() for a in args[at : at + taken])])
            at += taken
        else:
            at = _unknown(st, args, at, AIDS, "aid for lifting", context)
    return tuple(dict.fromkeys(found))


def _known_words(args: tuple[Atom, ...], at: int, known: dict[str, str]) -> int:
    """How many words from here on are a known name; 0 for none."""
    lengths = (n for n in range(len(args) - at, 0, -1) if " ".join(a.text.lower() for a in args[at : at + n]) in known)
    return next(lengths, 0)


def _unknown(st: Statement, args: tuple[Atom, ...], at: int, known: dict[str, str], what: str, context: Context) -> int:
    """Tell what is not known, up to where a known name begins: one mistake. Returns where that is."""
    end = next((n for n in range(at + 1, len(args)) if _known_words(args, n, known)), len(args))
    text, span = " ".join(a.text for a in args[at:end]), st.span(args[at]).to(st.span(args[end - 1]))
    context.unknown("unknown-choice", span, f"`{text}` is no {what} that is known.", text.lower(), tuple(known))
    return end


def conditions(st: Statement, before: dict[str, Quantity], context: Context) -> dict[str, Quantity]:
    """Air and surface temperature and humidity that a `conditions` statement gives. `before`: what others gave."""
    found: dict[str, Quantity] = {}
    for a in take_apart(st, context).own:
        q = context.number(st, a.args[0], a.kind)
        first = before.get(a.kind)
        if first is not None and isinstance(first.why, Given):
            context.report(
                "said-twice",
                st.span(a),
                f"`{a.kind}` is said twice.",
                help="Keep one of the two.",
                secondary=(Label(first.why.span, "said here first"),),
            )
            continue
        if q is not None:
            found[a.kind] = q
    return found


def settle(said: dict[str, Quantity], context: Context) -> Conditions:
    """The conditions, with the practice's planning values for what was not said."""
    air = said.get("air") or context.assume(
        "conditions-air", "conditions", "job", "What is the temperature of the air on site?"
    )
    humidity = said.get("humidity") or context.assume(
        "conditions-humidity", "humidity", "job", "What is the humidity of the air on site?"
    )
    surface = said.get("surface") or context.assume(
        "conditions-surface", "surface-temperature", "job", "What is the temperature of the surfaces to be tiled?"
    )
    return Conditions(air, humidity, surface)


def limit(st: Statement, header: Header, context: Context) -> FirmValue | None:
    """A firm's own stricter value. Looser than the practice, or of no known limit: reported."""
    key, value = st.args
    reason = next((a for a in take_apart(st, context).own if a.kind == "because"), None)
    base: Practice = practice(header.family)
    entry = base.entry(key.text)
    if entry is None or entry.text:
        context.unknown(
            "unknown-limit",
            st.span(key),
            f"The practice has no limit called `{key.text}`.",
            key.text,
            base.keys(),
            "Part 12 of a print lists what it used; grammar/LANGUAGE.md lists the rest.",
        )
        return None
    official = base.limit(key.text)
    try:
        reading = read(value.text)
    except ValueError:
        return None
    u = reading.unit or official.shown
    if u.kind is not entry.kind and not (u.symbol == "%" and entry.kind in (Kind.MOISTURE, Kind.HUMIDITY)):
        context.report(
            "wrong-unit",
            st.span(value),
            f"`{value.text}` is a {u.kind.words}, but \"{entry.what}\" is a {entry.kind.words}.",
            help=f"Write it in {official.shown.symbol or 'plain numbers'}.",
        )
        return None
    if u.kind is not entry.kind:
        u = official.shown
    q = Quantity(reading.number * u.factor + u.offset, entry.kind, u, Given(st.span(value)))
    looser = (entry.stricter == "higher" and q.value < official.value) or (entry.stricter == "lower" and q.value > official.value)
    if looser:
        way = "more" if entry.stricter == "higher" else "less"
        context.report(
            "limit-looser",
            st.span(value),
            f"A firm may only be stricter: {typed(q)} is looser than the practice's {typed(official)}.",
            help=f"Write {typed(official)} or {way}, or take the line out.",
            notes=(f"The practice's source: {entry.source}.",),
        )
        return None
    if before := next((x for x in header.limits if x.key == key.text and x.span and x.span.file == st.file), None):
        context.report(
            "said-twice",
            st.span(),
            f"The limit `{key.text}` is said twice.",
            help="Keep the stricter of the two.",
            secondary=(Label(before.span, "said here first"),) if before.span else (),
        )
        return None
    header.limits.append(FirmLimit(key.text, q, context.words(st, reason.args[0]) if reason else None, st.span()))
    return FirmValue(key.text, q)
