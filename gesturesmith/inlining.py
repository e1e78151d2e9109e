"""Templates with what they include: text that stands alone."""

from __future__ import annotations

import re
from pathlib import Path

from gesturesmith import paths

_INCLUDE = re.compile(r'^[ \t]*\\include[ \t]+"([^"\\]+)"[ \t]*(?:%.*)?$', re.MULTILINE)
_VERSION = re.compile(r'^[ \t]*\\version[ \t]+"[^"]*"[ \t]*\n', re.MULTILINE)


def inlined(text: str) -> str:
    """`text` with the content of every template it includes; other includes are unchanged."""
    return _put_in(text, paths.templates())


def template(name: str) -> str:
    """A LilyPond template with the content of its includes."""
    path = paths.templates() / name
    return _put_in(path.read_text("utf-8"), path.parent)


def _put_in(text: str, folder: Path) -> str:
    def part(match: re.Match[str]) -> str:
        for place in (paths.templates() / match[1], folder / match[1]):
            if place.is_file():
                # One \version is enough for the whole, and comes first.
                return _put_in(_VERSION.sub("", place.read_text("utf-8")), place.parent).rstrip("\n")
        return match[0]

    return _INCLUDE.sub(part, text)
