"""A technique is asked for louder than it works.

Checks  the level through each note, hairpins included, against the loudest of the techniques in force there
Why     half-stopped, airy and half-valve tones turn into another sound when forced
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: half-stopped
      contour: C5
      dynamics: ff
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: half-stopped
      contour: C5
      dynamics: p
Fix     write it softer, or choose a technique that carries: `stopped`, `brassy`
"""

from collections.abc import Iterator

from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.dynamics import AskedLevel, too_loud, without_technique
from gesturesmith.rules.shared.limits import loudest_of, of_technique


@rule("GS505", "effect-too-loud", severity="caution", only=("limit:loudest",))
def check(case: Case) -> Iterator[Finding]:
    yield from too_loud(case, _asked(case), _words, without_technique(case))


def _asked(case: Case) -> Iterator[AskedLevel]:
    for index, point in enumerate(case.gesture.points):
        if point.kind != "silence":
            place = loudest_of(case.gesture, index)
            for technique in point.techniques:
                yield AskedLevel(
                    point, point.at, place, of_technique(case.instrument, technique, "loudest"), technique
                )


def _words(asked: AskedLevel, level: str, limit: str) -> str:
    name = asked.technique.title["en"].lower() if asked.technique is not None else ""
    return f"{name} {level}; {limit} is about the loudest that works"
