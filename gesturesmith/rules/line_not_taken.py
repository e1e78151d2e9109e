"""A line is drawn for a technique that cannot slide.

Checks  the kind of each line against those that its technique takes
Why     a kiss, a slap or a click is a single stroke; a split tone is held, not moved
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: slap-tongue
      contour: xC4 -- xG4
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: slap-tongue
      contour: xC4, xG4
Fix     separate the points with commas, or choose a technique that slides
"""

from collections.abc import Iterator

from gesturesmith.diagnostics.changes import LineChange
from gesturesmith.evidence import DERIVED, HOUSE, Sourced
from gesturesmith.model.gesture import Segment
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.techniques.base import Technique

_STROKE = Sourced("single strokes", DERIVED, "without a tone there is nothing to slide")
_HELD = Sourced("held", HOUSE, "the technique is held still; what a line would mean is not settled")


@rule("GS703", "line-not-taken", severity="refused", only=("lines",))
def check(case: Case) -> Iterator[Finding]:
    for index, (segment, point) in enumerate(zip(case.gesture.segments, case.gesture.points, strict=False)):
        still = [t for t in point.techniques if _takes_none(t, segment)]
        if still:
            names = " and ".join(t.title["en"].lower() for t in still)
            yield Finding(
                span=segment.span,
                text=f"a {'slur' if segment.kind == 'slur' else 'line'}, but {names} "
                f"{'have' if len(still) > 1 else 'has'} nothing to slide",
                hint="separate the points with a comma",
                evidence=_STROKE if still[0].tone == "none" else _HELD,
                proposed_fixes=((LineChange(index, "none"),),),
            )


def _takes_none(technique: Technique, segment: Segment) -> bool:
    """Whether a technique has nothing to do along a line or slur of this kind."""
    if not technique.lines or segment.kind in technique.lines:
        return False
    return segment.slides or technique.tone == "none"
