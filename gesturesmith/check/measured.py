"""A gesture as numbers: each of its points with the seconds, levels and pitch that difficulty reads."""

from __future__ import annotations

from typing import NamedTuple

from gesturesmith.check.comfort import MF, Comfort, Manner, manner
from gesturesmith.model.gesture import LEVELS, ContourPoint, Gesture

_PLACES = {level: place for place, level in enumerate(LEVELS)}


class Measured(NamedTuple):
    """One point as it is heard: seconds, levels by their place in LEVELS, cents where it has a pitch.

    level, level_after   in force at its start and at its end; softest, loudest: of all from start to end
    register             the middle one where it has no pitch
    """

    point: ContourPoint
    sounds: bool
    start: float
    end: float
    level: int
    level_after: int
    softest: int
    loudest: int
    cents: float | None
    register: int
    manner: Manner


def measure(gesture: Gesture, numbers: Comfort) -> list[Measured]:
    """Every point of a gesture with what is measured of it, silences as well."""
    beat = 60.0 / float(gesture.tempo)
    marks = [(float(m.at) * beat, _PLACES[m.plain]) for m in gesture.dynamics]
    techniques, own = gesture.techniques, manner(gesture.techniques)
    starts = [float(point.at) * beat for point in gesture.points]
    measured = []
    for point, start, end in zip(gesture.points, starts, (*starts[1:], float(gesture.beats) * beat), strict=True):
        level = after = softest = loudest = MF
        for at, place in marks:
            if at <= start:
                level = after = softest = loudest = place
            elif at <= end:
                after, softest, loudest = place, min(softest, place), max(loudest, place)
        if point.techniques is not techniques and point.techniques:
            techniques, own = point.techniques, manner(point.techniques)
        cents, register = None, numbers.home
        if point.sounding_cents is not None and own.pitched != "none":
            cents = float(point.sounding_cents)
            register = numbers.register(cents)
        sounds = point.kind != "silence"
        measured.append(Measured(point, sounds, start, end, level, after, softest, loudest, cents, register, own))
    return measured
