"""MusicXML 4.0: the notes for score programs, with everything of a gesture that the format has a place for."""

from __future__ import annotations

from gesturesmith.writers.base import Item, Writer, with_checksum


def _finish(item: Item, _: bytes) -> bytes:
    return written(item)


def written(item: Item) -> bytes:
    """The document, with our mark in a comment at its head."""
    from gesturesmith.backends import musicxml  # only this format pays for it

    title = item.title or item.name
    before, after = musicxml.musicxml(item.systems, title=title, author=item.author, description=item.description)
    return with_checksum(f"{before}<!-- ".encode(), f" -->{after}".encode())


def lacks(item: Item) -> tuple[str, ...]:
    """What of an item has no element."""
    from gesturesmith.backends import musicxml

    return musicxml.lacks(item.systems)


WRITER = Writer(
    key="musicxml",
    about="MusicXML 4.0, for score programs: the page, and each gesture and passage; needs no LilyPond",
    kinds=("page", "snippet", "score"),
    engraved=False,
    finish=_finish,
    scored=True,
    lacks=lacks,
)
