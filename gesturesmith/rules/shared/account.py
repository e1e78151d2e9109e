"""What playing costs and what rest pays back: litres of air per second, seconds of plain playing."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import inf
from typing import NamedTuple

from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import LEVELS, ContourPoint, Gesture
from gesturesmith.model.levels import level_held, mean, ramps
from gesturesmith.model.piece import Box, PassageItem, Repeat
from gesturesmith.realise.curve import along
from gesturesmith.rules.base import Case, PassageCase
from gesturesmith.rules.shared.reading import register_name, slot_s
from gesturesmith.techniques.base import Technique

_ANCHORS = ("pp", "mf", "ff")  # the levels for which flows are given
_SOFTEST_WEIGHT = 0.5  # playing always costs something, however soft


@lru_cache(maxsize=1024)
def air_flow(instrument: Instrument, register: str, level: int) -> float:
    """Litres per second of plain playing, by register and level (its place in LEVELS); 0 if unknown."""
    given = [instrument.limits.get(f"breath_flow_{register}_{anchor}") for anchor in _ANCHORS]
    flows = [float(g.narrow.value) for g in given if g is not None]
    if len(flows) < len(_ANCHORS):
        return 0.0
    anchors = [LEVELS.index(a) for a in _ANCHORS]
    if level <= anchors[0]:
        return flows[0]
    for (low, high), (first, second) in zip(pairwise(anchors), pairwise(flows), strict=True):
        if level <= high:
            return first + (second - first) * (level - low) / (high - low)
    return flows[-1]


def weight(instrument: Instrument, register: str, level: int) -> float:
    """The effort of a second of plain playing, by register and level; 1 in the middle register at mf."""
    height = instrument.limits.get(f"effort_{register}")
    step = instrument.limits.get("effort_louder")
    factor = float(height.narrow.value) if height is not None else 1.0
    if step is not None:
        factor *= max(_SOFTEST_WEIGHT, 1 + (level - LEVELS.index("mf")) * float(step.narrow.value))
    return factor


@lru_cache(maxsize=1024)
def air_flows(instrument: Instrument, register: str) -> tuple[float, ...]:
    """`air_flow` of each level."""
    return tuple(air_flow(instrument, register, level) for level in range(len(LEVELS)))


@lru_cache(maxsize=1024)
def _weights(instrument: Instrument, register: str) -> tuple[float, ...]:
    return tuple(weight(instrument, register, level) for level in range(len(LEVELS)))


def through(gesture: Gesture, point: ContourPoint, table: Sequence[float]) -> float:
    """The mean over a point's slot of a quantity given for each level."""
    held = level_held(gesture, point.at)
    if held is not None:  # the common case, without fractions
        return table[held]
    found = [
        (r.end - r.start, mean(table, float(r.first), float(r.last))) for r in ramps(gesture, point.at, point.until)
    ]
    if len(found) == 1:
        return found[0][1]
    whole = sum(beats for beats, _ in found)
    return sum(float(beats / whole) * value for beats, value in found) if whole else 0.0


def effort(case: Case) -> float:
    """The effort of a gesture, as seconds of plain playing in the middle register, less what its silences pay
    back."""
    total = 0.0
    for point in case.gesture.points:
        seconds = slot_s(case.gesture, point)
        if point.kind == "silence":
            total -= seconds
            continue
        tires = through(case.gesture, point, _weights(case.instrument, register_name(case, point)))
        total += seconds * tires * _by_techniques(point)
    return total


def _by_techniques(point: ContourPoint) -> float:
    """How much more the techniques at a point tire than plain playing, as a factor."""
    factor = 1.0
    for technique in point.techniques:
        if technique.effort is not None:
            factor *= technique.effort.value
    return factor


def force(case: Case, point: ContourPoint) -> float:
    """How fast a point wears the lip down, per second; 0 for plain playing in the middle register, or softer.

    That is what loudness and techniques take beyond plain playing, more of it the higher the register; height
    itself counts for the share `force_of_height`.
    """
    register = register_name(case, point)
    height = _number(case.instrument, f"effort_{register}", 1.0)
    asked = through(case.gesture, point, _weights(case.instrument, register)) * _by_techniques(point)
    share = _number(case.instrument, "force_of_height", 0.0)
    return max(0.0, asked - height) + share * max(0.0, height - 1.0)


def most_force(case: Case) -> float:
    """A bound on `force` anywhere in a gesture, from the registers and levels of the instrument."""
    instrument = case.instrument
    rows = {id(p.techniques): p for p in case.gesture.points}
    factor = max((_by_techniques(p) for p in rows.values()), default=1.0)
    return _most_weight(instrument) * factor


@lru_cache(maxsize=64)
def _most_weight(instrument: Instrument) -> float:
    return max(max(_weights(instrument, r.name)) for r in instrument.registers)


def tiring_height(case: Case, technique: Technique, point: ContourPoint) -> float:
    """How much sooner a technique tires at the height of a point: 1 up to the middle of the high register."""
    top = case.instrument.limits.get("effort_high")
    if not technique.tiring or top is None or point.sounding_cents is None:
        return 1.0
    here = along(case.instrument, "effort", point.sounding_cents)
    return max(1.0, float(here.narrow.value) / float(top.narrow.value)) if here is not None else 1.0


def _number(instrument: Instrument, name: str, missing: float) -> float:
    limit = instrument.limits.get(name)
    return float(limit.narrow.value) if limit is not None else missing


def flow(case: Case, point: ContourPoint) -> float:
    """Litres per second during a point, by register, level and technique."""
    flow = through(case.gesture, point, air_flows(case.instrument, register_name(case, point)))
    for technique in point.techniques:
        if technique.flow is not None:
            flow *= technique.flow.value
    return flow


def breath_litres(case: Case) -> float:
    """The air that a gesture takes, silences aside."""
    points = (p for p in case.gesture.points if p.kind != "silence")
    return sum(slot_s(case.gesture, point) * flow(case, point) for point in points)


def inside[Row](repeat: Repeat, rows: Sequence[Row], at: Callable[[Row], Fraction]) -> Sequence[Row]:
    """The rows, sorted by time, that lie inside a repeat."""
    return rows[bisect_left(rows, repeat.start, key=at) : bisect_left(rows, repeat.end, key=at)]


def played_out(passage: PassageCase) -> Iterator[tuple[PassageItem, Case | None]]:
    """The items in playing order, with repeats written out."""
    rows = list(zip(passage.passage.items, passage.cases, strict=True))
    repeats = {r.end: r for r in passage.passage.repeats}
    for row in rows:
        yield row
        repeat = repeats.get(row[0].at + row[0].beats)
        if repeat is not None:
            again = inside(repeat, rows, lambda row: row[0].at)
            for _ in range(repeat.times - 1):
                yield from again


def rest_ratio(passage: PassageCase) -> float:
    """Seconds of plain playing that a second of rest pays back."""
    case = next((c for c in passage.cases if c is not None), None)
    return pays_back(case.instrument) if case is not None else 1.0


def pays_back(instrument: Instrument) -> float:
    """The same for an instrument."""
    return _number(instrument, "rest_ratio", 1.0)


def bar_words(passage: PassageCase, item: PassageItem) -> str:
    """The bar in which an item begins, as " (bar 3)"; "" without bars."""
    number = passage.passage.bar_at(item.at)
    return f" (bar {number})" if number is not None else ""


class Moment(NamedTuple):
    """A stretch of playing order: a point of a gesture, or a whole rest of a passage (`point` is None).

    item    of the passage, None if only a gesture is looked at; `turn`: its number in playing order
    """

    seconds: float
    point: ContourPoint | None
    case: Case | None
    item: PassageItem | None = None
    turn: int = 0

    @property
    def sounds(self) -> bool:
        return self.point is not None and self.point.kind != "silence"

    @property
    def box_goes_on(self) -> bool:
        """Whether a box is repeated here; it is judged by its own rule."""
        return self.item is not None and self.item.box is not None and self.item.box.goes_on


def moments_of(case: Case) -> list[Moment]:
    """The points of a gesture."""
    return [Moment(slot_s(case.gesture, point), point, case) for point in case.gesture.points]


def moments(passage: PassageCase) -> Iterator[Moment]:
    """What a passage plays, point by point, with repeats written out."""
    rows: dict[int, list[Moment]] = {}  # measured once, however often played
    for turn, (item, case) in enumerate(played_out(passage)):
        if case is None:
            yield Moment(passage.passage.silence_s(item), None, None, item, turn)
            continue
        if id(case) not in rows:
            rows[id(case)] = moments_of(case)
        for moment in rows[id(case)]:
            yield moment._replace(item=item, turn=turn)


def gives_time(case: Case, point: ContourPoint, after: ContourPoint | None) -> bool:
    """Whether a breath can be taken at the end of a note: it is long enough, and the next one is attacked."""
    if point.kind == "silence" or after is None or after.reached != "attack":
        return False
    return slot_s(case.gesture, point) >= _number(case.instrument, "breath_from_note_s", inf)


def can_breathe(moment: Moment, after: Moment, before: Moment | None) -> bool:
    """The same from one moment of a passage to the next; the end of a line has the time of the line."""
    if moment.case is None or (after.point is not None and after.point.reached != "attack"):
        return False
    line = not moment.seconds and before is not None
    seconds = before.seconds if line and before is not None else moment.seconds
    return seconds >= _number(moment.case.instrument, "breath_from_note_s", inf)


class Breathed(NamedTuple):
    """A moment of a passage with the breath it is played on.

    begin     the first moment of this breath; None where nothing is played
    seconds, litres   since then, this moment included
    taken     whether a breath is or can be taken after it
    """

    moment: Moment
    begin: Moment | None
    seconds: float
    litres: float
    taken: bool


def breathing(passage: PassageCase) -> Iterator[Breathed]:
    """The moments of a passage in playing order, with the air used since the last breath."""
    flows: dict[int, float] = {}
    begin: Moment | None = None
    seconds = litres = 0.0
    played = list(moments(passage))
    for before, moment, after in zip([None, *played], played, [*played[1:], None], strict=False):
        point = moment.point
        if point is None or moment.case is None or point.breath == "in" or point.kind == "silence":
            if point is None or point.gives_breath:
                begin, seconds, litres = None, 0.0, 0.0
            yield Breathed(moment, begin, seconds, litres, begin is None)
            continue
        if id(point) not in flows:
            flows[id(point)] = flow(moment.case, point)
        begin = begin or moment
        seconds += moment.seconds
        litres += moment.seconds * flows[id(point)]
        taken = point.gives_breath or (after is not None and can_breathe(moment, after, before))
        yield Breathed(moment, begin, seconds, litres, taken)
        if taken:
            begin, seconds, litres = None, 0.0, 0.0


class Spell(NamedTuple):
    """The first stretch without a pause in which something tires too much.

    begin    its first moment; `over`: the one in which the limit is exceeded
    carried  whether what was played before `over` belongs to another item of the passage
    sounded, paused   seconds since nothing was owed, to the end of the stretch
    owed     what is then owed
    """

    begin: Moment
    over: Moment
    carried: bool
    sounded: float
    paused: float
    owed: float


def first_spell(
    played: Iterable[Moment], takes: Callable[[Moment], float | None], limit: float, ratio: float
) -> Spell | None:
    """The first stretch in which more than `limit` is owed, None if there is none.

    takes   per second at a moment; None for a pause, which pays back what `ratio` times as long took
    """
    owed = taken_in_all = sounded = paused = 0.0
    since: Moment | None = None  # when nothing was owed
    begin: Moment | None = None
    over: Moment | None = None
    for moment in played:
        taken = None if moment.box_goes_on else takes(moment)
        if taken is None:
            if over is not None:
                break
            begin = None
            rate = max(1.0, taken_in_all / sounded) if sounded else 1.0
            owed = 0.0 if moment.box_goes_on else max(0.0, owed - moment.seconds * ratio * rate)
            paused += moment.seconds
        if not owed and not taken:
            taken_in_all = sounded = paused = 0.0
            since = begin = None
        if taken:
            since, begin = since or moment, begin or moment
            owed += moment.seconds * taken
            taken_in_all += moment.seconds * taken
            sounded += moment.seconds
            if over is None and owed > limit * (1 + 1e-9):
                over = moment
    if since is None or begin is None or over is None:
        return None
    return Spell(begin, over, since.turn != over.turn, sounded, paused, owed)


def cells(passage: PassageCase, box: Box) -> Iterator[list[tuple[PassageItem, Case | None]]]:
    """The content of each cell of a box, as it is played."""
    rows = [row for row in zip(passage.passage.items, passage.cases, strict=True) if row[0].box is not None]
    for number in range(len(box.cells)):
        yield [(i, c) for i, c in rows if i.box is not None and i.box.box is box and i.box.cell == number]


def kept_up(passage: PassageCase, box: Box, takes: Callable[[Case], float]) -> float:
    """The effort of repeating a box for all its time after the first repetition: the most of its cells."""
    ratio, most = rest_ratio(passage), 0.0
    for cell in cells(passage, box):
        beats = sum((item.beats for item, _ in cell), Fraction(0))
        rests = sum(passage.passage.silence_s(item) for item, case in cell if case is None)
        once = sum(takes(case) for _, case in cell if case is not None) - rests * ratio
        most = max(most, once * float((box.beats - beats) / beats))
    return most


def account(passage: PassageCase) -> Iterator[tuple[PassageItem, float, Case | None]]:
    """Each item in playing order, with the effort owed after it, in seconds of plain playing; never below 0."""
    owed, ratio = 0.0, rest_ratio(passage)
    # Measured once, however often played.
    takes = {id(case): effort(case) for case in passage.cases if case is not None}
    for item, case in played_out(passage):
        if item.box is not None and item.box.goes_on:
            owed += kept_up(passage, item.box.box, lambda one: takes[id(one)])
            case = next((c for cell in cells(passage, item.box.box) for _, c in cell if c is not None), None)
        elif case is None:
            owed = max(0.0, owed - passage.passage.silence_s(item) * ratio)
        else:
            owed = max(0.0, owed + takes[id(case)])
        yield item, owed, case
