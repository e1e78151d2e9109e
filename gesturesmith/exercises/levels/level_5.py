"""A professional: the whole usual range, speed, leaps, soft extremes, endurance, two techniques at once."""

from fractions import Fraction

from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.exercises.levels.base import StudentLevel

LEVEL = StudentLevel(
    number=5,
    tempi=Sourced((60, 92, 112, 132, 144), HOUSE, "slow enough for long soft lines, quick enough for runs"),
    pace=Sourced((Fraction(1, 2), Fraction(1, 4), Fraction(1)), HOUSE, "sixteenths, eighths and long lines"),
    shares=Sourced(("all", "every other"), HOUSE, "the technique throughout, or in turn with plain notes"),
    widest=Sourced(2400, HOUSE, "two octaves"),
    dynamics=Sourced(
        (("pp",), ("ff",), ("pp", "ff"), ("ff", "pp"), ("p",)), HOUSE, "soft and loud extremes, and between them"
    ),
    tongue=Sourced((0.88, 1.0), HOUSE, "up to what the checker takes for the limit"),
    times=2,
    joined=True,
)
