"""How far up: a lip bend and back."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import Family, lowered, middle
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint


def _gesture(instrument: Instrument, register: Register, cents: int) -> NewGesture:
    note = middle(instrument, register)
    high = NewPoint(pitch=lowered(note, -cents), line="straight")
    return NewGesture(
        instrument=instrument,
        points=(NewPoint(pitch=note), high, NewPoint(pitch=note, line="straight")),
        techniques=("bend",),
        lasts=Fraction(4),
        dynamics=(NewLevel(level="mf"),),
    )


FAMILY = Family(
    limit="bend_up",
    rule="bend-too-wide",
    title={
        "en": "Lip bend upwards, {register}",
        "de": "Bending mit den Lippen aufwärts, {register}",
        "fr": "Inflexion à la lèvre vers le haut, {register}",
        "it": "Inflessione con le labbra verso l’alto, {register}",
    },
    ask={
        "en": "Bend the note up with the lip alone, and back.",
        "de": "Den Ton nur mit dem Ansatz hinaufziehen und zurück.",
        "fr": "Élever la note avec les lèvres seules, puis revenir.",
        "it": "Alzare la nota con le sole labbra e tornare.",
    },
    gesture=_gesture,
    in_registers=True,
    grid=Fraction(5),
    steps=(Fraction(1, 2), Fraction(1), Fraction(3, 2), Fraction(2)),
)
