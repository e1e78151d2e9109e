"""A gesture as numbers: the seconds, levels and pitch of each point, for the difficulty."""

from __future__ import annotations

from typing import NamedTuple

from gesturesmith.difficulty.comfort import Comfort, TechniqueLoad, technique_load
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.levels import extent, place_at, ramps


class Measured(NamedTuple):
    """One point as heard: seconds, levels by their place in LEVELS, cents if it has a pitch.

    softest, loudest     of all levels from its start to its end
    ramps                seconds in which the level is constant or changes linearly, with its first and last place
    register             the middle one if it has no pitch
    """

    point: ContourPoint
    sounds: bool
    start: float
    end: float
    softest: float
    loudest: float
    ramps: tuple[tuple[float, float, float], ...]
    cents: float | None
    register: int
    load: TechniqueLoad


def measure(gesture: Gesture, numbers: Comfort) -> list[Measured]:
    """Measure every point of a gesture, including silences."""
    steady = len(gesture.dynamics) < 2
    techniques, own = gesture.techniques, technique_load(gesture.instrument, gesture.techniques)
    starts = gesture.in_time(point.at for point in gesture.points)
    finish = gesture.in_time((gesture.beats,))[0]
    measured = []
    for point, start, end in zip(gesture.points, starts, (*starts[1:], finish), strict=True):
        around = [place_at(gesture, point.at)] if steady else extent(gesture, point.at, point.until)
        softest, loudest = float(min(around)), float(max(around))
        levels = tuple(
            [
                (gesture.seconds_between(r.start, r.end), float(r.first), float(r.last))
                for r in ramps(gesture, point.at, point.until)
            ]
        )
        if point.techniques is not techniques and point.techniques:
            techniques, own = point.techniques, technique_load(gesture.instrument, point.techniques)
        cents, register = None, numbers.home
        if point.sounding_cents is not None and own.pitched != "none":
            cents = float(point.sounding_cents)
            register = numbers.register(cents)
        sounds = point.kind != "silence"
        measured.append(Measured(point, sounds, start, end, softest, loudest, levels, cents, register, own))
    return measured
