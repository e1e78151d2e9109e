"""A slide glissando has to leave its partial on the way.

Checks  each line of a slide glissando: whether the slide reaches both ends on one partial
Why     the slide covers six semitones on one partial; an unbroken glissando beyond them would need a longer
        slide, so the player has to jump to another partial and the glissando breaks
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
from gesturesmith.diagnostics.changes import Fix, PitchChange
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.realise.in_force import path_of
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reach import slide_goes_to
from gesturesmith.rules.shared.reading import exact_name, written_pitch

_SOURCE = "a semitone a position; that a glissando must stay on one partial: M. Clayville, 2011"


@rule("GS205", "slide-gliss-breaks", severity="refused", only=("path:slide",))
def check(case: Case) -> Iterator[Finding]:
    points = case.gesture.points
    most = max(side.positions for side in case.instrument.sides) - 1
    for index in case.realisation.breaks:
        point, before = points[index], points[index - 1]
        if path_of(before.techniques) != "slide":
            continue
        start, end = float(before.sounding_cents or 0), float(point.sounding_cents or 0)
        width = abs(end - start) / 100
        name = exact_name(case.instrument, start)
        goes = slide_goes_to(case.instrument, start, end)
        way = f"on one partial the slide reaches from {name} to {exact_name(case.instrument, goes)}; there it"
        if goes == start:
            way = f"no partial leads {'up' if end > start else 'down'} from {name}; the slide"
        yield Finding(
            span=point.span,
            text=f"{way} must be reset, which breaks the glissando",
            hint=f"both ends on one partial, at most {most} semitones apart",
            evidence=Sourced(most, DERIVED, _SOURCE),
            numbers=(Number(name="width", value=width, limit=most, unit="semitones"),),
            physical=True,  # the slide is not long enough, whatever the reason
            proposed_fixes=(
                *_moved(case, index, start, goes),
                *_moved(case, index - 1, end, slide_goes_to(case.instrument, end, start)),
                *fixes.instead(case, "motion", "harmonic-gliss", "chromatic"),
            ),
        )


def _moved(case: Case, index: int, fixed: float, reach: float) -> tuple[Fix, ...]:
    """One end of the line moved to within the slide's reach from the other, on its partial."""
    point = case.gesture.points[index]
    if point.pitch is None or reach == fixed or fixed % 100:
        return ()
    return ((PitchChange(index, written_pitch(case.instrument, reach), point.about),),)
