"""Words of a spec in Markdown: whoever reads it rendered finds them as they are, and so does whoever reads it raw."""

from __future__ import annotations

import random
from html import unescape

import pytest
from markdown_it import MarkdownIt

from tilespec.document.escape import md_words

# As reviews read it: CommonMark with tables and strikethrough.
READER = MarkdownIt("commonmark").enable(["table", "strikethrough"])
PARTS = (
    *"abZ09 \t|\\`*_~[]()<>!#&;:.+-=$@\"'/é浴²", "**", "__", "~~", "```", "<b>", "</b>", "<!--", "-->", "&amp;", "&#65;",
    "[x](y)", "![x](y)", "[x]: y", "<https://a.example>", "\\|", "wall-tile", "2.40 m", "low_window_cut", "*x*", "_x_", "3 * 4",
    "< 5",
    " - ", "1. ", "# ", "- [ ] ", "%RH",
)


def rendered(markdown: str) -> str:
    """What stands between the marks; a mark of its own in the words would be seen by its brackets."""
    return unescape(READER.render(markdown))


@pytest.mark.parametrize("seed", range(40))
def test_rendered_it_says_the_words(seed: int) -> None:
    rng = random.Random(seed)
    for _ in range(100):
        words = " ".join("".join(rng.choices(PARTS, k=rng.randint(1, 8))).split())
        if not words:
            continue
        assert rendered(f"From {md_words(words)} to.") == f"<p>From {words} to.</p>\n", words
        cells = rendered(f"| a | b |\n|---|---|\n| {md_words(words, cell=True)} | c |\n")
        assert f"<td>{words}</td>\n<td>c</td>\n</tr>\n</tbody>" in cells, words


@pytest.mark.parametrize("words", [
    "wall-tile (spare)", "10.96 m²", "+0.19 m²", "−3 °C", "Shower room, wall A: 600 x 300", "CM-%", "a_b_c", "2 * 3 < 7 & 8",
    "50 %; 3!", "#4", "x = y", "C2, TE, S1", "it's", "~ 3",
])
def test_what_needs_no_backslash_has_none(words: str) -> None:
    assert md_words(words, cell=True) in (words, words.replace("~", "\\~"))


@pytest.mark.parametrize(("words", "written"), [
    ("a|b", "a\\|b"), ("<b>", "\\<b>"), ("*x*", "\\*x\\*"), ("[x](y)", "\\[x](y)"), ("C:\\temp", "C:\\temp"), ("\\*", "\\\\\\*"),
    ("https://a.example", "https\\://a.example"), ("www.a.example", "www\\.a.example"), ("a@b.example", "a\\@b.example"),
    ("&amp;", "\\&amp;"), ("a\nb", "a b"),
])
def test_what_would_be_read_otherwise_has_one(words: str, written: str) -> None:
    assert md_words(words, cell=True) == written
