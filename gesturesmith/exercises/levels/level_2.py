"""The second and third year: an octave, longer stretches of the technique."""

from fractions import Fraction

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.exercises.levels.base import StudentLevel

LEVEL = StudentLevel(
    number=2,
    tempi=Sourced((66, 80, 88, 100), PRACTICE, "reykjavik.is, levels 1 and 2: quarters at 80 to 100"),
    pace=Sourced((Fraction(1),), HOUSE, "still quarters and halves: the technique is new"),
    shares=Sourced(("long", "held"), HOUSE, "every long note"),
    widest=Sourced(700, HOUSE, "a fifth, the step between the second and third partials"),
    dynamics=Sourced((("mf",), ("mp",)), HOUSE, "two levels that sound alike"),
    tongue=Sourced((0.3, 0.4), HOUSE, "slower than single tonguing breaks off: learnt slowly"),
    position=Sourced(6, HOUSE, "the seventh position comes with a longer arm"),
)
