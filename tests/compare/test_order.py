"""Which steps moved: the fewest, and the same ones from either side."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from tilespec.compare.order import moved

NAMES = tuple("abcdefg")
orders = st.permutations(NAMES)


def names(old: tuple[str, ...] | list[str], new: tuple[str, ...] | list[str]) -> list[str]:
    return [m.about[0] for m in moved(old, new)]


def test_one_step_up() -> None:
    (found,) = moved(("prime", "seal", "grout", "fix"), ("prime", "fix", "seal", "grout"))
    assert found.about == ("fix",) and found.old == "grout" and found.new == "prime"


def test_the_first_step_follows_nothing() -> None:
    (found,) = moved(("a", "b", "c"), ("b", "c", "a"))
    assert found.about == ("a",) and found.old == "" and found.new == "c"


def test_steps_that_came_or_went_have_not_moved() -> None:
    assert moved(("a", "b", "c"), ("a", "x", "c")) == ()


@given(orders, orders)
def test_without_the_moved_ones_the_order_is_the_same(old: list[str], new: list[str]) -> None:
    out = names(old, new)
    assert [s for s in old if s not in out] == [s for s in new if s not in out]


@given(orders, orders)
def test_no_fewer_would_do(old: list[str], new: list[str]) -> None:
    """Tried out: every smaller choice of steps leaves two in another order."""
    out = names(old, new)
    for fewer in combinations(old, len(out) - 1) if out else ():
        assert [s for s in old if s not in fewer] != [s for s in new if s not in fewer]


@given(orders, orders)
def test_from_the_other_side_the_same_ones_moved_back(old: list[str], new: list[str]) -> None:
    there = {(m.about, m.old, m.new) for m in moved(old, new)}
    assert {(m.about, m.new, m.old) for m in moved(new, old)} == there
