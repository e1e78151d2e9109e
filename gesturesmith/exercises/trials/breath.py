"""How long: one breath, held at mf."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import Family, middle
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint


def _gesture(instrument: Instrument, register: Register, litres: float) -> NewGesture:
    flow = instrument.limits[f"breath_flow_{register.name}_mf"].narrow.value
    return NewGesture(
        instrument=instrument,
        points=(NewPoint(pitch=middle(instrument, register)),),
        lasts=Fraction(round(litres / flow)),
        in_seconds=True,
        dynamics=(NewLevel(level="mf"),),
    )


FAMILY = Family(
    limit="breath_litres",
    rule="breath-too-short",
    title={
        "en": "One breath",
        "de": "Ein Atem",
        "fr": "Une respiration",
        "it": "Un respiro",
    },
    ask={
        "en": "Hold the note for as many seconds, in one breath, at an even mf.",
        "de": "Den Ton so viele Sekunden lang in einem Atem halten, gleichmäßig mf.",
        "fr": "Tenir la note le nombre de secondes indiqué, d’un seul souffle, mf égal.",
        "it": "Tenere la nota per i secondi indicati, in un solo respiro, mf costante.",
    },
    gesture=_gesture,
)
