"""A dynamic is softer than the register speaks.

Checks  the level at each attack, hairpins included, against the softest its register is asked for
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

from gesturesmith.model.levels import place_at
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import level_number, level_words, softer
from gesturesmith.rules.shared.reading import begun, pitched_points, point_names, register_name


@rule("GS508", "register-too-soft", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    pitched = dict(pitched_points(case))
    for at, index in begun(case.gesture):
        point = pitched.get(index)
        if point is None or point.reached == "slur" or any(t.tone == "none" for t in point.techniques):
            continue
        place = place_at(case.gesture, at)
        register = register_name(case, point)
        excess = softer(case.instrument.limits.get(f"softest_{register}"), place)
        if excess is None:
            continue
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} attacked {level_words(case.gesture, at, place)}; the {register} "
            f"register speaks from about {excess.limit}",
            evidence=excess.evidence,
            numbers=(level_number(place, excess.limit),),
            proposed_fixes=(*fixes.at_least(case.gesture, excess.limit), *fixes.moved(-12)),
        )
        return
