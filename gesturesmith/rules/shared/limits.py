"""Compares a measured value with a limit on which readings differ."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.evidence import DERIVED, PLAYER, Limit, Sourced
from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import LEVELS, Gesture
from gesturesmith.model.levels import extent, place_at
from gesturesmith.rules.shared.reading import plain
from gesturesmith.techniques.base import Technique, own_name
from gesturesmith.values import frozen

# Players' advice is not a measurement: beyond its widest reading a finding still only cautions; only far beyond
# does it refuse. A quarter more counts as far for rates and durations; this only ever makes the checker milder.
FAR = 1.25
# Allows for rounding of binary fractions: a value equal to its limit does not exceed it.
_LOST = 1e-9


@frozen
class Excess:
    """An exceeded limit: the severity, the value of the limit and its evidence.

    caveat   if only the narrow value is exceeded and there is a wide one: what that allows, as a clause to follow
             the limit; else ""
    """

    severity: Severity
    limit: Any
    evidence: Sourced[Any]
    caveat: str = ""


def above(limit: Limit | None, value: float) -> Excess | None:
    """Whether `value` is above the limit: a caution beyond the narrow reading, a refusal beyond the wide one."""
    if limit is None or value <= limit.narrow.value + _LOST * abs(limit.narrow.value):
        return None
    wide = limit.wide
    if wide is not None and value > wide.value * (FAR if wide.kind.only_far else 1):
        return Excess(Severity.REFUSED, wide.value, wide)
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow, _caveat(limit, "up"))


def below(limit: Limit | None, value: float) -> Excess | None:
    """The same for a value that must not be below the limit."""
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
    if wide.kind is DERIVED:  # not another opinion, but a physical end
        return f" (impossible beyond {plain(wide.value)})"
    return f" (readings differ, {way} to {plain(wide.value)})"


def of_technique(instrument: Instrument, technique: Technique, name: str) -> Limit | None:
    """A limit of a technique: the one that a profile of the instrument or a player has for it, else its own."""
    return instrument.limits.get(own_name(technique.key, name)) or technique.limits.get(name)


# Levels are not measurements: between two of them the nearer one counts, and half way still the allowed one.
_HALF = Fraction(1, 2)


def louder(limit: Limit | None, place: Fraction | int) -> Excess | None:
    """Whether a place in LEVELS is louder than the limit; levels only caution."""
    if limit is None or place <= LEVELS.index(limit.narrow.value) + _HALF:
        return None
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow)


def softer(limit: Limit | None, place: Fraction | int) -> Excess | None:
    """Whether a place is softer than the limit. Niente is a way to begin or end, not a level to hold."""
    if limit is None or place < _HALF or place >= LEVELS.index(limit.narrow.value) - _HALF:
        return None
    return Excess(Severity.CAUTION, limit.narrow.value, limit.narrow)


def loudest_of(gesture: Gesture, index: int, *, throughout: bool = True) -> Fraction | int:
    """The loudest place while a point sounds; only at its beginning, if not `throughout`."""
    point = gesture.points[index]
    if not throughout or len(gesture.dynamics) < 2:
        return place_at(gesture, point.at)
    return extent(gesture, point.at, point.until)[1]


def level_words(gesture: Gesture, at: Fraction, place: Fraction | int) -> str:
    """The level asked for at a time, in words: "at ff", "swelling to ff", "fading to pp", "at about f (on the way
    from pp to ff)"."""
    level = LEVELS[round(place)]
    if place != place_at(gesture, at):
        return f"{'swelling' if place > place_at(gesture, at) else 'fading'} to {level}"
    if any(m.at == at for m in gesture.dynamics):
        return f"at {level}"
    marks = [m for m in gesture.dynamics if m.at < at][-1:] + [m for m in gesture.dynamics if m.at > at][:1]
    if len(marks) == 2 and marks[0].join:
        return f"at about {level} (on the way from {marks[0].left} to {marks[1].plain})"
    return f"at {level}"


def level_number(place: Fraction | int, limit: str) -> Number:
    """A place in LEVELS with its limit."""
    return Number(name="level", value=float(place), limit=LEVELS.index(limit), unit="steps from niente")
