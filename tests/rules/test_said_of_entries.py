"""What is said of the other entries of a gesture (GS705, GS706, GS710 to GS715)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "unused-allow",
        'contour: C5\nallow: «outside-usual-range "our player has it"»',
        "outside-usual-range finds nothing here",
        hint="take this line out",
        source="derived: what the rules found on this gesture",
        ways=[],
    ),
    says(
        "unused-allow",
        'contour: F6\nallow: «outside-range "our player has it"»',
        "outside-range cannot be allowed here: no reason makes the instrument do it",
        ways=[],
    ),
    says(
        "fallback-used",
        "technique: harmonic-gliss\ncontour: C3 ~~ G3\nfallback: «chromatic»",
        "played as chromatic, since as written it is refused: only partials 2 and 3 of F 0 lie on the way; "
        "a glissando needs 3 (harmonic-gliss-too-few-partials)",
        number=("partials", 2, 3, "partials"),
        source="derived: two partials have nothing between them to sweep through",
        ways=[],
    ),
    silent(
        "fallback-used",
        "technique: slide-gliss + stopped\ncontour: C5 -- B4\nfallback: lip-gliss",
        on="trumpet",
    ),
    silent("fallback-used", "technique: harmonic-gliss\ncontour: C3 ~~ G3, F8\nfallback: chromatic"),
    says(
        "fallback-used",
        "technique: slide-gliss\ncontour: C5, G4\nfallback: «growl»",
        "played as growl, since as written it is refused: slide-gliss needs a slide; the trumpet in B-flat "
        "has none (instrument-lacks-means); slide-gliss needs a line to slide along: `--` or `~~` between two "
        "points (line-missing)",
        source="derived: what the trumpet in B-flat is built with",
        on="trumpet",
        ways=[],
    ),
    says(
        "line-without-technique",
        "contour: G4 «--» G5",
        "a line without a technique that slides; players would choose between several",
        ways=["technique: fingered-gliss", "technique: harmonic-gliss"],
        source="house: a plain line leaves the way of sliding to the player",
    ),
    silent("line-without-technique", "contour: G4 -- G4"),
    says(
        "line-without-technique",
        "contour: G4 -- G4 «--» G5 ~~ G4",
        "a line without a technique that slides; players would choose between several",
        ways=["technique: fingered-gliss", "technique: harmonic-gliss"],
    ),
    says(
        "line-without-technique",
        "technique: growl\ncontour: G4 «--» G5",
        "a line without a technique that slides; players would choose between several",
        ways=["technique: fingered-gliss + growl", "technique: harmonic-gliss + growl"],
    ),
    says(
        "line-without-technique",
        "contour: Bb3 «--» F3",
        "a line without a technique that slides; players would choose between several",
        ways=["technique: slide-gliss", "technique: lip-gliss"],
        on="trombone",
    ),
    says(
        "line-without-technique",
        "technique: muted\ncontour: Bb3 «--» F3",
        "a line without a technique that slides; players would choose between several",
        ways=["technique: slide-gliss + muted", "technique: lip-gliss + muted"],
        on="trombone",
    ),
    silent("line-without-technique", "technique: half-valve\ncontour: xG4 -- xG5"),
    silent("line-without-technique", "technique: air\nband: middle\ncontour: low ~~ high"),
    says(
        "line-without-technique",
        "contour: C5 «--» B4",
        "a line without a technique that slides; players would choose between several",
        ways=["technique: lip-gliss", "technique: bend"],
    ),
    says(
        "text-too-long",
        'contour: C5\ntext: «"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"»',
        "49 letters above the staff; about 48 fit",
        number=("letters", 49, 48, "letters"),
        hint="put the rest into `note`, which goes under the music",
        ways=[],
    ),
    silent("text-too-long", 'contour: C5\ntext: "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"'),
    says(
        "sign-without-footnote",
        "contour: C5\nnotehead: «slash»",
        "a slash head, and no word on what it means",
        hint="say in a `note` what the sign means",
        source="memory: Stone; Gould: state the meaning of signs in the performance notes",
        ways=[],
    ),
    says(
        "sign-without-footnote",
        "contour: C5\nnotehead: «diamond»",
        "a diamond head, and no word on what it means",
        hint="say in a `note` what the sign means",
        ways=[],
    ),
    says(
        "sign-without-footnote",
        "contour: C5\nnotehead: «triangle»",
        "a triangle head, and no word on what it means",
        hint="say in a `note` what the sign means",
        ways=[],
    ),
    silent("sign-without-footnote", "contour: C5\nnotehead: x"),
    silent("sign-without-footnote", "contour: C5\nnotehead: normal"),
    silent("sign-without-footnote", 'contour: C5\nnotehead: slash\nnote: "any pitch"'),
    silent("sign-without-footnote", 'contour: C5\nnotehead: slash\nfootnote: "any pitch"'),
    silent("sign-without-footnote", "technique: air\ncontour: xC5\nnotehead: diamond"),
    says(
        "sign-without-footnote",
        "technique: mouthpiece-pop\ncontour: xC5\nnotehead: «slash»",
        "a slash head, and no word on what it means",
        hint="say in a `note` what the sign means",
        ways=[],
    ),
    says(
        "straight-line-in-steps",
        "technique: harmonic-gliss\ncontour: G4 «--» G5",
        "a straight line reads as an even slide; this moves in steps, for which a wavy line stands",
        ways=["contour: G4 ~~ G5"],
        source="memory: Stone: a straight line for a continuous slide, a wavy one where it is discrete",
    ),
    says(
        "straight-line-in-steps",
        "technique: harmonic-gliss\ncontour: G4 «->» G5",
        "a straight line reads as an even slide; this moves in steps, for which a wavy line stands",
        ways=["contour: G4 ~~ G5"],
    ),
    says(
        "straight-line-in-steps",
        "technique: harmonic-gliss\ncontour: G4 ~~ G5 «--» G4 -- G5",
        "a straight line reads as an even slide; this moves in steps, for which a wavy line stands",
        ways=["contour: G4 ~~ G5 ~~ G4 ~~ G5"],
    ),
    says(
        "straight-line-in-steps",
        "technique: chromatic\ncontour: G4 «--» G5",
        "a straight line reads as an even slide; this moves in steps, for which a wavy line stands",
        ways=["contour: G4 ~~ G5"],
    ),
    silent("straight-line-in-steps", "technique: lip-gliss\ncontour: G4 -- C5"),
    says(
        "sung-line-unused",
        "contour: C4\nsing: «G4»",
        "a line to sing, but no technique of this gesture sings",
        ways=["technique: multiphonic"],
        source="derived: what the techniques of the gesture use",
    ),
    says(
        "sung-line-unused",
        "technique: growl\ncontour: C4\nsing: «G4»",
        "a line to sing, but no technique of this gesture sings",
        ways=[],
    ),
    says(
        "sung-line-unused",
        "technique: stopped\ncontour: C4\nsing: «G4»",
        "a line to sing, but no technique of this gesture sings",
        ways=["technique: stopped + multiphonic"],
    ),
    silent("sung-line-unused", "technique: multiphonic\ncontour: C4\nsing: G4"),
    silent("sung-line-unused", "contour: C4, C4 as multiphonic\nsing: G4, G4"),
    says(
        "fallback-refused",
        "technique: slide-gliss\ncontour: C5 -- B4\nfallback: «hand-gliss»",
        "hand-gliss would be refused in its place as well",
        source="derived: what the trumpet in B-flat is built with",
        on="trumpet",
        ways=[],
    ),
    silent("fallback-refused", "technique: slide-gliss\ncontour: C5 -- B4\nfallback: lip-gliss", on="trumpet"),
    silent(
        "fallback-refused",
        "technique: harmonic-gliss\ncontour: C3 ~~ G3\nfallback: slide-gliss\nallow: "
        'harmonic-gliss-too-few-partials "a joke"',
    ),
    says(
        "fallback-refused",
        'technique: slide-gliss\ncontour: C5 -- B4\nfallback: «hand-gliss»\nallow: instrument-lacks-means "a joke"',
        "hand-gliss would be refused in its place as well",
        on="trumpet",
        ways=[],
    ),
    says(
        "fallback-refused",
        "technique: harmonic-gliss\ncontour: C3 ~~ G3\nfallback: «slide-gliss»",
        "slide-gliss would be refused in its place as well",
        source="derived: two partials have nothing between them to sweep through",
        ways=[],
    ),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
