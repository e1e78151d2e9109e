"""A slide is too narrow to be heard as its technique.

Checks  the width of each line against the least its technique needs
Why     a run needs a note in between, and a fingered glissando more than the two notes of a trill
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: fingered-gliss
      contour: C5 ~~ D5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: fingered-gliss
      contour: C5 ~~ G5
Fix     widen it, or write a `bend` or a plain slur
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import counted, plain, slides


@rule("GS208", "slide-too-narrow", severity="caution", only=("limit:narrowest_cents",))
def check(case: Case) -> Iterator[Finding]:
    for slide in slides(case):
        for technique in slide.start.techniques:
            excess = below(technique.limits.get("narrowest_cents"), abs(slide.cents))
            if excess is None or slide.cents == 0:
                continue
            yield Finding(
                span=slide.segment.span,
                text=f"{counted(abs(slide.cents) / 100, 'semitone')}; {technique.title['en'].lower()} needs "
                f"{plain(excess.limit / 100)}",
                evidence=excess.evidence,
                numbers=(Number(name="width", value=abs(slide.cents), limit=excess.limit, unit="cents"),),
                proposed_fixes=fixes.instead(case, "motion", "bend", "lip-gliss"),
            )
