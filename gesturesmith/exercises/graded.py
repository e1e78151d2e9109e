"""Practice lines for a technique in five levels, chosen from what the checker approves on an instrument.

Every shape of the technique is tried on the naturals of the usual range, at several paces and dynamic levels.
Playable ones are ordered by difficulty and divided into five equal parts: level 1 is the easiest fifth. Each part
gives a few lines: one shape at one pace, climbing from note to note.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from itertools import groupby, pairwise, product

from gesturesmith.diagnostics import Verdict
from gesturesmith.difficulty.score import difficulty
from gesturesmith.exercises import probes
from gesturesmith.instruments.base import Instrument
from gesturesmith.judge.gesture import judge
from gesturesmith.model import move
from gesturesmith.model.gesture import LEVELS, DynamicMark, Gesture
from gesturesmith.rules.base import Case
from gesturesmith.techniques.base import Technique
from gesturesmith.units import Spelling
from gesturesmith.values import frozen

LEVELS_OF_SHEETS = (1, 2, 3, 4, 5)
_BEATS = (Fraction(4), Fraction(2), Fraction(1))
_TEMPI = (Fraction(60), Fraction(88))
_LINES = 8  # on a sheet
_CLIMB = 3  # gestures in a line
_WIDEST_STEP = 500  # cents from one start to the next: further apart they do not make a line


@frozen(kw_only=True)
class Graded:
    """One gesture: how it is played, its difficulty, and its series: shape, beats, tempo, level."""

    case: Case
    difficulty: float
    series: tuple[int, Fraction, Fraction, str]
    start: Fraction  # written cents above C-1


@lru_cache(maxsize=2)  # thousands of cases each
def playable(technique: Technique, instrument: Instrument) -> tuple[Graded, ...]:
    """Everything tried that is playable without care, the easiest first.

    Gestures with advice from the checker are left out as well, unless it has advice on all of them.
    """
    plain: list[Graded] = []
    advised: list[Graded] = []
    shapes = probes.probe_gestures(technique, instrument)
    paces = _paces(technique)
    for start, (number, shape) in product(_starts(technique, instrument), enumerate(shapes)):
        gesture = shape.at(start)
        if gesture is None or judge(gesture).verdict is Verdict.NOT_AS_WRITTEN:
            continue
        for beats, tempo, level in paces:
            judged = judge(_paced(gesture, beats, tempo, level))
            if judged.verdict is Verdict.PLAYABLE:
                one = Graded(
                    case=judged.case,
                    difficulty=difficulty(judged.case).exact,
                    series=(number, beats, tempo, level),
                    start=start.pitch_cents,
                )
                (advised if judged.findings else plain).append(one)
    return tuple(sorted(plain or advised, key=lambda g: (g.difficulty, g.start, g.series)))


def of_level(found: tuple[Graded, ...], level: int) -> tuple[tuple[Graded, ...], ...]:
    """The lines of a sheet, in the order to practise them; () if there is nothing for this level.

    level   1 (the easiest) to 5
    """
    whole = len(LEVELS_OF_SHEETS)
    part = found[len(found) * (level - 1) // whole : len(found) * level // whole]
    climbs = [_climb(group) for group in _grouped(part)]
    full = [climb for climb in climbs if len(climb) == _CLIMB]
    chosen = _spread(full, _LINES)
    if len(chosen) < _LINES:
        chosen += _spread([climb for climb in climbs if len(climb) < _CLIMB], _LINES - len(chosen))
    return tuple(tuple(line) for line in sorted(chosen, key=_place))


def _starts(technique: Technique, instrument: Instrument) -> tuple[Spelling, ...]:
    """The written naturals of the usual range, or of the middle register if the technique has no pitch."""
    naturals = tuple(s for s in probes.written_range(instrument) if s.alter == 0)
    middle = instrument.register("middle")
    if technique.pitched == "none" and middle is not None:
        return tuple(s for s in naturals if middle.low.pitch_cents <= s.pitch_cents <= middle.high.pitch_cents)
    return naturals


def _paces(technique: Technique) -> tuple[tuple[Fraction, Fraction, str], ...]:
    """Beats, tempo and level: all paces at the usual level, and the slowest one softer and louder as well."""
    usual = probes.level_for(technique)
    others = (level for level in _levels(technique) if level != usual)
    return (
        *((beats, tempo, usual) for beats, tempo in product(_BEATS, _TEMPI)),
        *((_BEATS[0], _TEMPI[0], level) for level in others),
    )


def _levels(technique: Technique) -> tuple[str, ...]:
    """The dynamic level at which a technique is tried, with one softer and one louder if it has them."""
    usual = LEVELS.index(probes.level_for(technique))
    softest, loudest = technique.limits.get("softest"), technique.limits.get("loudest")
    least = LEVELS.index(softest.narrow.value if softest is not None else "p")
    most = LEVELS.index(loudest.narrow.value if loudest is not None else "f")
    row = (usual, usual - 2, usual + 1)
    return tuple(LEVELS[n] for n in row if least <= n <= most)


def _paced(gesture: Gesture, beats: Fraction, tempo: Fraction, level: str) -> Gesture:
    mark = DynamicMark(level=level, at=Fraction(0), join="", span=gesture.span)
    paced = move.at_tempo(move.lasting(gesture, beats, seconds=False), tempo)
    return replace(paced, dynamics=(mark,))


def _grouped(part: Iterable[Graded]) -> list[list[Graded]]:
    """The lines by series, each by pitch; series with the easier lines first."""
    row = sorted(part, key=lambda g: (g.series, g.start))
    groups = [list(group) for _, group in groupby(row, key=lambda g: g.series)]
    return sorted(groups, key=_place)


def _place(group: list[Graded]) -> tuple[float, int, Fraction, Fraction, str, Fraction]:
    """The sort key of a group: by mean difficulty, then plainer and longer first."""
    mean = round(sum(g.difficulty for g in group) / len(group), 9)
    shape, beats, tempo, level = group[0].series
    return mean, shape, -beats, tempo, level, group[0].start


def _climb(group: list[Graded]) -> list[Graded]:
    """The longest row of neighbours in a series, the easiest of equals."""
    for length in range(_CLIMB, 0, -1):
        runs = [group[n : n + length] for n in range(len(group) - length + 1)]
        near = [r for r in runs if all(b.start - a.start <= _WIDEST_STEP for a, b in pairwise(r))]
        if near:
            return min(near, key=_place)
    return []


def _spread(groups: list[list[Graded]], count: int) -> list[list[Graded]]:
    """A number of groups in even steps from the easiest to the hardest, of different shapes if possible."""
    chosen: list[list[Graded]] = []
    for n in range(count):
        part = groups[len(groups) * n // count : len(groups) * (n + 1) // count]
        used = {row[0].series[0] for row in chosen}
        fresh = [row for row in part if row[0].series[0] not in used]
        chosen += (fresh or part)[:1]
    return chosen
