"""The technique asked for is refused, and its fallback is played instead.

Checks  whether the gesture is played with its `fallback`
Why     the composer should know that another technique is on the page, and why
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: C3 ~~ G3
      fallback: chromatic
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 ~~ G5
      fallback: chromatic
Fix     nothing, if the fallback will do; else fix what the reason names
"""

from collections.abc import Iterator

from gesturesmith.rules.base import Finding, Outcome, outcome_rule


@outcome_rule("GS706", "fallback-used", severity="caution")
def check(outcome: Outcome) -> Iterator[Finding]:
    if not outcome.replaced:
        return
    first = outcome.replaced[0]
    reasons = dict.fromkeys(f"{refused.text} ({refused.rule})" for refused in outcome.replaced)
    yield Finding(
        span=outcome.case.gesture.span_of("fallback"),
        text=f"played as {outcome.case.realisation.used_fallback}, because as written it is refused: "
        + "; ".join(reasons),
        evidence=first.evidence,
        numbers=first.numbers,
    )
