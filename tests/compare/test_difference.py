"""Things held against each other: laws on made-up ones."""

from __future__ import annotations

from datetime import date, datetime
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from tests.compare.changes import bag, mirrored, q
from tilespec.compare.difference import between, difference
from tilespec.compare.thing import Thing
from tilespec.compare.types import Changed, Fact, Gone

values = st.one_of(
    st.sampled_from(("grey", "white")), st.integers(0, 5).map(lambda n: q(n, "mm")), st.integers(0, 3).map(lambda n: q(n, "kg")),
    st.sampled_from((date(2026, 3, 9), date(2026, 3, 16))),
)
facts = st.lists(st.builds(Fact, st.sampled_from(("width", "colour", "box")), values), max_size=3).map(tuple)
leaves = st.builds(Thing, st.sampled_from(("window", "pipe")), facts)
things = st.lists(
    st.builds(Thing, st.sampled_from(("wall A", "wall B", "floor")), facts, st.lists(leaves, max_size=3).map(tuple)), max_size=4,
)


@given(things)
def test_with_itself_nothing_changed(one: list[Thing]) -> None:
    assert between(one, one) == ()


@given(things, things)
def test_from_the_other_side_it_is_the_mirror(old: list[Thing], new: list[Thing]) -> None:
    assert bag(tuple(mirrored(x) for x in between(old, new))) == bag(between(new, old))


def test_of_two_windows_the_one_that_changed_is_told() -> None:
    same, other = Thing("window", (Fact("up", q(1, "m")),)), Thing("window", (Fact("up", q(2, "m")),))
    lower = Thing("window", (Fact("up", q("0.5", "m")),))
    (found,) = between((Thing("wall A", (), (same, other)),), (Thing("wall A", (), (same, lower)),))
    assert isinstance(found, Changed) and found.about == ("wall A", "window 2") and found.what == "up"
    # One window less: which of them it was, and nothing about the other.
    (gone,) = between((Thing("wall A", (), (same, other)),), (Thing("wall A", (), (other,)),))
    assert gone == Gone(("wall A", "window"), same.facts)


def test_units_as_written_do_not_count() -> None:
    assert between((Thing("a", (Fact("w", q("2.4", "m")),)),), (Thing("a", (Fact("w", q(2400, "mm")),)),)) == ()


def test_differences() -> None:
    d = difference(q(18, "C"), q(21, "C"))
    assert d is not None and d.shown.symbol == "K" and d.value == 3
    d = difference(q("1.8", "m"), q("1.795", "m"))
    assert d is not None and d.shown.symbol == "mm" and d.number == -5
    d = difference(date(2026, 3, 9), date(2026, 3, 16))
    assert d is not None and d.shown.symbol == "d" and d.number == 7
    d = difference(datetime(2026, 4, 9, 9, 30), datetime(2026, 4, 8, 16, 0))
    assert d is not None and d.number == -1
    assert difference(q(1, "kg"), q(1, "L")) is None
    assert difference(q(Fraction(1, 60), "slope"), q(Fraction(1, 80), "slope")) is None
    assert difference(None, q(1, "kg")) is None and difference("a", "b") is None
