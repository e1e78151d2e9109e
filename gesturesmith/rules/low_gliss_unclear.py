"""A glissando is so low that a fast chromatic run would be clearer.

Checks  the lines of a harmonic, fingered or lip glissando that stay in the low register
Why     low partials are far apart and speak slowly: the result is a few separate notes, or mud
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: fingered-gliss
      contour: G2 ~~ E3
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: fingered-gliss
      contour: G4 ~~ E5
Fix     write a `chromatic` run, or move the glissando up
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import both_names, slides


@rule(
    "GS206",
    "low-gliss-unclear",
    severity="caution",
    only=(
        "path:partials",
        "path:valves",
        "path:lip",
    ),
)
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("low_gliss_highest_cents")
    if limit is None:
        return
    for slide in slides(case, "partials", "valves", "lip"):
        top = max(slide.start.sounding_cents or 0, slide.end.sounding_cents or 0)
        if top >= limit.narrow.value or any(t.one_partial for t in slide.start.techniques):
            continue
        yield Finding(
            span=slide.segment.span,
            text=f"stays below {both_names(case.instrument, limit.narrow.value)}, where a fast chromatic run says "
            "it better",
            evidence=limit.narrow,
            numbers=(Number(name="highest pitch", value=top, limit=limit.narrow.value, unit="cents above C-1"),),
            proposed_fixes=(*fixes.instead(case, "motion", "chromatic"), *fixes.moved(12)),
        )
