"""From seconds to ticks, by a tempo track that reaches every row of a performance's time exactly when it comes."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from gesturesmith.backends.midi.smf import TICKS, Event, meta

_SET_TEMPO, _SLOWEST = 0x51, 0xFFFFFF
_MICRO = 1_000_000


class Ticks:
    """The ticks of a performance.

    time  (beats, seconds), both increasing, from (0, 0.0) on: the tempo is constant from row to row
    """

    def __init__(self, time: Sequence[tuple[Fraction, float]]) -> None:
        self._rows: list[tuple[int, float, int]] = []  # tick, seconds, microseconds a quarter from there on
        seconds = 0.0
        for (start, _), (end, ended) in pairwise(time):
            first, last = round(start * TICKS), round(end * TICKS)
            if last > first:
                # What rounding has lost so far is made good here.
                speed = round((ended - seconds) * _MICRO * TICKS / (last - first))
                speed = min(max(speed, 1), _SLOWEST)
                self._rows.append((first, seconds, speed))
                seconds += (last - first) / TICKS * speed / _MICRO
        self._seconds = [row[1] for row in self._rows]

    def at(self, seconds: float) -> int:
        """The tick nearest to a time."""
        tick, start, speed = self._rows[max(0, bisect_right(self._seconds, seconds) - 1)]
        return tick + round((seconds - start) * _MICRO * TICKS / speed)

    def events(self) -> Iterator[Event]:
        """The tempo events, one where the tempo changes."""
        before = 0
        for tick, _, speed in self._rows:
            if speed != before:
                yield (tick, 0, meta(_SET_TEMPO, speed.to_bytes(3, "big")))
            before = speed
