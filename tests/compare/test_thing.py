"""How the types of the stages are read."""

from __future__ import annotations

from dataclasses import fields

from tilespec.compare import thing as reading
from tilespec.compare.thing import outline


def test_what_is_named_is_there() -> None:
    """A field that is renamed must not be compared, or left out, under its old name."""
    for of, left_out in reading._LEFT_OUT.items():
        assert left_out <= {f.name for f in fields(of)}, of  # type: ignore[arg-type]
    for of, name in (*reading._SAID, *reading._ON_PLAN, *reading._PAIRS, *reading._KEYS):
        assert name in {f.name for f in fields(of)}, (of, name)  # type: ignore[arg-type]


def test_only_a_slanted_or_cornered_outline_is_told() -> None:
    assert outline(((0, 0), (2, 0), (2, 1), (0, 1))) is None  # type: ignore[arg-type]
    told = outline(((0, 0), (2, 0), (2, 1), (1, 1), (1, 2), (0, 2)))  # type: ignore[arg-type]
    assert told == "0, 0 – 2000, 0 – 2000, 1000 – 1000, 1000 – 1000, 2000 – 0, 2000"
