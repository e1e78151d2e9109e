"""The level in force at every time of a gesture: one curve, which all that judge by a level read.

Levels are places in LEVELS, 0 (niente) to 8 (fff). Between the two marks of a hairpin the place moves evenly from
one to the other; elsewhere a mark holds to the next; before the first, and where nothing is written, it is mf.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from gesturesmith.model.gesture import LEVELS, DynamicMark, Gesture

PLACES = {level: place for place, level in enumerate(LEVELS)}
MF = PLACES["mf"]


class Ramp(NamedTuple):
    """A stretch, in beats, through which the level stays or moves evenly, as places in LEVELS."""

    start: Fraction
    end: Fraction
    first: Fraction | int
    last: Fraction | int


def curve(gesture: Gesture) -> list[Ramp]:
    """The whole curve, in order and without gaps, from the start to the end of the gesture."""
    marks = gesture.dynamics
    ramps = [] if marks and not marks[0].at else [Ramp(Fraction(0), _next(marks, -1, gesture), MF, MF)]
    for i, mark in enumerate(marks):
        here = PLACES[mark.left]
        there = PLACES[marks[i + 1].plain] if mark.join and i + 1 < len(marks) else here
        ramps.append(Ramp(mark.at, _next(marks, i, gesture), here, there))
    return ramps


def _next(marks: Sequence[DynamicMark], i: int, gesture: Gesture) -> Fraction:
    return marks[i + 1].at if i + 1 < len(marks) else gesture.beats


def ramps(gesture: Gesture, start: Fraction, end: Fraction) -> Iterator[Ramp]:
    """The curve from one time to another, in beats; nothing where that is no time at all."""
    if len(gesture.dynamics) < 2 and not (gesture.dynamics and gesture.dynamics[0].at):  # by far the commonest
        level = PLACES[gesture.dynamics[0].left] if gesture.dynamics else MF
        if start < end:
            yield Ramp(start, end, level, level)
        return
    for ramp in curve(gesture):
        low, high = max(start, ramp.start), min(end, ramp.end)
        if low < high:
            yield Ramp(low, high, _on(ramp, low), _on(ramp, high))


def _on(ramp: Ramp, at: Fraction) -> Fraction | int:
    if ramp.first == ramp.last or at <= ramp.start:
        return ramp.first
    if at >= ramp.end:
        return ramp.last
    return ramp.first + (ramp.last - ramp.first) * (at - ramp.start) / (ramp.end - ramp.start)


def place_at(gesture: Gesture, beats: Fraction) -> Fraction | int:
    """The place in LEVELS at a time; at a mark its own, of an accent the level of the stroke."""
    struck = next((m for m in reversed(gesture.dynamics) if m.at == beats), None)
    if struck is not None:
        return PLACES[struck.plain]
    ramp = next((r for r in reversed(curve(gesture)) if r.start <= beats), None)
    return MF if ramp is None else _on(ramp, beats)


def extent(gesture: Gesture, start: Fraction, end: Fraction) -> tuple[Fraction | int, Fraction | int]:
    """The softest and the loudest place from a time on to just before another."""
    places = [place_at(gesture, start)]
    places += [p for ramp in ramps(gesture, start, end) for p in (ramp.first, ramp.last)]
    places += [PLACES[m.plain] for m in gesture.dynamics if start < m.at < end]
    return min(places), max(places)


def level_at(gesture: Gesture, beats: Fraction) -> str:
    """The level nearest to the curve at a time, of two the louder."""
    return LEVELS[math.floor(place_at(gesture, beats) + Fraction(1, 2))]


def mean(table: Sequence[float], first: float, last: float) -> float:
    """The mean of a number given by level, and even between levels, while the level moves evenly."""
    if first == last and first == int(first):
        return table[int(first)]
    low, high = min(first, last), max(first, last)
    if low == high:
        return _between(table, low)
    edges = [low, *range(math.floor(low) + 1, math.ceil(high)), high]
    pieces = pairwise(edges)
    area = sum((b - a) * (_between(table, a) + _between(table, b)) / 2 for a, b in pieces)
    return float(area / (high - low))


def _between(table: Sequence[float], place: float) -> float:
    low = min(math.floor(place), len(table) - 2)
    return table[low] + (table[low + 1] - table[low]) * (place - low)
