"""A pitch is outside the range that can be asked of any player.

Checks  every pitch and every height in a band, by its sounding pitch, within the widest range that any
        source gives and a margin beyond it
Why     sources disagree here: some players have these notes, on some days; what is written may not be heard
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: D6
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C6
Fix     move the point into the usual range, or write `allow: outside-usual-range` with the reason, such as a
        player who has the note
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import both_names, far_range, pitched_points, point_names

# In cents: up to this far is a step back into the range; from further away an octave changes the music less.
_STEP = 200


@rule("GS502", "outside-usual-range", severity="caution")
def check(case: Case) -> Iterator[Finding]:
    usual = case.instrument.usual_range
    low, high = usual.value
    widest_low, widest_high = case.instrument.widest_range.value
    lowest, highest = far_range(case.instrument)
    for index, point in pitched_points(case):
        cents = point.sounding_cents or 0
        n, d = cents.as_integer_ratio()  # fractions take several times as long to compare
        if low * d <= n <= high * d or not lowest <= cents <= highest or point.extreme:
            continue
        semitones = 12 if cents < low else -12
        edge, word, widest = (low, "below", widest_low) if cents < low else (high, "above", widest_high)
        differ = f"; the widest reading ends at {both_names(case.instrument, widest)}" if widest != edge else ""
        step, octave = fixes.at_pitch(case, index, edge), fixes.moved(semitones)
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} lies {word} the usual range, which ends at "
            f"{both_names(case.instrument, edge)}{differ}",
            evidence=usual,
            numbers=(Number(name="sounding pitch", value=cents, limit=edge, unit="cents above C-1"),),
            proposed_fixes=(*step, *octave) if abs(float(cents - edge)) <= _STEP else (*octave, *step),
        )
