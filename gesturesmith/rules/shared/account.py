"""What playing costs and what rest pays back: litres of air per second, seconds of plain playing."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import LEVELS, ContourPoint, Gesture
from gesturesmith.model.levels import level_held, mean, ramps
from gesturesmith.model.piece import Box, PassageItem, Repeat
from gesturesmith.rules.base import Case, PassageCase
from gesturesmith.rules.shared.reading import register_name, slot_s

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
        for technique in point.techniques:
            if technique.effort is not None:
                tires *= technique.effort.value
        total += seconds * tires
    return total


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
    limit = next((c.instrument.limits.get("rest_ratio") for c in passage.cases if c is not None), None)
    return float(limit.narrow.value) if limit is not None else 1.0


def cells(passage: PassageCase, box: Box) -> Iterator[list[tuple[PassageItem, Case | None]]]:
    """The content of each cell of a box, as it is played."""
    rows = [row for row in zip(passage.passage.items, passage.cases, strict=True) if row[0].box is not None]
    for number in range(len(box.cells)):
        yield [(i, c) for i, c in rows if i.box is not None and i.box.box is box and i.box.cell == number]


def kept_up(passage: PassageCase, box: Box, takes: Callable[[Case], float]) -> float:
    """The effort of repeating a box for all its time after the first repetition: the most of its cells."""
    ratio, tempo, most = rest_ratio(passage), passage.passage.tempo, 0.0
    for cell in cells(passage, box):
        beats = sum((item.beats for item, _ in cell), Fraction(0))
        rests = sum((item.beats for item, case in cell if case is None), Fraction(0))
        once = sum(takes(case) for _, case in cell if case is not None) - float(rests * 60 / tempo) * ratio
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
            owed = max(0.0, owed - float(item.beats * 60 / passage.passage.tempo) * ratio)
        else:
            owed = max(0.0, owed + takes[id(case)])
        yield item, owed, case
