"""Findings on words without effect."""

from __future__ import annotations

import pytest
from rules.checking import findings, horn
from rules.saying import holds, says, silent

VOID = "word-without-effect"
OUTSIDE = "sung-outside-technique"
ROWS = [
    says(VOID, "technique: stopped\ncontour: «Bb4 as stopped», Bb4 as ordinary", severity="advice"),
    says(VOID, "contour: C5 as air, D5, «E5 as air»", severity="advice"),
    says(VOID, "contour: «C5 as ordinary»", severity="advice"),
    # With `mute` named the points say when it goes in: before that nothing is muted.
    says(VOID, "mute: cup\ncontour: C5, «D5 as ordinary», r, C5 as muted", severity="advice"),
    says(VOID, "mute: cup\ncontour: C5 as muted, r, D5 as ordinary, «C5 as ordinary»", severity="advice"),
    says(VOID, "mute: «cup»\ncontour: C5 as ordinary", severity="advice"),
    says(VOID, "technique: growl\nmute: straight\ncontour: «C5 as growl», D5", severity="advice"),
    says(VOID, "mute: «bucket»\ntechnique: muted + brassy\ncontour: C5 as ordinary, D5", severity="advice", of=3),
    says(VOID, "mute: «cup»\ncontour: C5, r as muted", severity="advice", of=2),
    says(VOID, "technique: growl\ncontour: C5, «D5 without flutter-tongue»", severity="advice"),
    # An `as` of the same layer ends what was there: to end it as well says nothing more.
    says(VOID, "technique: brassy\ncontour: C5, «D5 as air-tone without brassy»", severity="advice"),
    says(VOID, "contour: C5, «r as growl»", severity="advice"),
    says(VOID, "technique: «stopped»\ncontour: C5 as half-stopped, D5", severity="advice"),
    says(VOID, "technique: «ordinary + stopped»\ncontour: C5, D5", severity="advice"),
    says(VOID, "technique: valve-clicks\nband: middle\ncontour: low, high\nfingering: «1»", severity="advice"),
    says(VOID, "contour: C5 -- «D5 as double-tongue»", severity="advice"),
    says(VOID, "contour: C5 __ «D5 as triple-tongue» __ E5, F5 as double-tongue", severity="advice"),
    says(VOID, "technique: double-tongue\ncontour: C5 __ «D5 as ordinary»", severity="advice"),
    says(VOID, "technique: double-tongue\ncontour: C5 __ «D5 without double-tongue»", severity="advice"),
    silent(VOID, "contour: C5 __ D5 as double-tongue, E5"),
    silent(VOID, "contour: C5 -- D5@2 as double-tongue -- E5\nlasts: 4 beats\nattacks: 16"),
    silent(VOID, "technique: kiss\nband: middle\ncontour: low, C5 as ordinary\nfingering: F 0"),
    # What is played is the fallback: what it stands in place of is told by the rules that refuse it.
    silent(VOID, "technique: scoop + valve-clicks\ncontour: xC5 ~~ xG5, xC5\nfallback: ordinary"),
    # But what no note would have been played with did nothing before it either.
    says(
        VOID,
        "technique: «valve-clicks + half-stopped»\ncontour: mid as ordinary\nband: middle\nfallback: growl",
        severity="advice",
        of=2,
        on="trumpet",
    ),
    says("unused-fallback", "technique: growl\ncontour: C5\nfallback: «flutter-tongue»", severity="advice"),
    silent("unused-fallback", "technique: harmonic-gliss\ncontour: C3 ~~ G3\nfallback: chromatic"),
    silent("unused-fallback", "technique: harmonic-gliss\ncontour: C3 ~~ G3\nfallback: kiss"),
    says(OUTSIDE, "contour: C4 as multiphonic, D4 as ordinary, E4\nsing: G4, «A4», B4\nlasts: 6 beats"),
    says(OUTSIDE, "contour: C4, D4 as multiphonic\nsing: «G4», A4\nlasts: 2 beats"),
    # One long note may be outside in its middle.
    says(
        OUTSIDE,
        "technique: multiphonic\ncontour: C4, D4 without multiphonic, E4 as multiphonic\nsing: «G4»\nlasts: 7.5 s",
    ),
    says(OUTSIDE, "technique: multiphonic\ncontour: C4 as ordinary, D4\nsing: «G4»\nlasts: 2 beats"),
    silent(OUTSIDE, "contour: C4 as multiphonic, D4 as ordinary, E4\nsing: G4, r@2\nlasts: 6 beats"),
    silent(OUTSIDE, "contour: C4, D4 as multiphonic\nsing: r, A4@1\nlasts: 2 beats"),
    silent(OUTSIDE, "technique: multiphonic\ncontour: C4, r, D4\nsing: G4 -- A4"),
    # A line leads into singing, or out of it, gradually: the voice may come in and go along it.
    silent(OUTSIDE, "contour: C4 -- D4 as multiphonic -- C4 as ordinary\nsing: G4 -- A4\nlasts: 4 beats"),
    silent(OUTSIDE, "contour: C4\nsing: G4"),  # `sung-line-unused` says it
    silent(VOID, "technique: stopped\ncontour: Bb4, Bb4 as ordinary, Bb4 as stopped"),
    silent(VOID, "technique: stopped + growl\ncontour: Bb4, Bb4 without growl, Bb4 as ordinary"),
    silent(VOID, "contour: C5, r as growl, C5"),
    silent(VOID, "technique: half-valve\ncontour: xG4 ~~ xC5 as growl ~~ xG4"),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)


def test_a_mute_is_named_as_the_file_names_it() -> None:
    """`muted` stands nowhere in it."""
    (found,) = findings(horn("technique: growl\nmute: straight\ncontour: C5 as growl, D5"))
    assert "muted" not in found.text
    assert "straight mute" in found.text
    (found,) = findings(horn("technique: growl + muted\ncontour: C5 as growl, D5"))
    assert "muted" in found.text
