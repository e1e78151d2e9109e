"""How soft: the highest register."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import Family, middle
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint


def _gesture(instrument: Instrument, register: Register, level: str) -> NewGesture:
    return NewGesture(
        instrument=instrument,
        points=(NewPoint(pitch=middle(instrument, instrument.registers[-1])),),
        lasts=Fraction(4),
        dynamics=(NewLevel(level=level),),
    )


FAMILY = Family(
    limit="softest_top",
    rule="register-too-soft",
    title={
        "en": "Soft and high",
        "de": "Leise und hoch",
        "fr": "Doux dans l’aigu",
        "it": "Piano nell’acuto",
    },
    ask={
        "en": "Begin the note with the tongue, at this level.",
        "de": "Den Ton mit der Zunge beginnen, in dieser Lautstärke.",
        "fr": "Attaquer la note, à cette nuance.",
        "it": "Attaccare la nota, con questa dinamica.",
    },
    gesture=_gesture,
    steps=(Fraction(1), Fraction(0), Fraction(-1), Fraction(-2)),
)
