"""From beats to seconds: the tempo, and fermatas, during which time stops."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from fractions import Fraction
from itertools import accumulate

from gesturesmith.evidence import PRACTICE, Sourced
from gesturesmith.model.gesture import Gesture
from gesturesmith.tones.types import Fermata
from gesturesmith.values import frozen

# What a fermata adds to the note under it, as a share of its length.
FERMATA = Sourced(1.0, PRACTICE, "common practice: about twice as long; players do as the music asks")

_END, _START = 0, 1  # held: the end of a slot; the pitch from which a line is about to leave


@frozen
class Pause:
    """A fermata: its time in beats, which part of the note is held, for how many seconds, and from when to when the
    note lasts."""

    beats: Fraction
    what: int
    seconds: float
    slot: tuple[Fraction, Fraction]


class Clock:
    """The times of beats, in seconds from the beginning of the music."""

    def __init__(self, tempo: Fraction, held: Iterable[Pause] = ()) -> None:
        self._tempo = tempo
        self._held = sorted(held, key=lambda h: (h.beats, h.what))
        self._places = [(h.beats, h.what) for h in self._held]
        self._passed = [0.0, *accumulate(h.seconds for h in self._held)]

    def reach(self, beats: Fraction) -> float:
        """When a time is first reached, before any fermata on it."""
        return self._seconds(beats, _END)

    def arrive(self, beats: Fraction) -> float:
        """When a time comes: after a fermata of the note that ends there."""
        return self._seconds(beats, _START)

    def leave(self, beats: Fraction) -> float:
        """When a line leaves a time: after a fermata on the pitch it starts from."""
        return self._seconds(beats, _START + 1)

    def rows(self, end: Fraction) -> tuple[tuple[Fraction, float], ...]:
        """Beats and their seconds from the beginning to the end, with a steady tempo from row to row that includes
        the fermatas."""
        places = {Fraction(0), end, *(beats for pause in self._held for beats in pause.slot)}
        return tuple((beats, self.arrive(beats)) for beats in sorted(places) if beats <= end)

    @property
    def fermatas(self) -> tuple[Fermata, ...]:
        return tuple(Fermata(beats=h.beats, seconds=h.seconds) for h in self._held)

    def _seconds(self, beats: Fraction, what: int) -> float:
        return float(beats * 60 / self._tempo) + self._passed[bisect_left(self._places, (beats, what))]


def pauses(gesture: Gesture, offset: Fraction) -> Iterable[Pause]:
    """The fermatas of a gesture that begins `offset` beats into the music; if the played and the sung line have one
    at the same time, the longer."""
    found: dict[tuple[Fraction, int], Pause] = {}
    lines = [(gesture.points, gesture.segments)]
    if gesture.sing is not None:
        lines.append((gesture.sing.points, gesture.sing.segments))
    for points, segments in lines:
        for index, point in enumerate(points):
            if "fermata" in point.marks:
                leaves = index < len(segments) and segments[index].slides
                place = (offset + point.at, _START) if leaves else (offset + point.until, _END)
                slot = gesture.seconds_at(point.until - point.at) or Fraction(60) / gesture.tempo
                until = points[index + 1].at if leaves else point.until
                pause = Pause(*place, float(slot) * FERMATA.value, (offset + point.at, offset + until))
                if place not in found or found[place].seconds < pause.seconds:
                    found[place] = pause
    return list(found.values())
