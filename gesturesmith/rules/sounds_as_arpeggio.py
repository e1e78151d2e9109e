"""A harmonic glissando passes partials so far apart that it is heard as an arpeggio.

Checks  the lowest partial of a sweep, and how many there are
Why     below partial 6 the steps are thirds or wider: a horn call rather than a glissando, unless the sweep goes on
        through so many partials that its upper part reads as one, which is only pointed out
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: C4 ~~ C5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 ~~ G5
Fix     nothing, if the horn call is meant; else begin higher, or hold a longer tube with `fingering: F 1-2-3`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import slides, tube_words


@rule("GS204", "sounds-as-arpeggio", severity="caution", only=("path:partials",))
def check(case: Case) -> Iterator[Finding]:
    partials = case.realisation.partials
    slide = next(slides(case, "partials"), None)
    least = case.instrument.limits.get("harmonic_gliss_min_partials")
    if not partials or slide is None or below(least, len(set(partials))):
        return
    excess = below(case.instrument.limits.get("harmonic_gliss_arpeggio_partial"), min(partials))
    if excess is None:
        return
    reads = below(case.instrument.limits.get("harmonic_gliss_reads_partials"), len(set(partials)))
    tube = tube_words(case.instrument, case.realisation.tube)
    yield Finding(
        span=slide.segment.span,
        text=f"begins at partial {min(partials)} of {tube}; below partial {excess.limit} it sounds as a "
        "horn-call arpeggio",
        evidence=excess.evidence,
        severity=Severity.ADVICE if reads is None else Severity.CAUTION,
        numbers=(Number(name="lowest partial", value=min(partials), limit=excess.limit, unit="partial"),),
        proposed_fixes=fixes.instead(case, "motion", "chromatic"),
    )
