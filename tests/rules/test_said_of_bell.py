"""Findings on the hand in the bell (GS305 to GS310)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    # C4 closes to A-flat 3, a half step above the next partial of its tube, and no further; the way up is as long.
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: C4 -- «G3»",
        number=("lowered by", 500, 398.045, "cents"),
        severity="refused",
    ),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: C4 -- «Ab3»",
        number=("lowered by", 400, 100, "cents"),
    ),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: «C4 as stopped» -- G5 without stopped",
        number=("lowered by", 1903.91, 103.91, "cents"),
        severity="refused",
    ),
    says(
        "hand-out-too-low",
        "technique: hand-out\ncontour: «C4» -- E4",
        number=("lowest pitch", 5300, 5954, "cents above C-1"),
        ways=["technique: lip-gliss", "technique: fingered-gliss", "technique: chromatic"],
        severity="refused",
        source="derived: below partial 8 of the longest tube the steps are wider than a whole tone",
    ),
    says(
        "hand-out-too-low",
        "technique: hand-out\ncontour: E4 -- «C4»",
        number=("lowest pitch", 5300, 5954, "cents above C-1"),
        ways=["technique: lip-gliss", "technique: fingered-gliss", "technique: chromatic"],
        severity="refused",
    ),
    says(
        "hand-out-too-low",
        "technique: hand-out\ncontour: «C5» -- E5",
        number=("lowest pitch", 6500, 7300, "cents above C-1"),
        ways=["technique: harmonic-gliss", "technique: lip-gliss", "technique: fingered-gliss"],
        source="house: smooth with the hand out only where partials are close: top register",
    ),
    says(
        "hand-out-too-low",
        "technique: hand-out\ncontour: Ab5 -- «G5»",
        number=("lowest pitch", 7200, 7300, "cents above C-1"),
        ways=["technique: lip-gliss"],
    ),
    silent("hand-out-too-low", "technique: hand-out\ncontour: Ab5 -- B5"),
    says(
        "hand-out-too-low",
        "technique: hand-out\ncontour: Ab5 -- B5 -- «C5» -- B5",
        number=("lowest pitch", 6500, 7300, "cents above C-1"),
        ways=["technique: harmonic-gliss", "technique: fingered-gliss", "technique: chromatic"],
    ),
    silent("hand-out-too-low", "technique: hand-out\ncontour: Ab5 -- B5, C5 as lip-gliss ~~ E5"),
    says(
        "hand-out-too-low",
        "technique: hand-out\nband: C4..C5\ncontour: «low» -- high",
        number=("lowest pitch", 5300, 5954, "cents above C-1"),
        ways=["technique: harmonic-gliss", "technique: lip-gliss", "technique: fingered-gliss"],
        severity="refused",
    ),
    says(
        "hand-out-too-low",
        "technique: hand-out\ncontour: «Ab4» -- B4",
        number=("lowest pitch", 6100, 7300, "cents above C-1"),
        ways=["technique: lip-gliss", "technique: fingered-gliss", "technique: chromatic"],
    ),
    says(
        "hand-out-too-low",
        "technique: hand-out\ncontour: «C5» -- C5",
        number=("lowest pitch", 6500, 7300, "cents above C-1"),
        ways=["technique: lip-gliss", "technique: fingered-gliss", "technique: chromatic"],
    ),
    says(
        "hand-out-too-wide",
        "technique: hand-out\ncontour: Ab5 «--» G6",
        number=("width", 1100, 500, "cents"),
        ways=[],
    ),
    says(
        "hand-out-too-wide",
        "technique: hand-out\ncontour: C6 «--» F#5",
        number=("width", 600, 500, "cents"),
        ways=["technique: harmonic-gliss", "technique: fingered-gliss"],
    ),
    silent("hand-out-too-wide", "technique: hand-out\ncontour: G5 -- C6"),
    says(
        "hand-out-too-wide",
        "technique: hand-out\ncontour: G5 -- C6 «--» F#5",
        number=("width", 600, 500, "cents"),
        ways=["technique: harmonic-gliss", "technique: fingered-gliss"],
    ),
    silent("hand-out-too-wide", "technique: hand-out\ncontour: Ab5 -- B5, C5 as lip-gliss ~~ A5"),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: C5 -- «G4»",
        number=("lowered by", 501.955, 215.641, "cents"),
        ways=["technique: lip-gliss", "technique: fingered-gliss", "contour: C5 -- B4"],
        severity="refused",
        source="derived: to a half step above the next partial down: Ericson, ASU; List of horn techniques; the "
        "number computed",
    ),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: C5 -- «Bb4»",
        number=("lowered by", 201.955, 100, "cents"),
        ways=["technique: lip-gliss", "contour: C5 -- B4"],
        source="practice: Ericson, ASU; Wikipedia, horn: the hand lowers up to a semitone in mid-range",
    ),
    # On the F side the hand reaches a half step above the next partial, E4; a half step is usual.
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: G4 -- «F4»",
        number=("lowered by", 201.955, 100, "cents"),
    ),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: G4 -- «Eb4»",
        number=("lowered by", 401.955, 215.641, "cents"),
        severity="refused",
    ),
    silent("hand-gliss-too-wide", "technique: hand-gliss\ncontour: C5 -- B4"),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: C4 -- «Ab3»\nlasts: 2 beats",
        number=("lowered by", 400, 100, "cents"),
        ways=["technique: lip-gliss", "technique: fingered-gliss", "contour: C4 -- B3"],
    ),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: C5 -- «Bb4» -- C5",
        number=("lowered by", 201.955, 100, "cents"),
        ways=["technique: lip-gliss", "contour: C5 -- B4 -- C5"],
    ),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: C5 -- «xG4»",
        number=("lowered by", 501.955, 215.641, "cents"),
        ways=["technique: lip-gliss", "technique: fingered-gliss", "contour: C5 -- xB4"],
        severity="refused",
    ),
    silent("hand-gliss-too-wide", "technique: hand-gliss\ncontour: Bb4 -- A4\nfingering: F 0"),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: C5 -- B4 -- «Bb4»",
        number=("lowered by", 201.955, 100, "cents"),
        ways=["technique: lip-gliss"],
    ),
    says(
        "hand-gliss-too-wide",
        "technique: hand-gliss\ncontour: D5 -- C#5 -- «B4»\nfingering: F 0",
        number=("lowered by", 303.91, 103.91, "cents"),
        ways=["technique: lip-gliss", "technique: fingered-gliss"],
        severity="refused",
    ),
    silent("hand-gliss-too-wide", "technique: hand-gliss\ncontour: C5 -- B4, F4 as lip-gliss -- C5"),
    says(
        "hand-gliss-rises-from-open",
        "technique: hand-gliss\ncontour: B4 «--» C5",
        ways=["contour: B4 as stopped -- C5 as ordinary", "technique: lip-gliss", "contour: C5 -- B4"],
        source="published: the pitch falls smoothly while the hand closes: JASA 155 (3 Suppl.) A109 (2024), doi "
        "10.1121/10.0026978",
    ),
    says(
        "hand-gliss-rises-from-open",
        "technique: hand-gliss\ncontour: xB4 «--» xC5",
        ways=["contour: xB4 as stopped -- xC5 as ordinary", "technique: lip-gliss", "contour: xC5 -- xB4"],
    ),
    silent("hand-gliss-rises-from-open", "technique: hand-gliss\ncontour: C5 -- B4 -- C5"),
    silent("hand-gliss-rises-from-open", "technique: hand-gliss\ncontour: B4 as stopped -- C5 as ordinary"),
    says(
        "hand-gliss-rises-from-open",
        "technique: hand-gliss\ncontour: C5 -- B4, B4 «--» C5",
        ways=[
            "contour: C5 -- B4, B4 as stopped -- C5 as ordinary",
            "technique: lip-gliss",
            "contour: C5 -- B4, C5 -- B4",
        ],
    ),
    says("hand-gliss-rises-from-open", "technique: hand-gliss\nband: G4..G5\ncontour: low «--» mid", ways=[]),
    silent("hand-gliss-rises-from-open", "technique: hand-gliss\ncontour: C5 -- C5"),
    silent("hand-gliss-rises-from-open", "technique: hand-gliss\ncontour: C5 -- B4, C5 as lip-gliss ~~ E5"),
    says(
        "stopped-too-low",
        "technique: stopped\ncontour: «C3»",
        number=("sounding pitch", 4100, 4600, "cents above C-1"),
        ways=["technique: muted", "contour: C4"],
    ),
    says(
        "stopped-too-low",
        "technique: stopped\ncontour: «E3», F3",
        number=("sounding pitch", 4500, 4600, "cents above C-1"),
        ways=["technique: muted", "contour: E4, F4"],
    ),
    silent("stopped-too-low", "technique: stopped\ncontour: F3"),
    says(
        "stopped-too-low",
        "technique: half-stopped\ncontour: «B3»",
        number=("sounding pitch", 5200, 5300, "cents above C-1"),
        ways=["technique: muted", "contour: B4"],
    ),
    silent("stopped-too-low", "technique: half-stopped\ncontour: C4"),
    silent("stopped-too-low", "technique: stopped + air\ncontour: xC3"),
    says(
        "stopped-too-low",
        "contour: C5, «E3 as stopped», D3",
        number=("sounding pitch", 4500, 4600, "cents above C-1"),
        ways=["contour: C6, E4 as stopped, D4"],
        of=2,
    ),
    says(
        "stopped-too-low",
        "contour: C5, E3 as stopped, «D3»",
        number=("sounding pitch", 4300, 4600, "cents above C-1"),
        ways=["contour: C6, E4 as stopped, D4"],
        of=2,
    ),
    says(
        "stopped-too-low",
        "technique: stopped\nband: C3..C4\ncontour: «low», high",
        number=("sounding pitch", 4100, 4600, "cents above C-1"),
        ways=["technique: muted", "band: C4..C5"],
    ),
    silent("stopped-too-low", "technique: stopped + growl\ncontour: C4, E3 as air, E3 as stopped"),
    says(
        "stopped-too-low",
        "contour: C4, «E3 as stopped»",
        number=("sounding pitch", 4500, 4600, "cents above C-1"),
        ways=["contour: C5, E4 as stopped"],
    ),
    says(
        "stopped-too-low",
        "technique: stopped\ncontour: F4, «E3»",
        number=("sounding pitch", 4500, 4600, "cents above C-1"),
        ways=["technique: muted", "contour: F5, E4"],
    ),
    says(
        "stopped-on-wrong-side",
        "technique: stopped\ncontour: C5\nfingering: «Bb 2»",
        number=("raised by", 150, 100, "cents"),
        ways=["fingering: auto"],
    ),
    says(
        "stopped-on-wrong-side",
        "technique: stopped\ncontour: C5, D5\nfingering: «F 2, Bb 2»",
        number=("raised by", 150, 100, "cents"),
        ways=["fingering: auto"],
    ),
    silent("stopped-on-wrong-side", "technique: stopped\ncontour: C5\nfingering: F 2-3"),
    says(
        "stopped-on-wrong-side",
        "technique: stopped\ncontour: C5, D5, E5\nfingering: «Bb 2»",
        number=("raised by", 150, 100, "cents"),
        ways=["fingering: auto"],
    ),
    silent("stopped-on-wrong-side", "contour: C5\nfingering: Bb 2"),
    says(
        "stopped-on-wrong-side",
        "contour: C5, D5 as stopped\nfingering: «Bb 2»",
        number=("raised by", 150, 100, "cents"),
        ways=["fingering: auto"],
    ),
    says(
        "stopped-on-wrong-side",
        "technique: stopped\ncontour: C5, D5\nfingering: «Bb 2, F 2»",
        number=("raised by", 150, 100, "cents"),
        ways=["fingering: auto"],
    ),
    silent("stopped-on-wrong-side", "technique: stopped\ncontour: C5", on="horn-bb"),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
