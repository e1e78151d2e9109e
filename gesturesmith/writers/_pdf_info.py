"""Title and author of a PDF where LilyPond gave none: it writes them for whole pages, not for cropped pictures."""

from __future__ import annotations

import re

_TRAILER = re.compile(rb"trailer\s*<<(.*?)>>\s*startxref\s*(\d+)\s*%%EOF", re.DOTALL)
_INFO = re.compile(rb"/Info\s+(\d+)\s+(\d+)\s+R")


def titled(data: bytes, title: str, author: str) -> bytes:
    """The PDF with title and author where it lacks them; the same bytes where it has them, or is built otherwise.

    They are added behind the file's end, as the format provides (PDF Reference 1.7, 3.4.5, incremental updates):
    nothing before is moved.
    """
    trailer = next(reversed(list(_TRAILER.finditer(data))), None)
    info = _INFO.search(trailer[1]) if trailer is not None else None
    if trailer is None or info is None:
        return data
    number, generation = int(info[1]), int(info[2])
    # That the number stands at the start of a line is looked at behind it: `re` finds plain digits quickest.
    entry_of = rb"%d(?<=[\r\n]%d) %d obj\s*<<(.*?)>>\s*endobj" % (number, number, generation)
    found = re.search(entry_of, data, re.DOTALL)
    fields = {b"/Title": title, b"/Author": author}
    lacking = {k: v for k, v in fields.items() if v and found is not None and k not in found[1]}
    if found is None or not lacking:
        return data
    said = b"".join(b"%s %s\n" % (name, _text(value)) for name, value in lacking.items())
    start = data.rstrip() + b"\n"
    entry = b"%d %d obj\n<<%s\n%s>>\nendobj\n" % (number, generation, found[1].rstrip(), said)
    table = b"xref\n%d 1\n%010d %05d n \n" % (number, len(start), generation)
    end = b"trailer\n<<%s /Prev %s >>\nstartxref\n%d\n%%%%EOF" % (
        trailer[1].rstrip(),
        trailer[2],
        len(start) + len(entry),
    )
    return start + entry + table + end


def _text(value: str) -> bytes:
    """A text string in UTF-16 with its mark, in hexadecimal (PDF Reference 1.7, 3.8.1)."""
    return b"<" + ("\ufeff" + value).encode("utf-16-be", "replace").hex().upper().encode() + b">"
