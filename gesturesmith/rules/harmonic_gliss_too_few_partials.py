"""A harmonic glissando has nothing to sweep through.

Checks  how many different partials of the tube there are from the start to the end of a sweep
Why     with one or two partials there is nothing between start and end: it is a slur, not a glissando
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: C3 ~~ G3
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 ~~ G5
Fix     write a `chromatic` run or a `fingered-gliss`, widen the interval, or move it up where partials are closer
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import slides, tube_words


@rule("GS203", "harmonic-gliss-too-few-partials", severity="refused", only=("path:partials",))
def check(case: Case) -> Iterator[Finding]:
    partials = case.realisation.partials
    slide = next(slides(case, "partials"), None)
    excess = below(case.instrument.limits.get("harmonic_gliss_min_partials"), len(set(partials)))
    if not partials or slide is None or excess is None:
        return
    tube = tube_words(case.instrument, case.realisation.tube)
    few = sorted(set(partials))
    which = f"partials {few[0]} and {few[-1]}" if len(few) > 1 else f"partial {few[0]}"
    lie = "lie" if len(few) > 1 else "lies"
    yield Finding(
        span=slide.segment.span,
        text=f"only {which} of {tube} {lie} on the way; a glissando needs {excess.limit}",
        hint="a `chromatic` run or a `fingered-gliss` has notes on the way",
        evidence=excess.evidence,
        severity=excess.severity,
        numbers=(Number(name="partials", value=len(few), limit=excess.limit, unit="partials"),),
        proposed_fixes=(
            *fixes.instead(case, "motion", "chromatic", "fingered-gliss"),
            *fixes.moved(12),
        ),
    )
