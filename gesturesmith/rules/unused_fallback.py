"""A `fallback` is not needed.

Checks  a gesture with a `fallback`: whether anything is refused, so that the fallback would be played
Why     it has no effect on this instrument; the music may have changed since it was written
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: growl
      contour: C5
      fallback: flutter-tongue
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: C3 ~~ G3
      fallback: chromatic
Fix     remove it, or leave it for a player or an instrument that needs it
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Severity
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.rules.base import Finding, Outcome, outcome_rule

_EVIDENCE = Sourced("findings", DERIVED, "what the rules found on this gesture")


@outcome_rule("GS721", "unused-fallback", severity="advice")
def check(outcome: Outcome) -> Iterator[Finding]:
    gesture = outcome.case.gesture
    if gesture.fallback is None or outcome.replaced or any(f.severity is Severity.REFUSED for f in outcome.found):
        return
    yield Finding(
        span=gesture.span_of("fallback"),
        text=f"nothing is refused here, so {gesture.fallback} is never used",
        hint="remove this line",
        evidence=_EVIDENCE,
    )
