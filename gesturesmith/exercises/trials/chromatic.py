"""How fast: chromatic runs."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import Family, lowered
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint

_MOST = 12  # semitones: an octave, or what the register has


def _gesture(instrument: Instrument, register: Register, rate: float) -> NewGesture:
    top = register.high
    width = min(_MOST, int(top.pitch_cents - register.low.pitch_cents) // 100)
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
