"""Techniques, found by the name of their file."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.techniques.base import Technique


def names() -> tuple[str, ...]:
    """The techniques there are, sorted."""
    return registry.names(__name__)


def get(name: str) -> Technique:
    """The technique called `name`; KeyError where there is none."""
    technique: Technique = registry.module(__name__, name).TECHNIQUE
    return technique
