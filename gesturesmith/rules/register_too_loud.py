"""A dynamic is louder than the register carries.

Checks  the level through each note, hairpins included, against the loudest its register is asked for
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

from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import level_number, level_words, louder, loudest_of
from gesturesmith.rules.shared.reading import leaves_by_line, pitched_points, point_names, register_name


@rule("GS507", "register-too-loud", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    points = case.gesture.points
    for index, point in pitched_points(case):
        register = register_name(case, point)
        # Where a line leads into another register, the swell on the way belongs to neither.
        stays = not leaves_by_line(case.gesture, index) or register_name(case, points[index + 1]) == register
        place = loudest_of(case.gesture, index, throughout=stays)
        excess = louder(case.instrument.limits.get(f"loudest_{register}"), place)
        if excess is None or any(t.tone == "none" for t in point.techniques):
            continue
        words = level_words(case.gesture, point.at, place)
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} {words}; the {register} register carries about {excess.limit}",
            evidence=excess.evidence,
            numbers=(level_number(place, excess.limit),),
            proposed_fixes=(*fixes.at_most(case.gesture, excess.limit), *fixes.moved(12)),
        )
        return
