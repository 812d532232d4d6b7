"""The page: strict Markdown, our own marks, nothing from outside."""

from __future__ import annotations

import re

import pytest

from tilespec.document.html import Asset, Page, style, to_html
from tilespec.document.templates import Templates


def test_marks_boxes_and_blanks() -> None:
    html = to_html("- [ ] tile, 4.32 m²^W12^, found [____]\n\n^W12:^ 4.32 m²\n")
    assert '<b>☐</b> tile, 4.32 m²<a href="#W12">W12</a>, found <i class="w4"></i>' in html
    assert '<dfn id="W12">W12</dfn>' in html


def test_a_form_has_fields_with_a_name_each_and_the_words_of_their_row() -> None:
    html = to_html("::: form\n| | Step | By |\n|---|---|---|\n| [ ] | Prime | [____] |\n| [ ] | Tile | [____] |\n:::\n")
    names = re.findall(r'name="([^"]+)"', html)
    assert len(names) == len(set(names)) == 4
    assert re.findall(r'title="([^"]+)"', html) == ["Prime", "Prime", "Tile", "Tile"]


def test_outside_a_form_there_are_no_fields() -> None:
    assert "<input" not in to_html("::: step\n[ ] Prime [____]\n:::\n\n[ ]")


@pytest.mark.parametrize("text", [
    "<script>x</script>", "<img src=x>", "[x](http://example.com)", "![x](http://example.com/x.png)", "[x](file:///etc/passwd)",
    "![x](data:image/png;base64,AAAA)", "[x](javascript:alert(1))", "<http://example.com>", "[x]: http://example.com\n\n[x]",
])  # fmt: skip
def test_nothing_leads_outside(text: str) -> None:
    html = to_html(text)
    assert not re.search(r"<(script|img|a)\b", html), html


def test_headings_carry_the_names_that_contents_lead_to() -> None:
    assert to_html("## 3 Materials {: #part-materials}\n") == '<h2 id="part-materials">3 Materials</h2>\n'


def test_lines_of_a_spec_stay_as_they_stand() -> None:
    html = to_html('~~~spec\nL1 job "<b>" # ::: hold\nL2   floor 2.4 x 1.8\n~~~\n')
    assert '<dfn id="L1">L1</dfn> job &quot;&lt;b&gt;&quot; # ::: hold</span>' in html
    assert '<dfn id="L2">L2</dfn>   floor 2.4 x 1.8</span>' in html


def test_a_page_for_a_browser_stands_alone() -> None:
    page = Page(
        '<p><img src="tilespec:drawing/a.svg" alt="a"></p>\n', style(Templates(), "A4"), "T <1>", "F", "2026-03-02", "en", "A4",
        (Asset("drawing/a.svg", b"<svg/>", "image/svg+xml"),),
    )  # fmt: skip
    text = page.standalone()
    assert "tilespec:" not in text
    assert "http" not in text
    assert "data:image/svg+xml;base64,PHN2Zy8+" in text
    assert "<title>T &lt;1&gt;</title>" in text


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_paper_is_the_job_s(paper: str) -> None:
    assert f"size: {'letter' if paper == 'Letter' else paper}" in style(Templates(), paper)


def _lengths(css: str, properties: str) -> list[float]:
    """Sizes in points of the declarations named."""
    factor = {"pt": 1.0, "mm": 72 / 25.4}
    found = []
    for name, value in re.findall(r"([a-z-]+):\s*([^;}]+)", css):
        if re.fullmatch(properties, name):
            sizes = re.findall(r"([0-9.]+)(pt|mm)", value)
            found += [float(n) * factor[u] for n, u in (sizes[:1] if name == "font" else sizes)]
    return found


def test_no_text_under_7_pt_and_no_line_under_a_quarter_point() -> None:
    """The design's own limits: judged by the crew, on paper from an office printer."""
    css = re.sub(r"/\*.*?\*/", "", Templates().source("print.css"), flags=re.S)
    sizes = _lengths(css, "font|font-size")
    assert sizes and min(sizes) >= 7
    lines = [s for s in _lengths(css, r"border(-(top|bottom|left|right|width))?") if s]
    assert lines and min(lines) >= 0.25


def test_black_and_white_only() -> None:
    css = Templates().source("print.css")
    assert set(re.findall(r"#[0-9a-f]{3,8}\b", re.sub(r"#part-[a-z]+", "", css))) <= {"#000", "#fff"}
