"""A technique is asked for more softly than it starts.

Checks  the dynamic at each note against the softest level of the techniques in force there
Why     a flutter, a growl or brassy tone needs a certain pressure of air before it begins at all
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
Fix     write it louder; from niente it can still be reached with `<`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import LEVELS
from gesturesmith.rules import _tries
from gesturesmith.rules._limits import softer
from gesturesmith.rules.base import Case, Finding, rule


@rule("GS504", "effect-too-soft", severity="caution", only=("limit:softest",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    said = set()
    for point in gesture.sounding_points:
        if point.reached == "line":
            continue
        level = gesture.level_at(point.at)
        for technique in point.techniques:
            excess = softer(technique.limits.get("softest"), level)
            if excess is None or technique.key in said:
                continue
            said.add(technique.key)
            yield Finding(
                span=point.span,
                text=f"{technique.title['en'].lower()} at {level}; it starts from about {excess.limit}",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(
                    Number(
                        name="level",
                        value=LEVELS.index(level),
                        limit=LEVELS.index(excess.limit),
                        unit="steps from niente",
                    ),
                ),
                try_values=(*_tries.at_least(gesture, excess.limit), *_tries.without(case, technique.key)),
            )
