"""Open texts, and places in them: the protocol counts UTF-16 units from 0, we count code points from 1."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from lsprotocol import types
from pygls.workspace import TextDocument, Workspace

from gesturesmith.source import Source, Span

_LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+")
_BOM = "\ufeff"


class GestureDocument(TextDocument):
    """An open text. Only the line ends of the protocol divide it, not those that `str.splitlines` has besides."""

    @property
    def lines(self) -> Sequence[str]:
        return _LINE.findall(self.source)


class GestureWorkspace(Workspace):
    """The open texts."""

    def _create_text_document(
        self, doc_uri: str, source: str | None = None, version: int | None = None, language_id: str | None = None
    ) -> TextDocument:
        return GestureDocument(
            doc_uri,
            source=source if source is not None else "",  # a text that is not open is not read from the disk
            version=version,
            language_id=language_id,
            sync_kind=self._sync_kind,
            position_codec=self.position_codec,
        )


class Places:
    """Converts between places of a text and those of the protocol, in the encoding agreed upon."""

    def __init__(self, document: TextDocument) -> None:
        self.source = Source(document.filename or "text", document.source)
        self.lines = self.source.lines
        self._units = document.position_codec.client_num_units
        self._shifted = document.source.startswith(_BOM)

    def position(self, line: int, column: int) -> types.Position:
        """The position of a line and column, both from 1; beyond the end of a line, its end."""
        text = self._text(line)[: max(column - 1, 0) + self._bom(line)]
        return types.Position(line - 1, self._units(text))

    def span(self, span: Span) -> types.Range:
        """The range of a span, at least one character if there is one."""
        return types.Range(self.position(span.line, span.column), self.position(span.line, span.end_column))

    def cursor(self, position: types.Position) -> tuple[int, int]:
        """Line and column, both from 1, of a position; within a character, its beginning."""
        line = position.line + 1
        text = self._text(line)
        low, high = 0, len(text)
        while low < high:
            middle = (low + high + 1) // 2
            low, high = (middle, high) if self._units(text[:middle]) <= position.character else (low, middle - 1)
        return line, max(low + 1 - self._bom(line), 1)

    def _text(self, line: int) -> str:
        text = self.lines[line - 1] if 1 <= line <= len(self.lines) else ""
        return _BOM + text if self._bom(line) else text

    def _bom(self, line: int) -> int:
        """A byte order mark is a character of the protocol's first line, and none of ours."""
        return 1 if self._shifted and line == 1 else 0


def folder_of(document: TextDocument) -> Path | None:
    """The folder in which a text may name profiles; None if it is in none."""
    if not document.uri.startswith("file:") or not document.path:
        return None
    folder = Path(document.path).parent
    return folder if folder.is_dir() else None


def line_end(document: TextDocument) -> str:
    """The line end of a text: its first."""
    found = re.search(r"\r\n|\r|\n", document.source)
    return found[0] if found else "\n"
