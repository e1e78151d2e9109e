"""An `allow` does nothing.

Checks  every `allow` of a gesture: whether the rule it names found anything there, and may be allowed at all
Why     a reason that answers nothing hides that the music has changed; what no tube or range can give is not
        a matter of permission
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
Fix     take it out, or correct the name of the rule
"""

from collections.abc import Iterator
from difflib import get_close_matches

from gesturesmith.diagnostics import Severity
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.rules.base import Finding, Outcome, outcome_rule

_EVIDENCE = Sourced("findings", DERIVED, "what the rules found on this gesture")


@outcome_rule("GS705", "unused-allow", severity="advice")
def check(outcome: Outcome) -> Iterator[Finding]:
    allows = outcome.case.gesture.allows
    for number in outcome.silent:
        allow = allows[number]
        known = allow.rule.casefold() in {name.casefold() for name in outcome.rules}
        near = () if known else get_close_matches(allow.rule.casefold(), outcome.rules, 3)
        nearest = f"; the nearest are {', '.join(near)}" if near else ""
        yield Finding(
            span=allow.span,
            where="",
            text=f"{allow.rule} finds nothing here" if known else f"there is no rule {allow.rule}{nearest}",
            hint="take this line out" if known else "",
            evidence=_EVIDENCE,
            severity=Severity.ADVICE if known else Severity.CAUTION,
        )
    for number in outcome.barred:
        yield Finding(
            span=allows[number].span,
            where="",
            text=f"{allows[number].rule} cannot be allowed here: no reason makes the instrument do it",
            evidence=_EVIDENCE,
        )
