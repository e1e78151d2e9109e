"""A dynamic is softer than the register speaks.

Checks  the level at each attacked note against the softest its register is asked for
Why     each pitch needs a least pressure to start, and the highest need most: softer, they may not speak
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: B5
      dynamics: ppp
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      dynamics: ppp
Fix     write it louder, reach it from below with a slur, or move it down
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import LEVELS
from gesturesmith.rules import _tries
from gesturesmith.rules._limits import softer
from gesturesmith.rules._reading import pitched_points, point_names, register_name
from gesturesmith.rules.base import Case, Finding, rule


@rule("GS508", "register-too-soft", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    for _, point in pitched_points(case):
        if point.reached != "attack" or any(t.tone == "none" for t in point.techniques):
            continue
        level = case.gesture.level_at(point.at)
        register = register_name(case, point)
        excess = softer(case.instrument.limits.get(f"softest_{register}"), level)
        if excess is None:
            continue
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} attacked at {level}; the {register} "
            f"register speaks from about {excess.limit}",
            evidence=excess.evidence,
            numbers=(
                Number(
                    name="level",
                    value=LEVELS.index(level),
                    limit=LEVELS.index(excess.limit),
                    unit="steps from niente",
                ),
            ),
            try_values=(*_tries.at_least(case.gesture, excess.limit), *_tries.moved(-12)),
        )
        return
