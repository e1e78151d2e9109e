"""Compressed MusicXML: the same document in a zip file, as MusicXML 4.0 has it (container.xsd)."""

from __future__ import annotations

import io
import zipfile

from gesturesmith.writers.base import MARK, Item, Writer, with_checksum
from gesturesmith.writers.musicxml import lacks, written

_SEAL_BYTES = len(f"{MARK} [012345678901]")
_DATE = (1980, 1, 1, 0, 0, 0)  # the first that a zip file can have: the same music gives the same bytes
_MIMETYPE = "application/vnd.recordare.musicxml"
_SCORE = "score.musicxml"
_CONTAINER = f"""<?xml version="1.0" encoding="UTF-8"?>
<container>
 <rootfiles>
  <rootfile full-path="{_SCORE}" media-type="application/vnd.recordare.musicxml+xml" />
 </rootfiles>
</container>
"""


def _finish(item: Item, _: bytes) -> bytes:
    """A zip file ends with a comment, which has our mark."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as archive:
        # The type first and uncompressed, so that a program can tell it from the first bytes.
        _add(archive, "mimetype", _MIMETYPE.encode(), zipfile.ZIP_STORED)
        _add(archive, "META-INF/container.xml", _CONTAINER.encode(), zipfile.ZIP_DEFLATED)
        _add(archive, _SCORE, written(item), zipfile.ZIP_DEFLATED)
        archive.comment = bytes(_SEAL_BYTES)
    return with_checksum(made.getvalue()[:-_SEAL_BYTES], b"")


def _add(archive: zipfile.ZipFile, name: str, data: bytes, how: int) -> None:
    entry = zipfile.ZipInfo(name, _DATE)
    entry.compress_type = how
    entry.create_system = 3  # wherever it is made
    archive.writestr(entry, data)


WRITER = Writer(
    key="mxl",
    about="the same, compressed",
    kinds=("page", "snippet", "score"),
    engraved=False,
    finish=_finish,
    scored=True,
    lacks=lacks,
)
