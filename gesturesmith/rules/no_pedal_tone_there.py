"""A pedal tone is asked for where no tube has its first harmonic.

Checks  every exact pitch asked for as a pedal tone, against the first harmonic of every tube, or of those the
        composer names
Why     a pedal tone is the first harmonic; above those of the shortest tube and below those of the longest there is
        none, and between them the lip reaches only a little
Fires
    instrument: trombone
    pitches: written
    gesture a
      technique: pedal
      contour: E2
Passes
    instrument: trombone
    pitches: written
    gesture a
      technique: pedal
      contour: Bb1
Fix     move it down an octave, or write the note without `pedal`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.diagnostics.changes import FingeringChange, Fix
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import both_names, far_range, played_points

_LAW = Sourced("the first harmonic of every tube", DERIVED, "the lengths of the instrument's tubes")


@rule("GS215", "no-pedal-tone-there", severity="refused", only=("harmonic:first",))
def check(case: Case) -> Iterator[Finding]:
    lowest = far_range(case.instrument)[0]
    tubes = [t.fundamental_cents for t in case.instrument.tubes]
    low, high = max(float(lowest), min(tubes)), max(tubes)
    for point, played in played_points(case):
        pedal = next((t for t in point.techniques if t.harmonic == "first"), None)
        if pedal is None or point.about or played.asked_cents is None or played.asked_cents < lowest:
            continue
        off = abs(played.error_cents)
        excess = above(case.instrument.lip_limit(played.error_cents), off)
        if excess is None:
            continue
        given: tuple[Fix, ...] = ((FingeringChange("auto"),),) if played.given else ()
        yield Finding(
            span=point.span,
            text="no tube has its first harmonic there: pedal tones lie from "
            f"{both_names(case.instrument, round(low / 100) * 100)} up to "
            f"{both_names(case.instrument, round(high / 100) * 100)}",
            evidence=_LAW,
            severity=excess.severity,
            numbers=(Number(name="distance to a first harmonic", value=off, limit=excess.limit, unit="cents"),),
            physical=True,
            proposed_fixes=(*given, *fixes.moved(-12), *fixes.without(case, pedal.key)),
        )
