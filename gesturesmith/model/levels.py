"""The level in force at every time of a gesture: one curve, used by everything that judges by level.

Levels are places in LEVELS, 0 (niente) to 8 (fff). Between the two marks of a hairpin the place changes linearly;
elsewhere a mark holds until the next. Before the first mark, and if nothing is written, the level is mf.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from gesturesmith.model.gesture import LEVELS, DynamicMark, Gesture

PLACES = {level: place for place, level in enumerate(LEVELS)}
MF = PLACES["mf"]
_FEW = 8  # marks that are looked through one by one


class Ramp(NamedTuple):
    """A stretch, in beats, in which the level, as a place in LEVELS, is constant or changes linearly."""

    start: Fraction
    end: Fraction
    first: Fraction | int
    last: Fraction | int


def _ramp(gesture: Gesture, i: int) -> Ramp:
    """The stretch that begins at a mark; index -1 is the one before the first."""
    marks = gesture.dynamics
    end = marks[i + 1].at if i + 1 < len(marks) else gesture.beats
    if i < 0:
        return Ramp(Fraction(0), end, MF, MF)
    here = PLACES[marks[i].left]
    there = PLACES[marks[i + 1].plain] if marks[i].join and i + 1 < len(marks) else here
    return Ramp(marks[i].at, end, here, there)


def _latest(gesture: Gesture, beats: Fraction) -> int:
    """The index of the last mark reached, -1 for none."""
    marks = gesture.dynamics
    if len(marks) > _FEW:
        return bisect_right(marks, beats, key=_at) - 1
    n, d = beats.as_integer_ratio()
    for i, mark in enumerate(marks):  # in integers: called for every note, and fractions take several times as long
        m, e = mark.at.as_integer_ratio()
        if m * d > n * e:
            return i - 1
    return len(marks) - 1


def _at(mark: DynamicMark) -> Fraction:
    return mark.at


def ramps(gesture: Gesture, start: Fraction, end: Fraction) -> Iterator[Ramp]:
    """The curve from one time to another, in beats, in order and without gaps; empty if the times are equal."""
    held = level_held(gesture, start)
    if held is not None:
        if start < end:
            yield Ramp(start, end, held, held)
        return
    i, at = _latest(gesture, start), start
    while at is not end and at < end:
        ramp = _ramp(gesture, i)
        until = end if i + 1 == len(gesture.dynamics) else min(end, ramp.end)
        if at < until:
            yield Ramp(at, until, _on(ramp, at), _on(ramp, until))
        i, at = i + 1, until


def level_held(gesture: Gesture, beats: Fraction) -> int | None:
    """The place in LEVELS that holds from a time to the end of the gesture, None if a mark follows."""
    i = len(gesture.dynamics) - 1
    if i < 0:
        return MF
    last = gesture.dynamics[i]
    return PLACES[last.left] if last.at.numerator == 0 or last.at <= beats else None


def _on(ramp: Ramp, at: Fraction) -> Fraction | int:
    if ramp.first == ramp.last or at is ramp.start:
        return ramp.first
    if at is ramp.end:
        return ramp.last
    (a, b), (c, d), (e, f) = (time.as_integer_ratio() for time in (at, ramp.start, ramp.end))
    part, whole = (a * d - c * b) * f, (e * d - c * f) * b
    if part <= 0:
        return ramp.first
    if part >= whole:
        return ramp.last
    return Fraction(ramp.first * whole + (ramp.last - ramp.first) * part, whole)


def place_at(gesture: Gesture, beats: Fraction) -> Fraction | int:
    """The place in LEVELS at a time; at a mark its own, at an accent the level of its attack."""
    i = _latest(gesture, beats)
    if i >= 0 and gesture.dynamics[i].at.as_integer_ratio() == beats.as_integer_ratio():
        return PLACES[gesture.dynamics[i].plain]
    return _on(_ramp(gesture, i), beats)


def extent(gesture: Gesture, start: Fraction, end: Fraction) -> tuple[Fraction | int, Fraction | int]:
    """The softest and the loudest place from one time to just before another."""
    places = [place_at(gesture, start)]
    for n, ramp in enumerate(ramps(gesture, start, end)):
        places += [ramp.first, ramp.last]
        if n:  # the first begins at `start`
            places.append(place_at(gesture, ramp.start))
    return min(places), max(places)


def bounds(gesture: Gesture) -> tuple[int, int]:
    """Places in LEVELS that no moment of a gesture is softer or louder than."""
    marks = gesture.dynamics
    places = [PLACES[level] for mark in marks for level in (mark.plain, mark.left)]
    if not marks or marks[0].at.numerator:
        places.append(MF)
    return min(places), max(places)


def level_at(gesture: Gesture, beats: Fraction) -> str:
    """The level nearest to the curve at a time; of two equally near, the louder."""
    return LEVELS[math.floor(place_at(gesture, beats) + Fraction(1, 2))]


def mean(table: Sequence[float], first: float, last: float) -> float:
    """The mean of a quantity given for each level, linear in between, over a linear change of level."""
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
