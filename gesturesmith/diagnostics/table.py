"""Rows of text as an HTML table."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from gesturesmith.diagnostics.lines import visible


def table(head: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """A complete `table` element. Cells are always text: nothing in them becomes an element."""
    lines = [_row("th", head), *(_row("td", row) for row in rows)]
    return "<table>\n" + "\n".join(lines) + "\n</table>"


def _row(kind: str, cells: Iterable[str]) -> str:
    return "<tr>" + "".join(f"<{kind}>{escape(visible(cell))}</{kind}>" for cell in cells) + "</tr>"
