"""How fast: the slide from the first position to the fifth and back."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import Family, lowered
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint
from gesturesmith.units import spell

_POSITIONS = 4


def _gesture(instrument: Instrument, register: Register, rate: float) -> NewGesture:
    first = instrument.written(spell(instrument.sides[0].fundamental_cents + 1200))
    fifth = lowered(first, 100 * _POSITIONS)
    there = (NewPoint(pitch=first), NewPoint(pitch=fifth))
    return NewGesture(
        instrument=instrument,
        points=there * 4,
        tempo=Fraction(round(rate * 15 / _POSITIONS)),
        lasts=Fraction(2),
        dynamics=(NewLevel(level="mf"),),
    )


FAMILY = Family(
    limit="slide_positions_per_s",
    rule="slide-travel-too-fast",
    title={
        "en": "The slide to and fro",
        "de": "Der Zug hin und her",
        "fr": "La coulisse en va-et-vient",
        "it": "La coulisse avanti e indietro",
    },
    ask={
        "en": "Each note clean, in the first and fifth positions.",
        "de": "Jeder Ton sauber, in der ersten und fünften Lage.",
        "fr": "Chaque note nette, aux première et cinquième positions.",
        "it": "Ogni nota pulita, in prima e quinta posizione.",
    },
    gesture=_gesture,
    needs="slide",
    grid=Fraction(1),
)
