"""A position of the longer tube lies beyond the last position of the slide.

Checks  the place of the slide, in positions of the open slide, at every note played with a trigger
Why     the longer tube needs longer steps: the sixth position with the F attachment is at 7.4 of the open slide,
        which only the very end of a long slide reaches, or a tuning slide that was drawn before
Fires
    instrument: trombone-f
    pitches: written
    gesture a
      contour: C2
Passes
    instrument: trombone-f
    pitches: written
    gesture a
      contour: C#2
Fix     write it a semitone higher, or for a trombone with two valves
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import plain, played_points, point_names, tube_words


@rule("GS319", "slide-beyond-end", severity="caution", only=("slide",))
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("slide_end_position")
    for point, played in played_points(case):
        if limit is None or played.tube is None or played.asked_cents is None:
            continue
        excess = above(limit, played.tube.reach)
        if excess is None:
            continue
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} in {tube_words(case.instrument, played.tube)} is "
            f"{plain(played.tube.reach)} positions of the open slide out; it has {plain(excess.limit)}, and not "
            "every slide goes further",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="position", value=played.tube.reach, limit=excess.limit, unit="positions"),),
            proposed_fixes=fixes.at_pitch(case, played.index, float(played.asked_cents) + 100),
        )
        return
