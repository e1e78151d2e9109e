"""What stands around the lines of a level: a warm-up that suits technique and student, and a cool-down."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.diagnostics import Verdict
from gesturesmith.exercises import compass
from gesturesmith.exercises.levels.base import StudentLevel
from gesturesmith.exercises.phrases import note_in, starts, way_of
from gesturesmith.exercises.preparation import barred, warm_up
from gesturesmith.exercises.shapes.base import PhraseShape, phrase
from gesturesmith.instruments.base import Instrument
from gesturesmith.judge.gesture import judge
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint, make
from gesturesmith.rules.base import PassageCase
from gesturesmith.techniques.base import Technique
from gesturesmith.units import KeySignature

_LONG = phrase("2:4 | 1:4 | 2:2 1:2 | 0:4")
_TONGUED = phrase("0:1 0:1 0:1 0:1 | 1:1 1:1 1:1 1:1 | 2:1 2:1 1:1 1:1 | 0:4")
_CHORD = phrase("0:2 2:2 | 4:2 2:2 | 0:4")  # for a single tube
_DOWN = phrase("2:4 | 1:4 | 0:4")
_TEMPO = Fraction(60)
_LIP = ("lip", "partials", "against")  # paths that begin with slurs
_HARD = 4  # the first level after which every sheet ends with a cool-down


def before(technique: Technique, instrument: Instrument, level: StudentLevel) -> PassageCase | None:
    """The warm-up, on the student's notes: repeated notes before tonguing, slurs before what the lip does, else
    long notes. None if the checker approves of nothing.
    """
    if technique.path in _LIP or technique.trill == "neighbour":
        slurs = warm_up(instrument)
        if slurs is not None and _inside(slurs, instrument, level):
            return slurs
    shapes = (_TONGUED, _LONG, _CHORD) if way_of(technique) == "tongue" else (_LONG, _CHORD)
    return _played(shapes, instrument, level, "mp", "warm-up")


def after(technique: Technique, instrument: Instrument, level: StudentLevel) -> PassageCase | None:
    """The cool-down, soft and low; None where the technique does not ask for one."""
    if not (technique.tiring or technique.loud or level.number >= _HARD):
        return None
    return _played((_DOWN, _CHORD), instrument, level, "p", "cool-down")


def _inside(passage: PassageCase, instrument: Instrument, level: StudentLevel) -> bool:
    low, high = compass.of(instrument).range_of(level.number, instrument)
    pitches = [p.pitch for case in passage.cases if case is not None for p in case.gesture.points]
    return all(low <= pitch.written.pitch_cents <= high for pitch in pitches if pitch is not None)


def _played(
    shapes: tuple[PhraseShape, ...], instrument: Instrument, level: StudentLevel, dynamic: str, name: str
) -> PassageCase | None:
    """The first of some shapes that is playable, in the first key, low or in the middle of the student's notes."""
    notes = compass.of(instrument)
    key = KeySignature(notes.keys_of(1)[0], "major")
    # What a beginner plays is comfortable for all.
    ends = notes.range_of(1, instrument)
    for shape in shapes:
        for degree in starts(shape, key, ends)[:1]:
            at = Fraction(0)
            points = []
            for step, beats in shape.notes:
                points.append(NewPoint(pitch=note_in(key, degree + step), at=at))
                at += beats
            new = NewGesture(
                instrument=instrument,
                points=tuple(points),
                name=name,
                tempo=instrument.student.in_reach(_TEMPO) if instrument.student is not None else _TEMPO,
                lasts=at,
                dynamics=(NewLevel(level=dynamic),),
            )
            gesture, _ = make(new)
            judged = judge(gesture) if gesture is not None else None
            if judged is not None and judged.verdict is Verdict.PLAYABLE:
                return barred((judged.case,), shape.meter, 1, key=key)
    return None
