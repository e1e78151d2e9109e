"""A dynamic is louder than the register carries.

Checks  the level at each note against the loudest its register is asked for
Why     the lowest octave is weak and covered: forced, it cracks before it gets louder
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: G2
      dynamics: fff
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      dynamics: ff
Fix     write it softer, or an octave higher
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import LEVELS
from gesturesmith.rules import _tries
from gesturesmith.rules._limits import louder
from gesturesmith.rules._reading import pitched_points, point_names, register_name
from gesturesmith.rules.base import Case, Finding, rule


@rule("GS507", "register-too-loud", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    for _, point in pitched_points(case):
        level = case.gesture.level_at(point.at)
        register = register_name(case, point)
        excess = louder(case.instrument.limits.get(f"loudest_{register}"), level)
        if excess is None or any(t.tone == "none" for t in point.techniques):
            continue
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} at {level}; the {register} register carries about {excess.limit}",
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
