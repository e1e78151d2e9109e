"""A term of lessons: what is new in which week, what comes again, and at which tempi.

Lines come again at growing distances, quicker each time; what did not go well comes again the week after, no
quicker. A week depends on the marks of earlier weeks only, so that marking the last one never changes a sheet that
was given out.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from gesturesmith import techniques
from gesturesmith.diagnostics import Verdict
from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.exercises.graded import Graded, graded
from gesturesmith.instruments.base import Instrument
from gesturesmith.judge.gesture import judge
from gesturesmith.model import move
from gesturesmith.rules.base import Case
from gesturesmith.values import frozen

APART = Sourced((1, 2, 4, 8), HOUSE, "weeks until a line that went well comes again, longer each time")
LADDERS = Sourced(
    ((80, 90, 100), (90, 100, 105), (100, 105, 110), (105, 110, 115)),
    HOUSE,
    "tempi of a line each time it comes, in per cent of the level's: begun slower, then past it",
)
_NEW, _FIRST = 2, 3  # new lines a week, and in the first week
_TROUBLE = 2  # so many lines that did not go well leave room for one new line only
_SEEDS = 8  # sets of lines to draw from, if a technique fills many weeks


@frozen(kw_only=True)
class TermPlan:
    """What a teacher asks for.

    title        as printed
    instrument   the student's
    techniques   keys of the techniques to learn, in this order
    level        1 to 5
    dates        the first day of each week with a lesson; pauses: of those without
    seed         another number gives other lines
    """

    title: str
    instrument: Instrument
    techniques: tuple[str, ...]
    level: int
    dates: tuple[datetime.date, ...]
    pauses: tuple[datetime.date, ...] = ()
    seed: int = 0


@frozen(kw_only=True)
class PlannedLine:
    """A line of a week.

    technique   its key
    line        the line
    since       the week in which it was new, from 1
    again       whether it did not go well last time
    tempi       quarters a minute, the slowest first, at each of which it is playable
    """

    technique: str
    line: Graded
    since: int
    again: bool
    tempi: tuple[int, ...]

    def at(self, tempo: int) -> Case:
        """How it is played at a tempo."""
        return judge(move.at_tempo(self.line.case.gesture, Fraction(tempo))).case


@frozen(kw_only=True)
class Week:
    """A week: its number from 1, its first day, and its lines."""

    number: int
    date: datetime.date
    lines: tuple[PlannedLine, ...]

    @property
    def new(self) -> tuple[PlannedLine, ...]:
        return tuple(line for line in self.lines if line.since == self.number)


# For each week with marks: the numbers of the lines that are to come again. All others went well.
type Marks = Mapping[int, tuple[int, ...]]


class _Learnt:
    """What is known of a line so far."""

    def __init__(self, technique: str, line: Graded, since: int) -> None:
        self.technique, self.line, self.since = technique, line, since
        self.stage, self.due, self.again = 0, since, False

    def shown(self, week: int, *, well: bool) -> None:
        if well:
            self.due = week + APART.value[min(self.stage, len(APART.value) - 1)]
            self.stage += 1
        else:
            self.due = week + 1
        self.again = not well


def weeks(plan: TermPlan, marks: Marks, most: int, fewer: Mapping[int, int] | None = None) -> tuple[Week, ...]:
    """The weeks of a term; the last has nothing new.

    most    lines in a week; fewer: in some weeks, by their number
    """
    known: list[_Learnt] = []
    fresh = {key: _fresh(plan, key) for key in plan.techniques}
    made = []
    last = len(plan.dates)
    for number, date in enumerate(plan.dates, start=1):
        lines = (fewer or {}).get(number, most)
        key = plan.techniques[(number - 1) * len(plan.techniques) // max(1, last - 1)] if number < last else ""
        troubled = sum(one.again for one in known)
        count = min(lines, _FIRST if number == 1 else _NEW) if troubled < _TROUBLE else 1
        new = [_Learnt(key, one, number) for one in _taken(fresh[key], count)] if key else []
        due = sorted(
            (one for one in known if one.due <= number), key=lambda one: (not one.again, one.due, one.since)
        )
        row = [*due[: lines - len(new)], *new]
        if number == last:  # what was learnt longest ago is played once more
            rest = [one for one in known if one not in row]
            row += sorted(rest, key=lambda one: (one.due, one.since))[: lines - len(row)]
        planned = tuple(_planned(one, plan.instrument) for one in row)
        again = marks.get(number, ())
        for place, one in enumerate(row, start=1):
            one.shown(number, well=place not in again)
        known += new
        made.append(Week(number=number, date=date, lines=planned))
    return tuple(made)


def _fresh(plan: TermPlan, key: str) -> Iterator[Graded]:
    """The lines of a technique, the easiest first, set after set."""
    seen: set[object] = set()
    for seed in range(plan.seed, plan.seed + _SEEDS):
        for one in graded(techniques.get(key), plan.instrument, seed, plan.level).get(plan.level, ()):
            points = one.case.gesture.points
            tune = tuple((point.pitch.written.name, point.at) for point in points if point.pitch is not None)
            if tune not in seen:
                seen.add(tune)
                yield one


def _taken(lines: Iterator[Graded], count: int) -> Iterator[Graded]:
    for _, one in zip(range(count), lines, strict=False):
        yield one


def _planned(one: _Learnt, instrument: Instrument) -> PlannedLine:
    line = PlannedLine(technique=one.technique, line=one.line, since=one.since, again=one.again, tempi=())
    ladder = LADDERS.value[min(one.stage, len(LADDERS.value) - 1)]
    usual = one.line.asked.tempo
    slowest, fastest = (instrument.student and instrument.student.tempi) or (1, 1000)
    asked = dict.fromkeys(min(fastest, max(slowest, 2 * round(usual * share / 200))) for share in ladder)
    tempi = tuple(tempo for tempo in asked if _playable(line, tempo))
    return replace(line, tempi=tempi or (usual,))


def _playable(line: PlannedLine, tempo: int) -> bool:
    return judge(move.at_tempo(line.line.case.gesture, Fraction(tempo))).verdict is Verdict.PLAYABLE
