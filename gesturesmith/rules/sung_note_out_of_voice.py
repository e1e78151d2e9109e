"""A sung note is outside what can be asked of a voice.

Checks  every pitch of the sung line of a multiphonic, as it sounds
Why     the player may have any voice: below a baritone's range or above a tenor's many cannot sing the note, beyond
        the widest of all voices nobody can
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: multiphonic
      contour: C4
      sing: C7
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: multiphonic
      contour: C4
      sing: G4
Fix     move the sung line into the range of a baritone or tenor; players may change its octave
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.reading import both_names, point_names


@rule("GS406", "sung-note-out-of-voice", severity="caution", only=("sung",))
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("sing_cents")
    if limit is None or case.gesture.sing is None:
        return
    for point in case.gesture.sing.points:
        cents = point.sounding_cents
        if cents is None:
            continue
        low, high = limit.narrow.value
        if low <= cents <= high:
            continue
        evidence, severity = limit.narrow, Severity.CAUTION
        if limit.wide is not None and not limit.wide.value[0] <= cents <= limit.wide.value[1]:
            evidence, severity = limit.wide, Severity.REFUSED
            low, high = limit.wide.value
        edge = low if cents < low else high
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} to be sung; voices reach from "
            f"{both_names(case.instrument, low)} to {both_names(case.instrument, high)}",
            evidence=evidence,
            severity=severity,
            numbers=(Number(name="sung pitch", value=cents, limit=edge, unit="cents above C-1"),),
        )
