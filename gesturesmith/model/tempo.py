"""Time in seconds: the tempo of a passage, which may change at a time or little by little.

While it gets faster or slower, the tempo changes by as much in every beat (`LAW`), so that the time is a logarithm:
from T0 to T1 over n beats, at a rate k = (T1 - T0) / n, beat b comes after 60/k * ln((T0 + k b) / T0) seconds.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.values import frozen

LAW = Sourced(
    1,
    HOUSE,
    "the power of the tempo that changes evenly along the beats: 1, the tempo itself; measured endings are better "
    "met by 2 or 3, which take 4 or 7 % less time where the tempo is halved",
)
# What a fermata adds to the note or rest under it, as a share of its length.
FERMATA = Sourced(1.0, PRACTICE, "common practice: about twice as long; players do as the music asks")


@frozen(kw_only=True)
class TempoStretch:
    """A tempo from a time on, in quarters a minute, exact; `to`: the one it has reached by `until`.

    `until` is None at the end of a map, where the tempo stays. `begins`: the seconds from the beginning of the map.
    """

    at: Fraction
    tempo: Fraction
    to: Fraction
    until: Fraction | None = None
    begins: float = 0.0

    def tempo_at(self, at: Fraction) -> Fraction:
        """The tempo at a time within it."""
        if self.until is None or self.to == self.tempo:
            return self.tempo
        return self.tempo + (self.to - self.tempo) * (at - self.at) / (self.until - self.at)

    def seconds(self, at: Fraction) -> float:
        """The seconds from its beginning to a time within it."""
        if self.until is None or self.to == self.tempo:
            return float((at - self.at) * 60 / self.tempo)
        rate = (self.to - self.tempo) / (self.until - self.at)
        return 60 / float(rate) * math.log1p(float(rate * (at - self.at) / self.tempo))

    @property
    def changes(self) -> bool:
        """Whether it gets faster or slower."""
        return self.until is not None and self.to != self.tempo


@frozen
class TempoMap:
    """The tempo of a passage throughout: stretches that follow each other without a gap, the first from time 0, the
    last without an end. Times are in quarters from its beginning."""

    stretches: tuple[TempoStretch, ...]

    @property
    def first(self) -> Fraction:
        """The tempo at the beginning, in quarters a minute."""
        return self.stretches[0].tempo

    @property
    def steady(self) -> bool:
        """Whether the tempo never changes."""
        return len(self.stretches) == 1

    def tempo_at(self, at: Fraction) -> Fraction:
        """The tempo at a time, in quarters a minute; where it changes suddenly, the new one."""
        return self._stretch(at).tempo_at(at)

    def seconds(self, at: Fraction) -> float:
        """The seconds from the beginning to a time."""
        # At the boundary the stretch before it: what comes there has that time.
        one = self.stretches[max(0, bisect_left(self.stretches, at, key=_begin) - 1)]
        return one.begins + one.seconds(at)

    def between(self, start: Fraction, end: Fraction) -> float:
        """The seconds from one time to another."""
        if self.steady:
            return float((end - start) * 60 / self.first)
        return self.seconds(end) - self.seconds(start)

    def part(self, start: Fraction, end: Fraction) -> TempoMap:
        """The tempo between two times, with times from the first of them."""
        found: list[TempoStretch] = []
        first = max(0, bisect_right(self.stretches, start, key=_begin) - 1)
        last_one = max(first + 1, bisect_left(self.stretches, end, key=_begin))
        for number, one in enumerate(self.stretches[first:last_one], start=first):
            after = self.stretches[number + 1].at if number + 1 < len(self.stretches) else None
            if one.at >= end > start or (after is not None and after <= start):
                continue
            since, until = max(one.at, start), None if after is None or after >= end else after
            if one.changes:
                until = min(end, after) if after is not None else end
            tempo = one.tempo_at(since)
            to = tempo if until is None or not one.changes else one.tempo_at(until)
            found.append(
                TempoStretch(
                    at=since - start, tempo=tempo, to=to, until=until - start if until is not None else None
                )
            )
        last = found[-1]
        if last.until is not None:
            found.append(TempoStretch(at=last.until, tempo=last.to, to=last.to))
        return _timed(found)

    def _stretch(self, at: Fraction) -> TempoStretch:
        return self.stretches[max(0, bisect_right(self.stretches, at, key=_begin) - 1)]


def steady(tempo: Fraction) -> TempoMap:
    """One tempo throughout."""
    return TempoMap((TempoStretch(at=Fraction(0), tempo=tempo, to=tempo),))


def mapped(tempo: Fraction, turns: Iterable[tuple[Fraction, Fraction, Fraction]]) -> TempoMap:
    """The map of a passage that begins at a tempo.

    turns   in order, without overlap: from when, until when (the same for a sudden change), to which tempo
    """
    found = [TempoStretch(at=Fraction(0), tempo=tempo, to=tempo)]

    def begin(stretch: TempoStretch) -> None:
        before = found[-1]
        if before.until is None:
            found[-1] = TempoStretch(at=before.at, tempo=before.tempo, to=before.to, until=stretch.at)
        if found[-1].until == found[-1].at:
            found.pop()
        found.append(stretch)

    for start, end, to in turns:
        now = found[-1].to
        if end > start:
            begin(TempoStretch(at=start, tempo=now, to=to, until=end))
        begin(TempoStretch(at=end, tempo=to, to=to))
    return _timed(found)


def _begin(stretch: TempoStretch) -> Fraction:
    return stretch.at


def _timed(stretches: list[TempoStretch]) -> TempoMap:
    """A map of these, each with its beginning in seconds."""
    begins, made = 0.0, []
    for one in stretches:
        made.append(replace(one, begins=begins))
        begins += one.seconds(one.until) if one.until is not None else 0.0
    return TempoMap(tuple(made))
