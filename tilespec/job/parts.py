"""Taking a statement apart: which attribute belongs to the statement, and which to something named earlier on its line."""

from __future__ import annotations

from collections.abc import Container

from tilespec.diagnostics.model import Edit, Fix, Label
from tilespec.job.context import Context, Item, Parts
from tilespec.job.schema import ITEMS, ONE, OWN_WORDS, SAME, STATEMENTS, belonging
from tilespec.job.slip import Slip, openers, slip
from tilespec.source import Span
from tilespec.syntax.nodes import Attribute, Statement
from tilespec.syntax.written import with_number
from tilespec.vocabulary import FROM, SIDES, contrary, elsewhere

# May be said any number of times.
MANY = (
    "words", "note", "closed",
    # Of places and starts, each direction may have one.
    "from_side", "from_wall", "up", "above", "below", "bottom",
    "joint_on", "tile_on", "full_tile", "start_from", "joints_follow",
)
_HEIGHTS = ("up", "above", "below", "bottom")
# Lines right across a surface have one place, whichever way it is said: judged where it is read.
_LINES = ("movement_joint", "structural_joint")

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
    "along": "a wall",
    "at_wall": "a wall",
    "on_floor": "the floor",
    "on_room": "a room",
    "in_room": "a room",
    "on_room_wall": "a wall of a room",
    "on_room_floor": "the floor of a room",
    "zone_shower": "a shower zone",
    "zone_bath": "a bath zone",
    "splash": "a splash area",
    "shower_head": "a shower head",
    "product": "a product",
}


# What is said of a surface, and never of a tile.
_ON_SURFACES = tuple(
    kind
    for statement in ("floor", "wall")
    for kind in (*STATEMENTS[statement][0], *STATEMENTS[statement][1])
    if kind not in ("size", "words", "tile", "product")
)
# Ways to say a place that are those of other things.
_PLACED = ("on_wall", "at_wall", "along", "in_corner", "on_floor")
# Which of two to keep.
_KEEP = {"shower_head": "Keep the higher of the two: it decides how far up the walls get wet."}
_WHAT = {
    "datum": "datum line", "tile": "tile's place", "zone_shower": "shower zone", "zone_bath": "bath zone",
    "splash": "splash area", "untiled": "untiled area", "shower_head": "shower head",
}
# Their notes are written beside them on the drawing: there is room for one.
LABELLED = ("pipe", "valve", "outlet", "socket")

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
    begun: list[Attribute] = []
    lost: list[Attribute] = []
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
            _written(st, context, attribute)
            if kind == "words" and (slipped := slip(st, attribute, opener, place + 1 < len(line.attributes))):
                _report(st, context, slipped)
                passed = slipped.takes
                if slipped.opens and opener is not None:
                    if not stray:
                        items.append(Item(opener, tuple(said), number))
                    opener, said, stray = None, [], False
                continue
            if opener is not None and kind in ITEMS[opener.kind]:
                if not stray:
                    _once(st, context, attribute, said, opener.kind)
                said.append(attribute)
                continue
            if kind in item_kinds or (kind in own_kinds and kind != "words"):
                if opener is not None and not stray:
                    items.append(Item(opener, tuple(said), number))
                opener, said, stray = None, [], False
            if kind in item_kinds:
                _one(st, context, attribute, begun)
                begun.append(attribute)
                opener = attribute
            elif kind in own_kinds:
                _once(st, context, attribute, own, st.kind)
                own.append(attribute)
            else:
                at_head = number == 0 and st.kind in ("tile", "product") and (kind in _ON_SURFACES or bool(lost))
                if at_head:
                    # Of a line that holds several statements: all that follows is out of place together.
                    lost.append(attribute)
                    continue
                home = belonging(kind)
                where = _WHOSE.get(opener.kind if opener is not None else st.kind) or _a(opener.kind if opener else st.kind)
                help = f"It belongs to {home}." if home else "Take it out, or move it to the statement it belongs to."
                message = f"{_capital(_called(attribute))} does not belong to {where}."
                if kind == "words":
                    text = " ".join(w.text for w in attribute.args)
                    message = f"`{text}` says nothing about {where}."
                    help = elsewhere(attribute.args[0].text) or "Take it out. A comment starts with `#`."
                shown = with_number("", st.kind, (), (opener.kind,)) if opener is not None and kind in _PLACED else ""
                help = f"Its place is written as in `{shown}`." if shown else help
                fixes = () if shown else _without(st, attribute)
                context.report("misplaced-attribute", st.span(attribute), message, help=help, fixes=fixes)
                if shown:
                    # Where it is was said, only in another way: that it seems to lack its place is no second mistake.
                    context.doubt(st)
                if kind in ITEMS:
                    # What follows says something about it: all of it is out of place together.
                    if opener is not None and not stray:
                        items.append(Item(opener, tuple(said), number))
                    opener, said, stray = attribute, [], True
        if opener is not None and not stray:
            items.append(Item(opener, tuple(said), number))
    if lost:
        _behind(st, context, lost)
    _contrary(st, context, own, items)
    return Parts(tuple(own), tuple(items))


def _without(st: Statement, attribute: Attribute) -> tuple[Fix, ...]:
    """The fix that takes an attribute out of its line, with what is said of it behind it."""
    for number, line in enumerate(st.lines):
        at = next((n for n, a in enumerate(line.attributes) if a is attribute), None)
        if at is None:
            continue
        last = at
        while last + 1 < len(line.attributes) and line.attributes[last + 1].kind in ITEMS.get(attribute.kind, ()):
            last += 1
        end = line.attributes[last].end
        if at > 0 or number == 0:
            # With the sign that parts it from what stands before it.
            start = line.attributes[at - 1].end if at > 0 else st.head_end
        else:
            start = attribute.start
            end = line.attributes[last + 1].start if last + 1 < len(line.attributes) else end
        return (Fix("take it out", (Edit(Span(st.file, st.base + start, st.base + end), ""),)),)
    return ()


def _behind(st: Statement, context: Context, lost: list[Attribute]) -> None:
    """Tell what stands behind a tile or product but belongs to the surface before it."""
    first = lost[0]
    word = st.kind if st.kind != "product" else st.args[0].text
    home = belonging(first.kind)
    context.report(
        "misplaced-attribute",
        st.span(first),
        f"{_capital(_called(first))} does not belong to {_a(st.kind)}: `{word}` began a new statement.",
        help=f"It belongs to {home}: put it before `{word}`, or on an indented line of its own below {home}.",
        secondary=tuple(Label(st.span(a), "this too") for a in lost[1:] if a.kind in _ON_SURFACES)[:3],
    )


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


def twice(kind: str, said: Container[str], thing: str) -> bool:
    """Whether an attribute would be told as said twice, beside the kinds said of a thing."""
    again = kind in said and (kind not in MANY or kind == "note" and thing in LABELLED)
    return again or any(other != kind and other in said for g in SAME.get(thing, ()) if kind in g for other in g)


def _once(st: Statement, context: Context, attribute: Attribute, before: list[Attribute], thing: str) -> None:
    """Tell what is said for the second time of one thing (a statement, or an item of its kind)."""
    kind = attribute.kind
    if kind == "size" and thing == st.kind and st.args and st.args[0].kind == "quantity" and st.kind == "tile":
        head = Attribute("size", st.args, st.args[0].start, st.args[-1].end)
        _twice(st, context, attribute, head)
        return
    if kind not in MANY or kind == "note" and thing in LABELLED:
        if first := next((a for a in before if a.kind == kind), None):
            _twice(st, context, attribute, first)
            return
    group = next((g for g in SAME.get(thing, ()) if kind in g and any(a.kind in g and a.kind != kind for a in before)), None)
    if group is not None:
        first = next(a for a in before if a.kind in group and a.kind != kind)
        message = f"{_capital(_called(attribute))} is said beside {_called(first)}: only one of the two can hold."
        other = Label(st.span(first), "the other")
        fixes = _without(st, attribute)
        context.report("said-twice", st.span(attribute), message, help="Keep one of the two.", fixes=fixes, secondary=(other,))
    elif thing not in _LINES and (way := _way(st, attribute)):
        at = next((n for n, a in enumerate(before) if a.kind == "start_at"), len(before))
        # The place behind `start at` is its own, and is judged with it.
        others = (*before[:at], *before[at + 3 :])
        if len(before) - at not in (1, 2) and (first := next((a for a in others if _way(st, a) == way), None)):
            what = _WHAT.get(thing, thing.replace("_", " "))
            _twice(st, context, attribute, first, f"It is said twice {way} the {what} is.")


def _way(st: Statement, attribute: Attribute) -> str:
    """What a place says, in words; "" for what is no place. On a floor each wall is a way of its own; which of them face each
    other is known with the plan only."""
    if attribute.kind in _HEIGHTS:
        return "how high"
    if attribute.kind == "from_side":
        side = " ".join(x.text.lower() for x in attribute.args[1:])
        # A side that is misspelt is told as that.
        return "how far across" if side in ("left", "right") else "how high" if side in (*SIDES, *FROM) else ""
    if attribute.kind == "from_wall":
        return f"how far from wall {attribute.args[1].text}" if st.kind == "floor" else "how far across"
    return ""


def _written(st: Statement, context: Context, attribute: Attribute) -> None:
    """Tell a text that is only a place for one: it would be printed, and signed, as it stands."""
    kind = attribute.kind
    if kind not in OWN_WORDS or not attribute.args or st.kind == "deviation":
        return    # whose reason is told where it is read
    text = attribute.args[0].text.strip()
    if text.strip(".") or not text and kind not in ("by", "work_by", "because"):
        return
    message = f"{_capital(_called(attribute))} is still to be written."
    help = "Say who it was." if kind in ("by", "work_by") else "Write it between the quotes, or take it out."
    context.report("missing-detail", st.span(attribute), message, help=help)


def _one(st: Statement, context: Context, opener: Attribute, before: list[Attribute]) -> None:
    """Tell an item of which the statement has one already."""
    what = _which(opener)
    if what and (first := next((a for a in before if _which(a) == what), None)):
        _twice(st, context, opener, first, f"{_capital(what)} is said twice.")


def _which(opener: Attribute) -> str:
    """What a statement says only once with such an item; "" where it may have several."""
    if opener.kind in ONE:
        return _called(opener)
    if opener.kind == "product" and opener.args[0].text != "trim":
        return f"`{opener.args[0].text}`"
    if opener.kind == "wait":
        word = opener.args[-1].text.lower()
        return f"the wait {'between' if word == 'coats' else 'before'} {word}"
    return ""


def _contrary(st: Statement, context: Context, own: list[Attribute], items: list[Item]) -> None:
    """Tell words about one thing that cannot both hold."""
    head = st.args[2:] if st.kind == "product" else ()
    groups = [(*head, *(x for a in own if a.kind in ("words", "size") for x in a.args))]
    if st.kind == "tile" and st.args and st.args[0].kind == "quantity":
        groups[0] = (*st.args, *groups[0])
    for item in items:
        opener = item.opener.args if item.kind == "base" else ()
        groups.append((*opener, *(x for a in item.all("words") for x in a.args)))
    for atoms in groups:
        names = [a for a in atoms if a.kind == "name"]
        for n, later in enumerate(names):
            first = next((a for a in names[:n] if contrary(a.text.lower(), later.text.lower())), None)
            if first is not None:
                context.report(
                    "said-twice",
                    st.span(later),
                    f"`{first.text}` and `{later.text}` cannot both hold.",
                    help="Keep one of the two.",
                    secondary=(Label(st.span(first), "the other"),),
                )


def _twice(st: Statement, context: Context, attribute: Attribute, first: Attribute, message: str = "") -> None:
    context.report(
        "said-twice",
        st.span(attribute),
        message or f"{_capital(_called(attribute))} is said twice.",
        help=_KEEP.get(attribute.kind, "Keep one of the two."),
        fixes=_without(st, attribute),
        secondary=(Label(st.span(first), "said here first"),),
    )
