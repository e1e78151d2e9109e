"""The definition of a writer: it turns LilyPond's output, or the score's text, into a file to deliver."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable
from dataclasses import field
from itertools import islice
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith.kinds import ItemKind
from gesturesmith.lytext import LyText
from gesturesmith.values import frozen, uncounted

if TYPE_CHECKING:  # `check` does not pay for scores
    from gesturesmith.score.music import Music
    from gesturesmith.score.staves import System

# Every file we deliver contains these words and a checksum of the rest: so a later run knows that it may replace
# it.
MARK = "Made by Gesturesmith"
_SEAL = re.compile(MARK.encode() + rb" \[([0-9a-f]{12})\]")
# Candidates checked per file, since checksums take time. A title of 2,000 characters has room for 55 imitations.
_MAX_SEALS = 128
PNG_BEGINS = b"\x89PNG\r\n\x1a\n"  # ISO/IEC 15948, 5.2
_CRC_BYTES = 4  # at the end of a PNG chunk, computed from its content


NO_TEXT = LyText("")


@frozen(kw_only=True)
class Item:
    """Something delivered in one or more formats: the page of a file, or a snippet of it. The cache key of its
    engraved files has every field that does not say why it makes no difference.

    output       what LilyPond calls it (`\\bookOutputName`)
    kind         "page" | "snippet" | "picture" (a page as a picture, cropped, beside the page itself) | "score" (a
                 passage as a picture with the lines of all parts) | "sketch" (of a gesture) | "enclosed" (a page
                 that is only bound with others)
    place        its path below the output folder, without ending: "study" or "study/beacon"
    name         the gesture's or passage's name; for a page the file's stem
    title, author   for the file's metadata; "" for none
    description  the music in words, for those who cannot see it
    excerpts     names of the gestures and passages it shows, in order
    systems      their music, as plain values, for formats without LilyPond: one after another, each with the lines
                 that sound together; () for a chart
    book         its LilyPond text, one `\\book`
    document     a complete LilyPond document with only this book, includes not resolved
    ily          for composers: text of a file that defines the music as a variable; "" for a page
    drawing      a picture made without LilyPond, as SVG; "" for none
    """

    output: str = field(metadata=uncounted("a name within one run"))
    kind: ItemKind
    place: PurePosixPath = field(metadata=uncounted("the same file may lie anywhere"))
    name: str
    title: str = ""
    author: str = ""
    description: str = ""
    excerpts: tuple[str, ...] = ()
    systems: tuple[System, ...] = field(default=(), metadata=uncounted("the book is printed from them"))
    book: LyText = field(metadata=uncounted("it is counted without the name of the run"))
    document: LyText = field(metadata=uncounted("it is the book with templates, which are part of the program"))
    ily: LyText = field(default=NO_TEXT, metadata=uncounted("LilyPond does not see it: its file is its own bytes"))
    drawing: str = field(default="", metadata=uncounted("LilyPond does not see it: its file is its own bytes"))

    @property
    def scores(self) -> tuple[Music, ...]:
        """The music of all its lines, in order."""
        return tuple(staff.music for system in self.systems for staff in system)


@frozen(kw_only=True)
class Binding:
    """Pages that are delivered as one PDF instead of apart.

    place    its path below the output folder, without ending
    outputs  the items, by their `output`, in the order in which they are bound
    title, author   for its metadata; "" for none
    """

    place: PurePosixPath
    outputs: tuple[str, ...]
    title: str = ""
    author: str = ""


@frozen(kw_only=True)
class Output:
    """A file to deliver: its path below the output folder, and its bytes.

    lacks   what its format has no place for, by name

    >>> (score,) = gesturesmith.render(text, "ly").files[-1:]
    >>> str(score.place), score.data[:9]
    ('text.ly', b'% Made by')
    """

    place: PurePosixPath
    data: bytes
    lacks: tuple[str, ...] = ()


def with_checksum(before: bytes, after: bytes, closing: Callable[[bytes], bytes] = lambda _: b"") -> bytes:
    """A complete file with our mark, and the checksum of the rest, between `before` and `after`.

    closing   makes what must follow the mark directly and depends on it: the checksum of a PNG chunk
    """
    seal = f"{MARK} [{_sum(before + after)}]".encode()
    return before + seal + closing(seal) + after


def text_with_checksum(comment: str, text: str, more: str = "") -> bytes:
    """A text under a line with our mark.

    comment   the start of a comment line in this format
    more      the rest of the line after the mark
    """
    return with_checksum(f"{comment} ".encode(), f"{more}\n{text}".encode())


def is_ours(data: bytes) -> bool:
    """Whether a file is exactly what we made, except for line endings."""
    gap = _CRC_BYTES if data.startswith(PNG_BEGINS) else 0
    seals = islice(_SEAL.finditer(data), _MAX_SEALS)
    return any(seal[1].decode() == _sum(data[: seal.start()] + data[seal.end() + gap :]) for seal in seals)


def bears_mark(data: bytes) -> bool:
    """Whether a file has our mark, even if it has been changed since."""
    return MARK.encode() in data


def _sum(data: bytes) -> str:
    return hashlib.sha256(data.replace(b"\r\n", b"\n")).hexdigest()[:12]


def whole(data: bytes, begins: bytes, ends: bytes, what: str) -> bytes:
    """LilyPond's output, from its first characters to its last; ValueError for anything else.

    LilyPond reports success even if the disk was full.
    """
    if not data.startswith(begins) or not data.rstrip().endswith(ends):
        raise ValueError(f"LilyPond's {what} is incomplete; the disk for temporary files may be full")
    return data


def nothing_lost(item: Item) -> tuple[str, ...]:
    """For formats that hold whatever is on the page."""
    return ()


def nothing_beside(items: tuple[Item, ...]) -> tuple[Output, ...]:
    """For formats with self-contained files."""
    return ()


@frozen(kw_only=True)
class Writer:
    """One output format.

    key       its name for `--as`
    ending    that of its files, "" for the key
    about     one line for `--help`
    kinds     the kinds of items it is made for: "page", "snippet", "picture", "score", "sketch", "enclosed"
    engraved  whether LilyPond makes the file, which `finish` then completes; else `finish` gets b""
    finish    makes the file of an item
    beside    files needed beside those of the given items
    scored    made from the scores of an item alone: there is none of a chart
    lacks     what of an item the format has no place for, by name; told once in a run
    """

    key: str
    about: str
    kinds: tuple[ItemKind, ...]
    engraved: bool
    finish: Callable[[Item, bytes], bytes]
    beside: Callable[[tuple[Item, ...]], tuple[Output, ...]] = nothing_beside
    scored: bool = False
    ending: str = ""
    lacks: Callable[[Item], tuple[str, ...]] = nothing_lost

    @property
    def reads_ly(self) -> bool:
        """Whether it is made from LilyPond text, or by LilyPond; else such text need not be there."""
        return self.engraved or not (self.scored or self.kinds == ("sketch",))

    def takes(self, item: Item) -> bool:
        """Whether an item has a file in this format."""
        return item.kind in self.kinds and (not self.scored or bool(item.systems))

    def outputs(self, items: tuple[Item, ...], engraved: dict[str, bytes]) -> tuple[Output, ...]:
        """All files of this format; `engraved` holds LilyPond's files by an item's `output`."""
        mine = tuple(item for item in items if self.takes(item))
        made = [
            Output(
                place=item.place.with_name(f"{item.place.name}.{self.ending or self.key}"),
                data=self.finish(item, engraved[item.output] if self.engraved else b""),
                lacks=self.lacks(item),
            )
            for item in mine
        ]
        return (*made, *self.beside(mine))
