"""A note is too short for its technique to be heard.

Checks  the unbroken time each technique is in force, and the time of each slide, against the least it needs
Why     a flutter needs a few rolls, a bend the way down and back; in less time the effect sounds like a blemish
Fires
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      technique: growl
      contour: C5
      lasts: 1/4 beats
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: growl
      contour: C5
      lasts: 2 beats
Fix     give it more time, or leave the technique out
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below, of_technique
from gesturesmith.rules.shared.reading import apart, in_force, plain, stretches


@rule("GS405", "effect-too-short", severity="caution", only=("limit:shortest_ms",))
def check(case: Case) -> Iterator[Finding]:
    for technique in in_force(case):
        limit = of_technique(case.instrument, technique, "shortest_ms")
        if limit is None:
            continue
        for point, seconds in stretches(case, technique):
            if point.stops:
                continue  # the end of a line, not a time it is kept up
            excess = below(limit, seconds * 1000)
            if excess is None:
                continue
            ms = seconds * 1000
            yield Finding(
                span=point.span,
                text=f"{apart(ms, excess.limit)} ms; {technique.title['en'].lower()} needs "
                f"{plain(excess.limit)} to be heard",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(Number(name="time", value=ms, limit=excess.limit, unit="ms"),),
                proposed_fixes=(
                    *fixes.slower(case.gesture, excess.limit / ms if ms else 1000.0),
                    *fixes.without(case, technique.key),
                ),
            )
            break
