"""What does not change the job: blank lines, comments, where attributes stand, which unit is written."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.job.spec import TILE, job
from tilespec.job.types import Job

FOLDER = Path(__file__).parents[2] / "examples"
STOCK = (FOLDER / "house-stock.tilespec").read_text(encoding="utf-8")
EXAMPLES = {
    p.stem: p.read_text(encoding="utf-8").replace("house-stock.tilespec", "stock.tilespec")
    for p in FOLDER.glob("*.tilespec") if p.stem != "house-stock"
}


def of(text: str) -> Job:
    return job(text, stock=STOCK)


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_the_same_text_gives_the_same_job(name: str) -> None:
    assert of(EXAMPLES[name]) == of(EXAMPLES[name])


@given(st.sampled_from(sorted(EXAMPLES)), st.data())
@settings(max_examples=40, deadline=None)
def test_blank_lines_and_comments_change_nothing(name: str, data: st.DataObject) -> None:
    lines = EXAMPLES[name].split("\n")
    for at in sorted(data.draw(st.lists(st.integers(0, len(lines)), max_size=6)), reverse=True):
        lines.insert(at, data.draw(st.sampled_from(("", "   ", "# wall Z; tile none", "\t# \"", "  # 2,4 x"))))
    for at in data.draw(st.lists(st.integers(0, len(lines) - 1), max_size=4)):
        if "#" not in lines[at]:
            lines[at] += data.draw(st.sampled_from(("  ", " # said on site", "\t#;;")))
    assert of("\n".join(lines)) == of(EXAMPLES[name])


@given(st.sampled_from(sorted(EXAMPLES)), st.sampled_from(("\t", " ", "      ", "\t ")))
@settings(max_examples=12, deadline=None)
def test_any_indentation(name: str, indent: str) -> None:
    assert of(re.sub(r"^[ \t]+", indent, EXAMPLES[name], flags=re.M)) == of(EXAMPLES[name])


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_semicolons_too_many(name: str) -> None:
    changed = "\n".join(x if "#" in x or not x.strip() else x.replace("; ", ";; ") + ";" for x in EXAMPLES[name].split("\n"))
    assert of(changed) == of(EXAMPLES[name])


def test_attributes_on_the_line_or_below() -> None:
    one = TILE + "floor 2.4 x 1.8 heated; base concrete; hall floor +10\nwall A 2.4 x 2.4; tile white\n"
    two = TILE + "floor 2.4 x 1.8 heated\n  base concrete\n  hall floor +10\nwall A\n  2.4 x 2.4\ntile white\n"
    assert of(one) == of(two)


def _rooms(text: str) -> Job:
    found = of(text)
    return replace(found, questions=())


@given(
    w=st.integers(1200, 6000), d=st.integers(1200, 6000), h=st.integers(2000, 3000), x=st.integers(0, 300),
    y=st.integers(200, 900),
)
@settings(max_examples=30, deadline=None)
def test_units_of_the_input_change_nothing(w: int, d: int, h: int, x: int, y: int) -> None:
    """The same lengths in metres, millimetres and centimetres."""

    def spec(unit: str, per: F, explicit: bool) -> str:
        def n(mm: int) -> str:
            value = F(mm) / per
            text = f"{float(value):.4f}".rstrip("0").rstrip(".")
            if F(text) != value:
                text = f"{int(value)} {value - int(value)}" if int(value) else str(value)
            return f"{text} {unit}" if explicit else text

        return (
            TILE + f'room "B" height {n(h)}\ndatum {n(1000)} above finished floor\nfloor {n(w)} x {n(d)}\n'
            f"wall A\n  window {n(400)} x {n(500)}; {n(x)} from left, {n(y)} up\n"
        )

    plain = _rooms(spec("m", F(1000), False))
    for unit, per in (("m", F(1000)), ("mm", F(1)), ("cm", F(10))):
        assert _rooms(spec(unit, per, True)) == plain
    throughout = _rooms('job "B"\n  sizes in mm\n' + spec("mm", F(1), False))
    assert throughout.rooms == plain.rooms


@pytest.mark.parametrize(
    ("metric", "customary"),
    [("2438.4 mm", "8 ft"), ("2400.3 mm", "7 ft 10 1/2 in"), ("1611.3125 mm", "5 ft 3 7/16 in"), ("914.4 mm", "36 in")],
)
def test_metric_and_us_customary(metric: str, customary: str) -> None:
    text = TILE + "floor {} x 10 ft\n  tile white; joint 3\n"
    assert of(text.format(metric)).rooms == of(text.format(customary)).rooms


def test_signs_for_x_change_nothing() -> None:
    text = TILE + "floor 2.4{}1.8\n  tile white; joint 3\n"
    assert of(text.format(" x ")) == of(text.format("x")) == of(text.format(" × ")) == of(text.format("X"))
