"""A sung line is written, but no technique of the gesture sings.

Checks  `sing:` in a gesture none of whose techniques, nor those its points turn to, uses the voice
Why     nothing tells the player to sing, and the line would be missing from the page
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C4
      sing: G4
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: multiphonic
      contour: C4
      sing: G4
Fix     add `multiphonic` to the techniques, or remove `sing`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics.changes import TechniquesChange
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.reading import in_force

_EVIDENCE = Sourced("sings", DERIVED, "what the techniques of the gesture use")


@rule("GS714", "sung-line-unused", severity="caution", only=("sung",))
def check(case: Case) -> Iterator[Finding]:
    if case.gesture.sing is None or any(t.sings for t in in_force(case)):
        return
    row = [t.key for t in case.gesture.techniques if t.layer != "none"]
    yield Finding(
        span=case.gesture.span_of("sing"),
        text="a line to sing, but no technique of this gesture uses the voice",
        evidence=_EVIDENCE,
        proposed_fixes=((TechniquesChange((*row, "multiphonic")),),),
    )
