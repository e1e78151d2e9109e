"""What each level of a student's lessons holds, one level in each file."""

from __future__ import annotations

from gesturesmith import registry
from gesturesmith.exercises.levels.base import StudentLevel


def names() -> tuple[str, ...]:
    """The names of all levels, the first-year student's first."""
    return registry.names(__name__)


def get(name: str) -> StudentLevel:
    """The level called `name`; KeyError if there is none."""
    level: StudentLevel = registry.module(__name__, name).LEVEL
    return level


def numbered() -> tuple[StudentLevel, ...]:
    """All levels, in order."""
    return tuple(sorted(map(get, names()), key=lambda level: level.number))
