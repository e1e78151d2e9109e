"""Quarter tones that need the lip follow each other faster than it can find them.

Checks  notes with quarter tones that no fingering gives in tune
Why     a quarter tone with a fingering of its own is as fast as any note; one that the lip must correct takes aim
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
        corrected = any(
            p.pitch is not None and p.pitch.sounding.alter.denominator == 2 and how.correction
            for p, how in ((before, played_before), (point, played))
        )
        if not corrected or before.about or point.about or played.tube == played_before.tube:
            continue
        seconds = seconds_between(case.gesture, before.at, point.at)
        if seconds > 0 and point.reached != "line" and 1 / seconds > worst:
            worst, place = 1 / seconds, point
    excess = above(case.instrument.limits.get("quarter_tones_per_s"), worst)
    if excess is not None and place is not None:
        word = fingering_word(case.instrument)
        yield Finding(
            span=place.span,
            text=f"{apart(worst, excess.limit)} changes of {word} a second, to or from a quarter tone that the lip "
            f"has to correct; about {plain(excess.limit)} can be played cleanly",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="changes a second", value=worst, limit=excess.limit, unit="changes a second"),),
            proposed_fixes=fixes.slower(case.gesture, worst / excess.limit),
        )
