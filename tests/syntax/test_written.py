"""The examples that messages show can be read, there is one of everything, and each shows what it stands for."""

from __future__ import annotations

import pytest

from tilespec.practice.lookup import PARENTS
from tilespec.sequence.stages import WORDS
from tilespec.source import Source
from tilespec.syntax.ahead import behind_number, started_by
from tilespec.syntax.parse import parse
from tilespec.syntax.written import _BELOW, ATTRIBUTES, STAGES, STATEMENTS, example, listed, with_number


@pytest.mark.parametrize("word", STATEMENTS)
def test_statements(word: str) -> None:
    found = parse(Source("", STATEMENTS[word] + "\n"))
    assert not found.diagnostics
    assert [s.kind for s in found.value.statements] == [word]


@pytest.mark.parametrize("text", [*ATTRIBUTES.values(), *_BELOW.values()])
def test_attributes(text: str) -> None:
    assert not parse(Source("", f"wall A\n  {text}\n")).diagnostics


def test_there_is_one_of_every_kind() -> None:
    kinds = {k for found in (*started_by().values(), *behind_number().values()) for k in found}
    shown = {
        a.kind
        for text in (*ATTRIBUTES.values(), *_BELOW.values())
        for line in parse(Source("", f"wall A\n  {text}\n")).value.statements[0].lines
        for a in line.attributes
    }
    assert kinds <= shown


@pytest.mark.parametrize("key", ATTRIBUTES)
def test_an_example_holds_the_words_it_is_found_by(key: str) -> None:
    text = ATTRIBUTES[key]
    assert all(word in text for word in key.split() if word not in ("room",)), text


def test_stages_and_families() -> None:
    assert set(STAGES) <= {w.word for w in WORDS}
    assert list(listed(("practice",), "job")) == list(PARENTS)


@pytest.mark.parametrize(
    ("number", "statement", "before", "here", "shown"),
    [
        ("1.2", "wall", ("window", "size", "from_side"), ("from_side",), "1.2 up"),
        ("0.4", "wall", ("window", "size"), (), "0.4 from left"),
        ("0.6", "wall", ("window",), (), "0.6 x 0.9"),
        ("0.09", "wall", ("niche", "size", "from_side", "up"), (), "0.09 deep"),
        ("0.3", "floor", ("fixture", "size"), (), "0.3 from wall D"),
        ("0.3", "floor", ("fixture", "size", "from_wall"), (), "0.3 from wall A"),
        ("0.45", "floor", (), ("drain",), "drain 0.45 from wall D, 0.45 from wall A"),
        ("0.9", "shower", (), ("in_corner",), "shower in corner D A, 0.9 x 0.9"),
        ("5", "record", (), (), ""),
    ],
)
def test_a_number_goes_on(number: str, statement: str, before: tuple[str, ...], here: tuple[str, ...], shown: str) -> None:
    assert with_number(number, statement, before, here) == shown


def test_an_example_is_that_of_the_statement() -> None:
    assert example(("on",), "record", False) == 'on "Bathroom" floor'
    assert example(("grout",), "product", True) == "grout NAME"
    assert example(("nothing",), "wall", False) == ""
