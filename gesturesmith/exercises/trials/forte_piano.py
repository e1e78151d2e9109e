"""How quick: fp on one note."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import BELOW, Family, middle
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint


def _gesture(instrument: Instrument, register: Register, seconds: float) -> NewGesture:
    return NewGesture(
        instrument=instrument,
        points=(NewPoint(pitch=middle(instrument, register)),),
        tempo=Fraction(round(60 / seconds)),
        lasts=Fraction(1),
        dynamics=(NewLevel(level="fp"),),
    )


FAMILY = Family(
    limit="forte_piano_s",
    rule="forte-piano-too-quick",
    title={
        "en": "fp on a short note",
        "de": "fp auf einem kurzen Ton",
        "fr": "fp sur une note brève",
        "it": "fp su una nota breve",
    },
    ask={
        "en": "Both the loud stroke and the soft rest of the note are to be heard.",
        "de": "Der laute Anstoß und der leise Rest sollen beide zu hören sein.",
        "fr": "L’attaque forte et le reste doux doivent s’entendre tous deux.",
        "it": "Si devono sentire sia l’attacco forte sia il resto piano.",
    },
    gesture=_gesture,
    steps=BELOW,
    grid=Fraction(1, 20),
)
