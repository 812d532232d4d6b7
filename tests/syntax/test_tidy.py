"""The canonical form: any text has one, it is its own, and it says what the text said."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from random import Random

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.job.spec import outcome
from tests.syntax.test_hostile import MUTATION, TOKENS
from tilespec.diagnostics.catalogue import entries
from tilespec.job.types import Job
from tilespec.quantity.read import read
from tilespec.quantity.unit import SPELLINGS, UNITS
from tilespec.resources import data_text
from tilespec.source import Source
from tilespec.syntax.nodes import Atom
from tilespec.syntax.parse import parse
from tilespec.syntax.tidy import tidied, tidy

ROOT = Path(__file__).parents[2]
EXAMPLES = {p.stem: p.read_text(encoding="utf-8") for p in (ROOT / "examples").glob("*.tilespec")}
CORPUS = {str(p.relative_to(ROOT / "tests")): p.read_text(encoding="utf-8") for p in (ROOT / "tests/corpus").rglob("*.tilespec")}
REFERENCE = re.findall(r"^```tilespec[^\n]*\n(.*?)^```$", (ROOT / "grammar/LANGUAGE.md").read_text(encoding="utf-8"), re.M | re.S)
SAMPLES = {f"{e.code}-{kind}": text for e in entries() for kind, text in (("bad", e.bad), ("good", e.good)) if text}
START = data_text("templates/start.tilespec")
STOCK = EXAMPLES["house-stock"]
BLANK = " \t\u00a0"


def plain(a: Atom) -> tuple[str, str, object]:
    """A word; a number by its value and unit, hours by their numbers, not by their spelling."""
    if a.kind == "clocks":
        return a.kind, re.sub(r"\s*[-–]\s*", "-", a.text), None
    try:
        return a.kind, "", read(a.text) if a.kind == "quantity" else a.text
    except ValueError:
        return a.kind, a.text, None


def said(text: str) -> tuple[object, ...]:
    """Everything that a text says, by statement and line, and the codes of what is wrong with it."""
    found = parse(Source("job.tilespec", text))
    statements = tuple(
        (s.kind, tuple(map(plain, s.args)), s.broken,
         tuple(tuple((a.kind, tuple(map(plain, a.args))) for a in line.attributes) for line in s.lines))
        for s in found.value.statements
    )
    return statements, tuple(d.code for d in found.diagnostics)


def comments(text: str) -> list[str]:
    return [text[c.start : c.end].rstrip(BLANK) for c in parse(Source("job.tilespec", text)).value.comments]


def lawful(text: str) -> str:
    """Holds the laws of every text; returns its canonical form."""
    # Files are read with the line ends of other systems taken off; one that ends no line is refused.
    text = re.sub(r"\r+(?=\n|\Z)", "", text)
    done = tidied(text)
    assert tidy(done.text) == done.text
    assert said(done.text) == said(text)
    assert comments(done.text) == comments(text)
    before, after = text.split("\n"), done.text.split("\n")
    assert all(before[n - 1] in after for n in done.left)
    assert not done.text or (done.text[0] != "\n" and done.text[-1] == "\n" and "\n\n\n" not in done.text)
    return done.text


def built(text: str) -> tuple[Job, list[str]]:
    found = outcome(text.replace("house-stock", "stock"), stock=STOCK)
    return found.value, sorted(d.code for d in found.diagnostics)


@cache
def job_of(name: str) -> tuple[Job, list[str]]:
    return built(EXAMPLES[name])


# ---------------------------------------------------------------- texts that are there

@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_the_examples_are_in_canonical_form(name: str) -> None:
    assert tidied(EXAMPLES[name]).left == ()
    assert lawful(EXAMPLES[name]) == EXAMPLES[name]


def test_the_starter_spec_is_in_canonical_form() -> None:
    assert lawful(START) == START


def test_the_tour_of_the_readme_is_in_canonical_form() -> None:
    (tour,) = re.findall(r"^```tilespec\n(.*?)^```$", (ROOT / "README.md").read_text(encoding="utf-8"), re.M | re.S)
    assert lawful(tour) == tour


def test_the_reference_of_the_language() -> None:
    for text in REFERENCE:
        lawful(text)


def test_the_corpus_of_mistakes() -> None:
    for text in CORPUS.values():
        lawful(text)


def test_the_samples_of_all_messages() -> None:
    for text in SAMPLES.values():
        lawful(text)


# ---------------------------------------------------------------- what it does

@pytest.mark.parametrize(
    ("written", "canonical"),
    [
        ("", ""),
        ("\n \n;;\n", ""),
        ("floor 2.4x1.8", "floor 2.4 x 1.8\n"),
        ("floor  2.4 X 1.8\theated ; ; hall floor  +10;\n", "floor 2.4 x 1.8 heated; hall floor +10\n"),
        ("floor\r\n\tbase  cement screed\r\n", "floor\n  base cement screed\n"),
        ("\n\nfloor\n\n\n    level\n\n", "floor\n\n  level\n"),
        # Tiles stand closed, unless a unit or a fraction would run into the sign.
        ("tile wall  300 × 600 X 9 ceramic", "tile wall 300x600x9 ceramic\n"),
        ("tile 12x24in x 3/8 in\n", "tile 12 x 24 in x 3/8 in\n"),
        ("wall A; tile 600 x 300 joint 3", "wall A; tile 600x300 joint 3\n"),
        ("tile a 300x300x6 mosaic; chips 23x23", "tile a 300x300x6 mosaic; chips 23 x 23\n"),
        ("tile a 600x300; work size 597x297", "tile a 600x300; work size 597 x 297\n"),
        # Units as they are named in the reference; the number is not touched.
        ("tile a 300x300; weight 20kg/m²", "tile a 300x300; weight 20 kg/m2\n"),
        ("conditions air 66°F;humidity 60% RH", "conditions air 66 F; humidity 60 %RH\n"),
        ("datum 3'3½\" above finished floor", "datum 3 ft 3½ in above finished floor\n"),
        ("datum 7ft 10  1 / 2-in above finished floor", "datum 7 ft 10 1/2 in above finished floor\n"),
        ("floor\n fall 1 : 60", "floor\n  fall 1:60\n"),
        ("step \"a\"  takes 90minutes", 'step "a" takes 90 min\n'),
        ("floor 600mmx300mm", "floor 600 mm x 300 mm\n"),
        ("datum 0.90 above finished floor", "datum 0.90 above finished floor\n"),
        # Lists and texts.
        ("job\n crew tiler 1 ,helper 2", "job\n  crew tiler 1, helper 2\n"),
        ("job\n hours mon-fri 07:30 – 16:00", "job\n  hours mon-fri 07:30-16:00\n"),
        ('job "a  x;#,b"  ', 'job "a  x;#,b"\n'),
        ("floor\n  drain 0.45 from wall D,0.4 from wall A", "floor\n  drain 0.45 from wall D, 0.4 from wall A\n"),
        # Remarks stay where they are; two blanks before one at the end of a line.
        ("#a\n#  b  \nfloor # c\n\t#d", "#a\n#  b\nfloor  # c\n  #d\n"),
        # One blank line above each room, above what is remarked of it.
        ('tile a 300x300\n# here\nroom "A"\nroom "B"', 'tile a 300x300\n\n# here\nroom "A"\n\nroom "B"\n'),
        ('# here\nroom "A"\n', '# here\nroom "A"\n'),
        ('wall A\n  # last\nroom "A"\n', 'wall A\n  # last\n\nroom "A"\n'),
    ],
)
def test_canonical(written: str, canonical: str) -> None:
    assert lawful(written) == canonical


@pytest.mark.parametrize(
    "line",
    [
        "floor  2,4 x 1.8", "  base  cment screed ;  flor 2", "Floor  2 x 3 ", "qwerty  ;  a", "wall  \u200bA", '  note  "open ',
        "\tjoint\t;", "  wall  A", "x\x0cy  ",
    ],
)
def test_what_cannot_be_read_is_left(line: str) -> None:
    done = tidied(f"floor  2 x 1.8\n{line}\nwall  A\n")
    assert done.text == f"floor 2 x 1.8\n{line}\nwall A\n"
    assert done.left == (2,)
    lawful(f"floor  2 x 1.8\n{line}\nwall  A\n")


def test_two_numbers_do_not_become_one() -> None:
    """With a blank for the tab, `3 1/2` would be three and a half."""
    text = "wall A\n  joint  3\t1/2 from  left\n"
    assert lawful(text) == "wall A\n  joint  3\t1/2 from  left\n"


def test_a_name_does_not_become_a_foreign_times_sign() -> None:
    """After a blank, a Cyrillic letter before a number is taken for an x."""
    text = "tile a 300x300;  weight 20\nwall A; tile\u00a0\u0445305\n"
    assert lawful(text) == "tile a 300x300; weight 20\nwall A; tile\u00a0\u0445305\n"


@pytest.mark.parametrize("unit", [u for u in (*UNITS, *SPELLINGS) if u and u[0] != "1" and u not in ("count", "year", "slope")])
def test_units_are_spelled_one_way(unit: str) -> None:
    # A blank before `"` would make it the start of a text.
    for gap in ("", " ", "\u00a0")[: 1 if unit == '"' else 3]:
        assert lawful(f"wall A\n  joint 3{gap}{unit}\n") == f"wall A\n  joint 3 {SPELLINGS.get(unit, unit)}\n"


# ---------------------------------------------------------------- laws

SPELLED = {
    u: [s for s, right in SPELLINGS.items() if right == u and s[0].isalpha()] for u in ("mm", "m", "h", "min", "d", "L", "kg/m2")
}
# Feet and inches stay whole: more than one blank between them is not read.
INK = re.compile(r'"[^"\n]*"|[0-9]+ ft [0-9 /]+ in|#[^\n]*|[;,]| x |(?<=[0-9])x(?=[0-9])|[^\S\n]+|[^\s;,"#]+|\n')


def untidied(text: str, seed: int) -> str:
    """The same lines with other blanks, times signs, spellings of units, blank lines and semicolons."""
    one = Random(seed).choice
    out = []
    before = "\n"
    for m in INK.finditer(text):
        part = m[0]
        if part == ";":
            part = one((";", " ; ", ";;", " ;\t; "))
        elif part in (" x ", "x"):
            part = one(("x", " x ", "X", " × ", "×", "  x"))
        elif part == ",":
            part = one((",", " ,"))
        elif part == "\n":
            part = one(("\n", " \n", "\t\n", "\r\n"))
        elif part.isspace():
            part = one((" ", "\t", "     ")) if before == "\n" else one((" ", "  ", "\u00a0", "   "))
        elif part in SPELLED and before.isspace():
            part = one((part, *SPELLED[part]))
        out.append(part)
        before = m[0]
    return "".join(out)


@given(st.sampled_from(sorted(EXAMPLES)), st.integers(0, 10**9))
@settings(max_examples=25, deadline=None)
def test_one_form_of_all_layouts(name: str, seed: int) -> None:
    assert tidy(untidied(EXAMPLES[name], seed)) == EXAMPLES[name]


@given(st.sampled_from(sorted(EXAMPLES)), st.lists(MUTATION, min_size=1, max_size=4))
@settings(max_examples=25, deadline=None)
def test_the_job_is_the_same(name: str, changes: list[tuple[int, int, str]]) -> None:
    text = EXAMPLES[name]
    for at, length, new in changes:
        at %= len(text) + 1
        text = text[:at] + new.replace("\0", " ") + text[at + length :]
    assert built(lawful(text)) == built(text)


@given(st.sampled_from(sorted(EXAMPLES)), st.integers(0, 10**9))
@settings(max_examples=8, deadline=None)
def test_the_job_of_an_untidy_example_is_the_same(name: str, seed: int) -> None:
    assert built(untidied(EXAMPLES[name], seed).replace("\r", "")) == job_of(name)


@given(st.text(max_size=200))
@example('"')
@example("\r\r\n")
@example("x\r")
@example(";#\n#")
@example("\ud800")
@example("\ufefffloor")
def test_any_text(text: str) -> None:
    lawful(text)
    assert tidy(tidy(text)) == tidy(text)


MORE = (*TOKENS, "\r\n", "\u00a0", ";", "2.4x1.8", "12x24in", "7'10½\"", "m²", '"a;b"', "# x")


@given(st.lists(st.sampled_from(MORE), max_size=40))
@settings(max_examples=120, deadline=None)
def test_any_words_of_the_language(words: list[str]) -> None:
    lawful(" ".join(words))
    lawful("".join(words))
