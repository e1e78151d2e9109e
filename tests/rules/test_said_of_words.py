"""What is said of words that change nothing."""

from __future__ import annotations

import pytest
from rules.saying import Row, holds, says, silent

VOID = "word-without-effect"
OUTSIDE = "sung-outside-technique"
HINT = "take it out, or name what is meant"
TABLE: list[Row] = [
    says(
        VOID,
        "technique: stopped\ncontour: «Bb4 as stopped», Bb4 as ordinary",
        "`as stopped` changes nothing: stopped is in force already",
        hint=HINT,
    ),
    says(
        VOID,
        "contour: C5 as air, D5, «E5 as air»",
        "`as air` changes nothing: air is in force already",
        hint=HINT,
    ),
    says(
        VOID,
        "contour: «C5 as ordinary»",
        "`as ordinary` changes nothing: ordinary playing is in force already",
        hint=HINT,
    ),
    # With `mute` named the points say when it goes in: before that nothing is muted.
    says(
        VOID,
        "mute: cup\ncontour: C5, «D5 as ordinary», r, C5 as muted",
        "`as ordinary` changes nothing: ordinary playing is in force already",
        hint="to begin with the mute write `technique: muted`",
    ),
    says(
        VOID,
        "mute: cup\ncontour: C5 as muted, r, D5 as ordinary, «C5 as ordinary»",
        "`as ordinary` changes nothing: ordinary playing is in force already",
        hint=HINT,
    ),
    says(
        VOID,
        "technique: growl\ncontour: C5, «D5 without flutter-tongue»",
        "`without flutter-tongue` changes nothing: flutter-tongue is not in force here",
        hint=HINT,
    ),
    # An `as` of the same layer ends what was there: to end it as well says nothing more.
    says(
        VOID,
        "technique: brassy\ncontour: C5, «D5 as air-tone without brassy»",
        "`without brassy` changes nothing: `as air-tone` ends it already",
        hint=HINT,
    ),
    says(
        VOID,
        "contour: C5, «r as growl»",
        "`as growl` changes nothing: nothing is played after it",
        hint=HINT,
    ),
    says(
        VOID,
        "technique: «stopped»\ncontour: C5 as half-stopped, D5",
        "stopped is asked for, and every note turns away from it",
        hint="take it out",
    ),
    says(
        VOID,
        "technique: «ordinary + stopped»\ncontour: C5, D5",
        "ordinary says nothing beside other techniques",
        hint="take it out",
    ),
    says(
        VOID,
        "technique: valve-clicks\nband: middle\ncontour: low, high\nfingering: «1»",
        "valve-clicks has no pitch, and a fingering changes nothing",
        hint="take it out",
    ),
    says(
        VOID,
        "contour: C5 -- «D5 as double-tongue»",
        "`as double-tongue` changes nothing: what a line or slur reaches is not tongued",
        hint=HINT,
    ),
    says(
        VOID,
        "contour: C5 __ «D5 as triple-tongue» __ E5, F5 as double-tongue",
        "`as triple-tongue` changes nothing: what a line or slur reaches is not tongued",
        hint=HINT,
    ),
    says(
        VOID,
        "technique: double-tongue\ncontour: C5 __ «D5 as ordinary»",
        "`as ordinary` changes nothing: what a line or slur reaches is not tongued",
        hint=HINT,
    ),
    says(
        VOID,
        "technique: double-tongue\ncontour: C5 __ «D5 without double-tongue»",
        "`without double-tongue` changes nothing: what a line or slur reaches is not tongued",
        hint=HINT,
    ),
    silent(VOID, "contour: C5 __ D5 as double-tongue, E5"),
    silent(VOID, "contour: C5 -- D5@2 as double-tongue -- E5\nlasts: 4 beats\nattacks: 16"),
    silent(VOID, "technique: kiss\nband: middle\ncontour: low, C5 as ordinary\nfingering: F 0"),
    # What is played is the fallback: what it stands in place of is told by the rules that refuse it.
    silent(VOID, "technique: scoop + valve-clicks\ncontour: xC5 ~~ xG5, xC5\nfallback: ordinary"),
    says(
        "unused-fallback",
        "technique: growl\ncontour: C5\nfallback: «flutter-tongue»",
        "nothing is refused here, so flutter-tongue is never played instead",
        hint="take this line out",
    ),
    silent("unused-fallback", "technique: harmonic-gliss\ncontour: C3 ~~ G3\nfallback: chromatic"),
    silent("unused-fallback", "technique: harmonic-gliss\ncontour: C3 ~~ G3\nfallback: kiss"),
    says(
        OUTSIDE,
        "contour: C4 as multiphonic, D4 as ordinary, E4\nsing: G4, «A4», B4\nlasts: 6 beats",
        "to be sung from 2 to 6 beats, where multiphonic is not in force",
        hint="write a rest in the sung line, `r@2`, or let multiphonic be in force there",
    ),
    says(
        OUTSIDE,
        "contour: C4, D4 as multiphonic\nsing: «G4», A4\nlasts: 2 beats",
        "to be sung from 0 to 1 beat, where multiphonic is not in force",
        hint="begin the sung line with `r`, and go on at `@1`, or let multiphonic be in force there",
    ),
    # One long note may be outside in its middle.
    says(
        OUTSIDE,
        "technique: multiphonic\ncontour: C4, D4 without multiphonic, E4 as multiphonic\nsing: «G4»\nlasts: 7.5 s",
        "to be sung from 5/2 to 5 s, where multiphonic is not in force",
        hint="write a rest in the sung line, `r@5/2`, and go on at `@5`, or let multiphonic be in force there",
    ),
    says(
        OUTSIDE,
        "technique: multiphonic\ncontour: C4 as ordinary, D4\nsing: «G4»\nlasts: 2 beats",
        "to be sung from 0 to 2 beats, where multiphonic is not in force",
        hint="take `sing` out, or let multiphonic be in force there",
    ),
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


@pytest.mark.parametrize("row", TABLE, ids=str)
def test_what_is_said(row: Row) -> None:
    holds(row)
