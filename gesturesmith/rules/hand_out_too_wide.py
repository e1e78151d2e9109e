"""A slide with the hand out of the bell is too wide to stay smooth.

Checks  the width of each line of a hand-out slide
Why     across more than a few partials the breaks between them become audible again
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: hand-out
      contour: Ab5 -- G6
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: hand-out
      contour: A5 -- C6
Fix     narrow it, or split it in two
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import counted, plain, slides


@rule("GS306", "hand-out-too-wide", severity="caution", only=("path:hand-out",))
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("hand_out_widest_cents")
    for slide in slides(case, "hand-out"):
        excess = above(limit, abs(slide.cents))
        if excess is None:
            continue
        yield Finding(
            span=slide.segment.span,
            text=f"{counted(abs(slide.cents) / 100, 'semitone')}; smooth over about {plain(excess.limit / 100)}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="width", value=abs(slide.cents), limit=excess.limit, unit="cents"),),
            proposed_fixes=fixes.instead(case, "motion", "harmonic-gliss", "fingered-gliss"),
        )
