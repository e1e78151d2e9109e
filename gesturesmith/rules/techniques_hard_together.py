"""Two techniques can be joined, but one makes the other harder.

Checks  every pair of techniques of the gesture, and every pair in force at a point after its `as`
Why     a technique that is hard to hold is easily disturbed by one that shakes it, and two tasks for one breath or
        one hand need practice
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: multiphonic + lip-trill
      contour: C5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: multiphonic + flutter-tongue
      contour: C5
Fix     leave out what matters less, or ask a player
"""

from collections.abc import Iterator

from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.joined import pairs
from gesturesmith.techniques.base import joining


@rule("GS318", "techniques-hard-together", severity="caution", only=("joined", "changes"))
def check(case: Case) -> Iterator[Finding]:
    for one, other, span, named in pairs(case):
        found = joining(one, other)
        if found.verdict != "with care":
            continue
        yield Finding(
            span=span,
            text=f"{one.key} {'+' if named else 'and'} {other.key}: {found.reason.value}",
            evidence=found.reason,
            proposed_fixes=(*fixes.without(case, other.key), *fixes.without(case, one.key)),
        )
