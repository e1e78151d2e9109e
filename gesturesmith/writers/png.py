"""PNG pictures of snippets, with their title and description inside."""

from __future__ import annotations

import struct
import zlib

from gesturesmith.writers.base import MARK, PNG_BEGINS, Item, Writer, whole, with_checksum

_ENDS = b"IEND\xaeB`\x82"
_SEAL_BYTES = len(f"{MARK} [012345678901]")
_HEADER_END = 8 + 25  # signature and IHDR chunk: their place and length are fixed (ISO/IEC 15948, 5.6)


def _text_chunk(keyword: str, text: str) -> bytes:
    """An uncompressed iTXt chunk (ISO/IEC 15948, 11.3.4.5): keyword in Latin-1, text in UTF-8."""
    body = _chunk_body(keyword) + text.encode()
    return struct.pack(">I", len(body) - len(b"iTXt")) + body + _crc(body)


def _chunk_body(keyword: str) -> bytes:
    """The part of a chunk before its text that counts for its checksum."""
    return b"iTXt" + keyword.encode("latin-1") + b"\0\0\0\0\0"


def _crc(body: bytes) -> bytes:
    return struct.pack(">I", zlib.crc32(body))


def _finish(item: Item, engraved: bytes) -> bytes:
    whole(engraved, PNG_BEGINS, _ENDS, "PNG")
    texts = {"Title": item.title or item.name, "Description": item.description}
    chunks = b"".join(_text_chunk(keyword, text) for keyword, text in texts.items() if text)
    software = _chunk_body("Software")
    length = struct.pack(">I", len(software) - len(b"iTXt") + _SEAL_BYTES)
    before = engraved[:_HEADER_END] + chunks + length + software
    return with_checksum(before, engraved[_HEADER_END:], lambda seal: _crc(software + seal))


WRITER = Writer(
    key="png",
    about="a cropped picture of each gesture and passage, in pixels",
    kinds=("snippet", "picture", "score"),
    engraved=True,
    finish=_finish,
)
