"""An advanced student: eighth notes, more keys, loud and soft."""

from fractions import Fraction

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.exercises.levels.base import StudentLevel

LEVEL = StudentLevel(
    number=3,
    tempi=Sourced((60, 76, 92, 108), PRACTICE, "reykjavik.is: eighths at 56; nemusicpub.com, grade 2: up to 126"),
    pace=Sourced((Fraction(1), Fraction(1, 2)), PRACTICE, "reykjavik.is, level 3: scales in eighths"),
    shares=Sourced(("long", "every other", "all"), HOUSE, "in and out of the technique, and a whole line of it"),
    widest=Sourced(1200, HOUSE, "an octave: the lip has learnt to find it"),
    dynamics=Sourced((("mf",), ("p",), ("f",), ("p", "f")), HOUSE, "soft, loud, and from one to the other"),
    tongue=Sourced((0.5, 0.6), HOUSE, "about the speed at which single tonguing ends"),
)
