"""How quick: the straight mute in."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import BELOW, Family, middle
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint


def _gesture(instrument: Instrument, register: Register, seconds: float) -> NewGesture:
    note = middle(instrument, register)
    rest = Fraction(str(seconds))
    points = (
        NewPoint(pitch=note, at=Fraction(0)),
        NewPoint(pitch=None, at=Fraction(1)),
        NewPoint(pitch=note, at=1 + rest, turns_to="muted"),
    )
    return NewGesture(
        instrument=instrument, points=points, lasts=2 + rest, mute="straight", dynamics=(NewLevel(level="mf"),)
    )


FAMILY = Family(
    limit="mute_change_s",
    rule="mute-change-too-quick",
    title={
        "en": "The straight mute in",
        "de": "Den Straight-Dämpfer einsetzen",
        "fr": "Mettre la sourdine",
        "it": "Mettere la sordina",
    },
    ask={
        "en": "The mute at hand, one beat a second.",
        "de": "Der Dämpfer liegt bereit; ein Schlag je Sekunde.",
        "fr": "La sourdine à portée de main ; un temps par seconde.",
        "it": "La sordina a portata di mano; un movimento al secondo.",
    },
    gesture=_gesture,
    steps=BELOW,
    grid=Fraction(1, 2),
)
