"""Trials: what a player tries, so that a limit rests on the word of players. One family of limits in each file."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.exercises.trials.base import Family


def names() -> tuple[str, ...]:
    """The names of all families, sorted."""
    return registry.names(__name__)


def get(name: str) -> Family:
    """The family called `name`; KeyError if there is none."""
    family: Family = registry.module(__name__, name).FAMILY
    return family
