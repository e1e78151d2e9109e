"""Output formats, found by the name of their file."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.writers.base import Item, Output, Writer

__all__ = ["Item", "Output", "Writer", "get", "names"]


def names() -> tuple[str, ...]:
    """The formats there are, sorted."""
    return registry.names(__name__)


def get(name: str) -> Writer:
    """The writer of the format called `name`; KeyError where there is none."""
    writer: Writer = registry.module(__name__, name).WRITER
    return writer
