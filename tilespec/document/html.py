"""The document as HTML: Markdown through a strict reader, in a page that stands alone.

No HTML passes through from the text; links lead only within the page or to our own drawings.
"""

from __future__ import annotations

import base64
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from html import escape
from typing import TYPE_CHECKING

from tilespec.document.model import PARTS, Document
from tilespec.document.templates import Templates

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.rules_core import StateCore
    from markdown_it.rules_inline import StateInline
    from markdown_it.token import Token

SCHEME = "tilespec:"

_MARK = re.compile(r"\^(L[a-z]*[0-9]+|[DRW][0-9]+)(:?)\^")
_BLANK = re.compile(r"\[(_{2,})\]")
_BOX = "[ ]"
_ID = re.compile(r"\s*\{: #([a-z0-9-]+)\}$")
_FRAME = re.compile(r"[a-z-]+( [a-z-]+)*$")


# Margins that leave room for a drawing to scale (drawing/scale.py), wider on the side of the punch holes.
_PAPERS = {"A4": "size: A4; margin: 20mm 14mm 15mm 16mm", "Letter": "size: letter; margin: 19mm 11.9mm 14mm 13.9mm"}


@dataclass(frozen=True, slots=True)
class Asset:
    """Something that the page shows, by its name: `drawing/plan-1.svg`."""

    name: str
    data: bytes
    media_type: str


@dataclass(frozen=True, slots=True)
class Page:
    """A page and what belongs to it. In `text` drawings are named `tilespec:...`."""

    text: str
    style: str
    title: str
    author: str
    created: str
    language: str
    paper: str
    assets: tuple[Asset, ...]

    def head(self, style: str) -> str:
        metas = [f'<meta name="author" content="{escape(self.author)}">'] if self.author else []
        if self.created:
            metas.append(f'<meta name="dcterms.created" content="{escape(self.created)}">')
        return (
            f'<!doctype html>\n<html lang="{escape(self.language)}">\n<head>\n<meta charset="utf-8">\n'
            f"<title>{escape(self.title)}</title>\n"
            + "\n".join(metas)
            + '\n<meta name="generator" content="tilespec">\n<meta name="viewport" content="width=device-width">\n'
            f"<style>\n{style}</style>\n</head>\n"
        )

    def document(self) -> str:
        """The page for a PDF: drawings by name, style inside."""
        return f"{self.head(self.style)}<body>\n{self.text}</body>\n</html>\n"

    def standalone(self) -> str:
        """The page for a browser: drawings inside, no fonts of its own."""
        text = self.text
        for a in self.assets:
            data = base64.b64encode(a.data).decode("ascii")
            text = text.replace(f'src="{SCHEME}{a.name}"', f'src="data:{a.media_type};base64,{data}"')
        style = re.sub(r"@font-face\s*\{[^}]*\}\s*", "", self.style)
        return f"{self.head(style)}<body>\n{text}</body>\n</html>\n"


def page(
    document: Document,
    templates: Templates,
    parts: Sequence[str] = PARTS,
    *,
    paper: str | None = None,
    created: str = "",
) -> Page:
    """The page of a document. `paper`: instead of the job's; `created`: an ISO date for the metadata, instead of the spec's."""
    from tilespec.document.markdown import render as to_markdown

    text = to_html(to_markdown(document, templates, parts))
    title = document.title
    words = [w.text for w in (title.reference, title.title) if w]
    size = paper or document.paper
    return Page(
        text,
        style(templates, size),
        " ".join(words) or "tilespec",
        title.firm.text if title.firm else "",
        created or (title.date.text.split()[-1] if title.date else ""),
        document.language,
        size,
        tuple(Asset(f"drawing/{p.name}.svg", p.svg.encode("utf-8"), "image/svg+xml") for p in document.pictures),
    )


def render(
    document: Document, templates: Templates, parts: Sequence[str] = PARTS, *, paper: str | None = None, created: str = ""
) -> str:
    """The HTML of a document, standing alone."""
    return page(document, templates, parts, paper=paper, created=created).standalone()


def style(templates: Templates, paper: str) -> str:
    """The style sheet with the paper's size."""
    return f"@page {{ {_PAPERS[paper]} }}\n" + templates.source("print.css")


def to_html(text: str) -> str:
    """Markdown of ours to the body of a page."""
    md = _reader()
    return str(md.render(text))


# ---------------------------------------------------------------- the reader


@lru_cache(maxsize=1)
def _reader() -> MarkdownIt:
    from markdown_it import MarkdownIt
    from mdit_py_plugins.container import container_plugin

    md = MarkdownIt("js-default", {"linkify": False, "typographer": False})
    md.validateLink = lambda url: url.startswith(("#", SCHEME))  # type: ignore[method-assign]
    md.use(container_plugin, "frame", validate=_is_frame, render=_frame)
    md.inline.ruler.before("link", "own", _own)
    md.inline.ruler.before("emphasis", "mark", _mark)
    md.core.ruler.push("fields", _fields)
    md.add_render_rule("mark", _draw_mark)
    md.add_render_rule("entry", _draw_entry)
    md.add_render_rule("fence", _draw_fence)
    md.add_render_rule("box", _draw_box)
    md.add_render_rule("blank", _draw_blank)
    return md


def _is_frame(params: str, *_: object) -> bool:
    return _FRAME.match(params.strip()) is not None


def _frame(renderer: object, tokens: Sequence[Token], index: int, options: object, env: object) -> str:
    token = tokens[index]
    if token.nesting < 0:
        return "</div>\n"
    return f'<div class="{escape(token.info.strip())}">\n'


def _mark(state: StateInline, silent: bool) -> bool:
    found = _MARK.match(state.src, state.pos)
    if not found:
        return False
    if not silent:
        state.push("entry" if found[2] else "mark", "a", 0).content = found[1]
    state.pos = found.end()
    return True


def _own(state: StateInline, silent: bool) -> bool:
    """Boxes and blanks. They are refused where a link would follow, so that `[ ](...)` stays what it is."""
    if state.src[state.pos] != "[":
        return False
    if state.src.startswith(_BOX, state.pos):
        kind, length, content = "box", len(_BOX), ""
    elif found := _BLANK.match(state.src, state.pos):
        kind, length, content = "blank", len(found[0]), found[1]
    else:
        return False
    if state.src[state.pos + length : state.pos + length + 1] == "(":
        return False
    if not silent:
        state.push(kind, "", 0).content = content
    state.pos += length
    return True


def _fields(state: StateCore) -> None:
    """Ids for headings, short classes for aligned cells; boxes and blanks inside a form become fields with a name each."""
    forms: list[bool] = []
    number = 0
    head: Token | None = None
    cell: Token | None = None
    row: list[Token] = []
    words = ""
    for token in state.tokens:
        if token.type == "container_frame_open":
            forms.append("form" in token.info.split())
        elif token.type == "container_frame_close":
            forms.pop()
        elif token.type == "heading_open":
            head = token
        elif token.type in ("th_open", "td_open"):
            cell = token
            if token.attrs.pop("style", "") == "text-align:right":
                token.attrs["class"] = "r"
        elif token.type == "tr_close":
            cell = None
        elif token.type == "inline":
            if head is not None:
                if found := _ID.search(token.content):
                    head.attrs["id"] = found[1]
                    _cut(token, found[0])
                head = None
            children = token.children or []
            if cell is not None and [c.type for c in children] == ["box"]:
                cell.attrs["class"] = "t"
            words += " " + "".join(c.content for c in children if c.type == "text")
            if any(forms):
                row += [c for c in children if c.type in ("box", "blank")]
        if token.type in ("tr_close", "paragraph_close"):
            # A field is called by the words of its row, so that a reader who cannot see the page knows what it asks.
            for field in row:
                number += 1
                field.meta = {"name": f"field-{number}", "title": " ".join(words.split())[:90] or f"field {number}"}
            row, words = [], ""


def _cut(token: Token, tail: str) -> None:
    """Takes a heading's id out of its text."""
    children = token.children or []
    for child in reversed(children):
        if child.type == "text" and child.content.endswith(tail.strip()):
            child.content = child.content[: -len(tail.strip())].rstrip()
            return


def _draw_mark(renderer: object, tokens: Sequence[Token], index: int, options: object, env: object) -> str:
    mark = tokens[index].content
    return f'<a href="#{mark}">{mark}</a>'


def _draw_entry(renderer: object, tokens: Sequence[Token], index: int, options: object, env: object) -> str:
    mark = tokens[index].content
    return f'<dfn id="{mark}">{mark}</dfn>'


def _draw_fence(renderer: object, tokens: Sequence[Token], index: int, options: object, env: object) -> str:
    """Lines of a spec, each behind its mark."""
    token = tokens[index]
    if token.info.strip() != "spec":
        return f"<pre>{escape(token.content)}</pre>\n"
    lines = []
    for line in token.content.splitlines():
        mark, _, code = line.partition(" ")
        lines.append(f'<span><dfn id="{escape(mark)}">{escape(mark)}</dfn> {escape(code)}</span>')
    return f"<pre>{''.join(lines)}</pre>\n"


def _draw_box(renderer: object, tokens: Sequence[Token], index: int, options: object, env: object) -> str:
    meta = tokens[index].meta
    if meta:
        return f'<input type="checkbox" name="{meta["name"]}" title="{escape(meta["title"])}">'
    return "<b>☐</b>"


def _draw_blank(renderer: object, tokens: Sequence[Token], index: int, options: object, env: object) -> str:
    token = tokens[index]
    size = min(len(token.content), 24)
    if token.meta:
        return f'<input type="text" class="w{size}" name="{token.meta["name"]}" title="{escape(token.meta["title"])}">'
    return f'<i class="w{size}"></i>'
