"""How loud: the lowest register."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import Family, middle
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint


def _gesture(instrument: Instrument, register: Register, level: str) -> NewGesture:
    return NewGesture(
        instrument=instrument,
        points=(NewPoint(pitch=middle(instrument, instrument.registers[0])),),
        lasts=Fraction(2),
        dynamics=(NewLevel(level=level),),
    )


FAMILY = Family(
    limit="loudest_low",
    rule="register-too-loud",
    title={
        "en": "Loud and low",
        "de": "Laut und tief",
        "fr": "Fort dans le grave",
        "it": "Forte nel grave",
    },
    ask={
        "en": "A full note at this level, without forcing.",
        "de": "Ein voller Ton in dieser Lautstärke, ohne zu forcieren.",
        "fr": "Une note pleine à cette nuance, sans forcer.",
        "it": "Una nota piena con questa dinamica, senza forzare.",
    },
    gesture=_gesture,
    steps=(Fraction(-1), Fraction(0), Fraction(1)),
)
