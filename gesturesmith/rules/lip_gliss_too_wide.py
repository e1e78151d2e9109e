"""A lip glissando covers more than the lip can blur.

Checks  the width of each line of a lip glissando
Why     the lip hides one or two steps between partials; across more, each is heard as a separate note
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: lip-gliss
      contour: C4 -- C5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: lip-gliss
      contour: G4 -- C5
Fix     narrow it, or ask for a `fingered-gliss` or a `half-valve` slide
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import counted, plain, slides


@rule("GS207", "lip-gliss-too-wide", severity="caution", only=("path:lip",))
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("lip_gliss_cents")
    for slide in slides(case, "lip"):
        if any(t.one_partial for t in slide.start.techniques):
            continue
        excess = above(limit, abs(slide.cents))
        if excess is None:
            continue
        yield Finding(
            span=slide.segment.span,
            text=f"{counted(abs(slide.cents) / 100, 'semitone')}; the lip blurs the steps of about "
            f"{plain(excess.limit / 100)}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="width", value=abs(slide.cents), limit=excess.limit, unit="cents"),),
            proposed_fixes=fixes.instead(case, "motion", "fingered-gliss", "chromatic"),
        )
