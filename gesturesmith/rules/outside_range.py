"""A pitch is outside anything the instrument can reach.

Checks  every pitch and every height in a band, by its sounding pitch, with a margin beyond the lowest and the
        highest note given by any source; no margin below the lowest first partial
Why     below the lowest first partial there is no note; far beyond what any source gives, no player can be
        asked for it
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C7
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C6
Fix     move the point or the whole gesture into the range; `highest` and `lowest` ask for what the player can do
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import both_names, far_range, pitched_points, point_names


@rule("GS501", "outside-range", severity="refused")
def check(case: Case) -> Iterator[Finding]:
    widest = case.instrument.widest_range
    low, high = widest.value
    lowest, highest = far_range(case.instrument)
    for index, point in pitched_points(case):
        cents = point.sounding_cents or 0
        n, d = cents.as_integer_ratio()  # fractions take several times as long to compare
        if lowest * d <= n <= highest * d or point.extreme:
            continue
        edge, word = (low, "lowest") if cents < low else (high, "highest")
        octaves = -(-(low - cents) // 1200) if cents < low else -(-(cents - high) // 1200)
        semitones = int(12 * octaves) * (1 if cents < low else -1)
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)}; the {word} pitch any source gives is "
            f"{both_names(case.instrument, edge)}",
            hint=f"stay within {both_names(case.instrument, low)} and {both_names(case.instrument, high)}",
            evidence=widest,
            numbers=(Number(name="sounding pitch", value=cents, limit=edge, unit="cents above C-1"),),
            physical=True,
            proposed_fixes=(
                *fixes.moved(semitones),
                *fixes.at_pitch(case, index, edge),
                *(fixes.band_cut(case) if point.pitch is None else ()),
            ),
        )
