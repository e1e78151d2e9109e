"""The reader of gesture files: text to tree, tree to canonical text."""

from gesturesmith.lang.format import format_text
from gesturesmith.lang.parse import parse

__all__ = ["format_text", "parse"]
