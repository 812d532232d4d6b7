"""The PDF: guarded, the same bytes each time, tagged, nothing fetched. Read back with pikepdf (structure) and pypdf (text)."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdf
import pytest

from tilespec.document import pdf
from tilespec.document.html import Asset, Page, style, to_html
from tilespec.document.templates import Templates
from tilespec.source import Source

pytestmark = pytest.mark.pdf

DRAWING = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="40mm" viewBox="0 0 80 40"><title>wall A</title>'
    b'<path d="M1 1h78v38h-78z" fill="none" stroke="#000" stroke-width="0.3"/><text x="4" y="9" font-size="3">2400</text></svg>'
)
TEXT = """
::: head
BH-07 · **Guest shower room**
:::

::: foot
Spec 0a1b
:::

# Guest shower room

## 1 Materials {: #part-materials}

Grout 4.3 kg^W1^ of "Πλακάκια" and плитка.

![Wall A seen from inside the room](tilespec:drawing/wall-1.svg)

::: form
| | Step | By |
|---|---|---|
| [ ] | Prime the floor | [____] |
:::

## 2 Sources {: #part-sources}

^W1:^ 4.3 kg.
"""


def page(text: str = TEXT) -> Page:
    return Page(
        to_html(text), style(Templates(), "A4"), "BH-07 Guest shower room", "A firm", "2026-03-02", "en", "A4",
        (Asset("drawing/wall-1.svg", DRAWING, "image/svg+xml"),),
    )  # fmt: skip


@pytest.fixture(scope="module")
def printed() -> pdf.Printed:
    return pdf.write(page())


def test_structure(printed: pdf.Printed) -> None:
    with pikepdf.open(BytesIO(printed.data)) as file:
        root = file.Root
        assert str(root.Lang) == "en"
        assert bool(root.MarkInfo.Marked)
        assert root.ViewerPreferences.DisplayDocTitle
        assert file.docinfo.Title == "BH-07 Guest shower room"
        assert file.docinfo.Author == "A firm"
        assert str(file.docinfo.CreationDate).startswith("D:20260302")
        assert "AA" not in root and "OpenAction" not in root and "JavaScript" not in root.get("/Names", {})
        assert "EmbeddedFiles" not in root.get("/Names", {})
        with file.open_metadata() as meta:
            assert meta["pdfuaid:part"] == "1"
        with file.open_outline() as outline:
            assert [item.title for item in outline.root] == ["1 Materials", "2 Sources"]


def elements(file: pikepdf.Pdf) -> list[pikepdf.Object]:
    found: list[pikepdf.Object] = []
    todo = [file.Root.StructTreeRoot]
    while todo:
        node = todo.pop()
        if isinstance(node, pikepdf.Dictionary):
            if "/S" in node:
                found.append(node)
            kids = node.get("/K", [])
            todo.extend(kids if isinstance(kids, pikepdf.Array) else [kids])
    return found


def test_drawings_say_what_they_show(printed: pdf.Printed) -> None:
    with pikepdf.open(BytesIO(printed.data)) as file:
        figures = [e for e in elements(file) if e.S == "/Figure"]
        assert [str(f.Alt) for f in figures] == ["Wall A seen from inside the room"]


def test_fields_have_names_and_words(printed: pdf.Printed) -> None:
    with pikepdf.open(BytesIO(printed.data)) as file:
        fields = list(file.Root.AcroForm.Fields)
        assert sorted(str(f.T) for f in fields) == ["field-1", "field-2"]
        assert {str(f.TU) for f in fields} == {"Prime the floor"}
        assert {str(f.FT) for f in fields} == {"/Btn", "/Tx"}


def test_every_font_is_in_the_file(printed: pdf.Printed) -> None:
    with pikepdf.open(BytesIO(printed.data)) as file:
        fonts = [o for o in file.objects if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"]
        assert fonts
        for font in fonts:
            assert any(key in font for key in ("/FontFile", "/FontFile2", "/FontFile3"))
            assert "DejaVu" in str(font.FontName) or "Tilespec" in str(font.FontName)


def test_text_reads_back(printed: pdf.Printed) -> None:
    text = "".join(p.extract_text() for p in pypdf.PdfReader(BytesIO(printed.data)).pages)
    for words in ("Guest shower room", "Grout 4.3 kg", "Πλακάκια", "плитка", "Page 1 of 1", "Prime the floor", "Spec 0a1b"):
        assert words in text
    assert printed.notes == () and printed.missing == ()


@pytest.mark.parametrize("css", [
    "body { background: url(http://example.com/x.png) }", "@import url(http://example.com/x.css);",
    "body { background: url(file:///etc/hostname) }",
    "@font-face { font-family: x; src: url(tilespec:fonts/other.ttf) } p { font-family: x }",
    "body { background: url(data:image/png;base64,iVBORw0KGgo=) }",
])  # fmt: skip
def test_what_is_asked_for_from_outside_fails_the_print(css: str) -> None:
    asks = page()
    asks = Page(asks.text, css + asks.style, asks.title, asks.author, asks.created, asks.language, asks.paper, asks.assets)
    with pytest.raises(pdf.PrintFailed, match="never fetched"):
        pdf.write(asks)


@pytest.mark.parametrize("href", ["http://example.com/x.png", "file:///etc/hostname", "tilespec:drawing/none.svg"])
def test_an_image_hidden_inside_a_drawing_fails_the_print(href: str) -> None:
    p = page()
    hidden = DRAWING.replace(b"</svg>", b'<image href="' + href.encode() + b'" width="9" height="9"/></svg>')
    assets = (Asset("drawing/wall-1.svg", hidden, "image/svg+xml"),)
    with pytest.raises(pdf.PrintFailed, match="never fetched"):
        pdf.write(Page(p.text, p.style, p.title, p.author, p.created, p.language, p.paper, assets))


_HASH = """
import hashlib, sys
sys.path.insert(0, sys.argv[1])
import test_pdf
print(hashlib.sha256(test_pdf.pdf.write(test_pdf.page()).data).hexdigest())
"""


def test_two_processes_give_the_same_bytes(printed: pdf.Printed, tmp_path: Path) -> None:
    here = Path(__file__).resolve()
    env = {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Pacific/Auckland", "LC_ALL": "C", "PYTHONPATH": str(here.parents[2])}
    env.pop("SOURCE_DATE_EPOCH", None)
    out = subprocess.run(
        [sys.executable, "-c", _HASH, str(here.parent)], capture_output=True, text=True, check=True, cwd=tmp_path, env=env
    )
    assert out.stdout.strip() == hashlib.sha256(printed.data).hexdigest()


def test_time_and_memory_are_limited() -> None:
    with pytest.raises(pdf.PrintFailed, match="longer than"):
        pdf.write(page(), timeout=0.05)
    with pytest.raises(pdf.PrintFailed, match="memory"):
        pdf.write(page(), memory=1024 * 1024)


def test_without_the_system_libraries_the_message_says_what_to_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "weasyprint.py").write_text("raise OSError('cannot load library libgobject-2.0-0')\n", encoding="utf-8")
    monkeypatch.syspath_prepend(str(tmp_path))
    with pytest.raises(pdf.PrintUnavailable, match="apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"):
        pdf.write(page())


def test_a_character_that_the_font_lacks_is_reported_with_its_place() -> None:
    printed = pdf.write(page(TEXT.replace("плитка", "瓷砖")))
    assert printed.missing == ("瓷", "砖")
    notes = pdf.where_missing(printed.missing, (Source("job.tilespec", 'job "x"\ntile 瓷\n'),))
    assert notes[0] == "job.tilespec:2:6: the print's font has no sign for U+74F7; write it in other letters"
    assert notes[1].startswith("the print's font has no sign for U+7816")


def test_a_link_to_nowhere_is_noted() -> None:
    assert any("W99" in note for note in pdf.write(page(TEXT + "\nx^W99^\n")).notes)
