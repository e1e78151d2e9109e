"""How quick: the hand closed and open by turns."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.exercises.trials.base import BELOW, Family
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint


def _gesture(instrument: Instrument, register: Register, seconds: float) -> NewGesture:
    note = instrument.registers[1].high
    closed, opened = NewPoint(pitch=note, marks=("closed",)), NewPoint(pitch=note, marks=("open",))
    return NewGesture(
        instrument=instrument,
        points=(opened, closed) * 4,
        tempo=Fraction(round(15 / seconds)),
        lasts=Fraction(2),
        dynamics=(NewLevel(level="mf"),),
    )


FAMILY = Family(
    limit="hand_change_s",
    rule="hand-change-too-quick",
    title={
        "en": "The hand, closed and open by turns",
        "de": "Die Hand, abwechselnd geschlossen und offen",
        "fr": "La main, tour à tour bouchée et ouverte",
        "it": "La mano, alternando chiuso e aperto",
    },
    ask={
        "en": "Each note clearly closed (+) or open (o).",
        "de": "Jeder Ton klar geschlossen (+) oder offen (o).",
        "fr": "Chaque note nettement bouchée (+) ou ouverte (o).",
        "it": "Ogni nota chiaramente chiusa (+) o aperta (o).",
    },
    gesture=_gesture,
    needs="hand",
    steps=BELOW,
    grid=Fraction(1, 100),
)
