"""Reading in tests: a tree without spans, and errors as short tuples."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any

from gesturesmith.diagnostics.types import ReadError
from gesturesmith.lang import nodes, parse
from gesturesmith.source import Source

_PLACES = {"span", "last_line", "indent"}


def read(text: str) -> tuple[nodes.File, tuple[ReadError, ...]]:
    """The tree and the errors of a text."""
    return parse(Source("test.gesture", text))


def bare(node: Any) -> Any:
    """A tree as plain tuples, without spans."""
    if is_dataclass(node):
        return (type(node).__name__, *(bare(getattr(node, f.name)) for f in fields(node) if f.name not in _PLACES))
    if isinstance(node, tuple):
        return tuple(bare(n) for n in node)
    return node


def value(line: str, kind: str = "gesture") -> Any:
    """The value of one key of a block, or of a setting (`kind` ""), which must read without an error."""
    text = f"{line}\n" if not kind else f"{kind} name\n  {line}\n"
    tree, errors = read(text)
    assert errors == ()
    entries = tree.blocks[0].entries if kind else tree.settings
    return entries[-1].value
