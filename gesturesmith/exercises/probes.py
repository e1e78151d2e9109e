"""The gestures with which a technique is tried on an instrument: computed from what the technique takes, never
listed.

Charts run the checker on them over the whole range; graded sheets choose from those it approves.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from gesturesmith.diagnostics import Verdict
from gesturesmith.instruments.base import Instrument
from gesturesmith.judge.gesture import Judged, judge
from gesturesmith.kinds import LineKind
from gesturesmith.model import move
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint, make
from gesturesmith.model.gesture import LEVELS, Gesture
from gesturesmith.techniques.base import Technique
from gesturesmith.units import Spelling, chromatic, spell
from gesturesmith.values import frozen

# A slide in steps is drawn as a wavy line, an even one as a straight line.
_WAVY = ("partials", "valves", "steps", "half-valve")
_EVEN = ("lip", "hand", "hand-out", "slide", "against", "trigger")
_INTERVALS = (2, 1, 3, 4, 5, 7, 9, 12)  # semitones, each tried upwards and downwards
_SUNG = (7, 16)  # semitones above the note played: a fifth, a tenth
_STROKES = (4, 8, 12, 16)  # in four beats
_SLOW_STROKES = (2, 3, 6)  # also tried if each is an effect of its own
_BEATS = Fraction(4)
_ALONE_BEATS = Fraction(2)
_USUAL_LEVEL = "mf"


@frozen(kw_only=True)
class ProbeGesture:
    """One gesture of four beats to try a technique with, transposed through the range.

    interval   signed semitones from its first note to the one it goes to; 0 if it stays on one
    raised     semitones by which it is above the notes asked about: a quarter tone if the technique is for those
    """

    gesture: Gesture
    interval: int
    raised: Fraction

    def at(self, start: Spelling) -> Gesture | None:
        """The gesture starting on a written note; None if it leaves the notes that can be written."""
        moved = move.to_start(self.gesture, replace(start, alter=start.alter + self.raised))
        return moved if isinstance(moved, Gesture) else None


def probe_gestures(technique: Technique, instrument: Instrument) -> tuple[ProbeGesture, ...]:
    """The gestures with which a technique is tried, the plainest first."""
    raised = Fraction(technique.grid % 100, 100)
    # From C every interval tried has a plain accidental, and keeps its letters wherever it is transposed.
    first = Spelling("C", raised, _middle(instrument).octave)
    found = []
    for number, (tried, interval) in enumerate(_contours(technique, instrument, first)):
        gesture, errors = make(replace(tried, name=f"g{number}"))
        if gesture is None:
            raise ValueError(f"{technique.key}: {[e.message for e in errors]}")
        found.append(ProbeGesture(gesture=gesture, interval=interval, raised=raised))
    return tuple(found)


def level_for(technique: Technique) -> str:
    """The dynamic level to try a technique at: mf, or the nearest at which it works."""
    level = LEVELS.index(_USUAL_LEVEL)
    loudest, softest = technique.limits.get("loudest"), technique.limits.get("softest")
    if loudest is not None:
        level = min(level, LEVELS.index(loudest.narrow.value))
    if softest is not None:
        level = max(level, LEVELS.index(softest.narrow.value))
    return LEVELS[level]


def _middle(instrument: Instrument) -> Spelling:
    low, high = instrument.usual_range.value
    return instrument.written(spell(100 * round((low + high) / 200)))


def _contours(technique: Technique, instrument: Instrument, first: Spelling) -> Iterator[tuple[NewGesture, int]]:
    """The gestures to try it with, each with its interval."""
    about = technique.pitched != "exact"
    start = NewPoint(pitch=first, about=about)
    plain = NewGesture(
        instrument=instrument,
        points=(start,),
        techniques=(technique.key,),
        lasts=_BEATS,
        dynamics=(NewLevel(level=level_for(technique)),),
    )
    fewest, most = technique.points
    if fewest <= 1 and not technique.needs_line:
        if _struck(technique):
            for count in (*_STROKES, *(_SLOW_STROKES if technique.tone == "none" else ())):
                yield replace(plain, attacks=count), 0
        else:
            yield plain, 0
        if technique.sings:
            for up in _SUNG:
                yield replace(plain, sing=(NewPoint(pitch=_up(first, up)),)), 0
    if _struck(technique) or (most is not None and most < 2):
        return
    line = join_of(technique)
    # A movement within a partial leaves its note and comes back to it.
    back = (replace(start, line=line),) if technique.one_partial else ()
    for size in _INTERVALS:
        for step in (size, -size):
            end = NewPoint(pitch=_up(first, step), about=about, line=line)
            yield replace(plain, points=(start, end, *back)), step


def _struck(technique: Technique) -> bool:
    """Whether it consists of equal strokes, practised on one note."""
    return bool(technique.rate) or technique.pitched == "none"


def join_of(technique: Technique) -> LineKind:
    """What joins two notes: the line along which the technique slides, else a new attack."""
    if technique.path in _WAVY:
        return "wavy"
    return "straight" if technique.path in _EVEN or technique.needs_line else "none"


def _up(first: Spelling, semitones: int) -> Spelling:
    return first.transposed(chromatic(semitones))


def lacking(technique: Technique, instrument: Instrument) -> str:
    """Why a technique is impossible on an instrument, as a sentence without full stop: it lacks something, or
    nothing in the whole range is playable; "" if it is possible.
    """
    tried = probe_gestures(technique, instrument)
    found = [f for f in judge(tried[0].gesture).refusals if f.rule == "instrument-lacks-means"]
    return found[0].text if found else ""


def written_range(instrument: Instrument, *, widest: bool = False) -> tuple[Spelling, ...]:
    """The written semitones of an instrument's range, lowest first."""
    low, high = (instrument.widest_range if widest else instrument.usual_range).value
    return tuple(instrument.written(spell(100 * n)) for n in range(-(-low // 100), high // 100 + 1))


def alone(instrument: Instrument, note: Spelling) -> Judged:
    """A written note by itself, as the checker judges it."""
    gesture, errors = make(NewGesture(instrument=instrument, points=(NewPoint(pitch=note),), lasts=_ALONE_BEATS))
    if gesture is None:
        raise ValueError([e.message for e in errors])
    return judge(gesture)


@frozen(kw_only=True)
class Reach:
    """The checker's verdict on a technique on one written note, for the easiest gesture that begins there."""

    note: Spelling
    verdict: Verdict
    reason: str  # the first reason if it is not playable, else ""


@lru_cache(maxsize=256)  # a chart asks twice: for its page and its picture
def reach(technique: Technique, instrument: Instrument) -> tuple[Reach, ...]:
    """The verdict on a technique for each written semitone of the widest range."""
    tried = probe_gestures(technique, instrument)
    tried = tuple(shape for shape in tried if not shape.interval) or tried
    low, high = instrument.usual_range.value
    found = []
    for note in written_range(instrument, widest=True):
        # Outside the usual range everything needs care.
        usual = low <= note.pitch_cents + instrument.sounding.cents <= high
        found.append(_reach(tried, note, Verdict.PLAYABLE if usual else Verdict.WITH_CARE))
    return tuple(found)


def easiest(technique: Technique, instrument: Instrument) -> Reach:
    """The verdict on the note that suits a technique best; of equals, the lowest in the middle register."""
    middle = instrument.register("middle") or instrument.registers[0]
    found = reach(technique, instrument)
    return min(found, key=lambda r: (_RANK[r.verdict], abs(r.note.pitch_cents - middle.low.pitch_cents)))


def _reach(tried: tuple[ProbeGesture, ...], note: Spelling, hoped: Verdict) -> Reach:
    best: Judged | None = None
    for shape in tried:
        gesture = shape.at(note)
        if gesture is None:
            continue
        judged = judge(gesture)
        if best is None or _RANK[judged.verdict] < _RANK[best.verdict]:
            best = judged
        if _RANK[best.verdict] <= _RANK[hoped]:
            break
    if best is None:
        return Reach(note=note, verdict=Verdict.NOT_AS_WRITTEN, reason="no such note can be written")
    reason = next((f.text for f in best.findings if f.severity and f.severity.rank), "")
    return Reach(note=note, verdict=best.verdict, reason=reason)


_RANK = {Verdict.PLAYABLE: 0, Verdict.WITH_CARE: 1, Verdict.NOT_AS_WRITTEN: 2}
