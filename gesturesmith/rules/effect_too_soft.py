"""A technique is asked for softer than it works.

Checks  the softest level of each note, hairpins included, against the softest of the techniques in force: until
        its last quarter, since a hairpin reaches its goal only at its end; for a technique that is only the
        beginning or the end of a note, the level at its start
Why     flutter-tonguing, a growl or a brassy tone needs a certain air pressure to begin, and to go on
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: flutter-tongue
      contour: C5
      dynamics: ppp
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: flutter-tongue
      contour: C5
      dynamics: mf
Fix     write it louder; `<` from niente and `>` to niente are still possible
"""

from collections.abc import Iterator
from fractions import Fraction

from gesturesmith.model.levels import extent, place_at
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.dynamics import AskedLevel, too_soft, without_technique
from gesturesmith.rules.shared.limits import of_technique
from gesturesmith.rules.shared.reading import begun

_HEARD = Fraction(3, 4)  # of a note; our own choice, which makes the rule milder
_MOMENTS = ("edge-in", "edge-off", "attack")  # layers of what is over in a moment


@rule("GS504", "effect-too-soft", severity="caution", only=("limit:softest",))
def check(case: Case) -> Iterator[Finding]:
    yield from too_soft(case, _asked(case), _words, without_technique(case))


def _asked(case: Case) -> Iterator[AskedLevel]:
    for at, index in begun(case.gesture):
        point, place = case.gesture.points[index], place_at(case.gesture, at)
        niente = not extent(case.gesture, at, point.until)[0]  # a way to begin and to end, not a level to hold
        lasting = place if niente else extent(case.gesture, at, at + (point.until - at) * _HEARD)[0]
        for technique in point.techniques:
            moment = technique.layer in _MOMENTS
            softest = of_technique(case.instrument, technique, "softest")
            yield AskedLevel(point, at, place if moment else lasting, softest, technique)


def _words(asked: AskedLevel, level: str, limit: str) -> str:
    name = asked.technique.title["en"].lower() if asked.technique is not None else ""
    return f"{name} {level}; {limit} is about the softest that works"
