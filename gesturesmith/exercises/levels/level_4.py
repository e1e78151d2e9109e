"""A student of music: wide range, quick notes, the technique throughout."""

from fractions import Fraction

from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.exercises.levels.base import StudentLevel

LEVEL = StudentLevel(
    number=4,
    tempi=Sourced((80, 96, 112, 126), HOUSE, "eighths and sixteenths at the tempi of studies"),
    pace=Sourced((Fraction(1, 2), Fraction(1)), HOUSE, "eighths and quarters, with long notes between them"),
    shares=Sourced(("all", "every other"), HOUSE, "the technique throughout, or in turn with plain notes"),
    widest=Sourced(1600, HOUSE, "an octave and a third"),
    dynamics=Sourced((("p",), ("f",), ("p", "f"), ("f", "p")), HOUSE, "soft and loud, and hairpins both ways"),
    tongue=Sourced((0.68, 0.8), HOUSE, "quicker than single tonguing"),
)
