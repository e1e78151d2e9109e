"""A technique is asked for more softly than it starts.

Checks  the level where each note begins, hairpins included, against the softest of the techniques in force
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

from gesturesmith.model.levels import place_at
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import level_number, level_words, softer
from gesturesmith.rules.shared.reading import begun


@rule("GS504", "effect-too-soft", severity="caution", only=("limit:softest",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    said = set()
    for at, index in begun(gesture):
        point = gesture.points[index]
        place = place_at(gesture, at)
        for technique in point.techniques:
            excess = softer(technique.limits.get("softest"), place)
            if excess is None or technique.key in said:
                continue
            said.add(technique.key)
            asked = level_words(gesture, at, place)
            yield Finding(
                span=point.span,
                text=f"{technique.title['en'].lower()} {asked}; it starts from about {excess.limit}",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(level_number(place, excess.limit),),
                proposed_fixes=(*fixes.at_least(gesture, excess.limit), *fixes.without(case, technique.key)),
            )
