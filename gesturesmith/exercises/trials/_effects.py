"""How long a technique can be kept up, and how softly it can be asked for, on one note."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from gesturesmith.exercises.trials.base import Family, middle
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint
from gesturesmith.techniques.base import own_name

_SOFTER = (Fraction(1), Fraction(0), Fraction(-1), Fraction(-2))  # levels from easy to hard


def _held(technique: str, place: str) -> Callable[[Instrument, Register, Any], NewGesture]:
    """One note with a technique in a register, for some seconds at mf, or for four beats at a level."""

    def gesture(instrument: Instrument, register: Register, value: Any) -> NewGesture:
        note = middle(instrument, instrument.register(place) or register)
        soft = isinstance(value, str)
        return NewGesture(
            instrument=instrument,
            points=(NewPoint(pitch=note),),
            techniques=(technique,),
            lasts=Fraction(4) if soft else Fraction(str(value)),
            in_seconds=not soft,
            dynamics=(NewLevel(level=value if soft else "mf"),),
        )

    return gesture


def longest(technique: str, place: str = "middle") -> Family:
    """How many seconds of a technique go without a break."""
    return Family(
        limit=own_name(technique, "longest_s"),
        rule="effect-too-long",
        technique=technique,
        title={
            "en": "{technique}: how long",
            "de": "{technique}: wie lange",
            "fr": "{technique} : combien de temps",
            "it": "{technique}: per quanto tempo",
        },
        ask={
            "en": "Keep it up for as many seconds as stand above the line, in one breath.",
            "de": "So viele Sekunden durchhalten, wie über der Zeile stehen, in einem Atem.",
            "fr": "Tenir le nombre de secondes indiqué, d’un seul souffle.",
            "it": "Mantenere per i secondi indicati, in un solo respiro.",
        },
        gesture=_held(technique, place),
        grid=Fraction(1),
    )


def softest(technique: str, place: str = "middle") -> Family:
    """How softly a technique works."""
    return Family(
        limit=own_name(technique, "softest"),
        rule="effect-too-soft",
        technique=technique,
        title={
            "en": "{technique}: how soft",
            "de": "{technique}: wie leise",
            "fr": "{technique} : jusqu’où dans la douceur",
            "it": "{technique}: quanto piano",
        },
        ask={
            "en": "Begin it and hold it at this level.",
            "de": "In dieser Lautstärke beginnen und halten.",
            "fr": "Commencer et tenir à cette nuance.",
            "it": "Iniziare e mantenere con questa dinamica.",
        },
        gesture=_held(technique, place),
        steps=_SOFTER,
    )
