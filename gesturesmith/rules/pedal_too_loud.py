"""A pedal note is asked for louder than it can be played.

Checks  the level through every note, hairpins included, on the first partial of its tube
Why     the first partial is not a true resonance of the instrument; with none to lean on, it cannot be forced
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
from gesturesmith.rules.shared.dynamics import AskedLevel, moved, too_loud
from gesturesmith.rules.shared.limits import loudest_of
from gesturesmith.rules.shared.reading import leaves_by_line, played_points, point_names


@rule("GS509", "pedal-too-loud", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    def words(asked: AskedLevel, level: str, limit: str) -> str:
        return f"{point_names(case, asked.point)} is a pedal note {level}; {limit} is about the loudest possible"

    yield from too_loud(case, _asked(case), words, moved(12))


def _asked(case: Case) -> Iterator[AskedLevel]:
    highest = case.instrument.limits.get("pedal_partial")
    gesture = case.gesture
    partials = {p.index: p.partial for p in case.realisation.points}
    for point, played in played_points(case):
        if highest is None or not 0 < played.partial <= highest.narrow.value:
            continue
        # If a line leaves the pedal note, only the start of the line is one.
        stays = not leaves_by_line(gesture, played.index) or partials.get(played.index + 1) == played.partial
        place = loudest_of(gesture, played.index, throughout=stays)
        yield AskedLevel(point, point.at, place, case.instrument.limits.get("pedal_loudest"))
