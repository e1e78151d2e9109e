"""A slide glissando has to leave its partial on the way.

Checks  each line of a slide glissando: both ends on one partial, within the length of the slide
Why     the slide covers six semitones of one partial; beyond them the player has to jump to another, and the
        glissando breaks there
Fires
    instrument: trombone
    pitches: written
    gesture a
      technique: slide-gliss
      contour: Bb2 -- F3
Passes
    instrument: trombone
    pitches: written
    gesture a
      technique: slide-gliss
      contour: Bb2 -- E2
Fix     keep both ends within one partial, at most an augmented fourth apart, or show where it breaks
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.rules import _tries
from gesturesmith.rules._reading import path_of, plain
from gesturesmith.rules.base import Case, Finding, rule

_SOURCE = "a semitone a position; that a glissando must stay on one partial: M. Clayville, 2011"


@rule("GS205", "slide-gliss-breaks", severity="caution", only=("path:slide",))
def check(case: Case) -> Iterator[Finding]:
    points = case.gesture.points
    most = max(side.positions for side in case.instrument.sides) - 1
    for index in case.realisation.breaks:
        point, before = points[index], points[index - 1]
        if path_of(before) != "slide":
            continue
        width = abs(float((point.sounding_cents or 0) - (before.sounding_cents or 0))) / 100
        yield Finding(
            span=point.span,
            text=f"{plain(width)} semitones to here do not lie on one partial; the slide must be reset before it, "
            "and the glissando breaks",
            hint=f"both ends on one partial, at most {most} semitones apart",
            evidence=Sourced(most, DERIVED, _SOURCE),
            numbers=(Number(name="width", value=width, limit=most, unit="semitones"),),
            try_values=_tries.instead(case, "motion", "chromatic"),
        )
