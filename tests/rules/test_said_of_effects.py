"""Findings on the length of effects (GS404, GS405, GS603)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "roll-too-slow-for-pitch",
        "technique: flutter-tongue\ncontour: «G2»",
        number=("periods in a roll", 2.18, 3, "periods"),
        ways=["contour: G3", "contour: xG2"],
    ),
    says(
        "roll-too-slow-for-pitch",
        "technique: flutter-tongue\ncontour: «C3», C#3",
        number=("periods in a roll", 2.91, 3, "periods"),
        ways=["contour: C4, C#4", "contour: xC3, C#3"],
    ),
    silent("roll-too-slow-for-pitch", "technique: flutter-tongue\ncontour: xG2"),
    says(
        "roll-too-slow-for-pitch",
        "technique: growl\ncontour: «B2», D3",
        number=("periods in a roll", 2.747, 3, "periods"),
        ways=["contour: B3, D4", "contour: xB2, D3"],
    ),
    silent("roll-too-slow-for-pitch", "contour: G2"),
    silent("roll-too-slow-for-pitch", "technique: flutter-tongue\nband: G2..C5\ncontour: low, high"),
    says(
        "roll-too-slow-for-pitch",
        "technique: flutter-tongue\ncontour: xG2, «G2»",
        number=("periods in a roll", 2.18, 3, "periods"),
        ways=["contour: xG3, G3", "contour: xG2, xG2"],
    ),
    says(
        "roll-too-slow-for-pitch",
        "technique: stopped + flutter-tongue\ncontour: D4, «G2»",
        number=("periods in a roll", 2.18, 3, "periods"),
        ways=["contour: D5, G3", "contour: D4, xG2"],
    ),
    says(
        "effect-too-short",
        "technique: growl\ncontour: «C5»\nlasts: 1/4 beats",
        number=("time", 125, 200, "ms"),
        ways=["lasts: 1 beat", "technique: ordinary"],
        tempo=120,
    ),
    silent("effect-too-short", "technique: growl\ncontour: C5\nlasts: 1/5 beats"),
    says(
        "effect-too-short",
        "technique: growl\ncontour: «C5»\nlasts: 0.19 s",
        number=("time", 190, 200, "ms"),
        ways=["lasts: 0.2 s", "technique: ordinary"],
    ),
    says(
        "effect-too-short",
        "technique: growl\ncontour: C5, r@1, «C5@2», r@2.1, C5@3, r@3.15\nlasts: 4 beats",
        number=("time", 100, 200, "ms"),
        ways=["technique: ordinary"],
    ),
    says(
        "effect-too-short",
        "technique: half-valve + growl\ncontour: «xC5»\nlasts: 1/10 beats",
        number=("time", 100, 200, "ms"),
        ways=["lasts: 1 beat", "technique: half-valve"],
        of=2,
    ),
    says(
        "effect-too-short",
        "technique: half-valve + growl\ncontour: «xC5»\nlasts: 1/10 beats",
        number=("time", 100, 150, "ms"),
        ways=["lasts: 1 beat"],
        of=2,
    ),
    says(
        "effect-too-short",
        "contour: C5, «C5@1 as growl», C5@1.1 as ordinary\nlasts: 2 beats",
        number=("time", 100, 200, "ms"),
        ways=[],
    ),
    says(
        "effect-too-short",
        "technique: bend\ncontour: «C5» -- B4@0.05 -- C5@0.1\nlasts: 0.1 beats",
        number=("time", 100, 250, "ms"),
        ways=["lasts: 1 beat"],
    ),
    says(
        "effect-too-short",
        "technique: growl + brassy\ncontour: «C5»\nlasts: 0.05 s",
        number=("time", 50, 80, "ms"),
        of=2,
        ways=["lasts: 0.1 s", "technique: growl"],
    ),
    says(
        "effect-too-short",
        "technique: growl + brassy\ncontour: «C5»\nlasts: 0.05 s",
        number=("time", 50, 200, "ms"),
        of=2,
        ways=["lasts: 0.2 s", "technique: brassy"],
    ),
    says(
        "effect-too-short",
        "technique: growl\ncontour: «C5»\nlasts: 0.1999 s",
        number=("time", 199.9, 200, "ms"),
        ways=["lasts: 0.2 s", "technique: ordinary"],
    ),
    says(
        "effect-too-long",
        "technique: growl\ncontour: «C4»\nlasts: 12 beats",
        number=("time", 12, 8, "s"),
        ways=["lasts: 8 beats", "technique: ordinary"],
    ),
    silent("effect-too-long", "technique: growl\ncontour: C4\nlasts: 8 beats"),
    says(
        "effect-too-long",
        "technique: growl\ncontour: «C4»\nlasts: 12 s",
        number=("time", 12, 8, "s"),
        ways=["lasts: 8 s", "technique: ordinary"],
    ),
    says(
        "effect-too-long",
        "technique: growl\ncontour: C4, r@7, «C4@8»\nlasts: 20 beats",
        number=("time", 18, 8, "s"),  # of seven seconds one of rest pays back one
        ways=["lasts: 10 beats", "technique: ordinary"],
    ),
    says(
        "effect-too-long",
        "technique: growl\ncontour: «C4», C4@10 as ordinary\nlasts: 20 beats",
        number=("time", 10, 8, "s"),
        ways=["technique: ordinary"],
    ),
    says(
        "effect-too-long",
        "technique: growl + stopped\ncontour: «C4»\nlasts: 10 beats",
        number=("time", 10, 8, "s"),
        ways=["lasts: 8 beats", "technique: stopped"],
    ),
    says(
        "effect-too-long",
        "technique: half-valve + growl\ncontour: «xC4», r@9, xC4@10\nlasts: 20 beats",
        number=("time", 9, 8, "s"),
        ways=["technique: half-valve"],
    ),
    says(
        "effect-too-long",
        "technique: growl + multiphonic\ncontour: «C4»\nlasts: 14 beats",
        number=("time", 14, 8, "s"),
        of=2,
        ways=[],
    ),
    says(
        "effect-too-long",
        "technique: growl + multiphonic\ncontour: «C4»\nlasts: 14 beats",
        number=("time", 14, 12, "s"),
        of=2,
        ways=[],
    ),
    says(
        "effect-too-long",
        "technique: growl\ncontour: «C4»\nlasts: 3 beats",
        number=("time", 9, 8, "s"),
        ways=["lasts: 2 beats", "technique: ordinary"],
        tempo=20,
    ),
    says(
        "effect-too-long",
        "technique: growl\ncontour: «C4»\nlasts: 4 beats",
        number=("time", 12, 8, "s"),
        ways=["lasts: 2 beats", "technique: ordinary"],
        tempo=20,
    ),
    silent("effect-too-long", "technique: lip-trill\ncontour: C6\nlasts: 5 s\ndynamics: pp"),
    says(
        "effect-too-long",
        "technique: lip-trill\ncontour: «C6»\nlasts: 6 s\ndynamics: pp",
        number=("time", 6, 8 / (2.5 / 1.6), "s"),  # the effort of the top register against the high one
        ways=["lasts: 5.1 s"],
    ),
    silent("effect-too-long", "technique: growl\ncontour: C4, r@4, C4@8, r@12, C4@16\nlasts: 20 beats"),
    silent("effect-too-long", "technique: growl\ncontour: C#5\nlasts: 8 beats"),  # the middle of its register
    says(
        "effect-too-long",
        "technique: growl\ncontour: «G5»\nlasts: 8 beats",
        number=("time", 8, 8 * 1.6 / 2.182, "s"),
        ways=["lasts: 5 beats", "technique: ordinary"],
    ),
    says(
        "effect-too-long",
        "technique: growl\ncontour: «C4»\nlasts: 8.01 s",
        number=("time", 8.01, 8, "s"),
        ways=["lasts: 8 s", "technique: ordinary"],
    ),
    says(
        "effect-too-long",
        "technique: growl\ncontour: «C5»\nlasts: 9 beats\ndynamics: p",
        number=("time", 27, 8, "s"),
        ways=["lasts: 2 beats", "technique: ordinary"],
        tempo=20,
    ),
    says(
        "effect-too-long",
        "technique: growl\ncontour: C5, r@1, «C5@2», C5@8\nlasts: 14 beats\ndynamics: p",
        number=("time", 36, 8, "s"),
        ways=["technique: ordinary"],
        tempo=20,
    ),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
