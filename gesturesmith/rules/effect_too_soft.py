"""A technique is asked for softer than it can start.

Checks  the level at the start of each note, hairpins included, against the softest of the techniques in force
Why     flutter-tonguing, a growl or a brassy tone needs a certain air pressure to begin at all
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
Fix     write it louder; `<` from niente is still possible
"""

from collections.abc import Iterator

from gesturesmith.model.levels import place_at
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.dynamics import AskedLevel, too_soft, without_technique
from gesturesmith.rules.shared.reading import begun


@rule("GS504", "effect-too-soft", severity="caution", only=("limit:softest",))
def check(case: Case) -> Iterator[Finding]:
    yield from too_soft(case, _asked(case), _words, without_technique(case))


def _asked(case: Case) -> Iterator[AskedLevel]:
    for at, index in begun(case.gesture):
        point, place = case.gesture.points[index], place_at(case.gesture, at)
        for technique in point.techniques:
            yield AskedLevel(point, at, place, technique.limits.get("softest"), technique)


def _words(asked: AskedLevel, level: str, limit: str) -> str:
    name = asked.technique.title["en"].lower() if asked.technique is not None else ""
    return f"{name} {level}; {limit} is about the softest that works"
