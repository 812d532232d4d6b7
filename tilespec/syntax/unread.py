"""What is wrong with a piece that cannot be read, in a tiler's words: the slip behind it where it is a known one."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from tilespec.diagnostics.suggest import nearest
from tilespec.quantity.unit import SPELLINGS, UNITS
from tilespec.syntax.expected import expected
from tilespec.syntax.words import ATTRIBUTES, BOTH, STATEMENTS

_KNOWN = (*ATTRIBUTES, *BOTH, *STATEMENTS)

# How a statement or an attribute is written, for the help; the last of these words before the fault is taken.
_WRITTEN = {
    "barefoot": "barefoot class B",
    "basin": "basin on wall A, 0.6 x 0.45; 1.0 from left",
    "bath": "bath in corner A B, 1.7 x 0.75",
    "box": "box of 11",
    "boxing": "boxing in corner E F, 0.25 x 0.2",
    "build-up": "build-up leveller 6, membrane 1, bed 4",
    "channel": "channel along wall A, 0.8 long, 0.05 from wall A, 0.05 from wall D",
    "conditions": "conditions air 19 C; humidity 60 %; surface 17 C",
    "corner": "in corner D A",
    "crew": "crew tiler 1, helper 1",
    "datum": "datum 1.0 above finished floor",
    "deviation": 'deviation low-window-cut on wall B because "agreed by the client"',
    "diagonals": "diagonals 3.01, 2.99",
    "drain": "drain 0.45 from wall D, 0.45 from wall A",
    "fall": "fall 1:60 four planes",
    "finished": "finished floor 20 above structural floor",
    "floor": "floor 2.4 x 1.8",
    "from": "0.45 from left` or `0.45 from wall D",
    "heights": "heights left 2.41, right 2.39",
    "hours": "hours mon-fri 07:30-16:00",
    "limit": 'limit joint-min-floor 3 mm because "..."',
    "record": 'record membrane on floor 2026-03-11 by "name"',
    "room": 'room "Bathroom" height 2.4',
    "rooms": "rooms measured to bare wall",
    "shower": "shower in corner D A, 0.9 x 0.9",
    "step": 'step "Fit shower screen" by glazier; after sealing',
    "temperature": "temperature 5 to 30 C",
    "use": 'use "house-stock.tilespec"',
    "wait": "wait 4 h before grouting",
    "walk": "walk A 2.4, B 1.8, C 2.4, D 1.8",
    "wall": "wall A",
}

_WORD = re.compile(r'"[^"]*"?|[^\s;,]+|.')
_LETTERS = re.compile(r"[^\W\d_][\w-]*")
_DATE = re.compile(r"([0-9]{1,4})[./-]([0-9]{1,2})[./-]([0-9]{1,4})(?![\w.])")
_NUMBER = re.compile(r"[0-9.,/]*\.?[0-9][0-9.,/]*")
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


def unread(text: str, at: int, accepts: Iterable[str]) -> Unread:
    """Why a piece cannot be read from `at` on, where one of `accepts` (names of terminals) could have stood."""
    allowed = set(accepts)
    found = _WORD.match(text, at)
    if not found or not found[0].strip():
        start = max(len(text.rstrip()) - 1, 0)
        return Unread("cannot-read", start, start + 1, f"`{short(text)}` stops too early.", _help(text, at, allowed))
    word, end = found[0], found.end()
    return (
        _as_date(text, at)
        or _as_number(text, at)
        or _between(text, at, word, end, allowed)
        or _sign(at, word)
        or _quotes(text, at, word, end, allowed)
        or _unit(text, at)
        or Unread("cannot-read", at, end, f"`{short(word)}` cannot stand here.", _help(text, at, allowed))
    )


def _help(text: str, at: int, allowed: set[str]) -> str:
    before = [m[0].lower() for m in _LETTERS.finditer(text, 0, at)]
    keyword = next((w for w in reversed(before) if w in _WRITTEN or (w in _KNOWN and w not in ("in", "on", "at", "along"))), "")
    if "_X" in allowed and before[-1:] == [keyword]:
        return "Expected `x` and the other side, as in `2.4 x 1.8`."
    if before[-1:] == ["wall"] and "NAME" in allowed:
        return "Expected the letter of the wall, as in `wall A`."
    if keyword in _WRITTEN and ("$END" not in allowed or before[-1:] == [keyword]):
        return f"Write it as in `{_WRITTEN[keyword]}`."
    return f"Expected {expected(allowed)}."


def _run(text: str, at: int) -> int:
    """Where the run of digits and points that `at` lies in begins."""
    while at > 0 and (text[at - 1].isdigit() or text[at - 1] in "./-,"):
        at -= 1
    return at


def _as_date(text: str, at: int) -> Unread | None:
    start = _run(text, at)
    m = _DATE.match(text, start)
    if not m or len(m[1]) + len(m[3]) < 5 or (len(m[1]) == 4) == (len(m[3]) == 4):
        return None
    a, b, c = int(m[1]), int(m[2]), int(m[3])
    if len(m[1]) == 4:
        readings = [(a, b, c)]
    elif "/" in m[0]:
        readings = [(c, a, b), (c, b, a)]   # month first (US), day first
    else:
        readings = [(c, b, a)]
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
        "bad-date", start, m.end(), f"`{m[0]}` is not how a date is written here.",
        f"Write year-month-day: {shown}.", tuple((start, m.end(), d) for d in days),
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


def _unit(text: str, at: int) -> Unread | None:
    """A word behind a number that is no unit."""
    m = _LETTERS.match(text, at)
    if not m or not text[:at].rstrip()[-1:].isdigit() or m[0].lower() in _KNOWN or m[0].lower() in ("from", "up"):
        return None
    units = [u for u in (*UNITS, *SPELLINGS) if u and u not in ("count", "year", "slope")]
    lower = {u.lower(): u for u in units if len(u) > 1}
    right = lower.get(m[0].lower()) or (nearest(m[0], units) if len(m[0]) > 4 else None)
    edits: tuple[tuple[int, int, str], ...] = ()
    if right:
        help, edits = f"Did you mean `{right}`?", ((m.start(), m.end(), right),)
    else:
        help, edits = "Lengths are in mm, cm, m, in or ft; weights in g, kg or lb; times in min, h or d.", edits
    return Unread("cannot-read", m.start(), m.end(), f"`{m[0]}` is no unit, and no word that can stand here.", help, edits)
