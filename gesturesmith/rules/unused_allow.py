"""An `allow` does nothing.

Checks  every `allow` of a gesture: whether the rule it names found anything there, and may be allowed at all
Why     a reason for nothing hides that the music has changed; what no tube or range can give cannot be permitted
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      allow: outside-usual-range "our player has it"
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: D6
      allow: outside-usual-range "our player has it"
Fix     remove it
"""

from collections.abc import Iterator

from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.rules.base import Finding, Outcome, outcome_rule

_EVIDENCE = Sourced("findings", DERIVED, "what the rules found on this gesture")


@outcome_rule("GS705", "unused-allow", severity="advice")
def check(outcome: Outcome) -> Iterator[Finding]:
    allows = outcome.case.gesture.allows
    for number in outcome.silent:
        yield Finding(
            span=allows[number].span,
            text=f"{allows[number].rule} finds nothing here",
            hint="remove this line",
            evidence=_EVIDENCE,
        )
    for number in outcome.barred:
        yield Finding(
            span=allows[number].span,
            text=f"{allows[number].rule} cannot be allowed here: no reason makes it possible on the instrument",
            evidence=_EVIDENCE,
        )
