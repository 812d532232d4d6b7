"""The protocol of language servers, over standard input and output: translates what an editor asks, and nothing else.

Positions are UTF-16 code units, whatever else the editor could do: every editor can do that.
"""

from __future__ import annotations

import asyncio
import functools
import gc
import re
from collections.abc import Callable, Generator, Iterable
from typing import TypeVar

from lsprotocol import types as lsp
from pygls import uris
from pygls.exceptions import JsonRpcException
from pygls.lsp.server import LanguageServer
from pygls.protocol import LanguageServerProtocol, lsp_method

from tilespec import __version__
from tilespec.diagnostics.model import Diagnostic, Edit, Severity
from tilespec.editor import completion, figures, fixes, hover, names, structure, tidying
from tilespec.editor.desk import Behind, Desk, Page
from tilespec.editor.position import Range, plain
from tilespec.editor.spot import Spot, spot
from tilespec.source import Span
from tilespec.workspace.host import Folders

# Seconds without a keystroke before what takes longer is worked out.
PAUSE = 0.4

_SEVERITY = {
    Severity.ERROR: lsp.DiagnosticSeverity.Error,
    Severity.WARNING: lsp.DiagnosticSeverity.Warning,
    Severity.NOTE: lsp.DiagnosticSeverity.Information,
}
# Kinds that editors show in plain words.
_CHOICES = {
    completion.WORD: lsp.CompletionItemKind.Keyword,
    completion.NAME: lsp.CompletionItemKind.Reference,
    completion.VALUE: lsp.CompletionItemKind.Value,
    completion.UNIT: lsp.CompletionItemKind.Unit,
    completion.EXAMPLE: lsp.CompletionItemKind.Text,
}
_SYMBOLS = {
    "job": lsp.SymbolKind.File, "room": lsp.SymbolKind.Namespace, "tile": lsp.SymbolKind.Class, "product": lsp.SymbolKind.Object,
    "use": lsp.SymbolKind.Module, "step": lsp.SymbolKind.Event, "record": lsp.SymbolKind.Event,
    "delivery": lsp.SymbolKind.Event, "deviation": lsp.SymbolKind.Event, "limit": lsp.SymbolKind.Constant,
}
P = TypeVar("P")
T = TypeVar("T")


class _Protocol(LanguageServerProtocol):
    @lsp_method(lsp.INITIALIZE)
    def lsp_initialize(self, params: lsp.InitializeParams) -> Generator[object, object, lsp.InitializeResult]:
        if params.capabilities.general is not None:
            params.capabilities.general.position_encodings = None
        return (yield from super().lsp_initialize(params))


class Server(LanguageServer):
    """One editor. `pause`: see PAUSE; 0 waits for no keystroke."""

    def __init__(
        self, disk: Folders, library: str | None = None, pause: float = PAUSE, today: Callable[[], str] = str
    ) -> None:
        super().__init__(
            "tilespec", __version__, text_document_sync_kind=lsp.TextDocumentSyncKind.Full, protocol_cls=_Protocol
        )
        self.desk = Desk(disk, library, today)
        self.rest = pause
        self.open: dict[str, str] = {}  # path to the name that the editor calls it by
        self.shown: dict[str, tuple[Diagnostic, ...]] = {}  # what the editor has, by path
        self._timers: dict[str, asyncio.TimerHandle] = {}
        self._edits = 0

    # ------------------------------------------------------------ names of files

    def path(self, uri: str) -> str:
        return (uris.to_fs_path(uri) or uri) if uri.startswith("file:") else uri

    def uri(self, path: str) -> str:
        return self.open.get(path) or uris.from_fs_path(path) or path

    # ------------------------------------------------------------ writing

    def write(self, uri: str, text: str) -> None:
        path = self.path(uri)
        self.open[path] = uri
        self._edits += 1
        self.tell(self.desk.write(path, plain(text)))

    def tell(self, looked: Iterable[str]) -> None:
        """Show what there is to say now, and work out the rest in the next pause."""
        looked = list(looked)
        self.publish(looked)
        loop = asyncio.get_running_loop()
        for path in looked:
            if (timer := self._timers.pop(path, None)) is not None:
                timer.cancel()
            self._timers[path] = loop.call_later(self.rest, self._work, path)

    def publish(self, looked: list[str] | None = None) -> None:
        found = self.desk.found(looked)
        known = self.desk.files()
        for gone in [path for path in self.shown if path not in known]:
            self._publish(gone, ())
            del self.shown[gone]
        for path, diagnostics in found.items():
            # An open text has a new version with each keystroke; of the others only what has changed is told.
            if path in self.open or self.shown.get(path) != diagnostics:
                self._publish(path, diagnostics)
            self.shown[path] = diagnostics

    def _publish(self, path: str, diagnostics: tuple[Diagnostic, ...]) -> None:
        uri = self.uri(path)
        version = self.workspace.text_documents[uri].version if uri in self.workspace.text_documents else None
        listed = [self.diagnostic(d) for d in diagnostics]
        self.text_document_publish_diagnostics(lsp.PublishDiagnosticsParams(uri, listed, version))

    # ------------------------------------------------------------ pauses

    def _work(self, path: str) -> None:
        self._timers.pop(path, None)
        # What lives on is not walked again and again.
        gc.collect()
        gc.freeze()
        work = self.desk.work(path)
        if work is None:
            return
        edits = self._edits
        loop = asyncio.get_running_loop()
        done = loop.run_in_executor(None, work.run, lambda: self._edits != edits)
        done.add_done_callback(functools.partial(self._worked, path, edits))

    def _worked(self, path: str, edits: int, done: asyncio.Future[Behind | None]) -> None:
        if done.cancelled() or self._edits != edits:
            return
        if (fault := done.exception()) is not None:
            self.complain("working out the take-off", fault)
            return
        behind = done.result()
        if behind is not None:
            self.desk.settle(path, behind)
            self.publish([path])
            ability = self.client_capabilities.workspace
            if ability is not None and ability.inlay_hint is not None and ability.inlay_hint.refresh_support:
                self.workspace_inlay_hint_refresh(None, lambda _: None)

    # ------------------------------------------------------------ translating

    def complain(self, doing: str, fault: BaseException) -> None:
        """A fault in tilespec: the editor goes on, and its log has it."""
        text = f"tilespec: a fault in tilespec, while {doing}: {type(fault).__name__}: {fault}"
        self.window_log_message(lsp.LogMessageParams(lsp.MessageType.Error, text))

    def answers(self, method: str, options: object | None = None) -> Callable[[Callable[[P], T]], Callable[[P], T | None]]:
        """Registers an answer. One that fails is no answer; the server lives on."""

        def register(function: Callable[[P], T]) -> Callable[[P], T | None]:
            def safe(params: P) -> T | None:
                try:
                    return function(params)
                except names.Refused as refused:
                    raise JsonRpcException(str(refused), lsp.LSPErrorCodes.RequestFailed) from None
                except Exception as fault:  # noqa: BLE001 - whatever is wrong here, the editor must go on
                    self.complain(f"answering {method}", fault)
                    return None

            self.feature(method, options)(safe)
            return safe

        return register

    def range(self, span: Span) -> lsp.Range:
        return _range(self.desk.lines(span.file).of(span))

    def location(self, span: Span) -> lsp.Location:
        return lsp.Location(self.uri(span.file), self.range(span))

    def edit(self, file: str, span: Span, text: str) -> lsp.TextEdit:
        document = self.workspace.text_documents.get(self.uri(file))
        if document is not None and "\r\n" in document.source:
            text = text.replace("\n", "\r\n")
        return lsp.TextEdit(self.range(span), text)

    def edits(self, edits: Iterable[Edit]) -> lsp.WorkspaceEdit:
        changes: dict[str, list[lsp.TextEdit]] = {}
        for e in edits:
            changes.setdefault(self.uri(e.span.file), []).append(self.edit(e.span.file, e.span, e.text))
        return lsp.WorkspaceEdit(changes=changes)

    def diagnostic(self, d: Diagnostic) -> lsp.Diagnostic:
        related = [lsp.DiagnosticRelatedInformation(self.location(x.span), x.text or "see here") for x in d.secondary]
        message = "\n".join((d.message, *((d.help,) if d.help else ()), *d.notes))
        return lsp.Diagnostic(
            self.range(d.primary.span), message, _SEVERITY[d.severity], d.code, source="tilespec",
            related_information=related or None,
        )

    def at(self, uri: str, position: lsp.Position) -> Spot | None:
        path = self.path(uri)
        return spot(self.desk, path, self.desk.lines(path).offset((position.line, position.character)))

    def page(self, uri: str) -> tuple[Page | None, str]:
        path = self.path(uri)
        return self.desk.page_of(path), path


def _range(found: Range) -> lsp.Range:
    (a, b), (c, d) = found
    return lsp.Range(lsp.Position(a, b), lsp.Position(c, d))


def make(disk: Folders, library: str | None = None, pause: float = PAUSE, today: Callable[[], str] = str) -> Server:
    """A server that answers what an editor asks. `today`: the date, as it is written."""
    server = Server(disk, library, pause, today)

    _writing(server)
    _asking(server)
    _changing(server)
    return server


def serve(disk: Folders, library: str | None, today: Callable[[], str]) -> None:
    """Speak with an editor over standard input and output until it says good-bye."""
    server = make(disk, library, today=today)
    # Cycles are collected in pauses, not between a keystroke and its messages.
    gc.disable()
    server.start_io()


def _writing(server: Server) -> None:
    desk = server.desk

    @server.answers(lsp.INITIALIZED)
    def _initialized(_: lsp.InitializedParams) -> None:
        ability = server.client_capabilities.workspace
        watching = ability.did_change_watched_files if ability is not None else None
        if watching is not None and watching.dynamic_registration:
            options = lsp.DidChangeWatchedFilesRegistrationOptions([lsp.FileSystemWatcher("**/*.tilespec")])
            wanted = lsp.Registration("files", lsp.WORKSPACE_DID_CHANGE_WATCHED_FILES, options)
            server.client_register_capability(lsp.RegistrationParams([wanted]), lambda _: None)

    @server.answers(lsp.TEXT_DOCUMENT_DID_OPEN)
    def _open(params: lsp.DidOpenTextDocumentParams) -> None:
        server.write(params.text_document.uri, params.text_document.text)

    @server.answers(lsp.TEXT_DOCUMENT_DID_CHANGE)
    def _change(params: lsp.DidChangeTextDocumentParams) -> None:
        server.write(params.text_document.uri, server.workspace.get_text_document(params.text_document.uri).source)

    @server.answers(lsp.TEXT_DOCUMENT_DID_SAVE)
    def _save(_: lsp.DidSaveTextDocumentParams) -> None:
        server.tell(desk.refresh())

    @server.answers(lsp.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    def _watched(_: lsp.DidChangeWatchedFilesParams) -> None:
        server.tell(desk.refresh())

    @server.answers(lsp.TEXT_DOCUMENT_DID_CLOSE)
    def _close(params: lsp.DidCloseTextDocumentParams) -> None:
        path = server.path(params.text_document.uri)
        looked = desk.close(path)
        server.publish()
        server.tell(looked)
        server.open.pop(path, None)


_MARKS = re.compile(r"([\\*_<>\[\]`])")


def _documentation(server: Server) -> Callable[[completion.Choice], lsp.MarkupContent | None]:
    """All that is said of a choice, first how it is written: in Markdown for an editor that can show it."""
    ability = server.client_capabilities.text_document
    item = ability.completion.completion_item if ability is not None and ability.completion is not None else None
    rich = item is not None and lsp.MarkupKind.Markdown in (item.documentation_format or ())

    def documentation(choice: completion.Choice) -> lsp.MarkupContent | None:
        if not choice.written and not choice.about:
            return None
        if not rich:
            return lsp.MarkupContent(lsp.MarkupKind.PlainText, "\n\n".join(filter(None, (choice.written, choice.about))))
        written = f"```tilespec\n{choice.written}\n```" if choice.written else ""
        return lsp.MarkupContent(
            lsp.MarkupKind.Markdown, "\n\n".join(filter(None, (written, _MARKS.sub(r"\\\1", choice.about))))
        )

    return documentation


def _asking(server: Server) -> None:
    desk = server.desk

    @server.answers(lsp.TEXT_DOCUMENT_HOVER)
    def _hover(params: lsp.HoverParams) -> lsp.Hover | None:
        at = server.at(params.text_document.uri, params.position)
        told = hover.hover(desk, at) if at is not None else None
        if told is None:
            return None
        return lsp.Hover(lsp.MarkupContent(lsp.MarkupKind.PlainText, told.text), server.range(told.span))

    @server.answers(lsp.TEXT_DOCUMENT_COMPLETION, lsp.CompletionOptions(trigger_characters=[" ", '"']))
    def _complete(params: lsp.CompletionParams) -> lsp.CompletionList:
        path = server.path(params.text_document.uri)
        lines = desk.lines(path)
        offset = lines.offset((params.position.line, params.position.character))
        documentation = _documentation(server)
        items = []
        for n, choice in enumerate(completion.complete(desk, path, offset)):
            where = _range(lines.range(choice.start, offset))
            items.append(
                lsp.CompletionItem(
                    choice.text, kind=_CHOICES[choice.what], detail=choice.detail or None, sort_text=f"{n:04}",
                    text_edit=lsp.TextEdit(where, choice.text), documentation=documentation(choice),
                )
            )
        return lsp.CompletionList(False, items)

    @server.answers(lsp.TEXT_DOCUMENT_DEFINITION)
    def _define(params: lsp.DefinitionParams) -> lsp.Location | None:
        at = server.at(params.text_document.uri, params.position)
        found = names.definition(desk, at) if at is not None else None
        return server.location(found) if found is not None else None

    @server.answers(lsp.TEXT_DOCUMENT_REFERENCES)
    def _references(params: lsp.ReferenceParams) -> list[lsp.Location]:
        at = server.at(params.text_document.uri, params.position)
        found = names.references(desk, at, params.context.include_declaration) if at is not None else []
        return [server.location(span) for span in found]

    @server.answers(lsp.TEXT_DOCUMENT_DOCUMENT_HIGHLIGHT)
    def _highlight(params: lsp.DocumentHighlightParams) -> list[lsp.DocumentHighlight]:
        at = server.at(params.text_document.uri, params.position)
        found = names.references(desk, at) if at is not None else []
        return [lsp.DocumentHighlight(server.range(s)) for s in found if at is not None and s.file == at.file]

    @server.answers(lsp.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def _outline(params: lsp.DocumentSymbolParams) -> list[lsp.DocumentSymbol]:
        page, path = server.page(params.text_document.uri)

        def symbol(s: structure.Symbol) -> lsp.DocumentSymbol:
            kind = _SYMBOLS.get(s.kind, lsp.SymbolKind.Field)
            return lsp.DocumentSymbol(
                s.name, kind, server.range(s.whole), server.range(s.words), children=[symbol(c) for c in s.children] or None
            )

        return [symbol(s) for s in structure.outline(page, path)] if page is not None else []

    @server.answers(lsp.TEXT_DOCUMENT_FOLDING_RANGE)
    def _folds(params: lsp.FoldingRangeParams) -> list[lsp.FoldingRange]:
        page, path = server.page(params.text_document.uri)
        found = structure.folds(page, path) if page is not None else []
        return [lsp.FoldingRange(first, last, kind=lsp.FoldingRangeKind(kind)) for first, last, kind in found]

    @server.answers(lsp.TEXT_DOCUMENT_DOCUMENT_LINK, lsp.DocumentLinkOptions())
    def _links(params: lsp.DocumentLinkParams) -> list[lsp.DocumentLink]:
        page, path = server.page(params.text_document.uri)
        found = structure.links(desk, page, path) if page is not None else []
        return [lsp.DocumentLink(server.range(span), target=server.uri(to)) for span, to in found]

    @server.answers(lsp.TEXT_DOCUMENT_INLAY_HINT)
    def _hints(params: lsp.InlayHintParams) -> list[lsp.InlayHint]:
        page, path = server.page(params.text_document.uri)
        lines = desk.lines(path)
        found = []
        for hint in figures.hints(page) if page is not None else []:
            line, _ = lines.position(hint.span.start)
            if hint.span.file == path and params.range.start.line <= line <= params.range.end.line:
                line, character = lines.position(lines.starts[line] + len(lines.line(line)))
                found.append(lsp.InlayHint(lsp.Position(line, character), hint.text, padding_left=True))
        return found

    @server.answers(
        lsp.TEXT_DOCUMENT_SEMANTIC_TOKENS_FULL,
        lsp.SemanticTokensLegend(token_types=list(structure.KINDS), token_modifiers=[]),
    )
    def _tokens(params: lsp.SemanticTokensParams) -> lsp.SemanticTokens:
        page, path = server.page(params.text_document.uri)
        lines = desk.lines(path)
        data: list[int] = []
        last, behind = 0, 0
        for start, end, kind in structure.tokens(page, path) if page is not None else []:
            (line, at), (_, stop) = lines.range(start, end)
            data += [line - last, at - behind if line == last else at, stop - at, structure.KINDS.index(kind), 0]
            last, behind = line, at
        return lsp.SemanticTokens(data)


def _changing(server: Server) -> None:
    desk = server.desk

    @server.answers(lsp.TEXT_DOCUMENT_CODE_ACTION, lsp.CodeActionOptions(code_action_kinds=[lsp.CodeActionKind.QuickFix]))
    def _fixes(params: lsp.CodeActionParams) -> list[lsp.CodeAction]:
        if params.context.only and not any(str(lsp.CodeActionKind.QuickFix.value).startswith(k) for k in params.context.only):
            return []
        path = server.path(params.text_document.uri)
        lines = desk.lines(path)
        start = lines.offset((params.range.start.line, params.range.start.character))
        end = lines.offset((params.range.end.line, params.range.end.character))
        return [
            lsp.CodeAction(
                a.title, lsp.CodeActionKind.QuickFix, [server.diagnostic(a.diagnostic)], a.preferred, edit=server.edits(a.edits)
            )
            for a in fixes.actions(desk, path, start, end)
        ]

    @server.answers(lsp.TEXT_DOCUMENT_PREPARE_RENAME)
    def _renamable(params: lsp.PrepareRenameParams) -> lsp.PrepareRenamePlaceholder | None:
        at = server.at(params.text_document.uri, params.position)
        if at is None:
            return None
        try:
            m = names.renamable(at)
        except names.Refused:
            return None
        text = desk.text(m.span.file)[m.span.start : m.span.end]
        return lsp.PrepareRenamePlaceholder(server.range(m.span), text)

    @server.answers(lsp.TEXT_DOCUMENT_RENAME, lsp.RenameOptions(prepare_provider=True))
    def _rename(params: lsp.RenameParams) -> lsp.WorkspaceEdit | None:
        at = server.at(params.text_document.uri, params.position)
        if at is None:
            return None
        return server.edits(Edit(span, text) for span, text in names.rename(desk, at, params.new_name))

    @server.answers(lsp.TEXT_DOCUMENT_FORMATTING)
    def _format(params: lsp.DocumentFormattingParams) -> list[lsp.TextEdit]:
        path = server.path(params.text_document.uri)
        found = tidying.edits(desk.text(path))
        return [server.edit(path, Span(path, start, end), text) for start, end, text in found]


__all__ = ["PAUSE", "Server", "make", "serve"]
