"""The text of a MusicXML file, piece by piece: the file itself, or the score inside a compressed one (.mxl).

What a zip file says of the sizes of its members is not believed: they are read up to a limit.
"""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Iterator

from gesturesmith.importers.musicxml.tree import Element, NotMusicXmlError, whole

MAX_BYTES = 64_000_000  # of text, unpacked: a symphony takes about 30 MB
_MAX_CONTAINER = 100_000  # the list of what a compressed file holds
_MAX_MEMBERS = 1000
_PIECE = 1 << 16
_SCORE = "application/vnd.recordare.musicxml+xml"
_ZIP = b"PK"
# How files of other kinds begin, and what a musician calls them.
_OTHERS = {
    b"%PDF": "a PDF, which has pictures of notes in it; export MusicXML from the program that made it",
    b"MThd": "a MIDI file; export MusicXML from the program that made it",
    b"\xd0\xcf\x11\xe0": "a word processor document",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"\x1f\x8b": "compressed by gzip; unpack it first",
}


def pieces(data: bytes) -> Iterator[bytes]:
    """The text of the score. NotMusicXmlError if there is none, or more of it than the limit."""
    other = next((what for head, what in _OTHERS.items() if data.startswith(head)), "")
    if other:
        raise NotMusicXmlError(f"this is no MusicXML but {other}")
    if not data.strip():
        raise NotMusicXmlError("this file is empty")
    if not data.startswith(_ZIP):
        yield from _limited(iter([data]))
        return
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            if len(packed.infolist()) > _MAX_MEMBERS:
                raise NotMusicXmlError(f"this compressed file holds more than {_MAX_MEMBERS} files")
            yield from _limited(_member(packed, _path(packed)))
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError) as error:
        raise NotMusicXmlError(f"this compressed file is damaged ({error})") from None
    except (RuntimeError, NotImplementedError):
        raise NotMusicXmlError("this compressed file is encrypted, or packed in a way that is not read") from None


def _path(packed: zipfile.ZipFile) -> str:
    """The name of the score in a compressed file, by its list of contents."""
    try:
        listed = b"".join(_limited(_member(packed, "META-INF/container.xml"), _MAX_CONTAINER))
    except KeyError:
        raise NotMusicXmlError(
            "this is a zip file, but no compressed MusicXML: it has no META-INF/container.xml"
        ) from None
    roots: tuple[Element, ...] = tuple(whole(listed).every("rootfile"))
    there = set(packed.namelist())
    for root in roots:
        name = root.get("full-path")
        if root.get("media-type") in ("", _SCORE) and name in there:
            return name
    raise NotMusicXmlError("this compressed file names no score in its META-INF/container.xml, or one it has not")


def _member(packed: zipfile.ZipFile, name: str) -> Iterator[bytes]:
    with packed.open(name) as member:
        while piece := member.read(_PIECE):
            yield piece


def _limited(read: Iterator[bytes], limit: int = MAX_BYTES) -> Iterator[bytes]:
    left = limit
    for piece in read:
        left -= len(piece)
        if left < 0:
            raise NotMusicXmlError(f"more than {limit // 1_000_000 or 0.1:g} MB of text, the limit", too_large=True)
        yield piece
