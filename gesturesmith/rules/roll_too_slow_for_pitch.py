"""A flutter or growl is so low that one roll of the tongue holds hardly any periods of the note.

Checks  every fluttered or growled note: periods of the note in one roll, at 20 to 30 rolls per second
Why     with fewer than about three periods between two strokes no pitch is left, only a rattle
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: flutter-tongue
      contour: G2
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: flutter-tongue
      contour: C4
Fix     move it up, or write x-notes if only the rattle is wanted
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import apart, hz, pitched_points, plain, point_names


@rule("GS404", "roll-too-slow-for-pitch", severity="caution", only=("limit:cycles_hz",))
def check(case: Case) -> Iterator[Finding]:
    for index, point in pitched_points(case):
        for technique in point.techniques:
            cycles = technique.limits.get("cycles_hz")
            if cycles is None or point.about:
                continue
            fastest = cycles.narrow.value[1]
            held = hz(point) / fastest
            excess = below(technique.limits.get("cycle_periods"), held)
            if excess is None:
                continue
            yield Finding(
                span=point.span,
                text=f"{point_names(case, point)}: {apart(held, excess.limit)} periods "
                f"in a roll at {fastest} a second; about {plain(excess.limit)} are needed for a pitch",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(Number(name="periods in a roll", value=held, limit=excess.limit, unit="periods"),),
                proposed_fixes=(*fixes.moved(12), *fixes.about(case.gesture, index)),
            )
