"""Files with scores that were made elsewhere, and which of their parts is for which instrument."""

from __future__ import annotations

from collections.abc import Mapping

from gesturesmith.importers import musicxml
from gesturesmith.importers.notated import NotatedScore
from gesturesmith.source import folded
from gesturesmith.textfile import UnreadableFile, read_bytes, shown_name

ENDINGS = (".musicxml", ".mxl", ".xml")
_LARGEST_BYTES = 64_000_000


def is_score(path: str) -> bool:
    """Whether a file is a score by its ending."""
    return path.lower().endswith(ENDINGS)


def read_score(path: str, instruments: Mapping[str, str] | None = None) -> NotatedScore | UnreadableFile:
    """The score in a file, or why there is none.

    instruments   what parts are for, where the user says so: their names to keys of instruments
    """
    data = read_bytes(path, _LARGEST_BYTES)
    if isinstance(data, UnreadableFile):
        return data
    if len(data) > _LARGEST_BYTES:
        return _unreadable(path, f"this file is larger than {_LARGEST_BYTES // 10**6} MB, the limit", large=True)
    said = {folded(name): key for name, key in (instruments or {}).items()}
    try:
        return musicxml.read(data, lambda name: said.get(folded(name), ""))
    except musicxml.NotMusicXmlError as error:
        return _unreadable(path, str(error), error.line, large=error.too_large)


def _unreadable(path: str, message: str, line: int = 0, *, large: bool) -> UnreadableFile:
    code, rule = ("GS198", "score-too-large") if large else ("GS197", "not-musicxml")
    return UnreadableFile(name=shown_name(path), code=code, rule=rule, message=message, line=max(1, line))
