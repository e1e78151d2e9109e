"""How fast: chromatic runs."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import Family, lowered
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint

_WIDTHS = (12, 8, 6, 4, 3, 2)  # semitones, the widest first: as many sixteenths are one note, dotted or not


def _gesture(instrument: Instrument, register: Register, rate: float) -> NewGesture:
    top = register.high
    room = int(top.pitch_cents - register.low.pitch_cents) // 100
    width = next((width for width in _WIDTHS if width <= room), 1)
    return NewGesture(
        instrument=instrument,
        points=(NewPoint(pitch=lowered(top, 100 * width)), NewPoint(pitch=top, line="wavy")),
        techniques=("chromatic",),
        tempo=Fraction(round(rate * 15)),
        lasts=Fraction(width, 4),
        dynamics=(NewLevel(level="mf"),),
    )


FAMILY = Family(
    limit="chromatic_per_s",
    rule="run-too-fast",
    title={
        "en": "Chromatic runs, {register}",
        "de": "Chromatische Läufe, {register}",
        "fr": "Traits chromatiques, {register}",
        "it": "Scale cromatiche, {register}",
    },
    ask={
        "en": "Every semitone, four to the beat.",
        "de": "Alle Halbtöne, vier auf den Schlag.",
        "fr": "Tous les demi-tons, quatre par temps.",
        "it": "Tutti i semitoni, quattro per movimento.",
    },
    gesture=_gesture,
    in_registers=True,
)
