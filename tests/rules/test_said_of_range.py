"""What is said of the range (GS501, GS502)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "outside-range",
        "contour: «C7»",
        "C7 (sounding F6); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 8900, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: C6", "contour: D6"],
        physical=True,
        source="practice: music21 10.5.1: written C2 is the lowest note; bwhisperer.com, Blog 19, shows partials "
        "up to sounding G5",
    ),
    silent("outside-range", "contour: E6"),
    says(
        "outside-range",
        "contour: «F6»",
        "F6 (sounding Bb5); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 8200, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: F5", "contour: D6", "contour: C6"],
        physical=True,
    ),
    says(
        "outside-range",
        "contour: «A1»",
        "A1 (sounding D1); the lowest pitch any source gives is C2 (sounding F1)",
        number=("sounding pitch", 2600, 2900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: A2", "contour: C2", "contour: F#2"],
        physical=True,
    ),
    silent("outside-range", "contour: Bb1"),
    says(
        "outside-range",
        "contour: «A0»",
        "A0 (sounding D0); the lowest pitch any source gives is C2 (sounding F1)",
        number=("sounding pitch", 1400, 2900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: A2", "contour: C2", "contour: F#2"],
        physical=True,
    ),
    says(
        "outside-range",
        "contour: C5, «F6», C5",
        "F6 (sounding Bb5); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 8200, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: C4, F5, C4", "contour: C5, D6, C5", "contour: G4, C6, G4"],
        physical=True,
    ),
    says(
        "outside-range",
        "technique: air\ncontour: «xF6»",
        "F6 (sounding Bb5); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 8200, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: xF5", "contour: xD6", "contour: xC6"],
        physical=True,
    ),
    silent("outside-range", "contour: D6"),
    says(
        "outside-range",
        "contour: «F8»",
        "F8 (sounding Bb7); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 10600, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: F5", "contour: D6", "contour: C6"],
        physical=True,
    ),
    says(
        "outside-range",
        "contour: «D7»",
        "D7 (sounding G6); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 9100, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: D6", "contour: D5", "contour: C6"],
        physical=True,
    ),
    says(
        "outside-range",
        "contour: «D7+1c»",
        "D7+1c (sounding G6+1c); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 9101, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: D5+1c", "contour: D6", "contour: B5+1c"],
        physical=True,
    ),
    says(
        "outside-range",
        "contour: «C1-1c»",
        "C1-1c (sounding F0-1c); the lowest pitch any source gives is C2 (sounding F1)",
        number=("sounding pitch", 1699, 2900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: C3-1c", "contour: C2", "contour: G2-1c"],
        physical=True,
    ),
    says(
        "outside-range",
        "band: E6..A6\ncontour: low, «high»",
        "A6 (sounding D6); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 8600, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["band: E5..A5", "band: G5..C6"],
        physical=True,
    ),
    silent("outside-range", "contour: highest, lowest"),
    says(
        "outside-range",
        "contour: r, «F7»",
        "F7 (sounding Bb6); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 9400, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: r, F5", "contour: r, D6", "contour: r, C6"],
        physical=True,
    ),
    silent("outside-range", "technique: slap-tongue\ncontour: xC7"),
    says(
        "outside-range",
        "contour: xC7 as slap-tongue, «C7 as ordinary»",
        "C7 (sounding F6); the highest pitch any source gives is D6 (sounding G5)",
        number=("sounding pitch", 8900, 7900, "cents above C-1"),
        hint="stay within C2 (sounding F1) and D6 (sounding G5)",
        ways=["contour: xC6 as slap-tongue, C6 as ordinary", "contour: xC7 as slap-tongue, D6 as ordinary"],
        physical=True,
    ),
    says(
        "outside-usual-range",
        "contour: «D6»",
        "D6 (sounding G5) lies above the usual range, which ends at C6 (sounding F5); the widest reading "
        "ends at D6 (sounding G5)",
        number=("sounding pitch", 7900, 7700, "cents above C-1"),
        ways=["contour: C6", "contour: D5"],
    ),
    silent("outside-usual-range", "contour: C6"),
    says(
        "outside-usual-range",
        "contour: «C#6»",
        "C#6 (sounding F#5) lies above the usual range, which ends at C6 (sounding F5); the widest reading "
        "ends at D6 (sounding G5)",
        number=("sounding pitch", 7800, 7700, "cents above C-1"),
        ways=["contour: C6", "contour: C#5"],
    ),
    says(
        "outside-usual-range",
        "contour: «E6»",
        "E6 (sounding A5) lies above the usual range, which ends at C6 (sounding F5); the widest reading "
        "ends at D6 (sounding G5)",
        number=("sounding pitch", 8100, 7700, "cents above C-1"),
        ways=["contour: E5", "contour: C6"],
    ),
    says(
        "outside-usual-range",
        "contour: «Eb6»",
        "Eb6 (sounding Ab5) lies above the usual range, which ends at C6 (sounding F5); the widest reading "
        "ends at D6 (sounding G5)",
        number=("sounding pitch", 8000, 7700, "cents above C-1"),
        ways=["contour: Eb5", "contour: C6"],
    ),
    silent("outside-usual-range", "contour: F6"),
    silent("outside-usual-range", "contour: F#2"),
    says(
        "outside-usual-range",
        "contour: «F2»",
        "F2 (sounding Bb1) lies below the usual range, which ends at F#2 (sounding B1); the widest reading "
        "ends at C2 (sounding F1)",
        number=("sounding pitch", 3400, 3500, "cents above C-1"),
        ways=["contour: F#2", "contour: F3"],
    ),
    says(
        "outside-usual-range",
        "contour: «C2»",
        "C2 (sounding F1) lies below the usual range, which ends at F#2 (sounding B1); the widest reading "
        "ends at C2 (sounding F1)",
        number=("sounding pitch", 2900, 3500, "cents above C-1"),
        ways=["contour: C3", "contour: F#2"],
    ),
    says(
        "outside-usual-range",
        "contour: «E2»",
        "E2 (sounding A1) lies below the usual range, which ends at F#2 (sounding B1); the widest reading "
        "ends at C2 (sounding F1)",
        number=("sounding pitch", 3300, 3500, "cents above C-1"),
        ways=["contour: F#2", "contour: E3"],
    ),
    says(
        "outside-usual-range",
        "contour: «D2»",
        "D2 (sounding G1) lies below the usual range, which ends at F#2 (sounding B1); the widest reading "
        "ends at C2 (sounding F1)",
        number=("sounding pitch", 3100, 3500, "cents above C-1"),
        ways=["contour: D3", "contour: F#2"],
    ),
    says(
        "outside-usual-range",
        "contour: C5, «D6»",
        "D6 (sounding G5) lies above the usual range, which ends at C6 (sounding F5); the widest reading "
        "ends at D6 (sounding G5)",
        number=("sounding pitch", 7900, 7700, "cents above C-1"),
        ways=["contour: C5, C6", "contour: C4, D5"],
    ),
    silent("outside-usual-range", "contour: highest, lowest"),
    silent("outside-usual-range", "contour: D3", on="trombone"),
    says(
        "outside-usual-range",
        "contour: «C5»",
        "C5 lies above the usual range, which ends at Bb4; the widest reading ends at Eb5",
        number=("sounding pitch", 7200, 7000, "cents above C-1"),
        ways=["contour: Bb4", "contour: C4"],
        on="trombone",
    ),
    says(
        "outside-usual-range",
        "band: D6..E6\ncontour: «low», high",
        "D6 (sounding G5) lies above the usual range, which ends at C6 (sounding F5); the widest reading "
        "ends at D6 (sounding G5)",
        number=("sounding pitch", 7900, 7700, "cents above C-1"),
        ways=["band: D5..E5"],
        of=2,
    ),
    says(
        "outside-usual-range",
        "band: D6..E6\ncontour: low, «high»",
        "E6 (sounding A5) lies above the usual range, which ends at C6 (sounding F5); the widest reading "
        "ends at D6 (sounding G5)",
        number=("sounding pitch", 8100, 7700, "cents above C-1"),
        ways=["band: D5..E5"],
        of=2,
    ),
    silent("outside-usual-range", "contour: C4", on="natural-horn-c"),
    says(
        "outside-usual-range",
        "contour: «A6»",
        "A6 (sounding G6) lies above the usual range, which ends at D6 (sounding C6); the widest reading "
        "ends at E6 (sounding D6)",
        number=("sounding pitch", 9100, 8400, "cents above C-1"),
        ways=["contour: A5", "contour: D6"],
        on="trumpet",
    ),
    silent("outside-usual-range", "contour: D1", on="tuba"),
    silent("outside-usual-range", "contour: C5", on="natural-horn"),
    says(
        "outside-usual-range",
        "contour: «D6»",
        "D6 (sounding C6) lies above the usual range, which ends at C6 (sounding Bb5); the widest reading "
        "ends at E6 (sounding D6)",
        number=("sounding pitch", 8400, 8200, "cents above C-1"),
        ways=["contour: C6", "contour: D5"],
        on="cornet",
    ),
    says(
        "outside-usual-range",
        "contour: «E6»",
        "E6 (sounding D6) lies above the usual range, which ends at C6 (sounding Bb5); the widest reading "
        "ends at E6 (sounding D6)",
        number=("sounding pitch", 8600, 8200, "cents above C-1"),
        ways=["contour: E5", "contour: C6"],
        on="cornet",
    ),
    silent("outside-usual-range", "contour: C6", on="euphonium"),
    says(
        "outside-usual-range",
        "contour: «F3»",
        "F3 (sounding Eb3) lies below the usual range, which ends at F#3 (sounding E3); the widest reading "
        "ends at F#2 (sounding E2)",
        number=("sounding pitch", 5100, 5200, "cents above C-1"),
        on="cornet",
        ways=[],
    ),
    says(
        "outside-usual-range",
        "contour: «C5»",
        "C5 lies above the usual range, which ends at Bb4",
        number=("sounding pitch", 7200, 7000, "cents above C-1"),
        ways=["contour: Bb4", "contour: C4"],
        on="euphonium",
    ),
    says(
        "outside-usual-range",
        "contour: «B4»",
        "B4 lies above the usual range, which ends at Bb4",
        number=("sounding pitch", 7100, 7000, "cents above C-1"),
        ways=["contour: Bb4", "contour: B3"],
        on="euphonium",
    ),
    silent("outside-usual-range", "contour: Bb4", on="euphonium"),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
