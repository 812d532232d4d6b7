"""The template layer: no number without a trace, no markup from a spec."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import pytest
from jinja2 import Environment, UndefinedError, nodes
from jinja2.exceptions import SecurityError

from tilespec.document.html import to_html
from tilespec.document.templates import BareNumber, NothingToPrint, Templates, WordingMissing
from tilespec.document.text import Ref, Said
from tilespec.document.trace import Untraced, trace
from tilespec.job.types import Words
from tilespec.practice.lookup import practice
from tilespec.quantity import UNITS, Default, Limit, Quantity, counted, given, work
from tilespec.resources import data_dir
from tilespec.source import Source, Span

SOURCE = Source("job.tilespec", 'job "x"\nfloor 2.4 x 1.8\n')
AREA = work(
    "width * depth",
    "m2",
    source="area of a rectangle",
    width=given("2.4", "m", Span("job.tilespec", 14, 17)),
    depth=given("1.8", "m", Span("job.tilespec", 20, 23)),
)
TRACES = trace((AREA,), (SOURCE,))


def printed(template: str, **values: object) -> str:
    """A template of our own in the place of one that is bundled."""
    templates = Templates(lambda name: template if name == "document.md.j2" else None)
    return templates.render("document.md.j2", TRACES, "EN", **values)[0]


@pytest.mark.parametrize(
    "value",
    [
        3,
        0,
        2.5,
        Decimal("2.5"),
        Fraction(5, 2),
        True,
        "3 mm",
        "wall 2",
        "٣",
        "½"[:0] + "1/2",
    ],
)
def test_a_bare_number_is_refused(value: object) -> None:
    with pytest.raises(BareNumber):
        printed("{{ v }}", v=value)


@pytest.mark.parametrize(
    "template",
    [
        "{{ 3 }}",
        "{{ v | length }}",
        "{{ v | join(', ') }}",
        "{{ loop.index if loop else v | count }}",
        "{% set x = v | count %}{{ x }}",
        "{% macro m(x) %}{{ x }}{% endmacro %}{{ m(v | count) }}",
        "{% for x in v %}{{ loop.index }}{% endfor %}",
    ],
)
def test_a_template_cannot_make_a_number_of_its_own(template: str) -> None:
    with pytest.raises((BareNumber, UndefinedError)):
        printed(template, v=("wall 1", "wall 2"))


@pytest.mark.parametrize("value", [None, (), [], object(), {"a": "b"}])
def test_what_has_no_printed_form_is_refused(value: object) -> None:
    with pytest.raises(NothingToPrint):
        printed("{{ v }}", v=value)


def test_a_missing_name_is_refused() -> None:
    with pytest.raises(UndefinedError):
        printed("{{ nobody }}")


def test_a_quantity_is_printed_with_its_mark() -> None:
    text, marks = Templates(lambda n: "{{ q }}" if n == "document.md.j2" else None).render("document.md.j2", TRACES, "EN", q=AREA)
    assert text == "4.32\u202fm²^W1^"
    assert marks == ("W1",)
    assert TRACES.reached(marks) == {"W1", "L2"}


def test_a_word_of_the_practice_is_printed_with_its_mark_and_listed_with_its_source() -> None:
    word = practice("UK").word("adhesive-heated-floor")
    traces = trace((AREA, (word, practice("UK").word("adhesive-heated-floor"))), (SOURCE,))
    text, marks = Templates(lambda n: "{{ w }}, {{ w | unmarked }}" if n == "document.md.j2" else None).render(
        "document.md.j2", traces, "UK", w=word
    )
    assert (text, marks) == ("C2 S1^R1^, C2 S1", ("R1",))
    (group,) = traces.limits
    assert group.borrowed and group.entries[0].what.text == "Least class of adhesive, heated floor"


def test_a_quantity_that_the_document_does_not_hold_is_refused() -> None:
    with pytest.raises(Untraced):
        printed("{{ q }}", q=counted(3, "pipes"))


def test_the_same_working_shares_a_mark_whatever_unit_it_is_shown_in() -> None:
    assert TRACES.mark(AREA.shown_in(UNITS["ft2"])) == TRACES.mark(AREA)


def test_references_and_words_of_the_spec_may_hold_digits() -> None:
    assert (
        printed("{{ a }} {{ b }} {{ c }}", a=Ref("12", "step"), b=Said("Bath 2"), c=Words("Unit 7", Span("x", 0, 1)))
        == "12 Bath 2 Unit 7"
    )


NASTY = [
    "<script>alert(1)</script>",
    "# heading",
    "- item",
    "1. item",
    "| a | b |",
    "**bold** _it_ `code`",
    "[x](http://example.com)",
    "![x](file:///etc/passwd)",
    "<http://example.com>",
    "&amp; &#65;",
    "line\nbreak\n\n# new",
    "::: hold",
    "[ ]",
    "[____]",
    "^W21^",
    "^W21:^",
    "~~~",
    "```",
    "    code",
    "\\",
    "\\<b>",
    "{: #id}",
    "a\u2028b\u0085c",
    "\ttab",
    "> quote",
    "---",
    "===",
    "http://example.com",
    "{{ x }}",
]


@pytest.mark.parametrize("words", NASTY)
def test_words_of_a_spec_stay_words(words: str) -> None:
    for template in (
        "{{ v }}",
        "x {{ v }} y",
        "## {{ v }}",
        "| a |\n|---|\n| {{ v | cell }} |",
        "- {{ v }}",
        "{{ [v] | listing }}",
    ):
        html = to_html(printed(template, v=Said(words)))
        plain = re.sub(r"</?(p|h2|table|thead|tbody|tr|th|td|ul|li)>", "", html)
        assert "<" not in plain, (template, html)
        shown = " ".join(plain.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", '"').replace("&amp;", "&").split())
        wanted = " ".join(re.sub("[\x00-\x1f\x7f-\x9f\u2028\u2029]+", " ", words).split())
        assert wanted in shown


def test_wording_that_is_missing_is_named() -> None:
    with pytest.raises(WordingMissing, match="no-such-kind|no_such_kind"):
        printed('{{ word("names", "no-such-kind", "title") }}')


def test_a_firm_s_template_runs_in_a_sandbox() -> None:
    for attack in ("{{ ''.__class__.__mro__ }}", "{{ word.__globals__ }}", "{{ v.append('x') }}"):
        with pytest.raises((SecurityError, UndefinedError)):
            printed(attack, v=["a"])


def test_a_firm_can_replace_but_not_add_templates() -> None:
    from jinja2 import TemplateNotFound

    templates = Templates(lambda name: "own")
    assert templates.render("document.md.j2", TRACES, "EN")[0] == "own"
    for name in ("mine.md.j2", "../pyproject.toml", "parts/../document.md.j2", "C:document.md.j2", "parts\\01-title.md.j2"):
        with pytest.raises(TemplateNotFound):
            templates.render(name, TRACES, "EN")


# ---------------------------------------------------------------- the bundled templates themselves


def bundled_templates() -> list[str]:
    root = data_dir("templates")
    found: list[str] = []

    def walk(at: object, path: str) -> None:
        for item in sorted(at.iterdir(), key=lambda i: i.name):  # type: ignore[attr-defined]
            name = f"{path}{item.name}"
            if item.is_dir():
                walk(item, name + "/")
            elif name.endswith(".j2"):
                found.append(name)

    walk(root, "")
    return found


def source(name: str) -> str:
    at = data_dir("templates")
    for part in name.split("/"):
        at = at / part
    return at.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", bundled_templates())
def test_fixed_wording_holds_no_digit(name: str) -> None:
    tree = Environment().parse(source(name))
    for data in tree.find_all(nodes.TemplateData):
        found = [line for line in data.data.splitlines() if any(c.isdigit() for c in line)]
        assert not found, f"{name}: a number in the wording, without a trace"
    for const in tree.find_all(nodes.Const):
        if isinstance(const.value, str) and not const.value.endswith(".md.j2"):
            assert not any(c.isdigit() for c in const.value), f"{name}: {const.value!r}"


@pytest.mark.parametrize("name", bundled_templates())
def test_templates_use_nothing_that_skips_the_escape(name: str) -> None:
    tree = Environment(extensions=[]).parse(source(name))
    assert not list(tree.find_all(nodes.Concat)), f"{name}: ~ skips the Markdown escape"
    for use in tree.find_all(nodes.Filter):
        assert use.name in {"listing", "once", "cell", "unmarked", "capitalise", "length", "first", "select", "reject"}, (
            f"{name}: filter {use.name}"
        )
    assert not list(tree.find_all(nodes.MarkSafe))


def test_limits_and_defaults_are_traced_with_their_sources() -> None:
    u = UNITS["mm"]
    limit = Quantity(Fraction(3, 1000), u.kind, u, Limit("joint-min-floor", "EN", "UK", "clause", "body", ""))
    default = Quantity(Fraction(9, 1000), u.kind, u, Default("Thickness of tile floor-tile?", "common practice"))
    both = work("a + b", "mm", source="sum", a=limit, b=default)
    t = trace((both,), (SOURCE,))
    assert [e.mark.text for e in t.limits[0].entries] == ["R1"]
    assert t.limits[0].borrowed
    assert t.limits[0].entries[0].what.text == "Narrowest joint on a floor"
    assert [d.mark.text for d in t.defaults[0].entries] == ["D1"]
    assert t.reached(["W1"]) == {"W1", "R1", "D1"}


def test_workings_of_one_formula_are_numbered_together() -> None:
    a, b = counted(2, "pipes"), counted(3, "drains")
    first, other, again = (
        work("a * 2", "", source="x", a=a),
        work("a + b", "", source="x", a=a, b=b),
        work("a * 2", "", source="x", a=b),
    )
    t = trace((first, other, again), (SOURCE,))
    assert [[w.mark.text for w in f.workings] for f in t.formulas] == [["W3", "W4"], ["W5"]]
    assert [c.mark.text for c in t.counts] == ["W1", "W2"]
