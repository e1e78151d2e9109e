"""The slide has to travel further than the notes leave time for.

Checks  positions from note to note, and along the lines of a slide glissando, against their time, on an
        instrument with a slide
Why     a far position is an arm's length away; in fast notes the pitch smears on the way
Fires
    instrument: trombone
    pitches: written
    tempo: 120
    gesture a
      contour: Bb2, B2, Bb2, B2, Bb2, B2, Bb2, B2
      lasts: 2 beats
Passes
    instrument: trombone
    pitches: written
    tempo: 60
    gesture a
      contour: Bb2, C3, D3
Fix     slow it down, or choose notes in nearby positions
"""

from collections.abc import Iterator
from itertools import pairwise

from gesturesmith.diagnostics import Number
from gesturesmith.realise.in_force import path_of
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, counted, plain, played_points, seconds_between


@rule("GS315", "slide-travel-too-fast", severity="caution", only=("slide",))
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("slide_positions_per_s")
    if limit is None or case.instrument.kind != "slide":
        return
    worst, place, moved = 0.0, None, 0.0
    for (before, played_before), (point, played) in pairwise(played_points(case)):
        slid = point.reached == "line"
        seconds = seconds_between(case.gesture, before.at, point.at)  # the slide also moves during rests
        if played_before.tube is None or played.tube is None or seconds <= 0:
            continue
        if slid and (
            path_of(before.techniques) not in ("slide", "against") or played.index in case.realisation.breaks
        ):
            continue
        travel = abs(played.tube.reach - played_before.tube.reach)
        if travel / seconds > worst:
            worst, place, moved = travel / seconds, point, travel
    excess = above(limit, worst)
    if excess is not None and place is not None:
        yield Finding(
            span=place.span,
            text=f"the slide moves {counted(moved, 'position')} to here, {apart(worst, excess.limit)} a second; "
            f"about {plain(excess.limit)} a second is clean",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(
                Number(name="positions a second", value=worst, limit=excess.limit, unit="positions a second"),
            ),
            proposed_fixes=fixes.slower(case.gesture, worst / excess.limit),
        )
