"""A slide is too narrow to be heard as its technique.

Checks  the width of each line against the least its technique needs; and, as advice, whether any line of a
        technique that leads to another pitch does
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

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.kinds import Path
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import counted, in_force, plain, slides

_STAYS = Sourced("0 cents", DERIVED, "the pitches that the line joins")
_LEADS: tuple[Path, ...] = (
    "lip",
    "hand",
    "hand-out",
    "steps",
    "slide",
    "against",
    "trigger",
)  # fluttering valves may stay


@rule(
    "GS208",
    "slide-too-narrow",
    severity="caution",
    only=("limit:narrowest_cents", *(f"path:{path}" for path in _LEADS)),
)
def check(case: Case) -> Iterator[Finding]:
    yield from _leading_nowhere(case)
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


def _leading_nowhere(case: Case) -> Iterator[Finding]:
    """Techniques all of whose lines end on the pitch they begin on."""
    lines = tuple(slides(case))
    for technique in in_force(case):
        own = [slide for slide in lines if technique in slide.start.techniques]
        if technique.path in _LEADS and own and not any(slide.cents for slide in own):
            yield Finding(
                span=own[0].segment.span,
                text=f"the line ends on the pitch it begins on; {technique.title['en'].lower()} has nowhere to go",
                hint="write the pitch it goes to, or the note alone",
                evidence=_STAYS,
                severity=Severity.ADVICE,
            )
