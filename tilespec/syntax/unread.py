"""What is wrong with a piece that cannot be read, in a tiler's words: the slip behind it where it is a known one."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from tilespec.diagnostics.suggest import nearest
from tilespec.quantity.read import read
from tilespec.quantity.unit import SPELLINGS, UNITS, Kind, units_of
from tilespec.syntax.expected import expected
from tilespec.syntax.partial import Partial
from tilespec.syntax.words import ATTRIBUTES, BOTH, STATEMENTS
from tilespec.syntax.written import example, listed, with_number
from tilespec.vocabulary import elsewhere, home

_KNOWN = (*ATTRIBUTES, *BOTH, *STATEMENTS)

_WORD = re.compile(r'"[^"]*"?|[^\s;,]+|.')
_LETTERS = re.compile(r"[^\W\d_][\w-]*")
_DATE = re.compile(r"([0-9]{1,4})[./-]([0-9]{1,2})[./-]([0-9]{1,4})(?![\w.])")
_NAMED_DATE = re.compile(
    r"(?<![\w.-])(?:(?P<day>[0-9]{1,2})(?:st|nd|rd|th|\.)?[ ]*(?P<month>[^\W\d_]{3,9})\.?,?[ ]*(?P<year>[0-9]{4}|[0-9]{2})"
    r"|(?P<month2>[^\W\d_]{3,9})\.?[ ]*(?P<day2>[0-9]{1,2})(?:st|nd|rd|th)?,?[ ]+(?P<year2>[0-9]{4}|[0-9]{2})"
    r"|(?P<year3>[0-9]{4})[ -]*(?P<month3>[^\W\d_]{3,9})\.?[ -]*(?P<day3>[0-9]{1,2}))(?!\w)"
)
_MONTHS = {
    "january": 1, "januar": 1, "february": 2, "februar": 2, "march": 3, "märz": 3, "maerz": 3, "mrz": 3, "april": 4, "may": 5,
    "mai": 5, "june": 6, "juni": 6, "july": 7, "juli": 7, "august": 8, "september": 9, "october": 10, "oktober": 10,
    "november": 11, "december": 12, "dezember": 12,
}
_CENTURY = 2000
_LOWER = ("lower", "below", "down", "deeper")
_WAYS = "higher|above|up|taller|" + "|".join(_LOWER)
_HALL = re.compile(
    rf"hall[ ]+floor[ ]+(?P<before>{_WAYS})?[ ]*(?:by[ ]+)?(?P<number>[+-]?[0-9]+(?:\.[0-9]+)?(?:[ ]*(?:mm|cm|m|in))?)"
    rf"[ ]*(?P<after>{_WAYS})?$", re.IGNORECASE,
)
_BEHIND = re.compile(
    r"(?<![\w.,] )(?<![\w-])(?P<word>high|wide|deep|long)[ ]+(?P<number>[0-9]+(?:\.[0-9]+)?(?:[ ]?(?:mm|cm|m|in|ft))?)$"
)
_NUMBER = re.compile(r"[0-9.,/]*\.?[0-9][0-9.,/]*")
_QUANTITY = re.compile(r"1:[0-9]+|[0-9]+(?:\.[0-9]+)?(?:[ ](?:%RH|CM%|%|[A-Za-z][A-Za-z0-9/]*))?")
_DEGREES = re.compile(
    r"(?:degrees?|deg\.?|grad|°)(?:[ ]*(?P<scale>celsius|centigrade|fahrenheit|[CF](?!\w)))?|(?P<alone>celsius|fahrenheit)",
    re.IGNORECASE,
)
_HOT = 40
_PERCENT = {"percent": "%", "percents": "%", "prozent": "%", "pct": "%"}
_PLAIN_NUMBERS = ("box", "built", "coats", "crew", "dcof", "language", "pendulum", "samples")
_WORDS_OF_PLACE = ("in", "on", "at", "along", "from", "above", "below")
_BEHIND_NUMBERS = ("from", "up", "above", "below", "high", "wide", "deep", "long", "to", "per", "before", "between")
# What people say between two sides.
_BETWEEN = ("by", "*", "on", "times", "and", "+")
# What takes a text; of these, what has nothing else behind it.
_TEXTS = (
    "job", "use", "room", "step", "site", "client", "firm", "author", "because", "note", "overrun", "fitting", "fixture", "by",
)
_WHOLE = ("job", "use", "room", "site", "client", "firm", "author", "because", "note", "overrun")
_TURNED = re.compile(
    "[\u201c\u201d\u201e\u2018\u2019\u00ab']([^\u201c\u201d\u2018\u2019\u00bb'\"\n]+)[\u201c\u201d\u2018\u2019\u00bb']"
)


@dataclass(frozen=True, slots=True)
class Unread:
    """A fault in a piece: the diagnostic's name, its place, what to say, and edits as (place, place, new text)."""

    name: str
    start: int
    end: int
    message: str
    help: str
    edits: tuple[tuple[int, int, str], ...] = ()


def short(text: str) -> str:
    return text if len(text) <= 40 else text[:37] + "..."


@dataclass(frozen=True, slots=True)
class Place:
    """Where a piece stands.

    statement  its word
    head       the piece begins it
    before     kinds of what is said on the same line before it
    said       what could be read of the piece itself
    """

    statement: str
    head: bool
    before: tuple[str, ...]
    said: Partial


def unread(text: str, at: int, accepts: Iterable[str], place: Place) -> Unread:
    """Why a piece cannot be read from `at` on, where one of `accepts` (names of terminals) could have stood."""
    allowed = set(accepts)
    found = _WORD.match(text, at)
    if not found or not found[0].strip():
        start = max(len(text.rstrip()) - 1, 0)
        return (
            _as_named_date(text, at, allowed)
            or _behind(text, at)
            or Unread("cannot-read", start, start + 1, f"`{short(text)}` stops too early.", _help(text, at, allowed, place))
        )
    word, end = found[0], found.end()
    return (
        _as_date(text, at, allowed)
        or _as_named_date(text, at, allowed)
        or _hall(text, at)
        or _behind(text, at)
        or _as_number(text, at)
        or _between(text, at, word, end, allowed)
        or _sign(at, word)
        or _quotes(text, at, word, end, allowed)
        or _unit(text, at, place)
        or Unread(
            "cannot-read", at, end, f"`{short(word)}` cannot stand here.", elsewhere(word) or _help(text, at, allowed, place)
        )
    )


def _help(text: str, at: int, allowed: set[str], place: Place) -> str:
    """How what stops here is written: in the words of the very thing that the line is in."""
    said = place.said
    before = [m[0].lower() for m in _LETTERS.finditer(text, 0, at)]
    if said.words and ("$END" not in allowed or said.open):
        head = place.head and not said.kinds
        # A word of place says too little: it is the thing that has the place which is shown.
        thing = with_number("", place.statement, (), said.kinds) if said.words[0] in _WORDS_OF_PLACE and not place.head else ""
        shown = thing or example(said.words, place.statement, head)
        if before[-1:] == ["wall"] and "NAME" in allowed:
            return f"Expected the letter of the wall, as in `{shown or 'wall A'}`."
        if shown:
            choices = listed(said.words, place.statement) if said.open and not head and not thing else ()
            return f"Write it as in `{shown}`." + (f" It can be: {', '.join(choices)}." if choices else "")
    elif said.number and "$END" not in allowed:
        if shown := with_number(said.number, place.statement, place.before, said.kinds):
            return f"Write it as in `{shown}`."
    return f"Expected {expected(allowed)}."


def _run(text: str, at: int) -> int:
    """Where the run of digits and points that `at` lies in begins."""
    while at > 0 and (text[at - 1].isdigit() or text[at - 1] in "./-,"):
        at -= 1
    return at


def _as_date(text: str, at: int, allowed: set[str]) -> Unread | None:
    start = _run(text, at)
    m = _DATE.match(text, start)
    if not m or (len(m[1]) > 2) == (len(m[3]) > 2) and not (len(m[1]) <= len(m[3]) == 2 and "DATE" in allowed):
        return None
    a, b, c = int(m[1]), int(m[2]), int(m[3])
    short_year = len(m[3]) == 2 and len(m[1]) <= 2
    c += _CENTURY if short_year else 0
    if len(m[1]) == 4:
        readings = [(a, b, c)]
    elif "/" in m[0]:
        readings = [(c, a, b), (c, b, a)]   # month first (US), day first
    elif short_year and "-" in m[0]:
        readings = [(c, b, a), (_CENTURY + a, b, c - _CENTURY)]   # day first, year first
    else:
        readings = [(c, b, a)]
    return _a_date(text, start, m.end(), readings)


def _as_named_date(text: str, at: int, allowed: set[str]) -> Unread | None:
    """A date with the name of its month, in English or German."""
    for m in _NAMED_DATE.finditer(text):
        if not m.start() <= at <= m.end():
            continue
        day, month, year = m["day"] or m["day2"] or m["day3"], m["month"] or m["month2"] or m["month3"], m["year"] or m["year2"]
        year = year or m["year3"]
        number = next((n for name, n in _MONTHS.items() if len(month) > 2 and name.startswith(month.lower())), 0)
        if number and ("DATE" in allowed or m.start() < at):
            full = int(year) + (_CENTURY if len(year) == 2 else 0)
            return _a_date(text, m.start(), m.end(), [(full, number, int(day))])
    return None


def _a_date(text: str, start: int, end: int, readings: list[tuple[int, int, int]]) -> Unread:
    days: list[str] = []
    for reading in readings:
        try:
            day = date(*reading).isoformat()
        except ValueError:
            continue
        if day not in days:
            days.append(day)
    shown = " or ".join(f"`{d}`" for d in days) or "`2026-03-09`"
    return Unread(
        "bad-date", start, end, f"`{text[start:end]}` is not how a date is written here.",
        f"Write year-month-day: {shown}.", tuple((start, end, d) for d in days),
    )


def _behind(text: str, at: int) -> Unread | None:
    """A number behind a word that it belongs before: `high 2.5`."""
    for m in _BEHIND.finditer(text):
        if m.start() <= at <= m.end():
            right = f"{m['number']} {m['word']}"
            return Unread(
                "cannot-read", m.start(), m.end(), f"`{m[0]}` is the wrong way round.", f"Write `{right}`.",
                ((m.start(), m.end(), right),),
            )
    return None


def _hall(text: str, at: int) -> Unread | None:
    """How people say a step at the door: `hall floor 10 higher`."""
    m = _HALL.match(text)
    if not m or not (m["before"] or m["after"]):
        return None
    word = (m["before"] or m["after"]).lower()
    number = m["number"].lstrip("+-")
    right = f"hall floor {'-' if word in _LOWER else '+'}{number}"
    start = m.start("before") if m["before"] else m.start("after")
    said = m["before"] or m["after"]
    return Unread(
        "cannot-read", start, start + len(said), f"`{said}` cannot stand here.",
        f"Higher is `+`, lower is `-`: write `{right}`.", ((m.start(), m.end(), right),),
    )


def _as_number(text: str, at: int) -> Unread | None:
    start = _run(text, at)
    m = _NUMBER.match(text, start)
    if not m or not start <= at < m.end():
        return None
    run = m[0].rstrip(",/")
    if text[at] == "." and start == at and run.count(".") == 1 and run[1:].isdigit():
        return _without_nought(start, run)
    if start == at or run.isdigit():
        return None
    return Unread(
        "bad-number", start, start + len(run), f"`{run}` is not a number that can be read.",
        "Write it as in `2.4` or `10 1/2 in`.",
    )


def _without_nought(start: int, run: str) -> Unread:
    return Unread(
        "bad-number", start, start + len(run), f"`{run}` lacks the nought before the point.", f"Write `0{run}`.",
        ((start, start + len(run), "0" + run),),
    )


def _between(text: str, at: int, word: str, end: int, allowed: set[str]) -> Unread | None:
    if "_X" not in allowed:
        return None
    if word in ("x", "X", "×"):
        behind = re.compile(r"[ \t]*(\.[0-9]+)").match(text, end)
        if behind:
            return _without_nought(behind.start(1), behind[1])
        return Unread(
            "cannot-read", at, end, f"The other side is missing after `{word}`.", "Write both sides, as in `2.4 x 1.8`."
        )
    sign = next((s for s in _BETWEEN if word == s or (not s.isalpha() and word.startswith(s))), None)
    if sign is None:
        return None
    # All sides of the size at once: 600*300*9.
    more = re.compile(rf"{re.escape(sign)}[ \t]*[0-9.]+([^\S\n]*{re.escape(sign)}[ \t]*[0-9.]+)?").match(text, at)
    end = more.end() if more else at + len(sign)
    return Unread(
        "cannot-read", at, at + len(sign), f"`{sign}` cannot stand between two sides.", "Write `x`, as in `2.4 x 1.8`.",
        ((at, end, text[at:end].replace(sign, "x")),),
    )


def _sign(at: int, word: str) -> Unread | None:
    if word[0] not in ":=":
        return None
    return Unread("cannot-read", at, at + 1, f"`{word[0]}` has no meaning here.", "Leave it out.", ((at, at + 1, " "),))


def _quotes(text: str, at: int, word: str, end: int, allowed: set[str]) -> Unread | None:
    if "STRING" not in allowed or "NAME" in allowed or word.startswith('"'):
        return None
    before = [m[0].lower() for m in _LETTERS.finditer(text, 0, at)]
    if before[-1:] and before[-1] not in _TEXTS:
        return None
    turned = _TURNED.match(text, at)
    if turned:
        return Unread(
            "cannot-read", at, turned.end(), "These are not the quotes that are read: a word processor has turned them.",
            f'Write `"{short(turned[1])}"`.', ((at, turned.end(), f'"{turned[1]}"'),),
        )
    if before[-1] in _WHOLE:
        end = len(text)
        word = text[at:end].rstrip()
    return Unread(
        "cannot-read", at, end, f"`{short(text[at:end])}` needs quotes here.", f'Write `"{short(word)}"`.',
        ((at, end, f'"{word}"'),),
    )


def _unit(text: str, at: int, place: Place) -> Unread | None:
    """A word behind a number that is no unit."""
    m = _LETTERS.match(text, at)
    if not m or not text[:at].rstrip()[-1:].isdigit() or m[0].lower() in (*_KNOWN, *_BEHIND_NUMBERS):
        return None
    if home(m[0]) and not place.said.words:
        return None
    shown = _example_here(place)
    kind = _kind_of(shown)
    word, end = m[0].lower(), m.end()
    number = place.said.number
    message = f"`{m[0]}` is no unit, and no word that can stand here."
    if kind is Kind.TEMPERATURE and (degrees := _DEGREES.match(text, at)):
        scale = degrees["scale"] or degrees["alone"]
        scales = ["F" if scale[0] in "fF" else "C"] if scale else ["C", "F"]
        right = " or ".join(f"`{number} {s}`" for s in scales)
        # Nobody tiles below freezing, nor in such heat: a number has one likely reading, if two that could be written.
        likely = scales[0] if len(scales) == 1 or number.lstrip("-").isdigit() and int(number) <= _HOT else "F"
        return Unread(
            "cannot-read", m.start(), degrees.end(), message.replace(m[0], degrees[0]), f"Write {right}.",
            ((m.start(), degrees.end(), likely),),
        )
    units = [u for u in (*UNITS, *SPELLINGS) if u and u not in ("count", "year", "slope")]
    if kind is not None:
        units = [u for u in units if UNITS[SPELLINGS.get(u, u)].kind is kind]
    if (whole := re.compile(r"/\w+").match(text, m.end())) and kind is not None:
        # A unit over another is one word.
        word, end = word + whole[0].lower(), whole.end()
        message = f"`{text[m.start():end]}` is no unit, and no word that can stand here."
    lower = {u.lower(): u for u in units if len(u) > 1}
    near = _PERCENT.get(word) if "%" in units or kind is Kind.HUMIDITY else None
    near = near or lower.get(word) or lower.get(word.removesuffix("s"))
    near = near or (nearest(text[m.start() : end], units) if len(word) > 4 else None)
    if near:
        return Unread("cannot-read", m.start(), end, message, f"Did you mean `{near}`?", ((m.start(), end, near),))
    if kind is None:
        help = f"Write a plain number, without a unit, as in `{shown}`."
    elif kind is Kind.SLOPE:
        help = f"Write it {units_of(kind)}."
    else:
        help = f"Write it in {units_of(kind)}" + (f", as in `{shown}`." if read_unit(shown) else ".")
    return Unread("cannot-read", m.start(), end, message, help)


def _example_here(place: Place) -> str:
    said = place.said
    if said.words:
        return example(said.words, place.statement, place.head and not said.kinds)
    return with_number(said.number, place.statement, place.before, said.kinds)


def read_unit(shown: str) -> bool:
    """Whether an example has a unit written with its number."""
    kind = _kind_of(shown)
    return kind is not None and any(_reads(m[0]) for m in _QUANTITY.finditer(shown))


def _reads(text: str) -> bool:
    try:
        return read(text).unit is not None
    except ValueError:
        return False


def _kind_of(shown: str) -> Kind | None:
    """What the number of an example measures: by its unit; where none is written, a length, or nothing (None)."""
    for m in _QUANTITY.finditer(shown):
        try:
            unit = read(m[0]).unit
        except ValueError:
            continue
        if unit is not None:
            return Kind.HUMIDITY if shown.startswith("humidity") else unit.kind
    return None if shown.split(" ")[0] in _PLAIN_NUMBERS else Kind.LENGTH
