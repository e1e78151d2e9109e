"""What a writer is: it turns what LilyPond made, or the score's own text, into a file to deliver."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable
from pathlib import PurePosixPath

from gesturesmith.lytext import LyText
from gesturesmith.values import frozen

# Every file we deliver holds these words, so that a later run knows it may replace it.
MARK = "Made by Gesturesmith"
# Its first line, in files that people go on working in, holds a sum of all that follows.
_SUMMED = re.compile(rb"\A[^\n]*" + MARK.encode() + rb"[^\n]* \[([0-9a-f]{12})\]\r?\n")


NO_TEXT = LyText("")


@frozen(kw_only=True)
class Item:
    """One thing that is delivered in one or more formats: the page of a file, or a snippet of it.

    output       what LilyPond calls it (`\\bookOutputName`)
    kind         "page" | "snippet" | "picture" (a page as a picture, cropped, beside the page itself)
    place        where it goes below the output folder, without ending: "study" or "study/beacon"
    name         the gesture's or passage's name; for a page the file's stem
    title, author   for the file's own particulars; "" for none
    description  the music in words, for those who cannot see it
    musics       names of the gestures and passages it shows, in order
    book         its LilyPond text, one `\\book`
    document     a whole LilyPond document with this book alone, its includes still named
    ily          for composers: text of a file that defines the music as a variable; "" for a page
    """

    output: str
    kind: str
    place: PurePosixPath
    name: str
    title: str = ""
    author: str = ""
    description: str = ""
    musics: tuple[str, ...] = ()
    book: LyText
    document: LyText
    ily: LyText = NO_TEXT


@frozen(kw_only=True)
class Output:
    """A file to deliver: where it goes below the output folder, and its bytes."""

    place: PurePosixPath
    data: bytes


def summed(comment: str, text: str, more: str = "") -> bytes:
    """A text under our mark, by which `worked_on` can tell whether it still is what we made.

    comment   what a line begins with that is a comment in this format
    more      how the mark goes on, in one line
    """
    body = text.encode()
    return f"{comment} {MARK}{more} [{_sum(body)}]\n".encode() + body


def worked_on(data: bytes) -> bool:
    """Whether a text of ours was changed since. Line ends may be other ones."""
    found = _SUMMED.match(data)
    return found is not None and found[1].decode() != _sum(data[found.end() :])


def _sum(body: bytes) -> str:
    return hashlib.sha256(body.replace(b"\r\n", b"\n")).hexdigest()[:12]


def whole(data: bytes, begins: bytes, ends: bytes, what: str) -> bytes:
    """What LilyPond made, from its first sign to its last; ValueError for anything else.

    LilyPond says that all is well when the disk was full.
    """
    if not data.startswith(begins) or not data.rstrip().endswith(ends):
        raise ValueError(f"what LilyPond made is no whole {what}; the disk with the temporary files may be full")
    return data


def nothing_beside(items: tuple[Item, ...]) -> tuple[Output, ...]:
    """For formats whose files stand alone."""
    return ()


@frozen(kw_only=True)
class Writer:
    """One output format.

    key       what `--as` calls it, and the files' ending
    about     one line for `--help`
    kinds     what it is written for: "page", "snippet", "picture"
    engraved  whether LilyPond makes the file, which `finish` then puts in order; else `finish` gets b""
    finish    makes the file of an item
    beside    files that must lie beside those of the given items
    """

    key: str
    about: str
    kinds: tuple[str, ...]
    engraved: bool
    finish: Callable[[Item, bytes], bytes]
    beside: Callable[[tuple[Item, ...]], tuple[Output, ...]] = nothing_beside

    def outputs(self, items: tuple[Item, ...], engraved: dict[str, bytes]) -> tuple[Output, ...]:
        """Everything this format delivers; `engraved` holds LilyPond's files by an item's `output`."""
        mine = tuple(i for i in items if i.kind in self.kinds)
        made = [
            Output(
                place=item.place.with_name(f"{item.place.name}.{self.key}"),
                data=self.finish(item, engraved[item.output] if self.engraved else b""),
            )
            for item in mine
        ]
        return (*made, *self.beside(mine))
