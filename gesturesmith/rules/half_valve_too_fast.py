"""Half-valve notes follow each other too fast for the player to find them.

Checks  notes per second while valves are half down
Why     with half-closed valves the partials are shifted and have no clear centres; each takes time to find
Fires
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      technique: half-valve
      contour: xC5, xD5, xE5, xF5, xE5, xD5
      lasts: 2 beats
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: half-valve
      contour: xC5, xD5, xE5, xF5
      lasts: 4 beats
Fix     slow it down, or slide from note to note with `~~`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.realise.in_force import path_of
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, plain, slot_s


@rule("GS313", "half-valve-too-fast", severity="caution", only=("path:half-valve",))
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("half_valve_per_s")
    gesture = case.gesture
    fast = [
        (1 / slot_s(gesture, p), p)
        for p in gesture.sounding_points
        if path_of(p.techniques) == "half-valve" and p.reached != "line" and p.until > p.at
    ]
    if len(fast) < 2:
        return
    rate, point = max(fast, key=lambda pair: pair[0])
    excess = above(limit, rate)
    if excess is not None:
        yield Finding(
            span=point.span,
            text=f"{apart(rate, excess.limit)} notes a second with half valves; about {plain(excess.limit)} can "
            "be found",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="notes a second", value=rate, limit=excess.limit, unit="notes a second"),),
            proposed_fixes=fixes.slower(gesture, rate / excess.limit),
        )
