"""Findings on breath and voices (GS406, GS601)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    # Nobody writes every breath: a player takes one from the end of a note that no slur leaves.
    silent("breath-too-short", "contour: C5, D5@10, E5@20, C5@30\nlasts: 40 beats\ndynamics: mf"),
    silent("breath-too-short", "contour: C5 __ D5@10, E5@20 __ C5@30\nlasts: 40 beats\ndynamics: p"),
    # At the least flow that any source gives, 0.1 L/s, and more than 1.25 times the widest breath.
    says(
        "breath-too-short",
        "contour: «C4»\nlasts: 88 s\ndynamics: pp",
        number=("air", 8.8, 7, "L"),
        severity="refused",
        source="practice: A. Jacobs, with a spirometer: players of 2 1/3, 6 2/3 and 7 L",
    ),
    says(
        "sung-note-out-of-voice",
        "technique: multiphonic\ncontour: C4\nsing: «C7»",
        number=("sung pitch", 8900, 8800, "cents above C-1"),
        ways=["sing: C5"],
        severity="refused",
        source="published: abjad 3.31: bass E2 to soprano E6, the widest of the voices",
    ),
    silent("sung-note-out-of-voice", "technique: multiphonic\ncontour: C4\nsing: G5"),
    silent("sung-note-out-of-voice", "technique: multiphonic\ncontour: C4\nsing: A5"),
    says(
        "sung-note-out-of-voice",
        "technique: multiphonic\ncontour: C4\nsing: «B6»",
        number=("sung pitch", 8800.0, 7400.0, "cents above C-1"),
        source="published: abjad 3.31: men's voices, baritone from A2, tenor up to D5; not every player has them",
        ways=[],
    ),
    silent("sung-note-out-of-voice", "technique: multiphonic\ncontour: C4\nsing: E3"),  # sounding A2
    says(
        "sung-note-out-of-voice",
        "technique: multiphonic\ncontour: C4\nsing: «Eb3»",
        number=("sung pitch", 4400, 4500, "cents above C-1"),
        ways=[],
    ),
    says(
        "sung-note-out-of-voice",
        "technique: multiphonic\ncontour: C4\nsing: «D3»",
        number=("sung pitch", 4300, 4500, "cents above C-1"),
        ways=[],
    ),
    says(
        "sung-note-out-of-voice",
        "technique: multiphonic\ncontour: C4\nsing: «B2»",
        number=("sung pitch", 4000.0, 4500.0, "cents above C-1"),
        ways=[],
    ),
    says(
        "sung-note-out-of-voice",
        "technique: multiphonic\ncontour: C4\nsing: «Bb2»",
        number=("sung pitch", 3900, 4000, "cents above C-1"),
        ways=["sing: Bb4"],
        severity="refused",
    ),
    says(
        "sung-note-out-of-voice",
        "technique: multiphonic\ncontour: C4, C4, C4\nsing: C5, r, «C7»",
        number=("sung pitch", 8900, 8800, "cents above C-1"),
        ways=["sing: C4, r, C6"],
        severity="refused",
    ),
    says(
        "sung-note-out-of-voice",
        "technique: multiphonic\ncontour: C4\nband: A6..C7\nsing: «high»",
        number=("sung pitch", 8900, 8800, "cents above C-1"),
        severity="refused",
        ways=[],
    ),
    silent("breath-too-short", "technique: flutter-tongue\ncontour: C4\nlasts: 10 beats\ndynamics: mf"),
    says(
        "breath-too-short",
        "technique: flutter-tongue\ncontour: «C4»\nlasts: 20 beats\ndynamics: mf",
        number=("air", 5.6, 3, "L"),
        ways=["lasts: 10 beats"],
    ),
    says(
        "breath-too-short",
        "technique: air\ncontour: «xC4»\nlasts: 10 beats\ndynamics: mf",
        number=("air", 4, 3, "L"),
        ways=["dynamics: p", "lasts: 7 beats"],
    ),
    says(
        "breath-too-short",
        "technique: air\ncontour: «xC3»\nlasts: 2 beats\ndynamics: f",
        number=("air", 6.9, 3, "L"),
        ways=["dynamics: p"],
        tempo=20,
    ),
    silent("breath-too-short", "technique: air-tone\ncontour: C4\nlasts: 10 beats\ndynamics: mf"),
    says(
        "breath-too-short",
        "contour: «C3»\nlasts: 2 beats\ndynamics: ff",
        number=("air", 4.8, 3, "L"),
        ways=["dynamics: mf", "lasts: 1 beat"],
        tempo=20,
    ),
    says(
        "breath-too-short",
        "contour: «C3»\nlasts: 4 beats\ndynamics: ff",
        number=("air", 3.2, 3, "L"),
        ways=["dynamics: f", "lasts: 3 beats"],
    ),
    says(
        "breath-too-short",
        "contour: «C5»\nlasts: 22 beats\ndynamics: mf",
        number=("air", 3.3, 3, "L"),
        ways=["dynamics: mp", "lasts: 20 beats"],
    ),
    silent("breath-too-short", "contour: C5\nlasts: 20 beats\ndynamics: mf"),
    says(
        "breath-too-short",
        "contour: «C5 mf»\nlasts: 22 beats",
        number=("air", 3.3, 3, "L"),
        ways=["contour: C5 mp", "lasts: 20 beats"],
    ),
    says(
        "breath-too-short",
        "contour: «C5» __ D5@10 __ E5@20 __ C5@30\nlasts: 40 beats\ndynamics: mf",
        number=("air", 6, 3, "L"),
        ways=[
            "contour: C5 __ D5@10 breath, E5@20 __ C5@30",
            "contour: C5 breath, D5@10 breath, E5@20 breath, C5@30",
        ],
    ),
    says(
        "breath-too-short",
        "contour: C5, r@1, «C5@2» __ D5@12 __ E5@22\nlasts: 32 beats\ndynamics: mf",
        number=("air", 4.5, 3, "L"),
        ways=[
            "dynamics: pp",
            "contour: C5, r@1, C5@2 breath, D5@12 __ E5@22",
            "contour: C5, r@1, C5@2 breath, D5@12 breath, E5@22",
        ],
    ),
    says(
        "breath-too-short",
        "contour: «C5» __ D5@10 __ E5@20, r@30, C5@31\nlasts: 32 beats\ndynamics: mf",
        number=("air", 4.5, 3, "L"),
        ways=[
            "dynamics: pp",
            "contour: C5 breath, D5@10 __ E5@20, r@30, C5@31",
            "contour: C5 breath, D5@10 breath, E5@20, r@30, C5@31",
        ],
    ),
    says(
        "breath-too-short",
        "contour: r, «C5@1» __ D5@12\nlasts: 24 beats\ndynamics: mf",
        number=("air", 3.45, 3, "L"),
        ways=["dynamics: p", "lasts: 20 beats", "contour: r, C5@1 breath, D5@12"],
    ),
    says(
        "breath-too-short",
        "contour: «C5» __ C4@10\nlasts: 20 beats\ndynamics: mf",
        number=("air", 3.5, 3, "L"),
        ways=["dynamics: p", "lasts: 17 beats", "contour: C5 breath, C4@10"],
    ),
    says(
        "breath-too-short",
        "contour: «C5»\nlasts: 20 beats\ndynamics: pp < ff",
        number=("air", 20 * (3 * 0.125 + 2 * 0.225) / 5, 3, "L"),  # 0.1, 0.15, 0.3 L/s at pp, mf, ff, even between
        ways=["dynamics: pp < f", "lasts: 18 beats"],
    ),
    says(
        "breath-too-short",
        "contour: «C5»\nlasts: 19 beats\ndynamics: pp < fff",
        number=("air", 19 * (3 * 0.125 + 2 * 0.225 + 0.3) / 6, 3, "L"),
        ways=["dynamics: pp < f", "lasts: 16 beats"],
    ),
    silent("breath-too-short", "contour: C5 breath, D5@10 breath, E5@20\nlasts: 30 beats\ndynamics: mf"),
    says(
        "breath-too-short",
        "contour: «C5»\nlasts: 40.4 s\ndynamics: mf",
        number=("air", 6.06, 3, "L"),
        ways=["lasts: 20 s"],
    ),
    silent("breath-too-short", "technique: half-valve\ncontour: xC4\nlasts: 14 beats\ndynamics: mf"),
    says(
        "breath-too-short",
        "technique: air\ncontour: «xC3»\nlasts: 3.5 s\ndynamics: f",
        number=("air", 4.025, 3, "L"),
        ways=["dynamics: mf", "lasts: 2.5 s"],
    ),
    says(
        "breath-too-short",
        "contour: «xC3 as air» __ C3@3.4 as ordinary\nlasts: 3.5 s\ndynamics: f",
        number=("air", 3.967, 3, "L"),
        ways=["dynamics: mf"],
    ),
    says(
        "breath-too-short",
        "contour: «xC3 as air» __ C3@3 as ordinary\nlasts: 3.5 beats\ndynamics: f",
        number=("air", 3.737, 3, "L"),
        ways=["dynamics: mf"],
    ),
    silent("effort-overdrawn", "technique: growl\ncontour: C4\nlasts: 10 beats"),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
