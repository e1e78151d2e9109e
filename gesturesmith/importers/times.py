"""Bars in the order in which they are played, with their times in quarters and in seconds."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from math import ceil

from gesturesmith.importers.notated import NotatedScore, TempoMark
from gesturesmith.importers.order import played
from gesturesmith.kinds import TempoTurn
from gesturesmith.values import frozen

USUAL_TEMPO = Fraction(90)  # quarters per minute, where a score names none: our own assumption, always said


_LONGEST_TURN = Fraction(64)  # quarters from its word to the tempo it leads to (our own judgement): sixteen bars
_STEPS = 2  # steady tempos in a quarter of it

# From each time in quarters on: that time, in seconds, and the quarters per minute.
type Paces = tuple[tuple[Fraction, Fraction, Fraction], ...]


@frozen(kw_only=True)
class PlayedBar:
    """A bar as it is played: its index in the score, and when it begins, in quarters."""

    index: int
    at: Fraction


@frozen(kw_only=True)
class ScoreTurn:
    """An accelerando or ritardando: from when, until when, in quarters of the played score, and its tempos."""

    kind: TempoTurn
    start: Fraction
    end: Fraction
    tempo: Fraction
    to: Fraction

    def tempo_at(self, quarters: Fraction) -> Fraction:
        """The tempo changes by as much in every beat."""
        return self.tempo + (self.to - self.tempo) * (quarters - self.start) / (self.end - self.start)


@frozen(kw_only=True)
class ScoreTimes:
    """When everything in a score happens.

    bars      in the order in which they are played
    tempos    from its beginning on
    assumed   whether the tempo of the beginning is not in the score
    turns     what gets faster or slower up to a tempo; `endless`: how many of these have none to reach
    complete  False if there are more bars than are played out
    """

    bars: tuple[PlayedBar, ...]
    tempos: Paces
    assumed: bool
    complete: bool
    ends: Fraction
    turns: tuple[ScoreTurn, ...] = ()
    endless: int = 0

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
    marks: list[tuple[Fraction, TempoMark]] = []
    for index in order:
        bar = score.bars[index]
        bars.append(PlayedBar(index=index, at=at))
        marks += [(at + mark.at, mark) for mark in bar.tempos]
        at += bar.lasts
    named = [(start, mark.quarters) for start, mark in marks if mark.quarters is not None]
    assumed = not named or named[0][0] > 0
    if assumed:
        named.insert(0, (Fraction(0), tempo or USUAL_TEMPO))
    turns, endless = _turns(marks, named)
    steps = [step for turn in turns for step in _steps(turn)]
    tempos: list[tuple[Fraction, Fraction, Fraction]] = []
    for start, quarters in sorted([*named, *steps], key=lambda row: row[0]):
        seconds = Fraction(0)
        if tempos:
            before, then, old = tempos[-1]
            seconds = then + (start - before) * 60 / old
        tempos.append((start, seconds, quarters))
    return ScoreTimes(
        bars=tuple(bars),
        tempos=tuple(tempos),
        assumed=assumed,
        complete=complete,
        ends=at,
        turns=tuple(turns),
        endless=endless,
    )


def _turns(
    marks: Sequence[tuple[Fraction, TempoMark]], named: Sequence[tuple[Fraction, Fraction]]
) -> tuple[list[ScoreTurn], int]:
    """What gets faster or slower up to the next mark, if that has a tempo on the way and is near; and how many
    others there are: nobody says how far these go, and the tempo stays."""
    found: list[ScoreTurn] = []
    endless = 0
    for n, (start, mark) in enumerate(marks):
        kind = mark.turn
        if kind not in ("accelerando", "ritardando"):
            continue
        row = bisect_right(named, start, key=lambda row: row[0])
        tempo = named[max(0, row - 1)][1]
        end, following = next(((at, after) for at, after in marks[n + 1 :] if at > start), (start, mark))
        to = following.quarters
        if to is None or end - start > _LONGEST_TURN or (to <= tempo if kind == "accelerando" else to >= tempo):
            endless += 1
        else:
            found.append(ScoreTurn(kind=kind, start=start, end=end, tempo=tempo, to=to))
    return found, endless


def _steps(turn: ScoreTurn) -> Iterator[tuple[Fraction, Fraction]]:
    """Steady tempos for a turn, each as in the middle of its step."""
    count = max(1, ceil((turn.end - turn.start) * _STEPS))
    step = (turn.end - turn.start) / count
    for n in range(count):
        # Tempos of a thousandth are finer than any clock, and their fractions stay short.
        tempo = turn.tempo_at(turn.start + step * (2 * n + 1) / 2).limit_denominator(1000)
        yield turn.start + step * n, tempo
