"""Equal strokes on one note, at the tempo that gives a number of them a second."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from gesturesmith.exercises.trials.base import middle
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint

_BEATS = 4


def strokes(
    technique: str, each_beat: int, *, about: bool = False
) -> Callable[[Instrument, Register, float], NewGesture]:
    """Four beats of strokes with a technique, so many in each; `about`: their pitch is approximate."""

    def gesture(instrument: Instrument, register: Register, rate: float) -> NewGesture:
        return NewGesture(
            instrument=instrument,
            points=(NewPoint(pitch=middle(instrument, register), about=about),),
            techniques=(technique,),
            tempo=Fraction(round(rate * 60 / each_beat)),
            lasts=Fraction(_BEATS),
            attacks=_BEATS * each_beat,
            dynamics=(NewLevel(level="mf"),),
        )

    return gesture
