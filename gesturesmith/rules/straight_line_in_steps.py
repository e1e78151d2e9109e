"""A straight line is drawn for a technique that moves in steps.

Checks  straight lines of a harmonic glissando or a chromatic run
Why     a straight line is read as an even slide, a wavy one as a run through distinct notes
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 -- G5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 ~~ G5
Fix     write `~~` for the line
"""

from collections.abc import Iterator

from gesturesmith.diagnostics.changes import LineChange
from gesturesmith.evidence import MEMORY, Sourced
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.reading import slides

_EVIDENCE = Sourced(
    "wavy", MEMORY, "Stone: a straight line for a continuous slide, a wavy one where it is discrete"
)


@rule(
    "GS713",
    "straight-line-in-steps",
    severity="advice",
    only=(
        "path:partials",
        "path:steps",
    ),
)
def check(case: Case) -> Iterator[Finding]:
    straight = [s for s in slides(case, "partials", "steps") if s.segment.kind in ("straight", "arrow")]
    if straight:
        yield Finding(
            span=straight[0].segment.span,
            text="a straight line means an even slide; this moves in steps, which need a wavy line",
            evidence=_EVIDENCE,
            proposed_fixes=(tuple(LineChange(s.index, "wavy") for s in straight),),
        )
