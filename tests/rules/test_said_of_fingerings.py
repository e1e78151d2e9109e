"""Findings on fingerings asked for (GS303, GS304, GS317)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "no-such-fingering",
        "contour: C5\nfingering: «F 1-4»",
        ways=["fingering: auto"],
        physical=True,
        source="derived: the tubes of the double horn in F/B-flat",
        severity="refused",
    ),
    says(
        "no-such-fingering",
        "contour: C5, D5\nfingering: «F 1-4, F 1-4»",
        ways=["fingering: auto"],
        physical=True,
        severity="refused",
    ),
    says(
        "no-such-fingering",
        "contour: C5, D5\nfingering: «F 0, F 1-4»",
        ways=["fingering: auto"],
        physical=True,
        severity="refused",
    ),
    says(
        "no-such-fingering",
        "contour: Bb3\nfingering: «9»",
        ways=["fingering: auto"],
        physical=True,
        source="derived: the tubes of the tenor trombone",
        on="trombone",
        severity="refused",
    ),
    silent("no-such-fingering", "contour: C5\nfingering: F 0"),
    says(
        "fingering-misses-pitch",
        "contour: «C#5»\nfingering: F 0",
        number=("distance to the partial", 100, 35, "cents"),
        ways=["fingering: auto", "contour: C5"],
    ),
    silent("fingering-misses-pitch", "contour: D5\nfingering: F 0"),
    says(
        "fingering-misses-pitch",
        "contour: D5, D5, «C#5»\nfingering: F 0",
        number=("distance to the partial", 100, 35, "cents"),
        ways=["fingering: auto", "contour: D5, D5, C5"],
    ),
    silent("fingering-misses-pitch", "contour: xD5\nfingering: F 0"),
    says(
        "fingering-misses-pitch",
        "contour: «D4»\nfingering: 5",
        number=("distance to the partial", 98.045, 50, "cents"),
        ways=["fingering: auto", "contour: C#4", "contour: E4"],
        on="trombone",
        severity="refused",
        physical=True,
    ),
    says(
        "fingering-misses-pitch",
        "contour: «F5»\nfingering: 0",
        number=("distance to the partial", 113.686, 35, "cents"),
        ways=["fingering: auto", "contour: E5"],
        on="trumpet",
    ),
    silent("fingering-misses-pitch", "technique: chromatic\ncontour: D5 -- G5\nfingering: F 0"),
    silent("fingering-misses-pitch", "technique: half-valve\ncontour: xD5 ~~ xG5\nfingering: F 0"),
    says(
        "fingering-misses-pitch",
        "technique: stopped\ncontour: «C5», C5, C5\nfingering: F 2-3\nlasts: 3 beats",
        number=("distance to the partial", 80.561, 35, "cents"),
        ways=["fingering: auto", "contour: B4, C5, C5"],
    ),
    silent("fingering-misses-pitch", "technique: stopped\ncontour: D5\nfingering: Bb 0"),
    silent("fingering-misses-pitch", "technique: hand-gliss\ncontour: C5 -- B4\nfingering: F 2"),
    says(
        "fingering-misses-pitch",
        "contour: C5, xC#5, «C#5»\nfingering: F 0, F 0, F 0",
        number=("distance to the partial", 100, 35, "cents"),
        ways=["fingering: auto", "contour: C5, xC#5, C5"],
    ),
    silent(
        "fingering-misses-pitch",
        "technique: half-valve\ncontour: C#5 ~~ G5, C#5\nfingering: F 0",
    ),
    says(
        "fingering-misses-pitch",
        "contour: C5 as lip-gliss -- C#5, «C#5 as ordinary»\nfingering: F 0",
        number=("distance to the partial", 100, 35, "cents"),
        ways=["fingering: auto", "contour: C5 as lip-gliss -- C#5, C5 as ordinary"],
    ),
    says(
        "fingering-misses-pitch",
        "technique: chromatic\ncontour: «C#5» ~~ G5\nfingering: F 0, F 0",
        number=("distance to the partial", 100, 35, "cents"),
        ways=["fingering: auto", "contour: C5 ~~ G5"],
    ),
    says(
        "fingering-misses-pitch",
        "contour: C5, «C#5», C5, Eb5\nfingering: F 0",
        number=("distance to the partial", 100, 35, "cents"),
        ways=["fingering: auto", "contour: C5, C5, C5, Eb5"],
        of=2,
    ),
    says(
        "fingering-misses-pitch",
        "contour: C5, C#5, C5, «Eb5»\nfingering: F 0",
        number=("distance to the partial", 86.314, 50, "cents"),
        ways=["fingering: auto", "contour: C5, C#5, C5, E5"],
        of=2,
    ),
    says(
        "fingering-misses-pitch",
        "contour: «Eb5»\nfingering: F 0",
        number=("distance to the partial", 86.314, 50, "cents"),
        ways=["fingering: auto", "contour: E5"],
    ),
    says(
        "fingering-misses-pitch",
        "contour: «F#4»\nfingering: F 0",
        number=("distance to the partial", 101.955, 50, "cents"),
        ways=["fingering: auto", "contour: G4"],
    ),
    silent("fingering-misses-pitch", "technique: stopped\ncontour: C#5\nfingering: Bb 0"),
    silent("fingering-misses-pitch", "technique: slap-tongue\ncontour: C#5\nfingering: F 0"),
    says(
        "fingering-misses-pitch",
        "contour: C#5 as stopped, «C#5 as ordinary»\nfingering: Bb 0",
        number=("distance to the partial", 98.045, 35, "cents"),
        ways=["fingering: auto", "contour: C#5 as stopped, C5 as ordinary"],
    ),
    says(
        "fingering-misses-pitch",
        "contour: «Bb3»\nfingering: F 0",
        number=("distance to the partial", 200, 100, "cents"),
        ways=["fingering: auto", "contour: C4", "contour: Bb4"],
        severity="refused",
        physical=True,
    ),
    says(
        "fingering-contradicts",
        "technique: harmonic-gliss\ncontour: G4 ~~ G5\nfingering: «F 0, F 1»",
        ways=["fingering: auto", "fingering: held"],
        source="derived: what the technique is",
        severity="refused",
    ),
    silent("fingering-contradicts", "technique: harmonic-gliss\ncontour: G4 ~~ G5\nfingering: F 0, F 0"),
    silent(
        "fingering-contradicts",
        "technique: harmonic-gliss\ncontour: G4 ~~ G5, G4\nfingering: F 0, F 0, F 1",
    ),
    says(
        "fingering-contradicts",
        "technique: valve-trill\ncontour: G4\nfingering: «held»",
        ways=["fingering: auto"],
        severity="refused",
    ),
    says(
        "fingering-contradicts",
        "technique: timbre-trill\ncontour: G4\nfingering: «held»",
        ways=["fingering: auto", "technique: ordinary"],
        severity="refused",
    ),
    silent("fingering-contradicts", "technique: valve-trill\ncontour: G4\nfingering: F 0"),
    says(
        "fingering-contradicts",
        "technique: chromatic\ncontour: G4 -- G5\nfingering: «held»",
        ways=["fingering: auto", "technique: harmonic-gliss", "technique: lip-gliss"],
        severity="refused",
    ),
    says(
        "fingering-contradicts",
        "technique: chromatic\ncontour: G4 -- G5\nfingering: «F 0»",
        ways=["fingering: auto", "technique: harmonic-gliss", "technique: lip-gliss"],
        severity="refused",
    ),
    says(
        "fingering-contradicts",
        "technique: fingered-gliss\ncontour: G4 ~~ G5\nfingering: «held»",
        ways=["fingering: auto", "technique: harmonic-gliss", "technique: lip-gliss"],
        severity="refused",
    ),
    silent("fingering-contradicts", "technique: fingered-gliss\ncontour: G4 ~~ G5\nfingering: F 0"),
    says(
        "fingering-contradicts",
        "technique: slide-gliss\ncontour: Bb2 -- F2\nfingering: «held»",
        ways=["fingering: auto"],
        on="trombone",
        severity="refused",
    ),
    says(
        "fingering-contradicts",
        "technique: slide-gliss\ncontour: Bb2 -- F2\nfingering: «1»",
        ways=["fingering: auto", "technique: lip-gliss"],
        on="trombone",
        severity="refused",
    ),
    silent("fingering-contradicts", "technique: chromatic\ncontour: G4 -- G4\nfingering: held"),
    says(
        "fingering-contradicts",
        "technique: lip-gliss\ncontour: C5 -- D5 -- E5\nfingering: «F 0, F 0, F 1»",
        ways=["fingering: auto", "fingering: held"],
        severity="refused",
    ),
    silent(
        "fingering-contradicts",
        "technique: hand-gliss\ncontour: C5 -- B4\nfingering: held",
        on="natural-horn",
    ),
    says(
        "fingering-contradicts",
        "technique: lip-gliss\ncontour: r, C5@1 -- D5, E5\nfingering: «F 0, F 1, F 1»\nlasts: 4 beats",
        ways=["fingering: auto", "fingering: held"],
        severity="refused",
    ),
    silent("fingering-contradicts", "technique: valve-trill\ncontour: C4\nfingering: held", on="natural-horn"),
    silent("fingering-contradicts", "technique: chromatic\ncontour: C4 ~~ E4\nfingering: F 0, F 1"),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
