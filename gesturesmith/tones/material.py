"""The properties of a tone over time: its level, breath, the hand, rolls, waves."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from gesturesmith.acoustics.series import nearest_partial, partial_cents
from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import BellHand, Cover, Trill
from gesturesmith.model.gesture import LEVELS, Gesture
from gesturesmith.model.levels import PLACES, ramps
from gesturesmith.model.waves import course, waves_hz, width_factor
from gesturesmith.realise.trills import second_cents
from gesturesmith.techniques.base import Technique
from gesturesmith.tones.clock import Clock
from gesturesmith.tones.pitch import Point, edge_s, hand_reach
from gesturesmith.tones.types import Curve, Roll, Wave, at, simple, times_of

STROKE_S = Sourced(0.1, HOUSE, "how long an accent stands out")
ACCENTS = {
    "accent": Sourced(1, HOUSE, "a level louder at its beginning"),
    "marcato": Sourced(2, HOUSE, "two levels louder at its beginning"),
}
FADING = Sourced(0.5, HOUSE, "what drops away getting softer ends half way down to nothing")
HALF_SHUT = Sourced(0.5, PRACTICE, "by its name; players' hands differ")

type Along = Callable[[Point], float]  # the value of a property at a point


# --- level ----------------------------------------------------------------------------------------------------


def level(gesture: Gesture, clock: Clock, offset: Fraction, start: Fraction, end: Fraction, before: float) -> Curve:
    """The level between two times of a gesture, in beats, as places in LEVELS.

    before  the level until the gesture gives its own
    """
    marks = gesture.dynamics
    rows: list[tuple[float, float]] = []
    for ramp in ramps(gesture, start, end):
        first, last = float(ramp.first), float(ramp.last)
        if not marks or ramp.start < marks[0].at:
            first = last = before
        rows += [
            (clock.arrive(offset + ramp.start), first),
            (clock.leave(offset + ramp.start), first),
            (clock.reach(offset + ramp.end), last),
        ]
    curve = simple(tuple(rows))
    for mark in marks:
        if mark.plain != mark.left and start <= mark.at < end:
            curve = _struck(curve, clock.arrive(offset + mark.at), PLACES[mark.plain])
    return curve


def level_after(gesture: Gesture, before: float) -> float:
    """The level in force at the end of a gesture."""
    return float(PLACES[gesture.dynamics[-1].left]) if gesture.dynamics else before


def accented(curve: Curve, marks: Sequence[str], start: float) -> Curve:
    """A level with the accents of its first note."""
    more = sum(ACCENTS[mark].value for mark in marks if mark in ACCENTS)
    return _struck(curve, start, min(at(curve, start) + more, len(LEVELS) - 1)) if more else curve


def _struck(curve: Curve, start: float, place: float) -> Curve:
    """A level that is raised for the time of an accent and falls back linearly."""
    end = min(start + STROKE_S.value, curve[-1][0])
    if end <= start:
        return curve
    ahead = [row for row in curve if row[0] < start]
    if ahead or curve[0][0] < start:
        ahead.append((start, at(curve, start, before=True)))
    return (*ahead, (start, place), (end, at(curve, end)), *(row for row in curve if row[0] > end))


def faded(curve: Curve, techniques: Sequence[Technique], start: float) -> Curve:
    """A level that fades with the edge off the note, if that edge fades."""
    fading = next((t for t in techniques if t.sound.fades), None)
    if fading is None:
        return curve
    end, last = curve[-1]
    begin = end - edge_s(fading, end - start)
    ahead = tuple(row for row in curve if row[0] < begin)
    return (*ahead, (begin, at(curve, begin)), (end, last * FADING.value))


# --- breath, hand, rolls --------------------------------------------------------------------------------------


def air(point: Point) -> float:
    """The share of breath in the sound at a point."""
    shares = [t.sound.air.value for t in point.point.techniques if t.sound.air is not None]
    breath = any(t.breath_only for t in point.point.techniques)
    return 1.0 if breath else max(shares, default=0.0)


def hand(instrument: Instrument) -> Along:
    """How far the hand shuts the bell at a point."""

    def shut(point: Point) -> float:
        closing = (t.bell_hand or t.cover for t in point.point.techniques)
        by: BellHand | Cover = next(filter(None, closing), "")
        if by:
            return HALF_SHUT.value if by == "half" else 1.0
        played = point.played
        by_hand = point.path == "hand" or (played is not None and played.correction == "hand")
        if played is None or not by_hand or point.path == "hand-out":
            return 0.0
        reach = hand_reach(instrument, point)
        return min(max(played.error_cents / reach, 0.0), 1.0) if reach else 0.0

    return shut


def rolls(points: Sequence[Point], into: Point | None, drawn: Callable[[Along], Curve]) -> tuple[Roll, ...]:
    """The rolls of tongue and throat in a tone, including those a line turns into."""
    found = []
    for technique in _in_force(points, into):
        limit = technique.limits.get("cycles_hz")
        if limit is not None:
            slowest, fastest = limit.narrow.value
            found.append(Roll(hz=(slowest + fastest) / 2, amount=drawn(_has(technique))))
    return tuple(found)


def _in_force(points: Sequence[Point], into: Point | None) -> tuple[Technique, ...]:
    """The techniques of a tone, including those a line turns into, each once."""
    everywhere = (*points, into) if into is not None else points
    return tuple(dict.fromkeys(t for point in everywhere for t in point.point.techniques))


def _has(technique: Technique, value: float = 1.0) -> Along:
    """The value if a technique is in force, else 0."""
    return lambda point: value if technique in point.point.techniques else 0.0


# --- waves ----------------------------------------------------------------------------------------------------


type Asked = Callable[[Technique], tuple[Curve, Curve]]


def asked_waves(gesture: Gesture, clock: Clock, offset: Fraction, start: Fraction, end: Fraction) -> Asked:
    """For a technique, the speed (cycles per second) and the width (a factor) asked for between two times, in
    beats; () for what is not."""

    def asked(technique: Technique) -> tuple[Curve, Curve]:
        width = gesture.width if technique.varies_width else ()
        rows = (
            course(gesture.speed, start, end, lambda mark: waves_hz(mark, technique)),
            course(width, start, end, lambda mark: width_factor(mark, technique)),
        )
        speeds, widths = (tuple((clock.arrive(offset + at), value) for at, value in found) for found in rows)
        return speeds, widths

    return asked


def waves(
    points: Sequence[Point], into: Point | None, drawn: Callable[[Along], Curve], asked: Asked
) -> tuple[Wave, ...]:
    """The waves around the pitch of a tone: vibrato, which a line turns into gradually, and trills."""
    found = []
    for technique in _in_force(points, into):
        sound = technique.sound
        if sound.waves_hz is None or sound.opens:
            continue
        speeds, widths = asked(technique)
        hz = speeds[0][1] if speeds else sound.waves_hz.value
        if not technique.trill:
            wide = _times(drawn(_has(technique, _width(technique))), widths)
            found.append(Wave(kind="vibrato", hz=hz, cents=wide, speeds=speeds))
        elif technique in points[0].point.techniques:
            kind = technique.trill
            seconds = {p.index: trill_cents(kind, p) for p in points}
            if any(second is None for second in seconds.values()):
                continue
            found.append(
                Wave(
                    kind="timbre" if kind == "same" else "trill",
                    hz=hz,
                    cents=_times(drawn(_looked_up(seconds)), widths),
                    speeds=speeds,
                )
            )
    return tuple(found)


def opening(points: Sequence[Point], start: float, end: float, asked: Asked) -> Curve:
    """How far the bell is closed if it opens and closes in waves, beginning closed; () if it does not."""
    technique = next((t for t in points[0].point.techniques if t.sound.opens), None)
    usual = technique.sound.waves_hz if technique is not None else None
    if technique is None or usual is None:
        return ()
    speeds, _ = asked(technique)
    turns = times_of(speeds or ((start, usual.value), (end, usual.value)), start, end, 0.5)
    rows = [(at, float(n % 2 == 0)) for n, at in enumerate(turns)]
    return (*rows, (end, rows[-1][1])) if rows[-1][0] < end else tuple(rows)


def _times(curve: Curve, factors: Curve) -> Curve:
    """A curve with its values multiplied by those of another."""
    if not factors:
        return curve
    inside = {row[0] for row in factors if curve[0][0] < row[0] < curve[-1][0]} - {row[0] for row in curve}
    rows = sorted((*curve, *((seconds, at(curve, seconds)) for seconds in inside)), key=lambda row: row[0])
    return simple(tuple((seconds, value * at(factors, seconds)) for seconds, value in rows))


def _width(technique: Technique) -> float:
    width = technique.sound.vibrato_cents
    return float(width.value) if width is not None else 0.0


def _looked_up(widths: dict[int, float | None]) -> Along:
    """The width at a point; if a line turns to something else, the last width."""
    last = [*widths.values()][-1]
    return lambda point: widths.get(point.index, last) or 0.0


def trill_cents(kind: Trill, point: Point) -> float | None:
    """How far above a note the second note of a trill sounds, if both are corrected alike; None if there is no
    second note."""
    played = point.played
    if played is None or played.tube is None or not played.partial:
        return None
    first = played.tube.fundamental_cents + partial_cents(played.partial)
    if kind != "same":
        second = second_cents(kind, played)
        return second - point.shift - first if second is not None else None
    other = played.other
    if other is None:
        return None
    n = nearest_partial(point.cents - point.shift, other.fundamental_cents, *other.widest_partials)
    return other.fundamental_cents + partial_cents(n) - first
