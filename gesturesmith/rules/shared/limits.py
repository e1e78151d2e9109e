"""A measured value against a limit on which readings differ."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.evidence import DERIVED, PLAYER, Limit, Sourced
from gesturesmith.model.gesture import LEVELS, Gesture
from gesturesmith.model.levels import extent, place_at
from gesturesmith.rules.shared.reading import plain
from gesturesmith.values import frozen

# A player's page is no measurement: beyond its widest reading a finding still only cautions, far beyond it
# refuses. A quarter more is far for rates and durations; it only ever makes the checker milder.
FAR = 1.25
# What is lost on the way to a measure in binary fractions: a value that reaches its limit does not pass it.
_LOST = 1e-9


@frozen
class Excess:
    """A limit that was passed: how gravely, the value of the limit, and what it rests on.

    caveat   where only the narrow value was passed and there is a wide one: what that allows, as a clause that
             follows the limit; else ""
    """

    severity: Severity
    limit: Any
    evidence: Sourced[Any]
    caveat: str = ""


def above(limit: Limit | None, value: float) -> Excess | None:
    """Whether `value` is above the limit: caution beyond the narrow reading, refused beyond the wide one."""
    if limit is None or value <= limit.narrow.value + _LOST * abs(limit.narrow.value):
        return None
    wide = limit.wide
    if wide is not None and value > wide.value * (FAR if wide.kind.only_far else 1):
        return Excess(Severity.REFUSED, wide.value, wide)
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow, _caveat(limit, "up"))


def below(limit: Limit | None, value: float) -> Excess | None:
    """The same for a value that must not be below."""
    if limit is None or value >= limit.narrow.value - _LOST * abs(limit.narrow.value):
        return None
    wide = limit.wide
    if wide is not None and value < wide.value / (FAR if wide.kind.only_far else 1):
        return Excess(Severity.REFUSED, wide.value, wide)
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow, _caveat(limit, "down"))


def _caveat(limit: Limit, way: str) -> str:
    wide = limit.wide
    if wide is None or wide.value == limit.narrow.value or limit.narrow.kind is PLAYER:
        return ""
    if limit.wide_means:
        return f" ({limit.wide_means})"
    if wide.kind is DERIVED:  # not another opinion, but where it ends for everybody
        return f" (impossible beyond {plain(wide.value)})"
    return f" (readings differ, {way} to {plain(wide.value)})"


# Levels are no measures: what lies on the way from one to the next is the nearer of the two, and half way still
# the one that is allowed.
_HALF = Fraction(1, 2)


def louder(limit: Limit | None, place: Fraction | int) -> Excess | None:
    """Whether a place on the scale of levels is louder than the limit; levels only caution."""
    if limit is None or place <= LEVELS.index(limit.narrow.value) + _HALF:
        return None
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow)


def softer(limit: Limit | None, place: Fraction | int) -> Excess | None:
    """Whether a place is softer than the limit. Niente is a way of beginning and ending, not a level to hold."""
    if limit is None or place < _HALF or place >= LEVELS.index(limit.narrow.value) - _HALF:
        return None
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow)


def loudest_of(gesture: Gesture, index: int, *, throughout: bool = True) -> Fraction | int:
    """The loudest place while a point sounds; only where it begins, if not `throughout`."""
    point = gesture.points[index]
    if not throughout or len(gesture.dynamics) < 2:
        return place_at(gesture, point.at)
    return extent(gesture, point.at, point.until)[1]


def level_words(gesture: Gesture, at: Fraction, place: Fraction | int) -> str:
    """A level asked for from a time on: "at ff", "swelling to ff", "at about f (on the way from pp to ff)"."""
    level = LEVELS[round(place)]
    if place != place_at(gesture, at):
        return f"swelling to {level}"
    if any(m.at == at for m in gesture.dynamics):
        return f"at {level}"
    marks = [m for m in gesture.dynamics if m.at < at][-1:] + [m for m in gesture.dynamics if m.at > at][:1]
    if len(marks) == 2 and marks[0].join:
        return f"at about {level} (on the way from {marks[0].left} to {marks[1].plain})"
    return f"at {level}"


def level_number(place: Fraction | int, limit: str) -> Number:
    """A place on the scale of levels beside its limit."""
    return Number(name="level", value=float(place), limit=LEVELS.index(limit), unit="steps from niente")
