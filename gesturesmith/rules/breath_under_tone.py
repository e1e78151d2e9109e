"""A sounding note is asked for while breathing in.

Checks  every note with `inhale`: whether the lips sound
Why     a tone needs outgoing air; with air alone it can go in, as long as the lips do not buzz. Tones on an inward
        breath are a rare effect that few players can make
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C5 inhale, D5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: air
      contour: C5 inhale, D5 exhale
Fix     write `as air`, or breathe in during a rest: `r inhale`
"""

from collections.abc import Iterator

from gesturesmith.evidence import MEMORY, Sourced
from gesturesmith.rules.base import Case, Finding, rule

_EVIDENCE = Sourced("air goes out", MEMORY, "tones on the inward breath are a rare effect of solo pieces")


@rule("GS604", "breath-under-tone", severity="caution", only=("breath",))
def check(case: Case) -> Iterator[Finding]:
    for point in case.gesture.sounding_points:
        if point.breath == "in" and not any(t.tone == "none" for t in case.in_force(point)):
            yield Finding(
                span=point.span,
                text="a tone needs air going out, and this note is to be played breathing in",
                hint="write `as air` for air alone, or breathe in during a rest: `r inhale`",
                evidence=_EVIDENCE,
            )
