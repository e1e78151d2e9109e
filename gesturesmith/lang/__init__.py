"""Reads gesture files: text to syntax tree, and text to canonical text."""

from gesturesmith.lang.parse import parse
from gesturesmith.source import Source

__all__ = ["format_text", "parse"]


def format_text(source: Source) -> str:
    """The canonical form of a file; an unreadable file is returned unchanged."""
    from gesturesmith.lang.format import format_text as canonical  # checking does not need it

    return canonical(source)
