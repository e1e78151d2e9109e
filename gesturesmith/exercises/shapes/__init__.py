"""The shapes of practice lines: short phrases, one in each file."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.exercises.shapes.base import PhraseShape


def names() -> tuple[str, ...]:
    """The names of all shapes, sorted."""
    return registry.names(__name__)


def get(name: str) -> PhraseShape:
    """The shape called `name`; KeyError if there is none."""
    shape: PhraseShape = registry.module(__name__, name).SHAPE
    return shape
