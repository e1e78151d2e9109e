"""The plane of a sketch: written pitches from bottom to top, seconds from left to right."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from fractions import Fraction

from gesturesmith.pictures.svg import Point
from gesturesmith.tones import Curve
from gesturesmith.values import frozen

LEFT, TOP, WIDTH, HEIGHT = 64.0, 62.0, 430.0, 240.0
_LEAST = 1200.0  # cents from bottom to top
_AROUND = 150.0  # cents beyond what is shown


@frozen(kw_only=True)
class Plot:
    """Where pitches and times lie.

    low, high   written cents at the bottom and at the top
    seconds     at the right end
    time        (beats, seconds), as in `Performance.time`
    up          cents from a sounding pitch to the written one
    """

    low: float
    high: float
    seconds: float
    time: tuple[tuple[Fraction, float], ...]
    up: float

    def y(self, sounding_cents: float) -> float:
        """The height of a sounding pitch, inside the plot."""
        share = (self.high - (sounding_cents + self.up)) / (self.high - self.low)
        return TOP + HEIGHT * min(max(share, 0.0), 1.0)

    def shows(self, sounding_cents: float) -> bool:
        """Whether a pitch is inside the plot."""
        return self.low <= sounding_cents + self.up <= self.high

    def x(self, seconds: float) -> float:
        """The place of a time."""
        return LEFT + WIDTH * min(max(seconds / self.seconds, 0.0), 1.0)

    def at(self, beats: Fraction) -> float:
        """The place of a time in beats."""
        i = max(0, bisect_right(self.time, beats, key=lambda row: row[0]) - 1)
        (start, begun), (end, ended) = self.time[i], self.time[min(i + 1, len(self.time) - 1)]
        share = float((beats - start) / (end - start)) if end > start else 0.0
        return self.x(begun + (ended - begun) * share)

    def curve(self, curve: Curve) -> list[Point]:
        """A curve of sounding cents over seconds."""
        return [(self.x(seconds), self.y(cents)) for seconds, cents in curve]


def around(heights: Sequence[float], up: float) -> tuple[float, float]:
    """The lowest and highest written cents of a plot that shows some sounding pitches."""
    low, high = min(heights) + up - _AROUND, max(heights) + up + _AROUND
    lacking = max(0.0, _LEAST - (high - low)) / 2
    return low - lacking, high + lacking
