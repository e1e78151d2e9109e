"""A technique has too few or too many points.

Checks  how many sounding points the gesture has against what each of its techniques takes
Why     a slide goes from one point to another; with only one it has nowhere to go
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: C5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 ~~ G5
Fix     add the missing point and a line to it, or remove the technique
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes


@rule("GS702", "wrong-number-of-points", severity="refused")
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    count = len(gesture.sounding_points)
    for technique in gesture.techniques:
        fewest, most = technique.points
        if count >= fewest and (most is None or count <= most):
            continue
        limit = fewest if count < fewest else most
        word = "at least" if count < fewest else "at most"
        yield Finding(
            span=gesture.span_of("contour"),
            text=f"{count} {'point' if count == 1 else 'points'}; {technique.key} takes {word} {limit}",
            evidence=Sourced(limit, DERIVED, f"what {technique.key} is"),
            numbers=(Number(name="points", value=count, limit=limit, unit="points"),),
            physical=True,
            proposed_fixes=fixes.without(case, technique.key),
        )
