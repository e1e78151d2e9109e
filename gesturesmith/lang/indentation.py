"""One unit of indentation for the whole file: which lines are indented how far, and what to report otherwise."""

from __future__ import annotations

from collections.abc import Iterable

from gesturesmith.lang.layout import SourceLine
from gesturesmith.lang.reader import ErrorList
from gesturesmith.source import Span


class Indents:
    """The unit of the file, set by the first indented line; lines in a row with one mistake are reported once."""

    def __init__(self, notes: ErrorList) -> None:
        self.notes = notes
        self.unit = ""  # of the keys in blocks
        self.sign = ""  # space or tab, whichever the file uses first
        self.reported: str | None = None

    def at_margin(self, line: SourceLine) -> None:
        """A setting or heading starts at the margin."""
        if not line.indent:
            self.reported = None
            return
        what = "a heading" if line.kind == "heading" else "a setting"
        self._wrong(line, f"{what} starts at the left margin: remove the white space before it")

    def in_block(self, line: SourceLine) -> None:
        """A key in a block is indented by one unit."""
        indent = line.indent
        if self._mixed(line):
            return
        if not indent:
            unit = said(self.unit) if self.unit else "two spaces"
            self._wrong(line, f"`{line.key}` belongs to the block above: put {unit} before it")
            return
        if not self.unit:
            self.unit = indent
        if indent != self.unit:
            self._wrong(line, f"keys are indented by {said(self.unit)} in this file, this line by {said(indent)}")
        else:
            self.reported = None

    def going_on(self, lines: Iterable[SourceLine]) -> None:
        """Lines that continue a value are indented deeper, by any amount of the file's own white space."""
        for line in lines:
            self._mixed(line)

    def _mixed(self, line: SourceLine) -> bool:
        """Report spaces in a file of tabs, or tabs in a file of spaces."""
        indent = line.indent
        if not indent:
            return False
        if not self.sign:
            self.sign = indent[0]
        if not indent.strip(self.sign):
            return False
        if self.reported != indent:
            mine, other = ("tabs", "spaces") if self.sign == "\t" else ("spaces", "tabs")
            what = f"this file is indented with {mine}, this line with {other} too: use {mine} everywhere"
            if not indent.strip("\t" if self.sign == " " else " "):
                what = f"this file is indented with {mine}, this line with {other}: use {mine} everywhere"
            self._report("mixed-indentation", line, what)
        return True

    def _wrong(self, line: SourceLine, message: str) -> None:
        if self.reported != line.indent:
            self._report("wrong-indentation", line, message)

    def _report(self, rule: str, line: SourceLine, message: str) -> None:
        self.reported = line.indent
        end = line.start + 1 if line.start else 1 + len(line.key)
        self.notes.add(rule, Span(line.content.number, 1, end), message)


def said(indent: str) -> str:
    """An indentation in words: "2 spaces", "1 tab"."""
    kind = "tab" if indent[:1] == "\t" else "space"
    if len(set(indent)) > 1:
        return "spaces and tabs"
    return f"{len(indent)} {kind}{'' if len(indent) == 1 else 's'}"
