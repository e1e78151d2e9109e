"""Findings on the other keys of a gesture (GS705, GS706, GS710 to GS715)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "unused-allow",
        'contour: C5\nallow: «outside-usual-range "our player has it"»',
        source="derived: what the rules found on this gesture",
        ways=[],
        severity="advice",
    ),
    says("unused-allow", 'contour: F6\nallow: «outside-range "our player has it"»', ways=[], severity="advice"),
    says(
        "fallback-used",
        "technique: harmonic-gliss\ncontour: C3 ~~ G3\nfallback: «chromatic»",
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
        source="derived: what the trumpet in B-flat is built with",
        on="trumpet",
        ways=[],
    ),
    says(
        "line-without-technique",
        "contour: G4 «--» G5",
        ways=["technique: fingered-gliss", "technique: harmonic-gliss"],
        source="house: a plain line leaves the way of sliding to the player",
    ),
    silent("line-without-technique", "contour: G4 -- G4"),
    says(
        "line-without-technique",
        "contour: G4 -- G4 «--» G5 ~~ G4",
        ways=["technique: fingered-gliss", "technique: harmonic-gliss"],
    ),
    says(
        "line-without-technique",
        "technique: growl\ncontour: G4 «--» G5",
        ways=["technique: fingered-gliss + growl", "technique: harmonic-gliss + growl"],
    ),
    says(
        "line-without-technique",
        "contour: Bb3 «--» F3",
        ways=["technique: slide-gliss", "technique: lip-gliss"],
        on="trombone",
    ),
    says(
        "line-without-technique",
        "technique: muted\ncontour: Bb3 «--» F3",
        ways=["technique: slide-gliss + muted", "technique: lip-gliss + muted"],
        on="trombone",
    ),
    silent("line-without-technique", "technique: half-valve\ncontour: xG4 -- xG5"),
    silent("line-without-technique", "technique: air\nband: middle\ncontour: low ~~ high"),
    says("line-without-technique", "contour: C5 «--» B4", ways=["technique: lip-gliss", "technique: bend"]),
    says(
        "text-too-long",
        'contour: C5\ntext: «"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"»',
        number=("letters", 49, 48, "letters"),
        ways=[],
        severity="advice",
    ),
    silent("text-too-long", 'contour: C5\ntext: "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"'),
    says(
        "sign-without-footnote",
        "contour: C5\nnotehead: «slash»",
        source="memory: Stone; Gould: state the meaning of signs in the performance notes",
        ways=[],
        severity="advice",
    ),
    says("sign-without-footnote", "contour: C5\nnotehead: «diamond»", ways=[], severity="advice"),
    says("sign-without-footnote", "contour: C5\nnotehead: «triangle»", ways=[], severity="advice"),
    silent("sign-without-footnote", "contour: C5\nnotehead: x"),
    silent("sign-without-footnote", "contour: C5\nnotehead: normal"),
    silent("sign-without-footnote", 'contour: C5\nnotehead: slash\nnote: "any pitch"'),
    silent("sign-without-footnote", 'contour: C5\nnotehead: slash\nfootnote: "any pitch"'),
    silent("sign-without-footnote", "technique: air\ncontour: xC5\nnotehead: diamond"),
    says(
        "sign-without-footnote",
        "technique: mouthpiece-pop\ncontour: xC5\nnotehead: «slash»",
        ways=[],
        severity="advice",
    ),
    says(
        "straight-line-in-steps",
        "technique: harmonic-gliss\ncontour: G4 «--» G5",
        ways=["contour: G4 ~~ G5"],
        source="memory: Stone: a straight line for a continuous slide, a wavy one where it is discrete",
        severity="advice",
    ),
    says(
        "straight-line-in-steps",
        "technique: harmonic-gliss\ncontour: G4 «->» G5",
        ways=["contour: G4 ~~ G5"],
        severity="advice",
    ),
    says(
        "straight-line-in-steps",
        "technique: harmonic-gliss\ncontour: G4 ~~ G5 «--» G4 -- G5",
        ways=["contour: G4 ~~ G5 ~~ G4 ~~ G5"],
        severity="advice",
    ),
    says(
        "straight-line-in-steps",
        "technique: chromatic\ncontour: G4 «--» G5",
        ways=["contour: G4 ~~ G5"],
        severity="advice",
    ),
    silent("straight-line-in-steps", "technique: lip-gliss\ncontour: G4 -- C5"),
    says(
        "sung-line-unused",
        "contour: C4\nsing: «G4»",
        ways=["technique: multiphonic"],
        source="derived: what the techniques of the gesture use",
    ),
    says("sung-line-unused", "technique: growl\ncontour: C4\nsing: «G4»", ways=[]),
    says(
        "sung-line-unused", "technique: stopped\ncontour: C4\nsing: «G4»", ways=["technique: stopped + multiphonic"]
    ),
    silent("sung-line-unused", "technique: multiphonic\ncontour: C4\nsing: G4"),
    silent("sung-line-unused", "contour: C4, C4 as multiphonic\nsing: G4, G4"),
    says(
        "fallback-refused",
        "technique: slide-gliss\ncontour: C5 -- B4\nfallback: «hand-gliss»",
        source="derived: what the trumpet in B-flat is built with",
        on="trumpet",
        ways=[],
        severity="advice",
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
        on="trumpet",
        ways=[],
        severity="advice",
    ),
    says(
        "fallback-refused",
        "technique: harmonic-gliss\ncontour: C3 ~~ G3\nfallback: «slide-gliss»",
        source="derived: two partials have nothing between them to sweep through",
        ways=[],
        severity="advice",
    ),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
