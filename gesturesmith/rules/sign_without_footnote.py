"""A notehead chosen by the composer is not explained.

Checks  a `notehead` of a shape other than the technique's own, with neither `footnote` nor `note` to say what it
        means
Why     diamond, triangle and slash mean different things in different pieces
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      notehead: slash
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      notehead: slash
      note: "A slash: any pitch near this one."
Fix     explain the sign in a `note`
"""

from collections.abc import Iterator

from gesturesmith.evidence import MEMORY, Sourced
from gesturesmith.rules.base import Case, Finding, rule

_EVIDENCE = Sourced("explained", MEMORY, "Stone; Gould: state the meaning of signs in the performance notes")


@rule("GS712", "sign-without-footnote", severity="advice", only=("notehead",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    own = {t.look.head for t in gesture.techniques}
    if gesture.notehead in ("auto", "normal", "x") or gesture.notehead in own or gesture.footnote or gesture.note:
        return
    yield Finding(
        span=gesture.span_of("notehead"),
        text=f"a {gesture.notehead} head with no explanation of what it means",
        hint="explain the sign in a `note`",
        evidence=_EVIDENCE,
    )
