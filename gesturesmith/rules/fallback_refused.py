"""The fallback cannot be played either.

Checks  the `fallback` of a refused gesture: whether it could replace the technique
Why     the composer counts on it, and nothing else says why it is not on the page
Fires
    instrument: trumpet
    pitches: written
    gesture a
      technique: slide-gliss
      contour: C5 -- B4
      fallback: hand-gliss
Passes
    instrument: trumpet
    pitches: written
    gesture a
      technique: slide-gliss
      contour: C5 -- B4
      fallback: lip-gliss
Fix     name a fallback that this instrument has and that can do what the contour asks
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Finding, Severity
from gesturesmith.rules.base import Outcome, outcome_rule


@outcome_rule("GS715", "fallback-refused", severity="advice")
def check(outcome: Outcome) -> Iterator[Finding]:
    gesture = outcome.case.gesture
    if not gesture.fallback or outcome.replaced:
        return
    allowed = {allow.rule for allow in gesture.allows}
    refusals = (f for f in outcome.found if f.severity is Severity.REFUSED)
    refused = next((f for f in refusals if f.physical or f.rule not in allowed), None)
    if refused is not None:
        yield Finding(
            span=gesture.span_of("fallback"),
            text=f"{gesture.fallback} would be refused too",
            evidence=refused.evidence,
        )
