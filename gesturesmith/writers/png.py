"""PNG pictures of snippets, with their title and description inside."""

from __future__ import annotations

import struct
import zlib

from gesturesmith.writers.base import MARK, Item, Writer, whole

_BEGINS, _ENDS = b"\x89PNG\r\n\x1a\n", b"IEND\xaeB`\x82"
_HEADER_END = 8 + 25  # the signature, then the IHDR chunk: its place and length are fixed (ISO/IEC 15948, 5.6)


def _text_chunk(keyword: str, text: str) -> bytes:
    """An uncompressed iTXt chunk (ISO/IEC 15948, 11.3.4.5): keyword in Latin-1, text in UTF-8."""
    body = keyword.encode("latin-1") + b"\0\0\0\0\0" + text.encode()
    return struct.pack(">I", len(body)) + b"iTXt" + body + struct.pack(">I", zlib.crc32(b"iTXt" + body))


def _finish(item: Item, engraved: bytes) -> bytes:
    whole(engraved, _BEGINS, _ENDS, "PNG")
    texts = {"Title": item.title or item.name, "Description": item.description, "Software": MARK}
    chunks = b"".join(_text_chunk(keyword, text) for keyword, text in texts.items() if text)
    return engraved[:_HEADER_END] + chunks + engraved[_HEADER_END:]


WRITER = Writer(
    key="png",
    about="a cropped picture of each gesture and passage, in pixels",
    kinds=("snippet", "picture"),
    engraved=True,
    finish=_finish,
)
