"""Of everything that one thing can have only once, the second is told: every attribute and item of every statement is tried."""

from __future__ import annotations

import pytest

from tilespec.job.context import Context
from tilespec.job.parts import take_apart
from tilespec.job.schema import ITEMS, SAME, STATEMENTS
from tilespec.practice.lookup import practice
from tilespec.source import Source
from tilespec.syntax.nodes import Statement
from tilespec.syntax.parse import parse
from tilespec.syntax.written import ATTRIBUTES
from tilespec.syntax.written import STATEMENTS as HEADS
from tilespec.vocabulary import PLAIN_WORDS, contrary

# What may be said again, and why.
AGAIN = {
    "words": "a thing has many describing words; those that cannot both hold are told",
    "note": "each is printed",
    "closed": "a list of days",
    "joint_on": "each direction of a set-out has a start: told where starts are read",
    "tile_on": "each direction of a set-out has a start",
    "full_tile": "each direction of a set-out has a start",
    "start_from": "each direction of a set-out has a start",
    "joints_follow": "joints can run on from the floor and from a wall",
}
SEVERAL = (
    "untiled", "pipe", "zone_shower", "zone_bath", "splash", "movement_joint", "structural_joint", "drain", "channel", "fixture",
    "window", "door", "opening", "niche", "valve", "outlet", "socket", "mirror", "fitting",
)
# What a surface is made of, and tiled with, is told where it is read: a second tile can be a band or a panel.
ELSEWHERE = ("base", "tile")
# Of a line across a surface all places together are one.
LINES = ("movement_joint", "structural_joint")
BARE = {
    "wall": "wall A", "tile": "tile white", "product": "adhesive flex", "step": 'step "Fit the screen"',
    "limit": "limit joint-min-floor 3 mm", "deviation": "deviation low-window-cut", "record": "record membrane",
    "delivery": "delivery white", "room": 'room "Bathroom"', "use": HEADS["use"], "language": HEADS["language"],
}
# Items without what is said of them.
OPENER = {
    "base": "base concrete", "tile": "tile white", "product": "trim edge", "wait": "wait 4 h before grouting",
    "shower_head": "head at 2.1", "fixture": 'fixture "WC"', "fitting": 'fitting "radiator"', "zone_shower": "shower zone",
    "zone_bath": "bath zone", "splash": "splash area", "movement_joint": "movement joint", "structural_joint": "structural joint",
    "fall": "fall 1:60",
}


def _kinds() -> dict[str, str]:
    """An example of each kind of attribute."""
    found: dict[str, str] = {"words": "heated", "size": "0.6 x 0.9", "on_date": "2026-03-09", "start_at": "start at"}
    for text in ATTRIBUTES.values():
        alone = text.split(";")[0]
        for line in parse(Source("", f"wall A\n  {alone}\n")).value.statements[0].lines:
            for n, a in enumerate(line.attributes):
                if n == 0:
                    found.setdefault(a.kind, alone if len(line.attributes) == 1 else alone[: a.end - line.attributes[0].start])
    return found


EXAMPLE = _kinds()


def read(text: str) -> Statement:
    found = parse(Source("", text))
    assert not found.diagnostics, (text, [d.message for d in found.diagnostics])
    return found.value.statements[0]


def told(text: str) -> list[str]:
    context = Context(practice("EN"))
    take_apart(read(text), context)
    return [d.name for d in context.diagnostics]


def head(statement: str) -> str:
    return BARE.get(statement, statement)


OWN = [(s, kind) for s, (own, _) in STATEMENTS.items() for kind in own]
HELD = [(s, kind) for s, (_, items) in STATEMENTS.items() for kind in items]
SAID = [(item, kind) for item, said in ITEMS.items() for kind in said]


def test_there_is_an_example_of_every_kind() -> None:
    assert {kind for _, kind in (*OWN, *HELD, *SAID)} <= set(EXAMPLE)


@pytest.mark.parametrize(("statement", "kind"), OWN)
def test_an_attribute_said_twice(statement: str, kind: str) -> None:
    text = f"{head(statement)}\n  {EXAMPLE[kind]}\n  {EXAMPLE[kind]}\n"
    assert told(text) == ([] if kind in AGAIN else ["said-twice"])


@pytest.mark.parametrize(("statement", "kind"), HELD)
def test_an_item_said_twice(statement: str, kind: str) -> None:
    text = f"{head(statement)}\n  {EXAMPLE[kind]}\n  {EXAMPLE[kind]}\n"
    assert told(text) == ([] if (*SEVERAL, *ELSEWHERE).count(kind) else ["said-twice"])


@pytest.mark.parametrize(("item", "kind"), SAID)
def test_an_attribute_of_an_item_said_twice(item: str, kind: str) -> None:
    statement = next(s for s, (_, items) in STATEMENTS.items() if item in items)
    opener = OPENER.get(item, item)
    example = "new" if item == "base" and kind == "words" else EXAMPLE[kind]
    found = told(f"{head(statement)}\n  {opener}; {example}; {example}\n")
    free = kind in AGAIN and not (kind == "note" and item in ("pipe", "valve", "outlet", "socket"))
    placed = item in LINES and kind in ("from_side", "from_wall", "up", "above", "below", "bottom")
    assert found == ([] if free or placed else ["said-twice"])


@pytest.mark.parametrize(("thing", "group"), [(t, g) for t, groups in SAME.items() for g in groups])
def test_what_says_the_same_in_two_ways(thing: str, group: tuple[str, ...]) -> None:
    own = thing in STATEMENTS and thing != "tile"
    statement = thing if own else next(s for s, (_, items) in STATEMENTS.items() if thing in items)
    opener = "" if own else OPENER.get(thing, thing) + "; "
    for n, one in enumerate(group):
        for other in group[n + 1 :]:
            text = f"{head(statement)}\n  {opener}{EXAMPLE[one]}; {EXAMPLE[other]}\n"
            assert told(text) == ["said-twice"], text


def test_contrary_words() -> None:
    assert contrary("landscape", "upright") and contrary("porcelain", "glass") and contrary("mat", "pipes")
    assert not contrary("porcelain", "stoneware") and not contrary("stone", "marble") and not contrary("tray", "tray")
    # All of the groups are words that can be said.
    pairs = [(a, b) for a in PLAIN_WORDS for b in PLAIN_WORDS if contrary(a, b)]
    assert len({a for a, _ in pairs}) > 30
