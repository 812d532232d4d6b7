"""What can stand next in a piece that is being typed, as the grammar has it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedInput
from lark.parsers.lalr_analysis import Shift

from tilespec.syntax.parse import grammar

# A number may stand first in what follows a word of the language.
NUMBER = "QTY"
# Any number of names.
SEVERAL = "NAME+"
# Rules that are no attribute of their own, but parts of one.
_PARTS = ("dims", "size_words", "_leg", "leg", "turn")
# Tokens that stand where a name can.
_NAMES = {"MOVEMENT": "NAME", "BUILD_UP": "build-up", "_X": "x", "_COMMA": ","}


@dataclass(frozen=True, slots=True)
class Ahead:
    """words   of the language that can stand next
    kinds   of other tokens: "NAME", "QTY", "STRING", "DATE", "CLOCKS", "REFERENCE", "PRODUCT", "MOVEMENT"
    ends    the piece can end here
    inside  what stands last and is not whole yet, or could go on: words of the language as they are, other tokens by their
            kind; () where something new begins
    said    the texts of these
    whole   the kinds of what stands whole before, in order: attributes, and the statement where the piece has its head
    """

    words: frozenset[str]
    kinds: frozenset[str]
    ends: bool
    inside: tuple[str, ...]
    said: tuple[str, ...]
    whole: tuple[str, ...]

    @property
    def values(self) -> tuple[str, ...]:
        """What has been said, without the words of the language and commas."""
        return tuple(text for symbol, text in zip(self.inside, self.said, strict=True) if symbol.isupper())


@lru_cache(maxsize=1024)
def ahead(text: str, entry: str) -> Ahead | None:
    """What can follow the text of a piece, from the rule `head` or `attributes`. None where the text itself cannot be read."""
    parser = grammar().parse_interactive(text, start=entry)
    try:
        parser.exhaust_lexer()
        accepted: set[str] = parser.accepts()  # type: ignore[no-untyped-call]
    except UnexpectedInput:
        return None
    words = _words(grammar())
    found = {words[name] for name in accepted if name in words} | ({"x"} if "_X" in accepted else set())
    reached = _reached()
    state = parser.parser_state
    begin = _begin([reached[s] for s in state.state_stack[1:]])
    inside = [token for value in state.value_stack[begin:] for token in _tokens(value)]
    return Ahead(
        frozenset(found),
        frozenset(name for name in accepted if name not in words and not name.startswith("_") and name != "$END"),
        "$END" in accepted,
        tuple(words.get(t.type) or _NAMES.get(t.type, t.type) for t in inside),
        tuple(map(str, inside)),
        tuple(kind for value in state.value_stack[:begin] for kind in _whole(value)),
    )


def _begin(symbols: list[str]) -> int:
    """Where what is whole ends. A list ends its piece: of one, all stands inside."""
    lists, several = _shapes()
    begin = next((n for n in range(len(symbols) - 1, -1, -1) if symbols[n] in lists), -1)
    if begin < 0:
        begin, parts = len(symbols), {*_PARTS, *several}
        while begin and symbols[begin - 1] != "_COMMA" and (symbols[begin - 1].isupper() or symbols[begin - 1] in parts):
            begin -= 1
    return begin


def _whole(value: object) -> Iterator[str]:
    if not isinstance(value, Tree):
        return
    name = str(value.data)
    if name in _kinds():
        yield name
        return
    for child in value.children:
        yield from _whole(child)


def _tokens(value: object) -> Iterator[Token]:
    if isinstance(value, Token):
        yield value
        return
    for child in getattr(value, "children", ()):
        yield from _tokens(child)


@lru_cache(maxsize=1)
def _reached() -> Mapping[object, str]:
    """The symbol that leads to each state of the parser: always the same one."""
    states = grammar().parse_interactive("", start="head").parser_state.parse_conf.parse_table.states
    return {to: symbol for actions in states.values() for symbol, (action, to) in actions.items() if action is Shift}


@lru_cache(maxsize=1)
def _shapes() -> tuple[frozenset[str], frozenset[str]]:
    """First words of lists, and the parser's own rules for any number of names."""
    found: dict[str, set[str]] = {}
    lists: set[str] = set()
    for rule in grammar().rules:
        names = [symbol.name for symbol in rule.expansion]
        found.setdefault(rule.origin.name, set()).update(names)
        if rule.origin.name == "list":
            lists.add(names[0])
    several = (n for n, of in found.items() if n.startswith("__") and of <= {"NAME", "MOVEMENT", n})
    return frozenset(lists), frozenset(several)


@lru_cache(maxsize=1)
def _kinds() -> frozenset[str]:
    return frozenset(kind for kind, _ in patterns())


@lru_cache(maxsize=1)
def patterns() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Every way to write a statement's head, an attribute or a list: its kind, and its symbols in order."""
    lark = grammar()
    words, (_, several) = _words(lark), _shapes()
    found: list[tuple[str, tuple[str, ...]]] = []
    parts: dict[str, list[list[str]]] = {}
    for rule in lark.rules:
        if rule.origin.name in ("dims", "size_words", "words"):
            parts.setdefault(rule.origin.name, []).append([s.name for s in rule.expansion])

    def spread(names: list[str]) -> Iterator[tuple[str, ...]]:
        if not names:
            yield ()
            return
        first, rest = names[0], names[1:]
        if first in parts:
            for one in parts[first]:
                yield from spread([*one, *rest])
            return
        if first.startswith("__list") or first == "_leg":
            yield ()    # of a list, how it begins
            return
        symbol = SEVERAL if first in several else words.get(first) or _NAMES.get(first, first)
        for tail in spread(rest):
            yield (symbol, *tail)

    for rule in lark.rules:
        if rule.origin.name in ("statement", "attribute", "list"):
            kind = rule.alias or rule.origin.name
            found += [(kind, way) for way in spread([s.name for s in rule.expansion])]
        elif rule.origin.name == "words":
            found += [("words", way) for way in spread([s.name for s in rule.expansion])]
    return tuple(dict.fromkeys(found))


def _after(pattern: tuple[str, ...], inside: tuple[str, ...]) -> frozenset[str] | None:
    """What comes next in a pattern that begins with what stands inside; None where it does not begin so."""
    at = 0
    for n, symbol in enumerate(pattern):
        if symbol == SEVERAL:
            begin = at
            while at < len(inside) and inside[at] == "NAME":
                at += 1
            if at == len(inside):
                return frozenset(("NAME", *pattern[n + 1 : n + 2] * (at > begin)))
            if at == begin:
                return None
        elif at == len(inside):
            return frozenset((symbol,))
        elif inside[at] != symbol:
            return None
        else:
            at += 1
    return frozenset() if at == len(inside) else None


@lru_cache(maxsize=4096)
def going_on(inside: tuple[str, ...], symbol: str) -> frozenset[str]:
    """The kinds of attributes and statements that begin with what stands inside and go on with a word or another token."""
    return frozenset(kind for kind, pattern in patterns() if symbol in (_after(pattern, inside) or ()))


@lru_cache(maxsize=4096)
def kinds_of(inside: tuple[str, ...]) -> frozenset[str]:
    """The kinds of attributes and statements that begin with what stands inside."""
    return frozenset(kind for kind, pattern in patterns() if _after(pattern, inside) is not None)


@lru_cache(maxsize=4096)
def ended(inside: tuple[str, ...]) -> frozenset[str]:
    """The kinds of attributes and statements that what stands inside is, if nothing follows."""
    found = []
    for kind, pattern in patterns():
        after = _after(pattern, inside)
        # Behind several names, one more is no need.
        if after == frozenset() or after == frozenset(("NAME",)) and pattern[-1] == SEVERAL and inside[-1:] == ("NAME",):
            found.append(kind)
    return frozenset(found)


def started_by() -> Mapping[str, frozenset[str]]:
    """The kinds of attributes that a word starts."""
    return _attributes()[0]


def behind_number() -> Mapping[str, frozenset[str]]:
    """The kinds of attributes that begin with a number, by the word that follows it."""
    return _attributes()[1]


def _words(lark: Lark) -> dict[str, str]:
    """The words of the language by their terminals."""
    return {t.name: t.pattern.value for t in lark.terminals if t.pattern.type == "str" and t.pattern.value[:1].isalpha()}


@lru_cache(maxsize=1)
def _attributes() -> tuple[Mapping[str, frozenset[str]], Mapping[str, frozenset[str]]]:
    lark = grammar()
    words = _words(lark)
    first: dict[str, set[str]] = {}
    second: dict[str, set[str]] = {}
    for rule in lark.rules:
        if rule.origin.name not in ("attribute", "list"):
            continue
        names = [symbol.name for symbol in rule.expansion]
        kind = rule.alias or rule.origin.name
        if names[0] in words:
            first.setdefault(words[names[0]], set()).add(kind)
        elif names[0] == NUMBER and len(names) > 1 and names[1] in words:
            second.setdefault(words[names[1]], set()).add(kind)
    return tuple({word: frozenset(kinds) for word, kinds in found.items()} for found in (first, second))  # type: ignore[return-value]
