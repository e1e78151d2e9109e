"""Output formats, found by file name."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.writers.base import Item, Output, Writer

__all__ = ["Item", "Output", "Writer", "get", "names"]


def names() -> tuple[str, ...]:
    """The names of all formats, sorted."""
    return registry.names(__name__)


def get(name: str) -> Writer:
    """The writer of the format called `name`; KeyError if there is none."""
    writer: Writer = registry.module(__name__, name).WRITER
    return writer
