"""What is said of notes that no tube gives (GS201): words, number, place, ways out."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "pitch-no-tube-gives",
        "contour: «C2»",
        "the nearest pitch below it that any tube gives is Bb1 (position 1, partial 1), 200 cents away; "
        "the lip brings it up by up to 100",
        number=("distance to the nearest partial", 200, 100, "cents"),
        hint="write Bb1, or x for about this pitch",
        ways=["contour: Bb1", "contour: G1", "contour: F2"],
        physical=True,
        on="trombone",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: «F3»",
        "the nearest pitch above it that any tube gives is F#3+54c (valves 1-2-3, partial 2), 154 cents away; "
        "the lip brings it down by up to 100",
        number=("distance to the nearest partial", 153.559, 100, "cents"),
        hint="write F#3, or x for about this pitch",
        ways=["contour: F#3", "contour: G3", "contour: C3"],
        physical=True,
        on="trumpet",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: «D3»",
        "the nearest pitch above it that any tube gives is G3+2c (the open tube, partial 3), 502 cents away; "
        "the lip brings it down by up to 100",
        number=("distance to the nearest partial", 501.955, 100, "cents"),
        hint="write G3, or x for about this pitch",
        ways=["contour: G3", "contour: C3", "contour: D4"],
        physical=True,
        on="natural-horn",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: «D3»\nfingering: held",
        "the nearest pitch below it that the held tube gives is C3 (the open tube, partial 1), 200 cents away; "
        "the lip brings it up by up to 100",
        number=("distance to the nearest partial", 200, 100, "cents"),
        hint="write C3, or x for about this pitch",
        ways=["contour: C3", "contour: A2", "contour: G3"],
        physical=True,
        on="trumpet",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: C4, «C#4»\nfingering: held",
        "the nearest pitch below it that the held tube gives is C4 (the open tube, partial 2), 100 cents away; "
        "the lip brings it up by up to 35 (at the very most 100)",
        number=("distance to the nearest partial", 100, 35, "cents"),
        hint="write C4, or x for about this pitch",
        ways=["fingering: auto", "contour: C4, C4", "contour: C4, xC#4"],
        severity="caution",
        on="trumpet",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: «C4», D4\nfingering: held",
        "the nearest pitch below it that the held tube gives is B3+17c (F 1-3, partial 5), 83.4 cents away; "
        "the lip brings it up by up to 35 (at the very most 100)",
        number=("distance to the nearest partial", 83.371, 35, "cents"),
        hint="write B3, or x for about this pitch",
        ways=["fingering: auto", "contour: B3, D4", "contour: xC4, D4"],
        severity="caution",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: «C4», D4 as muted\nfingering: held",
        "the nearest pitch below it that the held tube gives is B3+17c (F 1-3, partial 5), 83.4 cents away; "
        "the lip brings it up by up to 35 (at the very most 100)",
        number=("distance to the nearest partial", 83.371, 35, "cents"),
        hint="write B3, or x for about this pitch",
        ways=["fingering: auto", "contour: B3, D4 as muted", "contour: xC4, D4 as muted"],
        severity="caution",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: C4, «Bb3»\nfingering: held",
        "the nearest pitch below it that the held tube gives is A3+11c (F 1-2, partial 4), 89.4 cents away; "
        "the lip brings it up by up to 35 (at the very most 100)",
        number=("distance to the nearest partial", 89.366, 35, "cents"),
        hint="write A3, or x for about this pitch",
        ways=["fingering: auto", "contour: C4, xBb3"],
        severity="caution",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: «C4», xBb3\nfingering: held",
        "the nearest pitch below it that the held tube gives is B3+17c (F 1-3, partial 5), 83.4 cents away; "
        "the lip brings it up by up to 35 (at the very most 100)",
        number=("distance to the nearest partial", 83.371, 35, "cents"),
        hint="write B3, or x for about this pitch",
        ways=["fingering: auto", "contour: xC4, xBb3"],
        severity="caution",
    ),
    silent("pitch-no-tube-gives", "contour: C4+30c", on="trombone"),
    # Up the lip takes a partial only a little, down about a quarter tone.
    silent("pitch-no-tube-gives", "contour: C4+30c", on="trumpet"),
    silent("pitch-no-tube-gives", "contour: C4-50c", on="trumpet"),
    says(
        "pitch-no-tube-gives",
        "contour: «C4+40c»",
        "the nearest pitch below it that any tube gives is C4 (the open tube, partial 2), 40 cents away; "
        "the lip brings it up by up to 35 (at the very most 100)",
        number=("distance to the nearest partial", 40, 35, "cents"),
        hint="write C4, or x for about this pitch",
        severity="caution",
        on="trumpet",
        ways=["contour: C4", "contour: xC4"],
    ),
    says(
        "pitch-no-tube-gives",
        "contour: «C^4»",
        "the nearest pitch below it that any tube gives is C4 (the open tube, partial 2), 50 cents away; "
        "the lip brings it up by up to 35 (at the very most 100)",
        number=("distance to the nearest partial", 50, 35, "cents"),
        hint="write C4, or x for about this pitch",
        severity="caution",
        source="house: Buckner, hsutrumpets.com: up only a little; the number is ours",
        on="trumpet",
        ways=["contour: C4", "contour: xC^4"],
    ),
    silent("pitch-no-tube-gives", "contour: B4", on="natural-horn"),
    silent("pitch-no-tube-gives", "contour: A4", on="natural-horn"),
    silent("pitch-no-tube-gives", "contour: Ab4", on="natural-horn"),
    silent("pitch-no-tube-gives", "contour: F4", on="natural-horn"),
    says(
        "pitch-no-tube-gives",
        "contour: «F4 as muted»",
        "the nearest pitch below it that any tube gives is E4-14c (the open tube, partial 5), 114 cents away; "
        "the lip brings it up by up to 35 (at the very most 100)",
        number=("distance to the nearest partial", 113.686, 35, "cents"),
        hint="write E4, or x for about this pitch",
        ways=["contour: E4 as muted", "contour: xF4 as muted"],
        severity="caution",
        on="natural-horn",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: «A4 as muted»",
        "the nearest pitch above it that any tube gives is Bb4-31c (the open tube, partial 7), 68.8 cents away; "
        "the lip brings it down by up to 50 (at the very most 100)",
        number=("distance to the nearest partial", 68.826, 50, "cents"),
        hint="write Bb4, or x for about this pitch",
        ways=["contour: Bb4 as muted", "contour: xA4 as muted"],
        severity="caution",
        on="natural-horn",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: «A3»",
        "the nearest pitch above it that any tube gives is C4 (the open tube, partial 4), 300 cents away; "
        "the hand lowers it by up to 250 (impossible beyond 398)",
        number=("distance to the nearest partial", 300, 250, "cents"),
        hint="write C4, or x for about this pitch",
        ways=["contour: C4", "contour: xA3"],
        severity="caution",
        on="natural-horn",
    ),
    silent("pitch-no-tube-gives", "contour: F3", on="natural-horn"),
    says(
        "pitch-no-tube-gives",
        "contour: «F3 as muted»",
        "the nearest pitch above it that any tube gives is G3+2c (the open tube, partial 3), 202 cents away; "
        "the lip brings it down by up to 100",
        number=("distance to the nearest partial", 201.955, 100, "cents"),
        hint="write G3, or x for about this pitch",
        ways=["contour: G3 as muted", "contour: C3 as muted", "contour: xF3 as muted"],
        physical=True,
        on="natural-horn",
    ),
    silent("pitch-no-tube-gives", "contour: D4", on="natural-horn"),
    says(
        "pitch-no-tube-gives",
        "contour: xF3, «A3»",
        "the nearest pitch above it that any tube gives is C4 (the open tube, partial 4), 300 cents away; "
        "the hand lowers it by up to 250 (impossible beyond 398)",
        number=("distance to the nearest partial", 300, 250, "cents"),
        hint="write C4, or x for about this pitch",
        ways=["contour: xF3, C4", "contour: xF3, xA3"],
        severity="caution",
        on="natural-horn",
    ),
    silent("pitch-no-tube-gives", "contour: C4, F4 as lip-gliss -- E4, A3", on="natural-horn"),
    silent("pitch-no-tube-gives", "technique: chromatic\ncontour: F3 ~~ C4", on="natural-horn"),
    silent("pitch-no-tube-gives", "technique: slap-tongue\ncontour: F3", on="natural-horn"),
    silent("pitch-no-tube-gives", "technique: half-valve\ncontour: F3", on="trumpet"),
    silent("pitch-no-tube-gives", "contour: E6", on="natural-horn"),
    says(
        "pitch-no-tube-gives",
        "contour: C4, «C2»",
        "the nearest pitch below it that any tube gives is Bb1 (position 1, partial 1), 200 cents away; "
        "the lip brings it up by up to 100",
        number=("distance to the nearest partial", 200, 100, "cents"),
        hint="write Bb1, or x for about this pitch",
        ways=["contour: C4, Bb1", "contour: Bb3, Bb1", "contour: G3, G1"],
        physical=True,
        on="trombone",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: C5, «F3», C#3",
        "the nearest pitch above it that any tube gives is F#3+54c (valves 1-2-3, partial 2), 154 cents away; "
        "the lip brings it down by up to 100",
        number=("distance to the nearest partial", 153.559, 100, "cents"),
        hint="write F#3, or x for about this pitch",
        ways=["contour: C5, F#3, C#3", "contour: G4, C3, G#2", "contour: F5, Bb3, F#3"],
        physical=True,
        of=2,
        on="trumpet",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: C5, F3, «C#3»",
        "the nearest pitch below it that any tube gives is C3 (the open tube, partial 1), 100 cents away; "
        "the lip brings it up by up to 35 (at the very most 100)",
        number=("distance to the nearest partial", 100, 35, "cents"),
        hint="write C3, or x for about this pitch",
        severity="caution",
        of=2,
        on="trumpet",
        ways=[],
    ),
    silent("pitch-no-tube-gives", "contour: F3\nfingering: 0", on="trumpet"),
    silent("pitch-no-tube-gives", "technique: muted\nmute: stopping\ncontour: F4", on="natural-horn"),
    silent("pitch-no-tube-gives", "contour: C#2"),
    silent("pitch-no-tube-gives", "contour: C#2 as muted"),
    silent("pitch-no-tube-gives", "contour: E2+30c as muted"),
    silent("pitch-no-tube-gives", "contour: E2+30c"),
    says(
        "pitch-no-tube-gives",
        "technique: chromatic\ncontour: «F3» ~~ C4",
        "the nearest pitch above it that any tube gives is F#3+54c (valves 1-2-3, partial 2), 154 cents away; "
        "the lip brings it down by up to 100",
        number=("distance to the nearest partial", 153.559, 100, "cents"),
        hint="write F#3, or x for about this pitch",
        ways=["contour: F#3 ~~ C4", "contour: G3 ~~ D4", "contour: C3 ~~ G3"],
        physical=True,
        on="trumpet",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: C4 as half-valve, «F3 as ordinary»",
        "the nearest pitch above it that any tube gives is F#3+54c (valves 1-2-3, partial 2), 154 cents away; "
        "the lip brings it down by up to 100",
        number=("distance to the nearest partial", 153.559, 100, "cents"),
        hint="write F#3, or x for about this pitch",
        ways=[
            "contour: C4 as half-valve, F#3 as ordinary",
            "contour: D4 as half-valve, G3 as ordinary",
            "contour: G3 as half-valve, C3 as ordinary",
        ],
        physical=True,
        on="trumpet",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: F#3, «F3»",
        "the nearest pitch above it that any tube gives is F#3+54c (valves 1-2-3, partial 2), 154 cents away; "
        "the lip brings it down by up to 100",
        number=("distance to the nearest partial", 153.559, 100, "cents"),
        hint="write F#3, or x for about this pitch",
        ways=["contour: F#3, F#3", "contour: G#3, G3", "contour: C#3, C3"],
        physical=True,
        on="trumpet",
    ),
    says(
        "pitch-no-tube-gives",
        "contour: C7, «F3»",
        "the nearest pitch above it that any tube gives is F#3+54c (valves 1-2-3, partial 2), 154 cents away; "
        "the lip brings it down by up to 100",
        number=("distance to the nearest partial", 153.559, 100, "cents"),
        hint="write F#3, or x for about this pitch",
        ways=["contour: C6, F4"],
        physical=True,
        on="trumpet",
    ),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
