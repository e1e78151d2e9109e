"""Files that stand alone: what the templates include is put in their place."""

from __future__ import annotations

import re
from pathlib import Path

from gesturesmith import paths

_INCLUDE = re.compile(r'^[ \t]*\\include[ \t]+"([^"\\]+)"[ \t]*(?:%.*)?$', re.MULTILINE)
_VERSION = re.compile(r'^[ \t]*\\version[ \t]+"[^"]*"[ \t]*\n', re.MULTILINE)


def inlined(text: str) -> str:
    """`text` with every template it includes put in; includes of anything else stay as they are."""
    return _put_in(text, paths.templates())


def template(name: str) -> str:
    """A template of LilyPond text with its parts put in."""
    path = paths.templates() / name
    return _put_in(path.read_text("utf-8"), path.parent)


def _put_in(text: str, folder: Path) -> str:
    def part(match: re.Match[str]) -> str:
        for place in (paths.templates() / match[1], folder / match[1]):
            if place.is_file():
                # One \version for the whole is enough, and stands first.
                return _put_in(_VERSION.sub("", place.read_text("utf-8")), place.parent).rstrip("\n")
        return match[0]

    return _INCLUDE.sub(part, text)
