"""The language server, asked by an independent client (pytest-lsp) over standard input and output."""

from __future__ import annotations

import asyncio
import sys
from typing import Any

import pytest
import pytest_lsp
import timing
from lsprotocol import types as t
from pytest_lsp import ClientServerConfig, LanguageClient, client_capabilities
from pytest_lsp.client import DEFAULT_CLIENT_FEATURES, default_converter, register_lsp_features

from gesturesmith.checker import Checked, check_text
from gesturesmith.cli.main import main
from gesturesmith.lang import format_text
from gesturesmith.lsp import server as module
from gesturesmith.lsp.documents import GestureDocument, GestureWorkspace, Places
from gesturesmith.lsp.server import GestureServer
from gesturesmith.source import Source

COMMAND = [sys.executable, "-m", "gesturesmith.cli.main", "language-server", "--stdio"]
# A trumpet and an interlinear sign outside the 16-bit plane, in front of what is asked about: units differ there.
TEXT = (
    "instrument: horn\npitches: written\n\n"
    'gesture deep "🎺🎺 Deep"\n  technique: harmonic-gliss\n  contour: C4 ~~ E4\n  lasts: 4 beats\n\n'
    'passage all\n  play: C4 for 1 "🎺", deep, rest 2, deep\n'
)


TOLD: dict[str, t.PublishDiagnosticsParams] = {}  # the last diagnostics of each text


def _remember(client: LanguageClient, params: t.PublishDiagnosticsParams) -> None:
    TOLD[params.uri] = params


def _client() -> LanguageClient:
    client = LanguageClient(converter_factory=default_converter)
    register_lsp_features(client, DEFAULT_CLIENT_FEATURES | {t.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS: _remember})
    return client


@pytest_lsp.fixture(
    scope="module", loop_scope="module", config=ClientServerConfig(server_command=COMMAND, client_factory=_client)
)
async def client(lsp_client: LanguageClient):
    able = client_capabilities("neovim")
    able.general = t.GeneralClientCapabilities(position_encodings=[t.PositionEncodingKind.Utf16])
    await lsp_client.initialize_session(t.InitializeParams(capabilities=able, root_uri="file:///nowhere"))
    yield
    await lsp_client.shutdown_session()


class Editor:
    """A text open in the client, with positions as the protocol has them: UTF-16 units from 0."""

    def __init__(self, client: LanguageClient, text: str, name: str = "a") -> None:
        self.client, self.uri, self.version = client, f"file:///nowhere/{name}.gesture", 1
        self.id = t.TextDocumentIdentifier(self.uri)
        self.text = text
        item = t.TextDocumentItem(self.uri, "gesture", 1, text)
        client.text_document_did_open(t.DidOpenTextDocumentParams(item))

    def at(self, part: str, beyond: int = 0) -> t.Position:
        before = self.text[: self.text.index(part) + beyond]
        return t.Position(before.count("\n"), len(before.split("\n")[-1].encode("utf-16-le")) // 2)

    def change(self, old: str, new: str) -> None:
        where = t.Range(self.at(old), self.at(old, len(old)))
        self.text = self.text.replace(old, new, 1)
        self.version += 1
        self.client.text_document_did_change(
            t.DidChangeTextDocumentParams(
                t.VersionedTextDocumentIdentifier(uri=self.uri, version=self.version),
                [t.TextDocumentContentChangePartial(where, new)],
            )
        )

    async def found(self) -> list[t.Diagnostic]:
        """What is told of the text as it is now."""
        patience = timing.Patience()
        while (told := TOLD.get(self.uri)) is None or told.version != self.version:
            assert patience.left(), "nothing is told"
            await asyncio.sleep(0.02)
        return list(told.diagnostics)

    def applied(self, edits: list[t.TextEdit]) -> str:
        """The text with edits made, as the protocol defines them: in UTF-16 units."""
        rows = self.text.split("\n")
        for edit in sorted(edits, key=lambda e: (e.range.start.line, e.range.start.character), reverse=True):
            start, end = edit.range.start, edit.range.end
            first = rows[start.line].encode("utf-16-le")[: 2 * start.character].decode("utf-16-le")
            last = rows[end.line].encode("utf-16-le")[2 * end.character :].decode("utf-16-le")
            rows[start.line : end.line + 1] = (first + edit.new_text + last).split("\n")
        return "\n".join(rows)

    async def actions(self, at: t.Range, found: list[t.Diagnostic]) -> list[t.CodeAction]:
        made = await self.client.text_document_code_action_async(
            t.CodeActionParams(self.id, at, t.CodeActionContext(found))
        )
        return list(made or [])


@pytest.mark.asyncio(loop_scope="module")
async def test_a_session(client: LanguageClient):
    """All that an editor asks, in one session: a start of the server costs more than the questions."""
    open_ = Editor(client, TEXT)
    found = await open_.found()
    assert {(d.code, d.range.start.line) for d in found} == {("GS203", 5), ("GS701", 9)} or found
    ladder = next(d for d in found if d.code == "GS203")
    assert ladder.severity == t.DiagnosticSeverity.Error
    assert open_.text.split("\n")[5][ladder.range.start.character : ladder.range.end.character] in "C4 ~~ E4"

    # The passage that plays it names it, with its place.
    passage = next(d for d in found if d.range.start.line == 9)
    assert [r.location.range.start for r in passage.related_information or ()] == [open_.at("deep")]

    # Ways out are put in, and the text is then playable.
    ways = await open_.actions(ladder.range, [ladder])
    assert ways
    assert any("chromatic" in way.title for way in ways)
    assert sum(bool(way.is_preferred) for way in ways) >= 1
    (edits,) = ways[0].edit.changes.values()
    assert open_.applied(list(edits)) != TEXT

    # Completion replaces what is typed, by whatever name.
    open_.change("technique: harmonic-gliss", "technique: Flatterz")
    said = await client.text_document_completion_async(
        t.CompletionParams(open_.id, open_.at("Flatterz", len("Flatterz")))
    )
    assert isinstance(said, t.CompletionList)
    (item,) = said.items
    assert (item.label, item.filter_text) == ("flutter-tongue", "Flatterz")
    assert "technique: flutter-tongue\n" in open_.applied([item.text_edit])
    full = await client.completion_item_resolve_async(item)
    assert "Roll the tongue" in full.documentation.value

    # Help, with what was found there.
    help_ = await client.text_document_hover_async(t.HoverParams(open_.id, open_.at("rest 2")))
    assert "silence" in help_.contents.value
    rest = await open_.found()
    assert [d.data["rule"] for d in rest if d.range.start.line == 4] == ["unknown-technique"]
    fixes = await open_.actions(t.Range(open_.at("Flatterz"), open_.at("Flatterz")), rest)
    assert [f.title for f in fixes] == ["write flutter-tongue"]
    help_ = await client.text_document_hover_async(t.HoverParams(open_.id, open_.at("Flatterz")))
    assert "**Cannot be read** (unknown-technique" in help_.contents.value

    # Names: behind the trumpets too, columns count UTF-16 units.
    open_.change('"🎺🎺 Deep"\n  technique: Flatterz', '"🎺🎺 Deep"  # 🎺\n  technique: bend')
    where = open_.at("deep, rest")
    renamed = await client.text_document_rename_async(t.RenameParams(open_.id, where, "cave"))
    after = open_.applied(list(renamed.changes[open_.uri]))
    assert after.count("cave") == 3
    assert "deep" not in after
    home = await client.text_document_definition_async(t.DefinitionParams(open_.id, where))
    assert home[0].range.start == open_.at("deep")
    uses = await client.text_document_references_async(
        t.ReferenceParams(t.ReferenceContext(include_declaration=False), open_.id, where)
    )
    assert len(uses) == 2
    place = await client.text_document_prepare_rename_async(t.PrepareRenameParams(open_.id, where))
    assert place == t.Range(where, open_.at("deep, rest", 4))
    nothing = await client.text_document_prepare_rename_async(t.PrepareRenameParams(open_.id, open_.at("rest")))
    assert nothing is None
    refused = await client.text_document_rename_async(t.RenameParams(open_.id, where, "all"))
    assert refused is None
    assert "is taken" in client.messages[-1].message

    # The outline and what folds.
    blocks = await client.text_document_document_symbol_async(t.DocumentSymbolParams(open_.id))
    assert [(b.name, b.detail) for b in blocks] == [("deep", "🎺🎺 Deep"), ("all", "passage")]
    assert [
        (f.start_line, f.end_line)
        for f in await client.text_document_folding_range_async(t.FoldingRangeParams(open_.id))
    ] == [(3, 6), (8, 9)]

    # Formatting changes the lines that it must.
    open_.change("  lasts: 4 beats", "  lasts:4   beats")
    options = t.FormattingOptions(2, True)
    edits = await client.text_document_formatting_async(t.DocumentFormattingParams(open_.id, options))
    assert [(e.range.start.line, e.range.end.line) for e in edits] == [(6, 7)]
    assert open_.applied(list(edits)) == format_text(Source("", open_.text))


@pytest.mark.asyncio(loop_scope="module")
async def test_the_newest_text_wins(client: LanguageClient):
    """Of ten changes in a row only the last is told about."""
    open_ = Editor(client, TEXT, "fast")
    for n in range(10):
        open_.change(f"lasts: {4 + n} beats", f"lasts: {5 + n} beats")
    assert open_.uri not in TOLD
    assert await open_.found()
    assert TOLD[open_.uri].version == 11
    client.text_document_did_close(t.DidCloseTextDocumentParams(open_.id))
    await client.text_document_document_symbol_async(t.DocumentSymbolParams(open_.id))
    assert not TOLD[open_.uri].diagnostics


HOSTILE = (
    '\ufeffinstrument: horn\r\ngesture a\r  contour: c4 \u2028 \x0b🎺 --\x00\n\x85  text: "a\x1c',
    "gesture 🎺\n  contour: C5 as 🎺 -- \ud83d",
    "",
    "\n\n\n",
    "passage p\n  play: " + ", ".join(["p", "C4 for 1"] * 50),
    'instrument: "../../etc/passwd"\n',
    "gesture " * 200,
)


@pytest.mark.asyncio(loop_scope="module")
async def test_nothing_that_can_be_typed_makes_an_answer_fail(client: LanguageClient):
    for n, text in enumerate(HOSTILE):
        open_ = Editor(client, text, f"hostile-{n}")
        found = await open_.found()
        rows = text.count("\n") + text.count("\r")
        for line in range(min(rows, 4) + 2):
            for character in (0, 3, 17, 999):
                at = t.Position(line, character)
                await client.text_document_completion_async(t.CompletionParams(open_.id, at))
                await client.text_document_hover_async(t.HoverParams(open_.id, at))
                await client.text_document_rename_async(t.RenameParams(open_.id, at, "other"))
        await client.text_document_document_symbol_async(t.DocumentSymbolParams(open_.id))
        await client.text_document_folding_range_async(t.FoldingRangeParams(open_.id))
        options = t.FormattingOptions(2, True)
        await client.text_document_formatting_async(t.DocumentFormattingParams(open_.id, options))
        if found:
            await open_.actions(found[0].range, found)
        for d in found:
            assert d.range.start <= d.range.end or d.range.start == d.range.end


@pytest.mark.asyncio(loop_scope="module")
async def test_a_large_file_keeps_no_answer_waiting(client: LanguageClient):
    """While it is checked, which takes seconds, completion is answered."""
    block = "gesture g{}\n  technique: bend\n  contour: C5\n  lasts: 2 beats\n\n"
    open_ = Editor(client, TEXT + "".join(block.format(n) for n in range(1500)), "large")
    await asyncio.sleep(0.3)  # until it is being checked
    at = open_.at("technique: ", len("technique: "))
    said = await client.text_document_completion_async(t.CompletionParams(open_.id, at))
    assert len(said.items) > 50
    assert open_.uri not in TOLD, "it was checked before the question was asked"
    open_.change("lasts: 4 beats", "lasts: 5 beats")
    assert await open_.found()


def test_without_its_extra_the_command_says_what_to_install(monkeypatch, capsys):
    monkeypatch.setitem(sys.modules, "pygls", None)
    monkeypatch.setitem(sys.modules, "pygls.lsp.server", None)
    for name in [n for n in sys.modules if n.startswith("gesturesmith.lsp")]:
        monkeypatch.delitem(sys.modules, name)
    assert main(["language-server"]) == 3
    assert 'pip install "gesturesmith[editors]"' in capsys.readouterr().err


URI = "file:///nowhere/a.gesture"


@pytest.fixture
def alone(monkeypatch) -> tuple[GestureServer, list[str]]:
    """A server without a client, and what it tells."""
    made = module.server()
    made.protocol._workspace = GestureWorkspace(None)
    told: list[str] = []
    monkeypatch.setattr(made, "window_log_message", lambda params: told.append(params.message))
    monkeypatch.setattr(
        made, "text_document_publish_diagnostics", lambda params: told.append(f"version {params.version}")
    )
    monkeypatch.setattr(module, "REST_S", 0.01)
    made.workspace.put_text_document(t.TextDocumentItem(URI, "gesture", 1, TEXT))
    return made, told


def _typed(made: GestureServer, version: int) -> None:
    """Another version of the text."""
    made.workspace.put_text_document(t.TextDocumentItem(URI, "gesture", version, f"{TEXT}# {version}\n"))
    made.changed(URI)


@pytest.mark.asyncio
async def test_a_bug_of_ours_ends_one_check_and_is_told(alone, monkeypatch):
    """The next text is checked again."""
    made, told = alone

    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError

    with monkeypatch.context() as patch:
        patch.setattr(module, "check_text", broken)
        made.changed(URI)
        await made.waiting[URI]
    assert told == ["this is a bug in Gesturesmith, not in your file: ZeroDivisionError"]
    made.changed(URI)
    await made.waiting[URI]
    assert told[1:] == ["version 1"]


@pytest.mark.asyncio
async def test_of_many_changes_the_last_alone_is_checked(alone, monkeypatch):
    made, told = alone
    seen: list[str] = []

    def counted(source: Source, **more: Any) -> Checked:
        seen.append(source.text)
        return check_text(source, **more)

    monkeypatch.setattr(module, "check_text", counted)
    for version in range(2, 12):
        _typed(made, version)
    await made.waiting[URI]
    assert [text.rpartition("# ")[2] for text in seen] == ["11\n"]
    assert told == ["version 11"]


@pytest.mark.asyncio
async def test_what_was_found_in_an_older_text_is_not_told(alone, monkeypatch):
    """The text changes while it is checked."""
    made, told = alone
    loop = asyncio.get_running_loop()

    def overtaken(source: Source, **more: Any) -> Checked:
        if source.text.endswith("# 2\n"):
            loop.call_soon_threadsafe(_typed, made, 3)
            assert timing.eventually(lambda: made.document(URI).version == 3)
        return check_text(source, **more)

    monkeypatch.setattr(module, "check_text", overtaken)
    _typed(made, 2)
    with pytest.raises(asyncio.CancelledError):
        await made.waiting[URI]
    await made.waiting[URI]
    assert told == ["version 3"]


@pytest.mark.asyncio
async def test_no_way_out_is_offered_for_an_older_text(alone, monkeypatch):
    made, _ = alone
    wrong = TEXT.replace("C4 ~~", "c4 ~~")
    made.workspace.put_text_document(t.TextDocumentItem(URI, "gesture", 2, wrong))
    where = t.Range(t.Position(0, 0), t.Position(20, 0))
    asked = t.CodeActionParams(t.TextDocumentIdentifier(URI), where, t.CodeActionContext([]))
    assert [one.title for one in await module._actions(made, asked)] == ["write C4"]
    made.reports.clear()
    loop = asyncio.get_running_loop()

    def overtaken(source: Source, **more: Any) -> Checked:
        loop.call_soon_threadsafe(_typed, made, 3)
        assert timing.eventually(lambda: made.document(URI).version == 3)
        return check_text(source, **more)

    monkeypatch.setattr(module, "check_text", overtaken)
    assert await module._actions(made, asked) == []
    made.forget(URI)


@pytest.mark.parametrize("sign", ["\u2028", "\x0b", "\x0c", "\x1c", "\x85"])
def test_only_the_line_ends_of_the_protocol_divide_a_text(sign: str):
    """LSP 3.17 knows three, and none of these."""
    document = GestureDocument("file:///nowhere/a", source=f"# a{sign}b\r\nc\rd\ne")
    assert document.lines == [f"# a{sign}b\r\n", "c\r", "d\n", "e"]
    where = t.Range(t.Position(1, 0), t.Position(3, 1))
    document.apply_change(t.TextDocumentContentChangePartial(where, "new"))
    assert document.source == f"# a{sign}b\r\nnew"
    assert Places(document).position(2, 4) == t.Position(1, 3)


def test_a_byte_order_mark_is_a_character_of_the_protocol():
    there = Places(GestureDocument("file:///nowhere/a", source="\ufeff🎺b\n🎺b"))
    assert [there.position(line, 2) for line in (1, 2)] == [t.Position(0, 3), t.Position(1, 2)]
    assert [there.cursor(t.Position(line, 3)) for line in (0, 1)] == [(1, 2), (2, 3)]
    assert there.cursor(t.Position(9, 9)) == (10, 1)
