"""Findings on bends, scoops and edges off a note (GS503, GS510, GS511)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "bend-too-wide",
        "technique: bend\ncontour: G5 -- «E5» -- G5",
        number=("bend down", 300.0, 204.0, "cents"),
        ways=["technique: lip-gliss"],
        severity="refused",
    ),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: G5 -- «F5» -- G5",
        number=("bend down", 200, 68, "cents"),
        ways=["technique: lip-gliss", "contour: G5 -- F#^5 -- G5"],
    ),
    silent("bend-too-wide", "technique: bend\ncontour: C5 -- B4 -- C5"),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: C5 -- «Bb4» -- C5",
        number=("bend down", 200, 115, "cents"),
        ways=["technique: lip-gliss", "contour: C5 -- B4 -- C5"],
    ),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: C5 -- «xBb4» -- C5",
        number=("bend down", 200, 115, "cents"),
        ways=["technique: lip-gliss", "contour: C5 -- xB4 -- C5"],
    ),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: C5 -- «C#5» -- C5",
        number=("bend up", 100, 32, "cents"),
        ways=["technique: lip-gliss", "contour: C5 -- B4 -- C5"],
    ),
    # A quarter tone is more than the "only a little" of the source.
    says(
        "bend-too-wide",
        "technique: bend\ncontour: C5 -- «C^5» -- C5",
        number=("bend up", 50, 32, "cents"),
        ways=["technique: lip-gliss", "contour: C5 -- B^4 -- C5"],
    ),
    silent("bend-too-wide", "technique: bend\ncontour: C5 -- C5+26c -- C5"),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: B2 -- «C3» -- B2",
        number=("bend up", 100, 43, "cents"),
        source="house: bent up it stays short of a semitone before the lip jumps (trumpetmaster.com); "
        "the number is ours",
        on="trombone",
        ways=["technique: lip-gliss", "contour: B2 -- Bb2 -- B2"],
    ),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: C4 -- «D4» -- C4",
        number=("bend up", 200.0, 100.0, "cents"),
        ways=["technique: lip-gliss", "contour: C4 -- Bb3 -- C4"],
        severity="refused",
    ),
    # About a third is practice, at the bottom perhaps a fourth: a fifth, a sixth and an octave are out of reach.
    says(
        "bend-too-wide",
        "technique: bend\ncontour: E3 -- «A2»",
        number=("bend down", 700, 488, "cents"),
        severity="refused",
    ),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: G3 -- «Bb2»",
        number=("bend down", 900, 465, "cents"),
        severity="refused",
    ),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: C3 -- «C2»",
        number=("bend down", 1200, 500, "cents"),
        severity="refused",
    ),
    silent("bend-too-wide", "technique: bend\ncontour: C3 -- A2"),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: C3 -- «Ab2»",
        number=("bend down", 400, 350, "cents"),
        ways=["contour: C3 -- G#^2"],
    ),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: C5 -- B4 -- «Bb4»",
        number=("bend down", 200, 115, "cents"),
        ways=["technique: lip-gliss"],
    ),
    silent("bend-too-wide", "technique: bend\ncontour: C5 -- B4, Bb4 -- A4"),
    says(
        "bend-too-wide",
        "technique: bend\nband: C4..C5\ncontour: high -- «low»",
        number=("bend down", 1200.0, 316.0, "cents"),
        ways=["technique: lip-gliss"],
        severity="refused",
    ),
    says(
        "bend-too-wide",
        "technique: bend + growl\ncontour: C5 -- «Bb4» -- C5",
        number=("bend down", 200, 115, "cents"),
        ways=["technique: lip-gliss + growl", "contour: C5 -- B4 -- C5"],
    ),
    says(
        "bend-too-wide",
        "technique: bend\ncontour: C5 -- B4, r, C5 -- «Bb4»",
        number=("bend down", 200, 115, "cents"),
        ways=["technique: lip-gliss", "contour: C5 -- B4, r, C5 -- B4"],
    ),
    says(
        "bend-too-wide",
        "technique: lip-gliss\ncontour: C5 -- E5, C5 as bend -- «Bb4»",
        number=("bend down", 200, 115, "cents"),
        ways=["contour: C5 -- E5, C5 as bend -- B4"],
    ),
    says(
        "bend-too-wide",
        "technique: bend + half-valve\ncontour: xC5 -- «xA4»",
        number=("bend down", 300, 115, "cents"),
        ways=["technique: lip-gliss + half-valve", "contour: xC5 -- xB4"],
    ),
    says(
        "scoop-too-wide",
        "technique: scoop\ncontour: «C6»\nlasts: 2 beats",
        number=("width", 75, 50, "cents"),
        ways=["technique: ordinary", "contour: C5"],
    ),
    silent("scoop-too-wide", "technique: scoop\ncontour: C5\nlasts: 2 beats"),
    says(
        "scoop-too-wide",
        "technique: scoop\ncontour: C5, «C6», C6\nlasts: 3 beats",
        number=("width", 75, 50, "cents"),
        ways=["technique: ordinary", "contour: C4, C5, C5"],
    ),
    silent("scoop-too-wide", "technique: scoop\ncontour: C5 __ C6\nlasts: 3 beats"),
    says(
        "scoop-too-wide",
        "technique: scoop\nband: B5..C6\ncontour: «low», high",
        number=("width", 75, 50, "cents"),
        ways=["technique: ordinary", "band: B4..C5"],
    ),
    says(
        "scoop-too-wide",
        "technique: growl + scoop\ncontour: C5 __ C6, «C6»",
        number=("width", 75, 50, "cents"),
        ways=["technique: growl", "contour: C4 __ C5, C5"],
    ),
    says(
        "edge-without-room",
        "technique: doit\ncontour: «D6»\nlasts: 2 beats",
        number=("room above", 0, 200, "cents"),
        ways=["technique: ordinary", "contour: D5"],
    ),
    says(
        "edge-without-room",
        "technique: doit\ncontour: «C#6»\nlasts: 2 beats",
        number=("room above", 100, 200, "cents"),
        ways=["technique: ordinary", "contour: C#5"],
    ),
    silent("edge-without-room", "technique: doit\ncontour: C6\nlasts: 2 beats"),
    silent("edge-without-room", "technique: doit\ncontour: Eb6\nlasts: 2 beats"),
    says(
        "edge-without-room",
        "technique: fall\ncontour: «C2»\nlasts: 2 beats",
        number=("room below", 0, 300, "cents"),
        ways=["technique: ordinary", "contour: C3"],
    ),
    silent("edge-without-room", "technique: fall\ncontour: Eb2\nlasts: 2 beats"),
    says(
        "edge-without-room",
        "technique: fall\ncontour: «D2», C2\nlasts: 2 beats",
        number=("room below", 200, 300, "cents"),
        ways=["technique: ordinary", "contour: D3, C3"],
    ),
    silent("edge-without-room", "technique: fall\ncontour: B1\nlasts: 2 beats"),
    says(
        "edge-without-room",
        "technique: plop + fall\ncontour: «D6», D6\nlasts: 2 beats",
        number=("room above", 0, 300, "cents"),
        ways=["technique: fall", "contour: D5, D5"],
    ),
    says(
        "edge-without-room",
        "technique: rip\ncontour: «C2»\nlasts: 2 beats",
        number=("room below", 0, 700, "cents"),
        ways=["technique: ordinary", "contour: C3"],
    ),
    says(
        "edge-without-room",
        "technique: doit\ncontour: Eb6, «D6»\nlasts: 2 beats",
        number=("room above", 0, 200, "cents"),
        ways=["technique: ordinary", "contour: Eb5, D5"],
    ),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
