"""Quarter tones follow each other faster than their fingerings can be changed.

Checks  runs of notes with quarter tones on non-standard fingerings
Why     they use unusual tubes and partials: neither the hand nor the ear has a habit for them
Fires
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      technique: quarter-tones
      contour: C5, C^5, D5, D^5, E5, E^5, F5, F^5
      lasts: 2 beats
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: quarter-tones
      contour: C5, C^5, D5, D^5
      lasts: 4 beats
Fix     slow it down, or slide from note to note
"""

from collections.abc import Iterator
from itertools import pairwise

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, fingering_word, plain, played_points, seconds_between


@rule("GS314", "quarter-tones-too-fast", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    worst = 0.0
    place = None
    for (before, played_before), (point, played) in pairwise(played_points(case)):
        quarter = any(p.pitch is not None and p.pitch.sounding.alter.denominator == 2 for p in (before, point))
        if not quarter or before.about or point.about or played.tube == played_before.tube:
            continue
        seconds = seconds_between(case.gesture, before.at, point.at)
        if seconds > 0 and point.reached != "line" and 1 / seconds > worst:
            worst, place = 1 / seconds, point
    excess = above(case.instrument.limits.get("quarter_tones_per_s"), worst)
    if excess is not None and place is not None:
        word = fingering_word(case.instrument)
        yield Finding(
            span=place.span,
            text=f"{apart(worst, excess.limit)} changes of {word} a second between quarter tones; about "
            f"{plain(excess.limit)} can be played cleanly",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="changes a second", value=worst, limit=excess.limit, unit="changes a second"),),
            proposed_fixes=fixes.slower(case.gesture, worst / excess.limit),
        )
