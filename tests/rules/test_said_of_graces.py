"""What is said of grace notes: how quick they are (GS407), and what other rules find on them."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "graces-too-quick",
        "technique: single-tongue\ncontour: «F4 grace», A4 grace, G4 grace, C5\nlasts: 1/2 beats",
        number=("grace notes a second", 24, 12.5, "notes a second"),
        ways=["lasts: 2 beats"],
        severity="refused",
        tempo=120,
    ),
    says(
        "graces-too-quick",
        "technique: single-tongue\ncontour: «F4 grace», G4 grace, C5\nlasts: 1/3 beats",
        number=("grace notes a second", 12, 11, "notes a second"),
        ways=["lasts: 1 beat", "technique: double-tongue"],
    ),
    silent("graces-too-quick", "contour: F4 grace, G4 grace, C5\nlasts: 1/3 beats"),
    silent("graces-too-quick", "contour: F4 grace __ G4 grace __ C5\nlasts: 1/2 beats"),
    says(
        "graces-too-quick",
        "contour: «F4 grace» __ G4 grace __ A4 grace __ B4 grace __ C5\nlasts: 1/2 beats",
        number=("grace notes a second", 16, 12, "notes a second"),
    ),
    # The tongue is slower in the low register: five and a half a second kept up, a quarter more in a burst of four.
    says(
        "graces-too-quick",
        "technique: single-tongue\ncontour: «F2 grace», G2 grace, G2 grace, F2\nlasts: 3/4 beats",
        number=("grace notes a second", 8, 6.9, "notes a second"),
    ),
    silent("graces-too-quick", "contour: F4 grace, G4 grace, G4 grace, C5\nlasts: 1 beat"),
    # They come in the time of a long note before them.
    silent("graces-too-quick", "contour: C5, F4 grace, G4 grace, C5@2\nlasts: 5/2 beats"),
    says(
        "graces-too-quick",
        "contour: «F3 grace», G4",
        number=("leap", 14, 12, "semitones"),
    ),
    silent("graces-too-quick", "contour: G3 grace, G4"),
    says("graces-too-quick", "contour: G4, «A5 grace»\nlasts: 2 beats", number=("leap", 14, 12, "semitones")),
    # Other rules look at each as at a note.
    says(
        "outside-range",
        "contour: «A6 grace», C6",
        severity="refused",
        number=("sounding pitch", 8600, 7900, "cents above C-1"),
        physical=True,
    ),
    says("line-without-technique", "contour: G4 grace «--» C5"),
    says(
        "slide-travel-too-fast",
        "contour: Bb2, «E2 grace», Bb2@1\nlasts: 2 beats",
        number=("positions a second", 60, 30, "positions a second"),
        on="trombone",
        tempo=300,
    ),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row) -> None:
    holds(row)
