"""The document as JSON: the model as it stands, and a table of what stands behind every number.

A quantity is an object with `text` (as printed), `value` and `unit` (as a program wants it) and `trace`, an id of the
table; a word of the practice, such as a class, has `text` and `trace`. The schema is `schema/print.schema.json`, for a take-off
or a programme by itself `schema/excerpt.schema.json`; within one major `format_version` things are only added.
"""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from fractions import Fraction

from tilespec.document.model import FORMAT_VERSION, PARTS, Document, Excerpt
from tilespec.document.show import show
from tilespec.document.text import Ref, Said
from tilespec.document.trace import Traces
from tilespec.practice.lookup import Word
from tilespec.quantity import Quantity

Json = dict[str, "Json"] | list["Json"] | str | int | float | bool | None


def render(document: Document) -> str:
    """JSON text, with a line break at its end. The same document gives the same text."""
    writer = _Writer(document)
    form: dict[str, Json] = {
        "format": "tilespec-print",
        "format_version": FORMAT_VERSION,
        "language": document.language,
        "family": document.family,
        "paper": document.paper,
        "parts": {key: writer.value(getattr(document, key.replace("-", "_"))) for key in PARTS if key != "sources"},
        "traces": writer.traces(document.traces),
        "texts": writer.texts(document.traces),
        "drawings": [
            {"name": p.name, "title": p.title.text, "svg": p.svg, "values": writer.value(p.values)} for p in document.pictures
        ],
    }
    return json.dumps(form, ensure_ascii=False, indent=1) + "\n"


def _lines(text: str) -> list[str]:
    return text.rstrip("\n").split("\n")


def number(value: Fraction) -> int | float:
    """A JSON number; twelve significant digits, so that no machine adds noise of its own."""
    return int(value) if value.denominator == 1 else float(f"{float(value):.12g}")


def excerpt(excerpt: Excerpt, name: str) -> str:
    """Parts of a document by themselves, each as in the print, under a `format` of their own."""
    writer = _Writer(excerpt)
    form: dict[str, Json] = {
        "format": f"tilespec-{name}",
        "format_version": FORMAT_VERSION,
        "language": excerpt.language,
        "family": excerpt.family,
        "parts": {key: writer.value(part) for key, part in excerpt.parts},
        "traces": writer.traces(excerpt.traces),
        "texts": writer.texts(excerpt.traces),
    }
    return json.dumps(form, ensure_ascii=False, indent=1) + "\n"


class _Writer:
    def __init__(self, document: Document | Excerpt) -> None:
        self.family, self.table = document.family, document.traces

    def value(self, node: object) -> Json:
        if isinstance(node, Quantity):
            return self.quantity(node)
        if isinstance(node, Word):
            return {"text": node.text, "trace": self.table.mark(node)}
        if isinstance(node, (Said, Ref)):
            return node.text
        if isinstance(node, (str, bool)) or node is None:
            return node
        if isinstance(node, tuple):
            return [self.value(item) for item in node]
        if is_dataclass(node):
            return {f.name: self.value(getattr(node, f.name)) for f in fields(node)}
        raise TypeError(f"no JSON for {node!r}")

    def quantity(self, q: Quantity) -> dict[str, Json]:
        return {"text": show(q, self.family), "value": number(q.number), "unit": q.shown.symbol, "trace": self.table.mark(q)}

    def texts(self, t: Traces) -> list[Json]:
        return [{"letter": f.letter.text, "name": f.name.text, "lines": list(_lines(f.source.text))} for f in t.files]

    def traces(self, t: Traces) -> dict[str, Json]:
        result: dict[str, Json] = {}
        for mark in sorted(m for m in t.all() if m.startswith("L")):
            result[mark] = {"kind": "given"}
        for about, d in ((g, d) for g in t.defaults for d in g.entries):
            result[d.mark.text] = {"kind": "default", "question": d.question.text, "basis": about.basis.text, "ask": about.ask}
        for group, e in ((g, e) for g in t.limits for e in g.entries):
            result[e.mark.text] = {
                "kind": "limit",
                "key": e.key.text,
                "what": e.what.text,
                "family": group.family,
                "borrowed": group.borrowed,
                "source": group.source.text,
                "seen": group.seen,
                "note": e.note.text,
            }
        for c in t.counts:
            result[c.mark.text] = {"kind": "counted", "of": c.of.text, "lines": [line.text for line in c.lines]}
        for f in t.formulas:
            for w in f.workings:
                inputs: list[Json] = [{"name": i.name.text, **self.quantity(i.quantity)} for i in w.inputs]
                result[w.mark.text] = {
                    "kind": "worked",
                    "formula": f.text.text or " + ".join(i.name.text for i in w.inputs),
                    "source": f.source.text,
                    "inputs": inputs,
                }
        return result
