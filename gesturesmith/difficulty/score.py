"""How hard a gesture is, from 0 to 100, and why.

`quantities` defines the quantities, their comfortable ranges and weights; this module measures them. It measures
what is asked for, whether or not it can be played: that is for the rules to decide.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise, zip_longest
from typing import NamedTuple

from gesturesmith.diagnostics import Demand
from gesturesmith.diagnostics.types import Comfortable
from gesturesmith.difficulty.comfort import Comfort, TechniqueLoad, comfort, row, single, tongue_row
from gesturesmith.difficulty.measured import Measured, measure
from gesturesmith.difficulty.quantities import QUANTITIES
from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import LEVELS, Gesture, attack_times, sounds
from gesturesmith.model.graces import has_graces, unfolded
from gesturesmith.model.levels import mean
from gesturesmith.model.strokes import gap_beats, struck
from gesturesmith.model.tempo import FERMATA
from gesturesmith.realise.curve import along
from gesturesmith.realise.gesture import realise
from gesturesmith.rules.base import Case, PassageCase
from gesturesmith.rules.shared.account import kept_up, played_out, rest_ratio
from gesturesmith.rules.shared.reading import plain
from gesturesmith.units import A4_HZ
from gesturesmith.values import frozen

_ORDER = {q.name: place for place, q in enumerate(QUANTITIES)}
_EASE = {q.name: float(q.ease.value) for q in QUANTITIES}
_CARE = {q.name: float(q.care.value) for q in QUANTITIES if q.care is not None}
_WEIGHT = {q.name: float(q.weight.value) for q in QUANTITIES}
_UNIT = {q.name: q.unit for q in QUANTITIES}
_SOFTEST = LEVELS.index("ppp")  # niente is a way to begin or end
_TO_CARE = 3 / 5  # of the way from the middle register to the end of the widest range
_DIGITS = 9  # more could differ with the order of summation


class _Air(NamedTuple):
    """Litres up to the first place to breathe and after the last; `whole`: there is none in between, and both are
    the same air."""

    first: float = 0.0
    last: float = 0.0
    whole: bool = False


_NO_AIR = _Air()


@frozen(kw_only=True)
class Difficulty:
    """How hard, and why.

    exact     0 to 100, for ordering
    demands   quantities outside their comfortable range, the heaviest first
    effort    of the whole, in seconds of plain playing; high and loud count more, soft and low not less
    air       before its first and after its last place to breathe
    """

    exact: float
    demands: tuple[Demand, ...] = ()
    effort: float = 0.0
    air: _Air = _NO_AIR

    @property
    def number(self) -> int:
        """0 to 100, for display."""
        return round(self.exact)


class _Tally:
    """The largest share of each quantity so far."""

    def __init__(self) -> None:
        self.shares: dict[str, tuple[float, float | str, Comfortable]] = {}

    def add(self, name: str, value: float, care: float, ease: float | None = None) -> None:
        """A value with its point of care. If `ease` is missing, it is the quantity's multiple of `care`."""
        edge = _EASE[name] * care if ease is None else ease
        share = (value - edge) / (2.0 * (care - edge)) if care != edge else 0.0
        if share <= 0.0:  # most are comfortable
            return
        share = round(share, _DIGITS)
        if share > 0.0 and (name not in self.shares or share > self.shares[name][0]):
            self.shares[name] = (min(1.0, share), value, (None, edge) if care > edge else (edge, None))

    def plain(self, name: str, value: float) -> None:
        """A value of a quantity with fixed `ease` and `care`."""
        self.add(name, value, _CARE[name], _EASE[name])

    def level(self, level: float, comfortable: tuple[int, int]) -> None:
        low, high = comfortable
        share = max(low - max(level, _SOFTEST), level - high) / (2.0 * _CARE["level"])
        if share > 0.0 and ("level" not in self.shares or share > self.shares["level"][0]):
            self.shares["level"] = (min(1.0, share), LEVELS[round(level)], (LEVELS[low], LEVELS[high]))

    def result(self, effort: float, air: _Air = _NO_AIR) -> Difficulty:
        """All shares together: the product of what each leaves of ease, always in the same order."""
        ease = 1.0
        rows = []
        for name in sorted(self.shares, key=_ORDER.__getitem__):
            share, value, comfortable = self.shares[name]
            made = _WEIGHT[name] * share
            ease *= 1.0 - made
            rows.append((-made, _ORDER[name], Demand(name, value, comfortable, _UNIT[name], share)))
        rows.sort()
        demands = tuple([demand for _, _, demand in rows])
        return Difficulty(exact=round(100.0 * (1.0 - ease), _DIGITS), demands=demands, effort=effort, air=air)


def difficulty(case: Case) -> Difficulty:
    """The difficulty of a gesture as it would be played; grace notes get all the time available to them."""
    if has_graces(case.gesture):
        slow = unfolded(case.gesture, slowest=True)
        case = replace(case, gesture=slow, realisation=realise(slow))
    gesture, instrument = case.gesture, case.instrument
    numbers = comfort(instrument)
    measured = measure(gesture, numbers)
    tally = _Tally()
    _pitch(tally, numbers, measured)
    _levels(tally, measured)
    effort, air = _air(tally, instrument, numbers, measured)
    _tongue(tally, gesture, instrument, numbers, measured)
    _steps(tally, gesture, instrument, measured)
    _lines(tally, gesture, instrument, measured)
    _fingers(tally, case, measured)
    _techniques(tally, gesture, instrument, numbers, measured)
    return tally.result(effort, air)


def passage_difficulty(passage: PassageCase) -> Difficulty:
    """The difficulty of a passage: the maximum of each quantity in its gestures, and the effort its rests leave
    unpaid."""
    known: dict[int, Difficulty] = {}
    tally = _Tally()
    for case in passage.cases:
        if case is not None and id(case) not in known:
            made = known[id(case)] = difficulty(case)
            for name, value, comfortable, _, share in made.demands:
                if name not in tally.shares or share > tally.shares[name][0]:
                    tally.shares[name] = (share, value, comfortable)
    owed = most = used = longest = 0.0
    instrument: Instrument | None = None
    ratio = rest_ratio(passage)
    for item, case in played_out(passage):
        if item.box is not None and item.box.goes_on:
            owed, used = owed + kept_up(passage, item.box.box, lambda one: known[id(one)].effort), 0.0
        elif case is None:
            owed, used = max(0.0, owed - passage.passage.silence_s(item) * ratio), 0.0
        else:
            instrument, air = case.instrument, known[id(case)].air
            owed = max(0.0, owed + known[id(case)].effort)
            longest = max(longest, used + air.first)
            used = (used if air.whole and air.last else 0.0) + air.last
        most = max(most, owed)
    if instrument is not None:
        litres, reserve = single(instrument, "breath_litres"), single(instrument, "effort_reserve_s")
        if reserve is not None:
            tally.add("effort", most, reserve)
        if litres is not None:
            tally.add("breath", longest, litres)
    return tally.result(most)


# --- measuring -------------------------------------------------------------------------------------------


def _seconds(gesture: Gesture) -> float:
    return gesture.in_time((gesture.beats,))[0]


def _pitch(tally: _Tally, numbers: Comfort, measured: Sequence[Measured]) -> None:
    heights = [m.cents for m in measured if m.cents is not None]
    if heights:
        low, high = numbers.middle
        down, up = numbers.reach
        tally.add("depth", (low - min(heights)) / 100.0, down * _TO_CARE)
        tally.add("height", (max(heights) - high) / 100.0, up * _TO_CARE)


def _levels(tally: _Tally, measured: Sequence[Measured]) -> None:
    for m in measured:
        low, high = m.load.levels
        if m.sounds and m.softest < low:
            tally.level(m.softest, m.load.levels)
        if m.sounds and m.loudest > high:
            tally.level(m.loudest, m.load.levels)


def _air(
    tally: _Tally, instrument: Instrument, numbers: Comfort, measured: Sequence[Measured]
) -> tuple[float, _Air]:
    """The air of the longest phrase, and the effort of the whole, which is also returned."""
    used = most = effort = 0.0
    first: float | None = None
    least = single(instrument, "breath_from_note_s")
    for m, after in zip_longest(measured, measured[1:]):
        held = 1 + FERMATA.value if "fermata" in m.point.marks else 1.0
        seconds = (m.end - m.start) * held
        if not m.sounds:
            effort -= seconds
        else:
            flow = numbers.flow[m.register]
            tiring = numbers.tiring[m.register]
            used += sum([s * mean(flow, one, other) for s, one, other in m.ramps]) * m.load.air * held
            effort += sum([s * mean(tiring, one, other) for s, one, other in m.ramps]) * m.load.effort_factor * held
            most = max(most, used)
        long = m.sounds and least is not None and seconds >= least
        if m.point.gives_breath or (long and after is not None and after.point.reached == "attack"):
            first = used if first is None else first
            used = 0.0
    last = measured[-1]
    ends = last.sounds and least is not None and _time_at_the_end(measured) >= least
    litres, reserve = single(instrument, "breath_litres"), single(instrument, "effort_reserve_s")
    if litres is not None:
        tally.add("breath", most, litres)
    if reserve is not None:
        tally.add("effort", effort, reserve)
    return effort, _Air(first=used if first is None else first, last=0.0 if ends else used, whole=first is None)


def _time_at_the_end(measured: Sequence[Measured]) -> float:
    """Seconds of the last note; of the line that leads to it, if it only shows where that stops."""
    last = measured[-2 if measured[-1].end == measured[-1].start and len(measured) > 1 else -1]
    return last.end - last.start


def _tongue(
    tally: _Tally, gesture: Gesture, instrument: Instrument, numbers: Comfort, measured: Sequence[Measured]
) -> None:
    """Attacks per second against the speed of the tongue, and the shortest note against its response."""
    sounding = [m for m in measured if m.sounds]
    shortest = math.inf
    if gesture.spread is None:
        tongued = [m for m in sounding if m.point.reached == "attack"]
        times = [m.start for m in tongued]
        if any(m.point.strokes for m in tongued):
            all_struck = list(struck(gesture))
            of_point = {id(m.point): m for m in tongued}
            tongued = [of_point[id(point)] for _, point in all_struck]
            times = gesture.in_time(at for at, _ in all_struck)
    else:
        tongued = sounding
        times, shortest = _struck(gesture)
    gaps = min(2, len(times) - 1)
    rates = [gaps / (b - a) for a, b in zip(times, times[gaps:], strict=False) if b > a] if gaps > 0 else []
    if rates:
        each = rates if gesture.spread is None else [max(rates)] * len(sounding)
        for m, rate in zip(tongued, each, strict=False):
            limit = tongue_row(instrument, m.load.rate)[m.register] if m.load.rate else None
            for most in (limit, m.load.fastest):
                if most is not None:
                    tally.add("attacks", rate, most)
    periods = single(instrument, "response_periods")
    if periods is None:
        return
    for m in sounding:
        about = m.point.about or m.point.kind != "pitch" or m.load.pitched != "exact"
        if m.cents is not None and not about and m.point.reached != "line":
            lasts = m.end - m.start
            if m.point.strokes:
                lasts *= float(gap_beats(gesture, m.point) / (m.point.until - m.point.at))
            tally.add("response", min(shortest, lasts) * _hz(numbers, m.cents), periods)


def _struck(gesture: Gesture) -> tuple[list[float], float]:
    """The times, in seconds, of the attacks of `attacks`, and the shortest time of any."""
    start, end = gesture.in_time(sounds(gesture))
    spread = gesture.spread
    if spread is not None and not spread.shape and gesture.pace is None:  # the common case, without fractions
        gap = (end - start) / spread.count
        return [start + gap * i for i in range(min(3, spread.count))], gap  # the others are the same
    times = gesture.in_time(attack_times(gesture))
    return times, min(b - a for a, b in pairwise((*times, end)))


def _hz(numbers: Comfort, cents: float) -> float:
    """The frequency of a pitch; from the middle register up, that of the middle register's lowest note."""
    return A4_HZ * math.exp2((min(cents, numbers.middle[0]) - 6900.0) / 1200.0)


def _steps(tally: _Tally, gesture: Gesture, instrument: Instrument, measured: Sequence[Measured]) -> None:
    """Notes not joined by lines: the width of the steps between them, and their speed."""
    for (before, m), segment in zip(pairwise(measured), gesture.segments, strict=True):
        if segment.slides or before.cents is None or m.cents is None or before.cents == m.cents:
            continue
        tally.plain("leap", abs(m.cents - before.cents))
        seconds = m.end - m.start if before.end <= before.start else before.end - before.start
        exact = before.load.pitched == m.load.pitched == "exact" and not (before.point.about or m.point.about)
        if m.load.path == "half-valve":
            limit = single(instrument, "half_valve_per_s")
        elif exact and (before.cents % 100.0 or m.cents % 100.0):
            limit = single(instrument, "quarter_tones_per_s")
        else:
            limit = row(instrument, "chromatic_per_s")[m.register]
        if limit is not None and seconds > 0.0:
            tally.add("notes", 1.0 / seconds, limit)


def _lines(tally: _Tally, gesture: Gesture, instrument: Instrument, measured: Sequence[Measured]) -> None:
    """Lines: their width, their speed, and how many points there are to read."""
    home: Measured | None = None  # the note where a line begins
    slid = 0
    for number, segment in enumerate(gesture.segments):
        before, m = measured[number], measured[number + 1]
        if not segment.slides or before.cents is None or m.cents is None:
            home = None
            continue
        slid += 1
        home = home or before
        cents = m.cents - before.cents
        seconds = m.start - before.start
        path = before.load.path
        if path == "steps":
            limit = row(instrument, "chromatic_per_s")[min(before.register, m.register)]
            if limit is not None and seconds > 0.0:
                tally.add("notes", abs(cents) / 100.0 / seconds, limit)
        elif seconds > 0.0:
            tally.plain("speed", abs(cents) / 100.0 / seconds)
        _width(tally, instrument, before, cents, m.cents - (home.cents or 0.0), home.register)
    if slid > 1:
        most = single(instrument, "points_per_s")
        if most is not None:
            tally.add("points", slid / _seconds(gesture), most)


def _width(
    tally: _Tally, instrument: Instrument, before: Measured, cents: float, from_home: float, register: int
) -> None:
    """The width of a line against what its kind of movement can span; a bend is measured from the bent note."""
    path = before.load.path
    name = {"lip": "lip_gliss_cents", "hand": "hand_lower_cents", "hand-out": "hand_out_widest_cents"}.get(path)
    limit = single(instrument, name) if name else None
    wide = abs(cents)
    if path == "lip" and before.load.one_partial:
        limit = row(instrument, "bend_down" if from_home < 0 else "bend_up")[register]
        wide = abs(from_home)
    if limit is not None:
        tally.add("width", wide, limit)
    else:
        tally.plain("span", wide)


def _fingers(tally: _Tally, case: Case, measured: Sequence[Measured]) -> None:
    """Fingerings that are not on the chart, and the correction they leave to lip or hand."""
    instrument = case.instrument
    chosen = case.gesture.fingering.mode != "auto"
    natural = instrument.kind == "valves" and len(instrument.tubes) == 1
    in_tune = single(instrument, "in_tune_cents") or 0.0
    off = 0
    for played in case.realisation.points:
        m = measured[played.index]
        exact = m.cents is not None and not m.point.about and m.load.pitched == "exact"
        if not exact or played.tube is None or m.load.path not in ("none", "steps"):
            continue
        by_hand = natural and abs(played.error_cents) > in_tune
        unusual = bool(m.cents and m.cents % 100.0) or (chosen and not played.standard)
        off += unusual
        lip = instrument.lip_limit(played.error_cents)
        limit = (
            single(instrument, "half_stopped_lower_cents") if by_hand else float(lip.narrow.value) if lip else None
        )
        if limit is not None and (by_hand or unusual):
            tally.add("correction", abs(played.error_cents), limit)
    if off:
        tally.plain("fingering", float(off))
    if instrument.kind == "slide":
        _travel(tally, case, measured)


def _travel(tally: _Tally, case: Case, measured: Sequence[Measured]) -> None:
    """The travel of the slide from note to note, one position per semitone of tube."""
    most = single(case.instrument, "slide_positions_per_s")
    if most is None:
        return
    for one, other in pairwise(case.realisation.points):
        seconds = measured[one.index].end - measured[one.index].start
        slid = measured[other.index].point.reached == "line"
        if one.tube is not None and other.tube is not None and seconds > 0.0 and not slid:
            travel = abs(other.tube.fundamental_cents - one.tube.fundamental_cents) / 100.0
            tally.add("travel", travel / seconds, most)


def _techniques(
    tally: _Tally, gesture: Gesture, instrument: Instrument, numbers: Comfort, measured: Sequence[Measured]
) -> None:
    """What techniques demand: skill, force, thought, changing over, time, a pitch that survives the rolls."""
    before: TechniqueLoad | None = None
    changes = 0
    lasting = False
    for m in measured:
        own = m.load
        if not m.sounds:
            continue
        if own is not before:
            changes += before is not None
            tally.plain("technique", own.skill)
            tally.plain("strain", own.effort_factor)
            tally.plain("together", float(own.technique_count))
            lasting = lasting or bool(own.lasting)
            before = own
        if own.drop and m.cents is not None:
            most = _bend_down(instrument, max(m.cents, sum(numbers.middle) / 2))
            if most is not None:
                tally.add("width", own.drop, most, 0.0)
        if own.rolls and m.cents is not None and not m.point.about:
            for fastest, periods in own.rolls:
                tally.add("roll", _hz(numbers, m.cents) / fastest, periods)
    if changes:
        tally.plain("changes", changes / _seconds(gesture))
    for seconds, longest, shortest in _stretches(measured) if lasting else ():
        if longest is not None:
            tally.add("hold", seconds, longest)
        if shortest is not None and seconds > 0:  # zero time is the end of a line
            tally.add("brevity", 1000.0 * seconds, shortest)


def _bend_down(instrument: Instrument, cents: float) -> float | None:
    """How far the lip bends a note down at a pitch, in cents."""
    limit = along(instrument, "bend_down", cents)
    return float(limit.narrow.value) if limit is not None else None


def _stretches(measured: Sequence[Measured]) -> Iterator[tuple[float, float | None, float | None]]:
    """Unbroken stretches of each technique with a longest or shortest time: the seconds and those limits."""
    going: dict[str, tuple[float, float, float | None, float | None]] = {}
    for m in measured:
        there = () if not m.sounds else m.load.lasting
        if going:
            for key in going.keys() - {key for key, _, _ in there}:
                start, end, longest, shortest = going.pop(key)
                yield end - start, longest, shortest
        for key, longest, shortest in there:
            start = going[key][0] if key in going else m.start
            going[key] = (start, m.end, longest, shortest)
    for start, end, longest, shortest in going.values():
        yield end - start, longest, shortest


def in_words(demand: Demand) -> str:
    """A demand for people: "height 12 semitones (comfortable: up to 0)"."""
    low, high = demand.comfortable
    if low is None:
        comfortable = f"up to {_shown(high)}"
    else:
        comfortable = f"from {_shown(low)}" if high is None else f"{_shown(low)} to {_shown(high)}"
    unit = "" if isinstance(demand.value, str) else f" {demand.unit}"
    return f"{demand.name} {_shown(demand.value)}{unit} (comfortable: {comfortable})"


def _shown(value: float | str | None) -> str:
    return plain(value) if isinstance(value, float) else str(value)
