"""A band is too narrow for heights.

Checks  the width of a band given by two pitches, if the contour has heights
Why     on a staff, low, middle and high of a narrow band fall on the same line
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: half-valve
      band: C5..C#5
      contour: low ~~ high ~~ mid
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: half-valve
      band: G4..G5
      contour: low ~~ high ~~ mid
Fix     widen the band, or write the pitches
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.diagnostics.changes import BandChange
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import counted, plain
from gesturesmith.units import chromatic


@rule("GS709", "band-too-narrow", severity="caution", only=("height",))
def check(case: Case) -> Iterator[Finding]:
    band = case.gesture.band
    if band is None or band.register or not any(p.kind == "height" for p in case.gesture.points):
        return
    width = float(band.high.cents - band.low.cents)
    excess = below(case.instrument.limits.get("band_narrowest_cents"), width)
    if excess is None:
        return
    yield Finding(
        span=band.span,
        text=f"{counted(width / 100, 'semitone')}; heights need about {plain(excess.limit / 100)} to be told apart",
        evidence=excess.evidence,
        numbers=(Number(name="width", value=width, limit=excess.limit, unit="cents"),),
        proposed_fixes=((BandChange(band.low.written, band.low.written.transposed(chromatic(7))),),),
    )
