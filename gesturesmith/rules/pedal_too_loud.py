"""A pedal note is asked for louder than it can be played.

Checks  the dynamic of every note on the first partial of its tube
Why     the first partial is no true resonance of the instrument; without one to lean on it cannot be forced
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: F2
      dynamics: fff
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: F2
      dynamics: mf
Fix     write it softer, or an octave higher
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import LEVELS
from gesturesmith.rules import _tries
from gesturesmith.rules._limits import louder
from gesturesmith.rules._reading import played_points, point_names
from gesturesmith.rules.base import Case, Finding, rule


@rule("GS509", "pedal-too-loud", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    highest = case.instrument.limits.get("pedal_partial")
    loudest = case.instrument.limits.get("pedal_loudest")
    for point, played in played_points(case):
        level = case.gesture.level_at(point.at)
        excess = louder(loudest, level)
        if excess is None or highest is None or not 0 < played.partial <= highest.narrow.value:
            continue
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} is a pedal note at {level}; it can be "
            f"played up to about {excess.limit}",
            evidence=excess.evidence,
            numbers=(
                Number(
                    name="level",
                    value=LEVELS.index(level),
                    limit=LEVELS.index(excess.limit),
                    unit="steps from niente",
                ),
            ),
            try_values=(*_tries.at_most(case.gesture, excess.limit), *_tries.moved(12)),
        )
        return
