"""A gesture has more points than a player has time to read.

Checks  the points of the contour against its length
Why     a player reads a shape, not a table: beyond a certain density points can no longer be told apart
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: half-valve
      contour: xC5 ~~ xD5 ~~ xE5 ~~ xC5 ~~ xD5 ~~ xE5 ~~ xC5 ~~ xD5 ~~ xE5 ~~ xC5 ~~ xD5 ~~ xE5 ~~ xF5 ~~ xG5
      lasts: 1 beat
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: half-valve
      contour: xC5 ~~ xD5 ~~ xE5
      lasts: 2 beats
Fix     keep only the turning points of the line, or give it more time
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import plain


@rule("GS708", "too-many-points-to-read", severity="caution", only=("line",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    slid = sum(1 for p in gesture.points if p.reached == "line")
    if slid < 2:
        return
    rate = slid / float(gesture.seconds)
    excess = above(case.instrument.limits.get("points_per_s"), rate)
    if excess is None:
        return
    yield Finding(
        span=gesture.span_of("contour"),
        text=f"{len(gesture.points)} points in {plain(gesture.seconds)} s; about {plain(excess.limit)} a "
        "second can be read along a line",
        evidence=excess.evidence,
        severity=excess.severity,
        numbers=(Number(name="points a second", value=rate, limit=excess.limit, unit="points a second"),),
        proposed_fixes=fixes.slower(gesture, rate / excess.limit),
    )
