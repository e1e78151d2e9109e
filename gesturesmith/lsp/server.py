"""The server: it answers at once what can be read from the text, and checks beside that, the newest text only."""

from __future__ import annotations

import asyncio
from concurrent.futures import ThreadPoolExecutor
from difflib import SequenceMatcher

from lsprotocol import types
from pygls.lsp.server import LanguageServer
from pygls.workspace import TextDocument

from gesturesmith.checker import check_text
from gesturesmith.diagnostics import FileReport, Finding
from gesturesmith.editing.complete import complete
from gesturesmith.editing.hover import hover
from gesturesmith.editing.names import NamePlace, Refusal, occurrences, rename
from gesturesmith.editing.outline import folds, outline
from gesturesmith.editing.text import corrections
from gesturesmith.lang import format_text
from gesturesmith.lsp import told
from gesturesmith.lsp.documents import GestureWorkspace, Places, folder_of, line_end
from gesturesmith.source import Source
from gesturesmith.version import __version__

REST_S = 0.1  # without another change, before a text is checked


class GestureServer(LanguageServer):
    """The open texts and what was found in them. One thread checks, one text after another; a text that has changed
    meanwhile is not told about."""

    def __init__(self) -> None:
        super().__init__(
            told.NAME, __version__, text_document_sync_kind=types.TextDocumentSyncKind.Incremental, max_workers=2
        )
        self.checks = ThreadPoolExecutor(1, "check")
        self.waiting: dict[str, asyncio.Task[None]] = {}
        self.reports: dict[str, tuple[int | None, FileReport]] = {}

    def document(self, uri: str) -> TextDocument:
        return self.workspace.get_text_document(uri)

    def places(self, uri: str) -> Places:
        return Places(self.document(uri))

    def known(self, uri: str) -> FileReport | None:
        """The report on the text as it is now."""
        version, report = self.reports.get(uri, (None, None))
        return report if report is not None and version == self.document(uri).version else None

    def changed(self, uri: str) -> None:
        """Check a text when it rests; an earlier wish is forgotten."""
        self.forget(uri)
        self.waiting[uri] = asyncio.get_running_loop().create_task(self._check(uri))

    def forget(self, uri: str) -> None:
        if (task := self.waiting.pop(uri, None)) is not None:
            task.cancel()

    async def _check(self, uri: str) -> None:
        await asyncio.sleep(REST_S)
        try:
            report = await self.checked(uri)
        except Exception as error:  # a bug of ours: the next text may be checked again
            words = f"this is a bug in Gesturesmith, not in your file: {type(error).__name__}"
            self.window_log_message(types.LogMessageParams(types.MessageType.Error, words))
            return
        document = self.document(uri)
        if report is None or uri not in self.workspace.text_documents:
            return
        there = Places(document)
        self.text_document_publish_diagnostics(
            types.PublishDiagnosticsParams(uri, told.diagnostics(report, there, uri), document.version)
        )

    async def checked(self, uri: str) -> FileReport | None:
        """The report on a text; None if it changed meanwhile."""
        found = self.known(uri)
        if found is not None:
            return found
        document = self.document(uri)
        version, source, folder = document.version, Places(document).source, folder_of(document)
        loop = asyncio.get_running_loop()
        report = await loop.run_in_executor(
            self.checks, lambda: check_text(source, folder=folder, suggestions=False).report
        )
        if self.document(uri).version != version:
            return None
        self.reports[uri] = (version, report)
        return report

    async def suggested(self, uri: str, name: str) -> FileReport:
        """The report with the ways out of the findings of one block."""
        document = self.document(uri)
        source, folder = Places(document).source, folder_of(document)
        loop = asyncio.get_running_loop()
        return await loop.run_in_executor(self.checks, lambda: check_text(source, folder=folder, only=name).report)


def server() -> GestureServer:
    """A server, ready to be started."""
    made = GestureServer()

    @made.feature(types.INITIALIZE)
    def begun(params: types.InitializeParams) -> None:
        # pygls has no way to say of which kind the open texts are.
        there = made.protocol.workspace
        made.protocol._workspace = GestureWorkspace(
            there.root_uri, types.TextDocumentSyncKind.Incremental, (), there.position_encoding
        )

    @made.feature(types.TEXT_DOCUMENT_DID_OPEN)
    async def opened(params: types.DidOpenTextDocumentParams) -> None:
        made.changed(params.text_document.uri)

    @made.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    async def changed(params: types.DidChangeTextDocumentParams) -> None:
        made.changed(params.text_document.uri)

    @made.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    async def closed(params: types.DidCloseTextDocumentParams) -> None:
        uri = params.text_document.uri
        made.forget(uri)
        made.reports.pop(uri, None)
        made.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri, []))

    @made.feature(
        types.TEXT_DOCUMENT_COMPLETION,
        types.CompletionOptions(trigger_characters=[" ", "+", ",", "@"], resolve_provider=True),
    )
    def completion(params: types.CompletionParams) -> types.CompletionList:
        there = made.places(params.text_document.uri)
        line, column = there.cursor(params.position)
        return told.completion(complete(there.source, line, column), there, line, column)

    @made.feature(types.COMPLETION_ITEM_RESOLVE)
    def resolved(item: types.CompletionItem) -> types.CompletionItem:
        return told.documented(item)

    @made.feature(types.TEXT_DOCUMENT_HOVER)
    def hovered(params: types.HoverParams) -> types.Hover | None:
        uri = params.text_document.uri
        there = made.places(uri)
        line, column = there.cursor(params.position)
        found = hover(there.source, line, column)
        report = made.known(uri)
        rows = told.finding_help(report, line, column) if report is not None else ()
        if found is not None:
            rows = (f"**{found.title}**\n\n{found.text}".strip(), *rows)
        if not rows:
            return None
        text = types.MarkupContent(types.MarkupKind.Markdown, "\n\n---\n\n".join(rows))
        return types.Hover(text, there.span(found.span) if found is not None else None)

    @made.feature(
        types.TEXT_DOCUMENT_CODE_ACTION,
        types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix]),
    )
    async def actions(params: types.CodeActionParams) -> list[types.CodeAction]:
        return await _actions(made, params)

    @made.feature(types.TEXT_DOCUMENT_FORMATTING)
    async def formatted(params: types.DocumentFormattingParams) -> list[types.TextEdit]:
        document = made.document(params.text_document.uri)
        there = Places(document)
        loop = asyncio.get_running_loop()
        text = await loop.run_in_executor(None, format_text, there.source)
        return _rewritten(there, text, line_end(document))

    @made.feature(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def symbols(params: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
        there = made.places(params.text_document.uri)
        return [told.symbol(block, there) for block in outline(there.source)]

    @made.feature(types.TEXT_DOCUMENT_FOLDING_RANGE)
    def folding(params: types.FoldingRangeParams) -> list[types.FoldingRange]:
        there = made.places(params.text_document.uri)
        return [
            types.FoldingRange(
                fold.first_line - 1,
                fold.last_line - 1,
                kind=types.FoldingRangeKind.Comment if fold.comment else types.FoldingRangeKind.Region,
            )
            for fold in folds(there.source)
        ]

    def named(uri: str, position: types.Position) -> tuple[Places, tuple[NamePlace, ...]]:
        there = made.places(uri)
        return there, occurrences(there.source, *there.cursor(position))

    @made.feature(types.TEXT_DOCUMENT_DEFINITION)
    def definition(params: types.DefinitionParams) -> list[types.Location]:
        there, found = named(params.text_document.uri, params.position)
        return [types.Location(params.text_document.uri, there.span(one.span)) for one in found if one.defines]

    @made.feature(types.TEXT_DOCUMENT_REFERENCES)
    def references(params: types.ReferenceParams) -> list[types.Location]:
        there, found = named(params.text_document.uri, params.position)
        wanted = [one for one in found if params.context.include_declaration or not one.defines]
        return [types.Location(params.text_document.uri, there.span(one.span)) for one in wanted]

    @made.feature(types.TEXT_DOCUMENT_DOCUMENT_HIGHLIGHT)
    def highlighted(params: types.DocumentHighlightParams) -> list[types.DocumentHighlight]:
        there, found = named(params.text_document.uri, params.position)
        return [types.DocumentHighlight(there.span(one.span)) for one in found]

    @made.feature(types.TEXT_DOCUMENT_PREPARE_RENAME)
    def may_rename(params: types.PrepareRenameParams) -> types.Range | None:
        there, found = named(params.text_document.uri, params.position)
        line, column = there.cursor(params.position)
        at = (o for o in found if o.span.line == line and o.span.column <= column <= o.span.end_column)
        return next((there.span(one.span) for one in at), None)

    @made.feature(types.TEXT_DOCUMENT_RENAME, types.RenameOptions(prepare_provider=True))
    def renamed(params: types.RenameParams) -> types.WorkspaceEdit | None:
        uri = params.text_document.uri
        there = made.places(uri)
        found = rename(there.source, *there.cursor(params.position), params.new_name)
        if isinstance(found, Refusal):
            made.window_show_message(types.ShowMessageParams(types.MessageType.Warning, found.reason))
            return None
        return types.WorkspaceEdit(changes={uri: told.edits(found, there, "\n")})

    return made


async def _actions(made: GestureServer, params: types.CodeActionParams) -> list[types.CodeAction]:
    """The ways out of what was found where the cursor is."""
    uri = params.text_document.uri
    document = made.document(uri)
    there, eol, version = Places(document), line_end(document), document.version
    report = await made.checked(uri)
    if report is None:
        return []
    first, last = there.cursor(params.range.start), there.cursor(params.range.end)
    found: list[types.CodeAction] = []

    def offer(title: str, changes: list[types.TextEdit], shown: types.Diagnostic | None, best: bool) -> None:
        edit = types.WorkspaceEdit(changes={uri: changes})
        found.append(
            types.CodeAction(
                title,
                kind=types.CodeActionKind.QuickFix,
                diagnostics=[shown] if shown is not None else None,
                is_preferred=best or None,
                edit=edit,
            )
        )

    def shown(code: str, line: int) -> types.Diagnostic | None:
        row = params.context.diagnostics
        return next((d for d in row if d.code == code and d.range.start.line == line - 1), None)

    for error in report.errors:
        if first <= (error.span.line, error.span.end_column) and (error.span.line, error.span.column) <= last:
            for change in corrections(there.source, error):
                edits = told.edits((change,), there, eol)
                offer(f"write {change.text}", edits, shown(error.code, error.span.line), False)
    names = [
        said.name
        for said in told.everything(report)
        if any(_meets(finding, first, last) for finding in said.findings)
    ]
    for name in dict.fromkeys(names):
        tried = await made.suggested(uri, name)
        if made.document(uri).version != version:
            return []
        for said in told.everything(tried):
            for finding in said.findings if said.name == name else ():
                if not _meets(finding, first, last):
                    continue
                for number, suggestion in enumerate(finding.suggestions):
                    way = told.way_out(suggestion, there)
                    if way is not None:
                        edits = told.edits(way[1], there, eol)
                        offer(way[0], edits, shown(finding.code, finding.span.line), not number)
    return list({action.title: action for action in reversed(found)}.values())[::-1]


def _meets(finding: Finding, first: tuple[int, int], last: tuple[int, int]) -> bool:
    """Whether a finding is in a range of the text."""
    span = finding.span
    return first <= (span.line, span.end_column) and (span.line, span.column) <= last


def _rewritten(there: Places, text: str, eol: str) -> list[types.TextEdit]:
    """The lines that differ in a formatted text, so that a cursor in others stays where it is."""
    old, new = there.lines, Source("", text).lines
    found = []
    for what, i, j, k, m in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if what == "equal":
            continue
        row = "".join(f"{line}{eol}" for line in new[k:m])
        start, end = types.Position(i, 0), types.Position(j, 0)
        if j == len(old):  # nothing ends the last line
            end = there.position(j, len(old[-1]) + 1)
            row = row.removesuffix(eol)
            if i == j:
                start, row = end, f"{eol}{row}"
            elif k == m and i:
                start = there.position(i, len(old[i - 1]) + 1)
        found.append(types.TextEdit(types.Range(start, end), row))
    return found
