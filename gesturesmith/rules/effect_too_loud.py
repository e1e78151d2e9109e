"""A technique is asked for more loudly than it works.

Checks  the dynamic at each note against the loudest level of the techniques in force there
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

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import LEVELS
from gesturesmith.rules import _tries
from gesturesmith.rules._limits import louder
from gesturesmith.rules.base import Case, Finding, rule


@rule("GS505", "effect-too-loud", severity="caution", only=("limit:loudest",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    said = set()
    for point in gesture.sounding_points:
        level = gesture.level_at(point.at)
        for technique in point.techniques:
            excess = louder(technique.limits.get("loudest"), level)
            if excess is None or technique.key in said:
                continue
            said.add(technique.key)
            yield Finding(
                span=point.span,
                text=f"{technique.title['en'].lower()} at {level}; it works up to about {excess.limit}",
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
                try_values=(*_tries.at_most(gesture, excess.limit), *_tries.without(case, technique.key)),
            )
