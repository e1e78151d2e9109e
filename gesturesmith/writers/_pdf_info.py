"""The metadata of a PDF, located by its table of offsets, since a title may contain any text."""

from __future__ import annotations

import re

from gesturesmith.values import frozen

# LilyPond's output may be crafted to keep these patterns busy: those tried at many places either end close by or
# are tried at one place only. No number has more digits than a file has bytes.
_START = re.compile(rb"startxref\s+(\d{1,12})\s+%%EOF\s*\Z")
_TABLE = re.compile(rb"\s*(?:xref\b|\d+ \d+ obj\b)")
_SECTION = re.compile(rb"\s*(\d{1,10}) (\d{1,10})[ ]*\r?\n")
_ROW = 20  # bytes per offset in the table (PDF Reference 1.7, 3.4.3)
# The table contains only digits: the first such word after its beginning is the trailer.
_TRAILER = re.compile(rb"trailer\s*<<(.*?)>>\s*startxref", re.DOTALL)
_INFO = re.compile(rb"/Info\s+(\d{1,10})\s+(\d{1,5})\s+R")
# A text in parentheses; those inside it are escaped by a backslash or come in pairs (cairo's own name).
_TEXT = rb"\((?:\\.|[^\\()]|\((?:\\.|[^\\()])*+\))*+\)"
_TEXTS = re.compile(_TEXT, re.DOTALL)
_ENTRY = re.compile(rb"\s*(\d+) (\d+) obj\s*<<((?:" + _TEXT + rb"|[^()])*?)>>\s*endobj", re.DOTALL)


@frozen
class Info:
    """The entry with a PDF's metadata: its numbers, the start and end of its content, the trailer's text.

    `table` is the start of the table of offsets, after which there can be no user text.
    """

    number: int
    generation: int
    begins: int
    ends: int
    table: int
    trailer: bytes


def holds_its_table(data: bytes) -> bool:
    """Whether the table of offsets, old or new style, is where the end of the file says: if so, nothing is lost."""
    place = table_at(data)
    return place is not None and _TABLE.match(data, place) is not None


def table_at(data: bytes) -> int | None:
    """The position of the table of offsets, from the end of the file."""
    start = _START.search(data, max(0, len(data) - 1024))
    return int(start[1]) if start is not None else None


def trailer_at(data: bytes) -> int | None:
    """The start of the trailer, the first after the table of offsets; None if the table is new style."""
    table = table_at(data)
    if table is None or not data.startswith(b"xref", table):
        return None
    place = data.find(b"trailer", table)
    return place if place >= 0 else None


def info(data: bytes) -> Info | None:
    """The entry, or None if the file has another structure."""
    table, behind = table_at(data), trailer_at(data)
    trailer = _TRAILER.match(data, behind) if behind is not None else None
    named = _INFO.search(trailer[1]) if trailer is not None else None
    if table is None or trailer is None or named is None:
        return None
    place = _offset(data, table, int(named[1]))
    entry = _ENTRY.match(data, place) if place is not None else None
    if entry is None or (entry[1], entry[2]) != (named[1], named[2]):
        return None
    return Info(int(named[1]), int(named[2]), entry.start(3), entry.end(3), table, trailer[1])


def _offset(data: bytes, table: int, number: int) -> int | None:
    """The start of an object, from the table of offsets."""
    place = table + len(b"xref")
    while section := _SECTION.match(data, place):
        first, count = int(section[1]), int(section[2])
        if first <= number < first + count:
            row = data[section.end() + _ROW * (number - first) :][:10]
            return int(row) if row.isdigit() else None
        place = section.end() + _ROW * count
    return None


def titled(data: bytes, title: str, author: str) -> bytes:
    """The PDF with title and author added if missing; the same bytes if it has them or has another structure.

    LilyPond writes them for whole pages, not for cropped pictures. They are appended to the file, as the format
    allows (PDF Reference 1.7, 3.4.5, incremental updates): nothing before them moves.
    """
    found = info(data)
    if found is None:
        return data
    inside = data[found.begins : found.ends]
    keys = _TEXTS.sub(b"", inside)
    fields = {b"/Title": title, b"/Author": author}
    lacking = {k: v for k, v in fields.items() if v and k not in keys}
    if not lacking:
        return data
    said = b"".join(b"%s %s\n" % (name, _text(value)) for name, value in lacking.items())
    start = data.rstrip() + b"\n"
    entry = b"%d %d obj\n<<%s\n%s>>\nendobj\n" % (found.number, found.generation, inside.rstrip(), said)
    table = b"xref\n%d 1\n%010d %05d n \n" % (found.number, len(start), found.generation)
    end = b"trailer\n<<%s /Prev %d >>\nstartxref\n%d\n%%%%EOF" % (
        found.trailer.rstrip(),
        found.table,
        len(start) + len(entry),
    )
    return start + entry + table + end


def _text(value: str) -> bytes:
    """A text string in UTF-16 with its mark, in hexadecimal (PDF Reference 1.7, 3.8.1)."""
    return b"<" + ("\ufeff" + value).encode("utf-16-be", "replace").hex().upper().encode() + b">"
