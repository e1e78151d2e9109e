"""What a PDF says of itself: found where its table of offsets says it is, since a title may hold any words."""

from __future__ import annotations

import re

from gesturesmith.values import frozen

# What LilyPond left may be made to keep these busy: what is looked for from many places either finds its end near,
# or is tried at one place only. No number has more digits than a file has places.
_START = re.compile(rb"startxref\s+(\d{1,12})\s+%%EOF\s*\Z")
_TABLE = re.compile(rb"\s*(?:xref\b|\d+ \d+ obj\b)")
_SECTION = re.compile(rb"\s*(\d{1,10}) (\d{1,10})[ ]*\r?\n")
_ROW = 20  # bytes of an offset in the table (PDF Reference 1.7, 3.4.3)
# In the table stand digits alone: the first such word behind its beginning is the trailer.
_TRAILER = re.compile(rb"trailer\s*<<(.*?)>>\s*startxref", re.DOTALL)
_INFO = re.compile(rb"/Info\s+(\d{1,10})\s+(\d{1,5})\s+R")
# A text in brackets; those inside it have a backslash before them, or come in pairs (cairo's own name).
_TEXT = rb"\((?:\\.|[^\\()]|\((?:\\.|[^\\()])*+\))*+\)"
_TEXTS = re.compile(_TEXT, re.DOTALL)
_ENTRY = re.compile(rb"\s*(\d+) (\d+) obj\s*<<((?:" + _TEXT + rb"|[^()])*?)>>\s*endobj", re.DOTALL)


@frozen
class Info:
    """The entry with a PDF's particulars: its numbers, where what is in it begins and ends, the trailer's text.

    `table` is where the table of offsets begins, behind which no text of a user's can stand.
    """

    number: int
    generation: int
    begins: int
    ends: int
    table: int
    trailer: bytes


def holds_its_table(data: bytes) -> bool:
    """Whether the table of offsets, old or new kind, lies where the file's end says: it does if nothing is lost."""
    place = table_at(data)
    return place is not None and _TABLE.match(data, place) is not None


def table_at(data: bytes) -> int | None:
    """Where the file's end says that its table of offsets lies."""
    start = _START.search(data, max(0, len(data) - 1024))
    return int(start[1]) if start is not None else None


def trailer_at(data: bytes) -> int | None:
    """Where the trailer begins, the first behind the table of offsets; None where that is of the new kind."""
    table = table_at(data)
    if table is None or not data.startswith(b"xref", table):
        return None
    place = data.find(b"trailer", table)
    return place if place >= 0 else None


def info(data: bytes) -> Info | None:
    """The entry, or None where the file is built otherwise."""
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
    """Where the table of offsets says that an object begins."""
    place = table + len(b"xref")
    while section := _SECTION.match(data, place):
        first, count = int(section[1]), int(section[2])
        if first <= number < first + count:
            row = data[section.end() + _ROW * (number - first) :][:10]
            return int(row) if row.isdigit() else None
        place = section.end() + _ROW * count
    return None


def titled(data: bytes, title: str, author: str) -> bytes:
    """The PDF with title and author where it lacks them; the same bytes where it has them, or is built otherwise.

    LilyPond writes them for whole pages, not for cropped pictures. They are added behind the file's end, as the
    format provides (PDF Reference 1.7, 3.4.5, incremental updates): nothing before is moved.
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
