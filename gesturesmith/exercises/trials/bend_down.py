"""How far down: a lip bend and back."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import Family, lowered, middle
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint


def _gesture(instrument: Instrument, register: Register, cents: int) -> NewGesture:
    note = middle(instrument, register)
    home = NewPoint(pitch=note)
    low = NewPoint(pitch=lowered(note, cents), line="straight")
    return NewGesture(
        instrument=instrument,
        points=(home, low, NewPoint(pitch=note, line="straight")),
        techniques=("bend",),
        lasts=Fraction(4),
        dynamics=(NewLevel(level="mf"),),
    )


FAMILY = Family(
    limit="bend_down",
    rule="bend-too-wide",
    title={
        "en": "Lip bend downwards, {register}",
        "de": "Bending mit den Lippen abwärts, {register}",
        "fr": "Inflexion à la lèvre vers le bas, {register}",
        "it": "Inflessione con le labbra verso il basso, {register}",
    },
    ask={
        "en": "Bend the note down with the lip alone, and back.",
        "de": "Den Ton nur mit dem Ansatz herunterziehen und zurück.",
        "fr": "Abaisser la note avec les lèvres seules, puis revenir.",
        "it": "Abbassare la nota con le sole labbra e tornare.",
    },
    gesture=_gesture,
    in_registers=True,
    grid=Fraction(25),
)
