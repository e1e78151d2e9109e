"""PDF pages and snippets: the same music gives the same bytes, whenever and wherever it is engraved."""

from __future__ import annotations

import re

from gesturesmith.writers._pdf_info import holds_its_table, info, titled, trailer_at
from gesturesmith.writers.base import Item, Writer, whole, with_checksum

# Values that depend on the clock or on chance are overwritten with fixed ones of the same length, so that every
# offset in the file stays valid. Each pattern begins with plain letters, which `re` finds fastest. A title may
# contain the same words, so they are searched for only where there is no title, or where it is escaped.
_DATE = re.compile(rb"(/(?:CreationDate|ModDate)\s*\(D:)(\d{14})([^)]{0,16})\)")
_XMP = re.compile(rb"stream\r?\n<\?xpacket begin=.*?<\?xpacket end=", re.DOTALL)
_XMP_ENDS = b"<?xpacket end="
_XMP_DATE = re.compile(rb"(<xmp:(?:CreateDate|ModifyDate|MetadataDate)>)([^<]*)(</xmp:)")
_XMP_ID = re.compile(rb"(ID(?:>|=['\"])uuid:)([0-9a-fA-F-]+)")
# An id is written in hexadecimal or, if shorter, as a text with escapes, which cannot be overwritten at the same
# length. In the trailer, after the table of offsets, its length may change.
_STRING = rb"(?:<[0-9A-Fa-f]*>|\((?:\\.|[^\\()])*\))"
_ID = re.compile(rb"(trailer\s*<<[^\[]*?/ID\s*)\[\s*" + _STRING + rb"\s*" + _STRING + rb"\s*\]", re.DOTALL)
_FIXED_ID = b"[<" + 32 * b"0" + b"><" + 32 * b"0" + b">]"
_FIXED_DATE = b"20000101000000"


def _finish(item: Item, engraved: bytes) -> bytes:
    whole(engraved if holds_its_table(engraved) else b"", b"%PDF-", b"%%EOF", "PDF")
    # Up to the last end: after a beginning without one, the whole rest of the file would be searched each time.
    last = engraved.rfind(_XMP_ENDS) + len(_XMP_ENDS)
    data = _XMP.sub(lambda m: _fixed_xmp(m[0]), engraved[:last]) + engraved[last:]
    found = info(data)
    begins, ends = (found.begins, found.ends) if found is not None else (0, len(data))
    inside = _DATE.sub(lambda m: m[1] + _FIXED_DATE + re.sub(rb"\d", b"0", m[3]) + b")", data[begins:ends])
    data = data[:begins] + inside + data[ends:]
    place = trailer_at(data)
    if place is not None and (trailer := _ID.match(data, place)) is not None:
        data = data[:place] + trailer[1] + _FIXED_ID + data[trailer.end() :]
    data = titled(data, item.title or item.name, item.author)
    # A comment may follow: readers look for the end-of-file mark in the last 1,024 bytes
    # (PDF Reference 1.7, appendix H, note 18).
    return with_checksum(data.rstrip(b"\n") + b"\n% ", b"\n")


def _fixed_xmp(packet: bytes) -> bytes:
    dated = _XMP_DATE.sub(lambda m: m[1] + _fixed_xmp_date(len(m[2])) + m[3], packet)
    return _XMP_ID.sub(lambda m: m[1] + re.sub(rb"[0-9a-fA-F]", b"0", m[2]), dated)


def _fixed_xmp_date(length: int) -> bytes:
    return b"2000-01-01T00:00:00+00:00Z"[:length].ljust(length)


WRITER = Writer(
    key="pdf",
    about="the page of each file, and a cropped PDF of each gesture and passage",
    kinds=("page", "snippet", "score", "enclosed"),
    engraved=True,
    finish=_finish,
)
