"""Findings on points, their heads and lines (GS701 to GS704, GS708, GS709)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "exact-head-on-vague-pitch",
        "technique: half-valve\ncontour: «G4» ~~ D5 ~~ B4",
        ways=["contour: xG4 ~~ xD5 ~~ xB4"],
        source="practice: thecontemporaryhorn.com ?p=4356",
    ),
    says(
        "exact-head-on-vague-pitch",
        "technique: half-valve\ncontour: xG4 ~~ «D5» ~~ B4",
        ways=["contour: xG4 ~~ xD5 ~~ xB4"],
    ),
    says(
        "exact-head-on-vague-pitch",
        "technique: half-valve\ncontour: xG4 ~~ xD5 ~~ «B4»",
        ways=["contour: xG4 ~~ xD5 ~~ xB4"],
    ),
    says(
        "exact-head-on-vague-pitch",
        "technique: slap-tongue\ncontour: «G4»",
        ways=["contour: xG4"],
        source="memory: Stone, Music Notation in the Twentieth Century",
    ),
    silent("exact-head-on-vague-pitch", "technique: half-valve\ncontour: G4 ~~ D5\nnotehead: x"),
    silent("exact-head-on-vague-pitch", "technique: half-valve\ncontour: G4 ~~ D5\nnotehead: slash"),
    says(
        "exact-head-on-vague-pitch",
        "technique: half-valve\ncontour: «G4+20c» ~~ xD5, G4 as slap-tongue, D5",
        ways=["contour: xG4 ~~ xD5, xG4 as slap-tongue, xD5"],
    ),
    silent("exact-head-on-vague-pitch", "contour: G4"),
    says("exact-head-on-vague-pitch", "contour: G4, «D5 as half-valve»", ways=["contour: G4, xD5 as half-valve"]),
    silent("exact-head-on-vague-pitch", "contour: G4 as growl, xD5 as half-valve"),
    says("exact-head-on-vague-pitch", "technique: growl + half-valve\ncontour: «G4»", ways=["contour: xG4"]),
    says(
        "wrong-number-of-points",
        "technique: harmonic-gliss\ncontour: «C5»",
        number=("points", 1, 2, "points"),
        ways=[],
        physical=True,
        source="derived: what harmonic-gliss is",
        severity="refused",
    ),
    says(
        "wrong-number-of-points",
        "technique: harmonic-gliss\ncontour: «C5, r»",
        number=("points", 1, 2, "points"),
        ways=[],
        physical=True,
        severity="refused",
    ),
    silent("wrong-number-of-points", "technique: harmonic-gliss\ncontour: C5 ~~ G5"),
    silent("wrong-number-of-points", "technique: doit\ncontour: C5, D5"),
    silent("wrong-number-of-points", "technique: scoop\ncontour: C5, D5"),
    says(
        "wrong-number-of-points",
        "technique: growl + harmonic-gliss\ncontour: «C5»",
        number=("points", 1, 2, "points"),
        ways=[],
        physical=True,
        severity="refused",
    ),
    says(
        "wrong-number-of-points",
        "technique: harmonic-gliss + lip-gliss\ncontour: «C5»",
        number=("points", 1, 2, "points"),
        ways=[],
        physical=True,
        of=2,
        severity="refused",
    ),
    says(
        "wrong-number-of-points",
        "technique: harmonic-gliss + lip-gliss\ncontour: «C5»",
        number=("points", 1, 2, "points"),
        ways=[],
        physical=True,
        source="derived: what lip-gliss is",
        of=2,
        severity="refused",
    ),
    says(
        "line-not-taken",
        "technique: slap-tongue\ncontour: xC4 «--» xG4",
        ways=["contour: xC4, xG4"],
        source="derived: without a tone there is nothing to slide",
        severity="refused",
    ),
    says(
        "line-not-taken",
        "technique: slap-tongue\ncontour: xC4 «__» xG4",
        ways=["contour: xC4, xG4"],
        severity="refused",
    ),
    says(
        "line-not-taken",
        "technique: split-tone\ncontour: C4 «--» G4",
        ways=["contour: C4, G4"],
        severity="caution",
        source="house: the technique is held still; what a line would mean is not settled",
    ),
    # Of several techniques that take none each is named: none of them is written for nothing.
    says(
        "line-not-taken",
        "technique: kiss + valve-clicks\nband: middle\ncontour: low «~~» high",
        severity="refused",
    ),
    silent("line-not-taken", "technique: split-tone\ncontour: C4 __ G4"),
    says(
        "line-not-taken",
        "technique: slap-tongue\ncontour: xC4, xG4 «~~» xC4 -- xG4",
        ways=["contour: xC4, xG4, xC4, xG4"],
        of=2,
        severity="refused",
    ),
    says(
        "line-not-taken",
        "technique: slap-tongue\ncontour: xC4, xG4 ~~ xC4 «--» xG4",
        ways=["contour: xC4, xG4, xC4, xG4"],
        of=2,
        severity="refused",
    ),
    says(
        "line-not-taken",
        "technique: growl + slap-tongue\ncontour: xC4 «--» xG4",
        ways=["technique: growl"],
        severity="refused",
    ),
    says(
        "line-not-taken",
        "technique: slap-tongue\ncontour: xC4, xD4 as split-tone «__» E4 as slap-tongue -- F4",
        of=2,
        ways=[],
        severity="refused",
    ),
    says(
        "line-not-taken",
        "technique: slap-tongue\ncontour: xC4, xD4 as split-tone __ E4 as slap-tongue «--» F4",
        of=2,
        ways=[],
        severity="refused",
    ),
    says(
        "line-not-taken",
        "technique: split-tone\ncontour: C4 __ G4 «--» C4",
        ways=["contour: C4 __ G4, C4"],
        severity="caution",
    ),
    says(
        "line-missing",
        "technique: harmonic-gliss\ncontour: «G4, G5»",
        ways=["contour: G4 ~~ G5", "contour: G4 -- G5"],
        physical=True,
        source="derived: what harmonic-gliss is",
        severity="refused",
    ),
    says(
        "line-missing",
        "technique: harmonic-gliss\ncontour: «G4, G5, r, G4, G5»",
        ways=["contour: G4 ~~ G5, r, G4 ~~ G5", "contour: G4 -- G5, r, G4 -- G5"],
        physical=True,
        severity="refused",
    ),
    says(
        "line-missing", "technique: harmonic-gliss\ncontour: «G4 __ G5»", ways=[], physical=True, severity="refused"
    ),
    says("line-missing", "contour: C5, «G4 as harmonic-gliss», G5", physical=True, severity="refused"),
    says("line-missing", "contour: C5 -- D5, «G4 as harmonic-gliss», G5", physical=True, severity="refused"),
    silent("line-missing", "technique: harmonic-gliss\ncontour: G4, G5 ~~ G4"),
    says(
        "line-missing",
        "technique: harmonic-gliss + growl\ncontour: «G4, r, G5»",
        ways=[],
        physical=True,
        severity="refused",
    ),
    says(
        "line-missing",
        "technique: growl + harmonic-gliss\ncontour: «G4, G5»",
        ways=["contour: G4 ~~ G5", "contour: G4 -- G5"],
        physical=True,
        severity="refused",
    ),
    says(
        "line-missing",
        "technique: bend\ncontour: C5 -- B4, «G4 as harmonic-gliss», G5",
        physical=True,
        severity="refused",
    ),
    says(
        "too-many-points-to-read",
        "technique: half-valve\ncontour: «xC5 ~~ xD5 ~~ xE5 ~~ xC5 ~~ xD5 ~~ xE5 ~~ xC5 ~~ xD5 ~~ xE5 ~~ "
        "xC5 ~~ xD5 ~~ xE5 ~~ xF5 ~~ xG5»\nlasts: 1 beat",
        number=("points a second", 13, 8, "points a second"),
        ways=["lasts: 2 beats"],
    ),
    silent(
        "too-many-points-to-read",
        "technique: half-valve\ncontour: xC5 ~~ xD5 ~~ xE5 ~~ xC5 ~~ xD5 ~~ xE5 ~~ xC5 ~~ xD5 ~~ xE5\n"
        "lasts: 1 beat",
    ),
    says(
        "too-many-points-to-read",
        "technique: half-valve\ncontour: «xC5 ~~ xD5 ~~ xE5 ~~ xC5 ~~ xD5 ~~ xE5 ~~ xC5 ~~ xD5 ~~ xE5»\n"
        "lasts: 0.9 s",
        number=("points a second", 8.889, 8, "points a second"),
        ways=["lasts: 1 s"],
    ),
    silent("too-many-points-to-read", "technique: half-valve\ncontour: xC5 ~~ xG5\nlasts: 1/10 beats"),
    says(
        "too-many-points-to-read",
        "technique: half-valve\ncontour: «xC5 ~~ xG5 ~~ xC5»\nlasts: 1/10 beats",
        number=("points a second", 20, 8, "points a second"),
        ways=["lasts: 1 beat"],
    ),
    silent(
        "too-many-points-to-read",
        "technique: half-valve\ncontour: xC5 ~~ xD5, xE5, xF5, xG5, xA5\nlasts: 1/2 beats",
    ),
    says(
        "band-too-narrow",
        "technique: half-valve\nband: «C5..C#5»\ncontour: low ~~ high ~~ mid",
        number=("width", 100, 300, "cents"),
        ways=["band: C5..G5"],
    ),
    says(
        "band-too-narrow",
        "technique: half-valve\nband: «C5..D5»\ncontour: low ~~ high ~~ mid",
        number=("width", 200, 300, "cents"),
        ways=["band: C5..G5"],
    ),
    silent("band-too-narrow", "technique: half-valve\nband: C5..Eb5\ncontour: low ~~ high ~~ mid"),
    silent("band-too-narrow", "technique: half-valve\nband: C5..D5\ncontour: xC5 ~~ xD5"),
    silent("band-too-narrow", "technique: half-valve\nband: middle\ncontour: low ~~ high"),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
