"""LilyPond's language: the document of a page or snippet, self-contained, for editing by hand."""

from __future__ import annotations

import re

from gesturesmith.inlining import inlined
from gesturesmith.writers.base import Item, Writer, text_with_checksum

# A name we choose, for runs with many books; alone, the file's own name is better.
_OUTPUT = re.compile(r'^\\bookOutputName "[a-z0-9]+"\n', re.MULTILINE)


def _finish(item: Item, _: bytes) -> bytes:
    return text_with_checksum("%", inlined(_OUTPUT.sub("", item.document)))


WRITER = Writer(
    key="ly",
    about="self-contained LilyPond source of the page and of each snippet",
    kinds=("page", "snippet", "score"),
    engraved=False,
    finish=_finish,
)
