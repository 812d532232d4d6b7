"""The server as an editor meets it: over standard input and output, by the protocol."""

from __future__ import annotations

import asyncio
import sys
from collections.abc import AsyncIterator
from pathlib import Path

import pytest

pytest.importorskip("pytest_lsp", reason="pytest-lsp is not installed")

import pytest_lsp  # noqa: E402
from lsprotocol import types as lsp  # noqa: E402
from pytest_lsp import ClientServerConfig, LanguageClient, client_capabilities  # noqa: E402

ROOT = Path(__file__).resolve().parent.parent.parent
STOCK = "tile field 300x300x9 porcelian; box of 11\nadhesive grip class C2TE S1; pack 25 kg\n"
SPEC = """job "A room"
use "stock.tilespec"
room "Bath" height 2.4
floor 2.4 x 1.8
  base concrete
  tile field; joint 3
wall A
  base cement render
  tile feild; joint 3
"""


@pytest_lsp.fixture(config=ClientServerConfig(server_command=[sys.executable, "-m", "tilespec", "editor"], server_env=None))
async def client(lsp_client: LanguageClient, tmp_path: Path) -> AsyncIterator[None]:
    (tmp_path / "stock.tilespec").write_text(STOCK, encoding="utf-8")
    (tmp_path / "job.tilespec").write_text(SPEC, encoding="utf-8")
    params = lsp.InitializeParams(capabilities=client_capabilities("neovim"), root_uri=tmp_path.as_uri())
    lsp_client.feature(lsp.WORKSPACE_INLAY_HINT_REFRESH)(lambda _: None)
    await lsp_client.initialize_session(params)
    yield
    await lsp_client.shutdown_session()


def opened(client: LanguageClient, path: Path, text: str) -> str:
    uri = path.as_uri()
    client.text_document_did_open(lsp.DidOpenTextDocumentParams(lsp.TextDocumentItem(uri, "tilespec", 1, text)))
    return uri


def changed(client: LanguageClient, uri: str, version: int, text: str) -> None:
    client.text_document_did_change(
        lsp.DidChangeTextDocumentParams(
            lsp.VersionedTextDocumentIdentifier(version, uri), [lsp.TextDocumentContentChangeWholeDocument(text)]
        )
    )


async def told(client: LanguageClient, uri: str, codes: set[str]) -> list[lsp.Diagnostic]:
    """The messages of a file, once they are these."""
    for _ in range(400):
        found = list(client.diagnostics.get(uri, ()))
        if {str(d.code) for d in found} == codes:
            return found
        await asyncio.sleep(0.05)
    raise AssertionError(f"{uri}: {[d.message for d in client.diagnostics.get(uri, ())]}")


def place(text: str, words: str, into: int = 0) -> lsp.Position:
    at = text.index(words) + into
    line = text.count("\n", 0, at)
    return lsp.Position(line, at - (text.rfind("\n", 0, at) + 1))


def applied(text: str, edits: list[lsp.TextEdit]) -> str:
    lines = text.splitlines(keepends=True)

    def offset(p: lsp.Position) -> int:
        return sum(len(x) for x in lines[: p.line]) + p.character

    for e in sorted(edits, key=lambda e: (e.range.start.line, e.range.start.character), reverse=True):
        text = text[: offset(e.range.start)] + e.new_text + text[offset(e.range.end) :]
    return text


@pytest.mark.asyncio
async def test_open_mend_complete_rename_and_close(client: LanguageClient, tmp_path: Path) -> None:
    uri = opened(client, tmp_path / "job.tilespec", SPEC)
    stock = (tmp_path / "stock.tilespec").as_uri()
    await told(client, stock, {"T0207"})
    found = await told(client, uri, {"T0201"})
    assert (found[0].range.start, found[0].severity) == (place(SPEC, "feild"), lsp.DiagnosticSeverity.Error)

    # What is no longer used is no longer spoken of.
    changed(client, uri, 10, SPEC.replace('use "stock.tilespec"\n', ""))
    await told(client, stock, set())
    changed(client, uri, 11, SPEC)
    await told(client, stock, {"T0207"})
    await told(client, uri, {"T0201"})

    actions = await client.text_document_code_action_async(
        lsp.CodeActionParams(lsp.TextDocumentIdentifier(uri), found[0].range, lsp.CodeActionContext(found))
    )
    action = next(a for a in actions or () if isinstance(a, lsp.CodeAction))
    assert action.edit is not None and action.edit.changes is not None
    text = applied(SPEC, list(action.edit.changes[uri]))
    assert text == SPEC.replace("feild", "field")
    changed(client, uri, 12, text)
    await told(client, uri, set())
    # The stock is mended in the editor, not yet on disk.
    opened(client, tmp_path / "stock.tilespec", STOCK.replace("porcelian", "porcelain"))
    await told(client, stock, set())

    typed = text + "wall B\n  base tile-\n"
    changed(client, uri, 13, typed)
    listed = await client.text_document_completion_async(
        lsp.CompletionParams(lsp.TextDocumentIdentifier(uri), place(typed, "tile-\n", 5))
    )
    assert isinstance(listed, lsp.CompletionList)
    best = next(i for i in listed.items if i.label.startswith("tile-"))
    assert isinstance(best.text_edit, lsp.TextEdit)
    assert applied(typed, [best.text_edit]).endswith("  base tile-backer board\n")
    # All that is said of it, first how it is written.
    assert isinstance(best.documentation, lsp.MarkupContent)
    assert best.documentation.value.startswith("```tilespec\nbase tile-backer board\n```")
    assert best.detail == "base: tile backer board"

    renamed = await client.text_document_rename_async(
        lsp.RenameParams(lsp.TextDocumentIdentifier(uri), place(typed, "field; joint 3"), "ground")
    )
    assert renamed is not None and renamed.changes is not None
    assert set(renamed.changes) == {uri, stock}
    assert len(renamed.changes[uri]) == 2
    with pytest.raises(Exception, match="starts with a letter"):
        await client.text_document_rename_async(
            lsp.RenameParams(lsp.TextDocumentIdentifier(uri), place(typed, "field; joint 3"), "two words")
        )

    there = await client.text_document_definition_async(
        lsp.DefinitionParams(lsp.TextDocumentIdentifier(uri), place(typed, "field; joint 3"))
    )
    assert isinstance(there, lsp.Location) and there.uri == stock

    client.text_document_did_close(lsp.DidCloseTextDocumentParams(lsp.TextDocumentIdentifier(stock)))
    await told(client, stock, {"T0207"})
    client.text_document_did_close(lsp.DidCloseTextDocumentParams(lsp.TextDocumentIdentifier(uri)))
    await told(client, uri, set())
    await told(client, stock, set())


@pytest.mark.asyncio
async def test_what_takes_longer_follows_in_a_pause(client: LanguageClient, tmp_path: Path) -> None:
    text = SPEC.replace("feild", "field").replace('use "stock.tilespec"', "tile field 300x300x9 porcelain; box of 11")
    uri = opened(client, tmp_path / "job.tilespec", text)
    whole = lsp.Range(lsp.Position(0, 0), lsp.Position(99, 0))
    for _ in range(400):
        hints = await client.text_document_inlay_hint_async(lsp.InlayHintParams(lsp.TextDocumentIdentifier(uri), whole))
        if hints:
            break
        await asyncio.sleep(0.05)
    assert hints and [h.label for h in hints] == [
        f"about {words}; the print counts piece by piece"
        for words in ("4.3 m2; field: 52 tiles, 5 boxes", "5.8 m2; field: 69 tiles, 7 boxes")
    ]
    assert [h.position.line for h in hints] == [3, 6]
    hover = await client.text_document_hover_async(lsp.HoverParams(lsp.TextDocumentIdentifier(uri), place(text, "floor 2.4")))
    assert hover is not None and isinstance(hover.contents, lsp.MarkupContent) and "52 tiles" in hover.contents.value


@pytest.mark.asyncio
async def test_every_question_is_answered_on_half_typed_text(client: LanguageClient, tmp_path: Path) -> None:
    whole = (ROOT / "examples" / "one-line.tilespec").read_text(encoding="utf-8") + 'wall B "🙂'
    uri = opened(client, tmp_path / "new.tilespec", "")
    document = lsp.TextDocumentIdentifier(uri)
    for version, end in enumerate(range(0, len(whole) + 1, 7), 2):
        text = whole[:end]
        changed(client, uri, version, text)
        line, column = text.count("\n"), len(text[text.rfind("\n") + 1 :].encode("utf-16-le")) // 2
        at = lsp.Position(line, column)
        here = lsp.Range(at, at)
        await client.text_document_completion_async(lsp.CompletionParams(document, at))
        await client.text_document_hover_async(lsp.HoverParams(document, at))
        await client.text_document_definition_async(lsp.DefinitionParams(document, at))
        await client.text_document_references_async(lsp.ReferenceParams(lsp.ReferenceContext(True), document, at))
        await client.text_document_document_symbol_async(lsp.DocumentSymbolParams(document))
        await client.text_document_folding_range_async(lsp.FoldingRangeParams(document))
        await client.text_document_document_link_async(lsp.DocumentLinkParams(document))
        await client.text_document_semantic_tokens_full_async(lsp.SemanticTokensParams(document))
        await client.text_document_code_action_async(lsp.CodeActionParams(document, here, lsp.CodeActionContext([])))
        await client.text_document_formatting_async(lsp.DocumentFormattingParams(document, lsp.FormattingOptions(2, True)))
        await client.text_document_document_highlight_async(lsp.DocumentHighlightParams(document, at))
    assert not [m.message for m in client.log_messages if "fault" in m.message]
