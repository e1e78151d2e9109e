"""The reader of gesture files: text to tree, tree to canonical text."""

from gesturesmith.lang.parse import parse
from gesturesmith.source import Source

__all__ = ["format_text", "parse"]


def format_text(source: Source) -> str:
    """The canonical form of a file; one that cannot be read comes back as it is."""
    from gesturesmith.lang.format import format_text as canonical  # checking does without it

    return canonical(source)
