"""Bars in the order in which they are played, with their times in quarters and in seconds."""

from __future__ import annotations

from bisect import bisect_right
from fractions import Fraction
from functools import lru_cache

from gesturesmith.importers.notated import NotatedScore
from gesturesmith.importers.order import played
from gesturesmith.values import frozen

USUAL_TEMPO = Fraction(90)  # quarters per minute, where a score names none: our own assumption, always said


# From each time in quarters on: that time, in seconds, and the quarters per minute.
type Paces = tuple[tuple[Fraction, Fraction, Fraction], ...]


@frozen(kw_only=True)
class PlayedBar:
    """A bar as it is played: its index in the score, and when it begins, in quarters."""

    index: int
    at: Fraction


@frozen(kw_only=True)
class ScoreTimes:
    """When everything in a score happens.

    bars      in the order in which they are played
    tempos    from its beginning on
    assumed   whether the tempo of the beginning is not in the score
    complete  False if there are more bars than are played out
    """

    bars: tuple[PlayedBar, ...]
    tempos: Paces
    assumed: bool
    complete: bool
    ends: Fraction

    def seconds(self, quarters: Fraction) -> Fraction:
        """A time in quarters as seconds from the beginning."""
        at, seconds, tempo = self.tempos[max(0, bisect_right(self.tempos, quarters, key=lambda row: row[0]) - 1)]
        return seconds + (quarters - at) * 60 / tempo

    def paces(self, start: Fraction, lasts: Fraction) -> Paces:
        """The tempos of a stretch."""
        first = max(0, bisect_right(self.tempos, start, key=lambda row: row[0]) - 1)
        rows = [(Fraction(0), Fraction(0), self.tempos[first][2])]
        for at, _, tempo in self.tempos[first + 1 :]:
            if at >= start + lasts:
                break
            since, then, before = rows[-1]
            rows.append((at - start, then + (at - start - since) * 60 / before, tempo))
        return tuple(rows)

    def tempo(self, quarters: Fraction) -> Fraction:
        """The quarters per minute at a time in quarters."""
        return self.tempos[max(0, bisect_right(self.tempos, quarters, key=lambda row: row[0]) - 1)][2]


@lru_cache(maxsize=4096)
def seconds_in(paces: Paces, quarters: Fraction) -> Fraction:
    """A time in quarters from the beginning of a stretch, in seconds; the same few return throughout a score."""
    at, seconds, tempo = paces[max(0, bisect_right(paces, quarters, key=lambda row: row[0]) - 1)]
    return seconds + (quarters - at) * 60 / tempo


def timetable(score: NotatedScore, tempo: Fraction | None = None) -> ScoreTimes:
    """The times of a score. `tempo`: quarters per minute until the first tempo that the score names."""
    order, complete = played(score.bars)
    at = Fraction(0)
    bars: list[PlayedBar] = []
    rows: list[tuple[Fraction, Fraction]] = []
    for index in order:
        bar = score.bars[index]
        bars.append(PlayedBar(index=index, at=at))
        rows += [(at + mark.at, mark.quarters) for mark in bar.tempos if mark.quarters is not None]
        at += bar.lasts
    assumed = not rows or rows[0][0] > 0
    if assumed:
        rows.insert(0, (Fraction(0), tempo or USUAL_TEMPO))
    tempos: list[tuple[Fraction, Fraction, Fraction]] = []
    for start, quarters in rows:
        seconds = Fraction(0)
        if tempos:
            before, then, old = tempos[-1]
            seconds = then + (start - before) * 60 / old
        tempos.append((start, seconds, quarters))
    return ScoreTimes(bars=tuple(bars), tempos=tuple(tempos), assumed=assumed, complete=complete, ends=at)
