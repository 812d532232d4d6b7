"""The prints of the examples: snapshots, and what must hold for every print."""

from __future__ import annotations

import json
import re
from functools import lru_cache
from io import BytesIO
from pathlib import Path

import jsonschema
import pypdf
import pytest
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

from tilespec import pipeline
from tilespec.document import PARTS, Document, compose, html, json_form, markdown, pdf, schema
from tilespec.document.templates import Templates
from tilespec.quantity import Worked
from tilespec.workspace.host import DiskHost

ROOT = Path(__file__).resolve().parents[2]
NAMES = ("one-line", "shower-room", "flat", "us-bathroom")


@lru_cache(maxsize=None)
def document(name: str) -> Document:
    host = DiskHost()
    compiled = pipeline.compile(str(ROOT / "examples" / f"{name}.tilespec"), host)
    p = compiled.plan
    assert p is not None
    # Names as they are told, so that no folder of this machine stands in a snapshot.
    stages = p.job, p.practice, p.setout, p.offcuts, p.takeoff, p.sequence, p.programme
    return compose(*stages, compiled.diagnostics, tuple(compiled.sources.values()))


@lru_cache(maxsize=None)
def text(name: str, *parts: str) -> str:
    return markdown.render(document(name), Templates(), parts or PARTS)


class MarkdownSnapshot(SingleFileSnapshotExtension):
    _write_mode = WriteMode.TEXT
    file_extension = "md"


@pytest.mark.parametrize("name", NAMES)
def test_markdown(name: str, snapshot: SnapshotAssertion) -> None:
    assert text(name) == snapshot(extension_class=MarkdownSnapshot)


MARK = re.compile(r"\^(L[a-z]*[0-9]+|[DRW][0-9]+)\^")
ENTRY = re.compile(r"\^([DRW][0-9]+):\^")
LINE = re.compile(r"^(L[a-z]*[0-9]+) ", re.M)


@pytest.mark.parametrize("name", NAMES)
def test_every_mark_leads_to_an_entry_and_every_entry_is_led_to(name: str) -> None:
    printed = text(name)
    used = set(MARK.findall(printed))
    listed = set(ENTRY.findall(printed))
    lines = set(LINE.findall(printed[printed.index("~~~spec") :]))
    assert used <= listed | lines
    assert listed <= used


@pytest.mark.parametrize("part", [p for p in PARTS if p != "sources"])
def test_each_part_stands_alone_with_what_is_behind_its_numbers(part: str) -> None:
    printed = text("shower-room", part)
    assert f"{{: #part-{part}}}" in printed or part == "title"
    used = set(MARK.findall(printed))
    lines = set(LINE.findall(printed))
    assert used <= set(ENTRY.findall(printed)) | lines
    if part != "title":
        assert "**Tiled:**" in printed
    for other in PARTS:
        if other not in (part, "sources", "title"):
            assert f"{{: #part-{other}}}" not in printed


def test_marks_do_not_depend_on_the_parts_that_are_printed() -> None:
    whole, alone = text("shower-room"), text("shower-room", "materials")
    order = re.compile(r"^\| \[ \] \| \*\*.*$", re.M)
    rows = order.findall(alone)
    assert len(rows) > 10
    assert all(row in whole for row in rows)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_printed_as_worked_is_what_its_inputs_give(name: str) -> None:
    """Every sum of the lists, added up again from its printed inputs: arithmetic, nothing else."""
    sums = 0
    for formula in document(name).traces.formulas:
        for w in formula.workings:
            assert isinstance(w.quantity.why, Worked)
            if formula.adds:
                assert w.quantity.value == sum(i.quantity.value for i in w.inputs)
                sums += 1
    assert sums


@pytest.mark.parametrize("name", NAMES)
def test_json_keeps_to_its_schema(name: str) -> None:
    form = json.loads(json_form.render(document(name)))
    jsonschema.Draft202012Validator(schema.schema()).validate(form)
    traces = form["traces"]

    def follow(node: object) -> None:
        if isinstance(node, dict):
            if "trace" in node:
                assert node["trace"] in traces
            for value in node.values():
                follow(value)
        elif isinstance(node, list):
            for value in node:
                follow(value)

    follow(form)


def test_the_schema_s_file_is_the_model_s() -> None:
    file = ROOT / "tilespec" / "document" / "schema" / "print.schema.json"
    assert file.read_text(encoding="utf-8") == schema.text()
    jsonschema.Draft202012Validator.check_schema(schema.schema())


def test_json_and_markdown_print_the_same_values() -> None:
    form = json.loads(json_form.render(document("shower-room")))
    printed = text("shower-room")
    for row in form["parts"]["materials"]["lines"]:
        assert f"{row['net']['text']}^{row['net']['trace']}^" in printed
    assert [s["number"] for s in form["parts"]["sequence"]["steps"]] == [
        str(i + 1) for i in range(len(form["parts"]["sequence"]["steps"]))
    ]


@pytest.mark.parametrize("name", NAMES)
def test_html_is_lean_and_closed(name: str) -> None:
    page = html.page(document(name), Templates())
    assert "style=" not in page.text
    assert not re.search(r"<(script|iframe|object|link)\b|https?:", page.text)
    assert page.text.count("<div") == page.text.count("</div>")
    for target in set(re.findall(r'href="#([^"]+)"', page.text)):
        assert f'id="{target}"' in page.text
    for image in re.findall(r'src="tilespec:([^"]+)"', page.text):
        assert image in {a.name for a in page.assets}
    assert all(alt for alt in re.findall(r'<img [^>]*alt="([^"]*)"', page.text))
    ids = re.findall(r' id="([^"]+)"', page.text)
    assert len(ids) == len(set(ids))


@pytest.mark.pdf
@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_pdf_of_the_examples(name: str) -> None:
    d = document(name)
    printed = pdf.write(html.page(d, Templates()))
    assert printed.notes == ()
    assert printed.missing == ()
    reader = pypdf.PdfReader(BytesIO(printed.data))
    size = {"A4": (595, 842), "Letter": (612, 792)}[d.paper]
    pages = [p.extract_text() for p in reader.pages]
    for number, (p, words) in enumerate(zip(reader.pages, pages, strict=True), 1):
        assert (round(float(p.mediabox.width)), round(float(p.mediabox.height))) == size
        assert f"Page {number} of {len(pages)}" in words
        assert d.title.fingerprint.text in words
    everything = "\n".join(pages)
    holds = [s for s in d.sequence.steps if s.point is not None and s.point.kind == "hold"]
    assert everything.count("HOLD — STOP") == len(holds) > 0
    # Each step is drawn once: layout engines have been seen to draw a block twice that moves to the next page.
    assert everything.count("▲") == sum(1 for s in d.sequence.steps if s.hazards) + 1
    fields = reader.get_fields() or {}
    assert len(fields) >= len(d.sequence.steps) * 3
