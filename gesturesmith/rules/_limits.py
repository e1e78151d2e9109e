"""A measured value against a limit on which readings differ."""

from __future__ import annotations

from typing import Any

from gesturesmith.diagnostics import Severity
from gesturesmith.evidence import PRACTICE, Limit, Sourced
from gesturesmith.model.gesture import LEVELS
from gesturesmith.values import frozen

# A player's page is no measurement: beyond its widest reading a finding still only cautions, far beyond it
# refuses. A quarter more is far for rates and durations; it only ever makes the checker milder.
FAR = 1.25


@frozen
class Excess:
    """A limit that was passed: how gravely, the value of the limit, and what it rests on."""

    severity: Severity
    limit: Any
    evidence: Sourced[Any]


def above(limit: Limit | None, value: float) -> Excess | None:
    """Whether `value` is above the limit: caution beyond the narrow reading, refused beyond the wide one."""
    if limit is None or value <= limit.narrow.value:
        return None
    wide = limit.wide
    if wide is not None and value > wide.value * (FAR if wide.kind is PRACTICE else 1):
        return Excess(Severity.REFUSED, wide.value, wide)
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow)


def below(limit: Limit | None, value: float) -> Excess | None:
    """The same for a value that must not be below."""
    if limit is None or value >= limit.narrow.value:
        return None
    wide = limit.wide
    if wide is not None and value < wide.value / (FAR if wide.kind is PRACTICE else 1):
        return Excess(Severity.REFUSED, wide.value, wide)
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow)


def louder(limit: Limit | None, level: str) -> Excess | None:
    """Whether a dynamic level is louder than the limit; levels only caution."""
    if limit is None or LEVELS.index(level) <= LEVELS.index(limit.narrow.value):
        return None
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow)


def softer(limit: Limit | None, level: str) -> Excess | None:
    """Whether a level is softer than the limit. Niente is a way of beginning and ending, not a level to hold."""
    if limit is None or level == "n" or LEVELS.index(level) >= LEVELS.index(limit.narrow.value):
        return None
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow)
