"""Taking a statement apart: which attribute belongs to the statement, and which to something named earlier on its line."""

from __future__ import annotations

from tilespec.diagnostics.model import Label
from tilespec.job.context import Context, Item, Parts
from tilespec.job.schema import HOME, ITEMS, STATEMENTS
from tilespec.job.slip import Slip, openers, slip
from tilespec.syntax.nodes import Attribute, Statement

# May be said any number of times.
_MANY = (
    "words", "wait", "note", "from_side", "from_wall", "closed", "overrun", "up", "above", "below", "at",
    # Of starts, each direction may have one.
    "joint_on", "tile_on", "full_tile", "start_from", "joints_follow",
)

_WORDS = {
    "size": "a size",
    "from_side": "a place",
    "from_wall": "a place",
    "up": "a height",
    "words": "these words",
    "joint_on": "a start",
    "tile_on": "a start",
    "full_tile": "a start",
    "start_from": "a start",
    "start_at": "a start",
    "joints_follow": "what the joints follow",
    "movement_joint": "a movement joint",
    "on_date": "a date",
    "in_corner": "a corner",
    "on_wall": "a wall",
    "zone_shower": "a shower zone",
    "zone_bath": "a bath zone",
    "splash": "a splash area",
    "shower_head": "a shower head",
    "product": "a product",
}


_WHOSE = {"conditions": "the conditions", "job": "the job", "floor": "the floor", "use": "a `use` line"}


def _a(kind: str) -> str:
    word = kind.replace("_", " ")
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _called(attribute: Attribute) -> str:
    return _WORDS.get(attribute.kind, f"`{attribute.kind.replace('_', ' ')}`")


def take_apart(st: Statement, context: Context) -> Parts:
    """Sort a statement's attributes. What belongs elsewhere, or is said twice, is reported."""
    own_kinds, item_kinds = STATEMENTS[st.kind]
    own: list[Attribute] = []
    items: list[Item] = []
    for number, line in enumerate(st.lines):
        opener: Attribute | None = None
        said: list[Attribute] = []
        stray = False   # whether the opener itself does not belong here
        passed: tuple[str, ...] | None = ()   # kinds that belong to a word that could not be read (None: all)
        for place, attribute in enumerate(line.attributes):
            kind = attribute.kind
            if passed is None or kind in passed:
                continue
            passed = ()
            if kind == "words" and (slipped := slip(st, attribute, opener, place + 1 < len(line.attributes))):
                _report(st, context, slipped)
                passed = slipped.takes
                if slipped.opens and opener is not None:
                    if not stray:
                        items.append(Item(opener, tuple(said), number))
                    opener, said, stray = None, [], False
                continue
            belongs = opener is not None and kind in ITEMS[opener.kind]
            if belongs:
                _once(st, context, attribute, said)
                said.append(attribute)
                continue
            if kind in item_kinds or (kind in own_kinds and kind != "words"):
                if opener is not None and not stray:
                    items.append(Item(opener, tuple(said), number))
                opener, said, stray = None, [], False
            if kind in item_kinds:
                opener = attribute
            elif kind in own_kinds:
                _once(st, context, attribute, own)
                own.append(attribute)
            else:
                home = HOME.get(kind, "")
                where = _WHOSE.get(opener.kind if opener is not None else st.kind) or _a(opener.kind if opener else st.kind)
                help = f"It belongs to {home}." if home else "Take it out, or move it to the statement it belongs to."
                message = f"{_capital(_called(attribute))} does not belong to {where}."
                if kind == "words":
                    text = " ".join(w.text for w in attribute.args)
                    message, help = f"`{text}` says nothing about {where}.", "Take it out. A comment starts with `#`."
                context.report("misplaced-attribute", st.span(attribute), message, help=help)
                if kind in ITEMS:
                    # What follows says something about it: all of it is out of place together.
                    if opener is not None and not stray:
                        items.append(Item(opener, tuple(said), number))
                    opener, said, stray = attribute, [], True
        if opener is not None and not stray:
            items.append(Item(opener, tuple(said), number))
    return Parts(tuple(own), tuple(items))


def _report(st: Statement, context: Context, found: Slip) -> None:
    span = st.span(found.word)
    context.doubt(st)
    if found.right == "tile":
        context.lost.add(found.right)   # which surfaces it was for cannot be known
    if found.right:
        help, fixes = f"Did you mean `{found.right}`?", context.write(span, found.right)
    else:
        help, fixes = "Take it out, or correct it. A comment starts with `#`.", ()
        if listed := openers(st.kind):
            help = f"Below {_WHOSE.get(st.kind) or _a(st.kind)} stands one of: {', '.join(listed)}, or a comment behind `#`."
    context.report("unknown-word", span, f"`{found.word.text}` is not a word that can stand here.", help=help, fixes=fixes)


def _once(st: Statement, context: Context, attribute: Attribute, before: list[Attribute]) -> None:
    first = next((a for a in before if a.kind == attribute.kind), None)
    if first is not None and attribute.kind not in _MANY:
        _twice(st, context, attribute, first)


def _twice(st: Statement, context: Context, attribute: Attribute, first: Attribute) -> None:
    context.report(
        "said-twice",
        st.span(attribute),
        f"{_called(attribute).capitalize()} is said twice.",
        help="Keep one of the two.",
        secondary=(Label(st.span(first), "said here first"),),
    )
