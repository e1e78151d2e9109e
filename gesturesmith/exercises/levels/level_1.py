"""The first year: five or six notes, quarters and halves, one new thing."""

from fractions import Fraction

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.exercises.levels.base import StudentLevel

LEVEL = StudentLevel(
    number=1,
    tempi=Sourced(
        (60, 66, 72, 80),
        PRACTICE,
        "nzmeb.org, preliminary trumpet: scales at 60, one note a beat; reykjavik.is: quarters at 60 to 88",
    ),
    pace=Sourced(
        (Fraction(1),), PRACTICE, "nemusicpub.com, grade 1/2: whole, half and quarter notes, slow to moderate"
    ),
    shares=Sourced(("held",), HOUSE, "one new thing at a time, with time to prepare it"),
    widest=Sourced(500, HOUSE, "a fourth: the next partial is not yet found without help"),
    dynamics=Sourced((("mf",),), HOUSE, "one level, while the tone settles"),
    tongue=Sourced((0.15, 0.22), HOUSE, "hsutrumpets.com: begin super slow; the number is ours"),
    position=Sourced(6, HOUSE, "the seventh position is out of reach of a short arm; the first book avoids it"),
)
