"""A pedal note is asked for louder than it can be played.

Checks  the level through every note, hairpins included, on the first partial of its tube
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

from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import level_number, level_words, louder, loudest_of
from gesturesmith.rules.shared.reading import leaves_by_line, played_points, point_names


@rule("GS509", "pedal-too-loud", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    highest = case.instrument.limits.get("pedal_partial")
    loudest = case.instrument.limits.get("pedal_loudest")
    gesture = case.gesture
    partials = {p.index: p.partial for p in case.realisation.points}
    for point, played in played_points(case):
        if highest is None or not 0 < played.partial <= highest.narrow.value:
            continue
        # Where a line leaves the pedal note, it is one only where the line begins.
        stays = not leaves_by_line(gesture, played.index) or partials.get(played.index + 1) == played.partial
        place = loudest_of(gesture, played.index, throughout=stays)
        excess = louder(loudest, place)
        if excess is None:
            continue
        words = level_words(gesture, point.at, place)
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} is a pedal note {words}; it can be played up to about {excess.limit}",
            evidence=excess.evidence,
            numbers=(level_number(place, excess.limit),),
            proposed_fixes=(*fixes.at_most(case.gesture, excess.limit), *fixes.moved(12)),
        )
        return
