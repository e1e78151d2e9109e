"""What is said of techniques, fingerings and means (GS301 to GS304, GS317)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss»\ncontour: C5 -- B4",
        "bend + lip-gliss: both say how the pitch moves",
        ways=["technique: bend", "technique: lip-gliss"],
    ),
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss + chromatic»\ncontour: C5 -- B4",
        "bend + chromatic: both say how the pitch moves",
        ways=["technique: ordinary"],
        of=3,
    ),
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss + chromatic»\ncontour: C5 -- B4",
        "bend + lip-gliss: both say how the pitch moves",
        ways=["technique: ordinary"],
        of=3,
    ),
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss + chromatic»\ncontour: C5 -- B4",
        "lip-gliss + chromatic: both say how the pitch moves",
        ways=["technique: ordinary"],
        of=3,
    ),
    silent("techniques-contradict", "technique: air\ncontour: xC5, D5 as flutter-tongue"),
    silent("techniques-contradict", "technique: flutter-tongue\ncontour: C5, D5 as growl"),
    says(
        "techniques-contradict",
        "technique: «growl + flutter-tongue»\ncontour: C5",
        "growl + flutter-tongue: both say what the mouth does",
        ways=["technique: growl", "technique: flutter-tongue"],
    ),
    says(
        "instrument-lacks-means",
        "technique: «slide-gliss»\ncontour: C5 -- G4",
        "slide-gliss needs a slide; the double horn in F/B-flat has none",
        ways=["technique: harmonic-gliss", "technique: lip-gliss", "technique: fingered-gliss"],
    ),
    says(
        "instrument-lacks-means",
        "technique: «half-valve»\ncontour: xBb3 ~~ xF3\nlasts: 2 beats",
        "half-valve needs valves to finger with; the tenor trombone has a slide",
        ways=["technique: slide-gliss", "technique: lip-gliss", "technique: lip-trill"],
        on="trombone",
    ),
    says(
        "instrument-lacks-means",
        "technique: «half-valve»\ncontour: xC5 ~~ xG4\nlasts: 2 beats",
        "half-valve needs valves to finger with; the natural horn in F has none",
        ways=["technique: lip-gliss", "technique: lip-trill", "technique: ordinary"],
        on="natural-horn",
    ),
    says(
        "instrument-lacks-means",
        "technique: «valve-trill»\ncontour: D4",
        "valve-trill needs valves to finger with; the tenor trombone has a slide",
        ways=["technique: lip-trill", "technique: ordinary"],
        on="trombone",
    ),
    silent("instrument-lacks-means", "technique: growl\ncontour: C5", on="trumpet"),
    says(
        "no-such-fingering",
        "contour: C5\nfingering: «F 1-4»",
        "the double horn in F/B-flat has no fingering F 1-4",
        ways=["fingering: auto"],
    ),
    says(
        "no-such-fingering",
        "contour: C5, D5\nfingering: «F 1-4, F 1-4»",
        "the double horn in F/B-flat has no fingering F 1-4",
        ways=["fingering: auto"],
    ),
    says(
        "no-such-fingering",
        "contour: C5, D5\nfingering: «F 0, F 1-4»",
        "the double horn in F/B-flat has no fingering F 1-4",
        ways=["fingering: auto"],
    ),
    says(
        "no-such-fingering",
        "contour: Bb3\nfingering: «9»",
        "the tenor trombone has no position 9",
        ways=["fingering: auto"],
        on="trombone",
    ),
    silent("no-such-fingering", "contour: C5\nfingering: F 0"),
    says(
        "fingering-misses-pitch",
        "contour: «C#5»\nfingering: F 0",
        "F 0 gives C5 (partial 8), 100 cents away; the lip corrects up to 50 (at the very most 100)",
        number=("distance to the partial", 100, 50, "cents"),
        ways=["fingering: auto", "contour: C5"],
    ),
    silent("fingering-misses-pitch", "contour: D5\nfingering: F 0"),
    says(
        "fingering-misses-pitch",
        "contour: D5, D5, «C#5»\nfingering: F 0",
        "F 0 gives C5 (partial 8), 100 cents away; the lip corrects up to 50 (at the very most 100)",
        number=("distance to the partial", 100, 50, "cents"),
        ways=["fingering: auto", "contour: D5, D5, C5"],
    ),
    silent("fingering-misses-pitch", "contour: xD5\nfingering: F 0"),
    says(
        "fingering-misses-pitch",
        "contour: «D4»\nfingering: 5",
        "position 5 gives C#4+2c (partial 6), 98 cents away; the lip corrects up to 50 (at the very most 100)",
        number=("distance to the partial", 98.045, 50, "cents"),
        ways=["fingering: auto", "contour: C#4"],
        on="trombone",
    ),
    says(
        "fingering-misses-pitch",
        "contour: «F5»\nfingering: 0",
        "the open tube gives E5-14c (partial 5), 114 cents away; the lip corrects up to 50 (at the very most 100)",
        number=("distance to the partial", 113.686, 50, "cents"),
        ways=["fingering: auto", "contour: E5"],
        on="trumpet",
    ),
    silent("fingering-misses-pitch", "technique: chromatic\ncontour: D5 -- G5\nfingering: F 0"),
    silent("fingering-misses-pitch", "technique: half-valve\ncontour: xD5 ~~ xG5\nfingering: F 0"),
    says(
        "fingering-contradicts",
        "technique: harmonic-gliss\ncontour: G4 ~~ G5\nfingering: «F 0, F 1»",
        "F 0 and then F 1, but harmonic-gliss stays on one tube",
        ways=["fingering: auto", "fingering: held", "technique: ordinary"],
    ),
    silent("fingering-contradicts", "technique: harmonic-gliss\ncontour: G4 ~~ G5\nfingering: F 0, F 0"),
    silent(
        "fingering-contradicts",
        "technique: harmonic-gliss\ncontour: G4 ~~ G5, G4\nfingering: F 0, F 0, F 1",
    ),
    says(
        "fingering-contradicts",
        "technique: valve-trill\ncontour: G4\nfingering: «held»",
        "one tube for all, but valve-trill needs two fingerings",
        ways=["fingering: auto", "technique: ordinary"],
    ),
    says(
        "fingering-contradicts",
        "technique: timbre-trill\ncontour: G4\nfingering: «held»",
        "one tube for all, but timbre-trill needs two fingerings",
        ways=["fingering: auto", "technique: ordinary"],
    ),
    silent("fingering-contradicts", "technique: valve-trill\ncontour: G4\nfingering: F 0"),
    says(
        "fingering-contradicts",
        "technique: chromatic\ncontour: G4 -- G5\nfingering: «held»",
        "one tube for all, but chromatic fingers every note",
        ways=["fingering: auto", "technique: harmonic-gliss", "technique: lip-gliss"],
    ),
    says(
        "fingering-contradicts",
        "technique: chromatic\ncontour: G4 -- G5\nfingering: «F 0»",
        "one tube for all, but chromatic fingers every note",
        ways=["fingering: auto", "technique: harmonic-gliss", "technique: lip-gliss"],
    ),
    says(
        "fingering-contradicts",
        "technique: fingered-gliss\ncontour: G4 ~~ G5\nfingering: «held»",
        "one tube for all, but fingered-gliss moves the valves",
        ways=["fingering: auto", "technique: harmonic-gliss", "technique: lip-gliss"],
    ),
    silent("fingering-contradicts", "technique: fingered-gliss\ncontour: G4 ~~ G5\nfingering: F 0"),
    says(
        "fingering-contradicts",
        "technique: slide-gliss\ncontour: Bb2 -- F2\nfingering: «held»",
        "one tube for all, but slide-gliss moves the slide",
        ways=["fingering: auto", "technique: lip-gliss", "technique: ordinary"],
        on="trombone",
    ),
    says(
        "fingering-contradicts",
        "technique: slide-gliss\ncontour: Bb2 -- F2\nfingering: «1»",
        "one tube for all, but slide-gliss moves the slide",
        ways=["fingering: auto", "technique: lip-gliss"],
        on="trombone",
    ),
    silent("fingering-contradicts", "technique: chromatic\ncontour: G4 -- G4\nfingering: held"),
    says(
        "fingering-contradicts",
        "technique: lip-gliss\ncontour: C5 -- D5 -- E5\nfingering: «F 0, F 0, F 1»",
        "F 0 and then F 1, but lip-gliss stays on one tube",
        ways=["fingering: auto", "fingering: held", "technique: ordinary"],
    ),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
