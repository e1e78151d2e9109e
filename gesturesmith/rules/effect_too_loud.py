"""A technique is asked for more loudly than it works.

Checks  the level through each note, hairpins included, against the loudest of the techniques in force there
Why     half-stopped, airy and half-valve tones turn into another sound when they are forced
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
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import level_number, level_words, louder, loudest_of


@rule("GS505", "effect-too-loud", severity="caution", only=("limit:loudest",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    said = set()
    for index, point in enumerate(gesture.points):
        if point.kind == "silence":
            continue
        place = loudest_of(gesture, index)
        for technique in point.techniques:
            excess = louder(technique.limits.get("loudest"), place)
            if excess is None or technique.key in said:
                continue
            said.add(technique.key)
            asked = level_words(gesture, point.at, place)
            yield Finding(
                span=point.span,
                text=f"{technique.title['en'].lower()} {asked}; it works up to about {excess.limit}",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(level_number(place, excess.limit),),
                proposed_fixes=(*fixes.at_most(gesture, excess.limit), *fixes.without(case, technique.key)),
            )
