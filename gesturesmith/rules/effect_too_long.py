"""A technique goes on longer than is good for the player.

Checks  the unbroken time each technique is in force against the longest it can be kept up
Why     growls, flutter-tonguing, shakes and the like tire lip, tongue or throat far sooner than plain playing
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: growl
      contour: C4
      lasts: 12 beats
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: growl
      contour: C4
      lasts: 4 beats
Fix     shorten it, or break it with a rest
"""

from collections.abc import Iterator
from fractions import Fraction

from gesturesmith.diagnostics import Number
from gesturesmith.diagnostics.changes import Fix, LengthChange
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, in_force, plain, stretches


@rule("GS603", "effect-too-long", severity="caution", only=("limit:longest_s",))
def check(case: Case) -> Iterator[Finding]:
    for technique in in_force(case):
        limit = technique.limits.get("longest_s")
        if limit is None:
            continue
        for point, seconds in stretches(case, technique):
            excess = above(limit, seconds)
            if excess is None:
                continue
            yield Finding(
                span=point.span,
                text=f"{apart(seconds, excess.limit)} s of {technique.title['en'].lower()}; about "
                f"{plain(excess.limit)} s is possible without a break",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(Number(name="time", value=seconds, limit=excess.limit, unit="s"),),
                proposed_fixes=(
                    *_shorter(case, seconds, excess.limit),
                    *fixes.without(case, technique.key),
                ),
            )
            break


def _shorter(case: Case, seconds: float, limit: float) -> tuple[Fix, ...]:
    gesture = case.gesture
    if gesture.in_seconds:
        return ((LengthChange(Fraction(plain(float(gesture.seconds) * limit / seconds)), True),),)
    whole = int(float(gesture.beats / gesture.beat) * limit / seconds)
    return ((LengthChange(Fraction(whole), False),),) if whole else ()
