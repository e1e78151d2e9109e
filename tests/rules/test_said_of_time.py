"""Findings on attacks, short notes and runs (GS401 to GS403)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "attacks-too-fast",
        "technique: single-tongue\ncontour: C5\nattacks: «9»\nlasts: 1 beat",
        number=("attacks a second", 9, 7.9, "attacks a second"),
        ways=["attacks: 7", "lasts: 2 beats", "technique: double-tongue"],
    ),
    says(
        "attacks-too-fast",
        "technique: single-tongue\ncontour: C5\nattacks: «9»\nlasts: 1 beat",
        number=("attacks a second", 9.375, 7.9, "attacks a second"),
        ways=["attacks: 7", "lasts: 2 beats", "technique: double-tongue"],
        tempo=62.5,
    ),
    silent("attacks-too-fast", "contour: r\nattacks: 9\nlasts: 1 beat"),
    says(
        "attacks-too-fast",
        "technique: single-tongue\ncontour: C5, C5@1, «C3@2», C3@19/9, C3@20/9\nlasts: 4 beats",
        number=("attacks a second", 9, 8.2, "attacks a second"),
        ways=["technique: double-tongue"],
    ),
    says(
        "attacks-too-fast",
        "technique: multiphonic\ncontour: C5\nattacks: «4»\nlasts: 1 beat",
        number=("attacks a second", 4, 3, "attacks a second"),
        ways=["attacks: 3", "lasts: 2 beats"],
    ),
    says(
        "attacks-too-fast",
        "technique: kiss\ncontour: xC5\nattacks: «3»\nlasts: 1/6 beats",
        number=("attacks a second", 18, 3, "attacks a second"),
        ways=["lasts: 1 beat"],
    ),
    says(
        "attacks-too-fast",
        "technique: single-tongue\ncontour: C5\nattacks: «4»\nlasts: 2/9 beats",
        number=("attacks a second", 18, 11, "attacks a second"),
        ways=["attacks: 2", "lasts: 1 beat", "technique: double-tongue"],
    ),
    says(
        "attacks-too-fast",
        "technique: single-tongue\ncontour: C5\nattacks: «14»\nlasts: 1 beat",
        number=("attacks a second", 14, 10.7, "attacks a second"),
        ways=["lasts: 2 beats", "lasts: 3 beats", "attacks: 7"],
        severity="refused",
    ),
    says(
        "attacks-too-fast",
        "technique: single-tongue\ncontour: C3\nattacks: «12»\nlasts: 2 beats",
        number=("attacks a second", 6, 5.9, "attacks a second"),
        ways=["attacks: 11", "lasts: 3 beats", "technique: double-tongue"],
    ),
    # Sixteenths at 110 are what single tonguing is said to do; the player takes the fastest where none is named.
    silent("attacks-too-fast", "technique: single-tongue\ncontour: C5\nattacks: 64\nlasts: 16 beats", tempo=110),
    silent("attacks-too-fast", "contour: C5\nattacks: 48\nlasts: 4 beats"),
    # Two attacks are an upbeat, however short, and no rate.
    silent("attacks-too-fast", "contour: C5, D5@3/40\nlasts: 1 beat"),
    # Two strokes by turns cannot be twice as fast as one alone at its fastest.
    says(
        "attacks-too-fast",
        "technique: double-tongue\ncontour: C5\nattacks: «30»\nlasts: 1 beat",
        number=("attacks a second", 30, 20.7, "attacks a second"),
        severity="refused",
    ),
    says(
        "pitch-too-short-to-hear",
        "contour: «F#2», G2, F#2, G2, F#2, G2, F#2, G2\nlasts: 1/2 beats",
        number=("periods", 0.772, 3, "periods"),
        ways=["lasts: 2 beats"],
        severity="refused",
        tempo=300,
    ),
    silent("pitch-too-short-to-hear", "contour: C5, D5@1, C5@65/64, C5@2\nlasts: 3 beats"),
    silent("pitch-too-short-to-hear", "contour: C5, xD5@1, C5@65/64, C5@2\nlasts: 3 beats"),
    says(
        "pitch-too-short-to-hear",
        "contour: «C5»\nlasts: 1/128 beats",
        number=("periods", 2.728, 3, "periods"),
        ways=["lasts: 1 beat", "contour: xC5"],
        severity="refused",
    ),
    says(
        "pitch-too-short-to-hear",
        "contour: C5, «C5@63/64»\nattacks: 2\nlasts: 1 beat",
        number=("periods", 5.457, 6, "periods"),
        ways=["lasts: 2 beats", "contour: C6, C6@63/64", "contour: xC5, xC5@63/64"],
    ),
    says(
        "pitch-too-short-to-hear",
        "contour: «C5»\nattacks: 64\nlasts: 1 beat",
        number=("periods", 5.457, 6, "periods"),
        ways=[],
    ),
    silent("pitch-too-short-to-hear", "technique: air\ncontour: xC5\nlasts: 1/128 beats"),
    says(
        "pitch-too-short-to-hear",
        "technique: chromatic\ncontour: «C4» ~~ E4@1/100 ~~ G4@2/100\nlasts: 1 beat",
        number=("periods", 1.746, 3, "periods"),
        ways=["technique: fingered-gliss | contour: C5 ~~ E5@1/100 ~~ G5@2/100"],
        severity="refused",
    ),
    silent("pitch-too-short-to-hear", "contour: C5 as slap-tongue, D5@1/128\nlasts: 2/128 beats"),
    silent("pitch-too-short-to-hear", "technique: air\ncontour: C5\nlasts: 1/128 beats"),
    silent("pitch-too-short-to-hear", "technique: half-valve\ncontour: C5\nlasts: 1/128 beats"),
    says(
        "pitch-too-short-to-hear",
        "contour: xC5, «D5@1/128»\nlasts: 2/128 beats",
        number=("periods", 3.062, 6, "periods"),
        ways=["lasts: 1 beat", "contour: xC5, xD5@1/128"],
    ),
    says(
        "pitch-too-short-to-hear",
        "contour: C5, «C4@1/100», C5@1/50\nlasts: 1 beat",
        number=("periods", 1.746, 3, "periods"),
        severity="refused",
        ways=[],
    ),
    says(
        "pitch-too-short-to-hear",
        "contour: «C4», C5@1/100, C5@1/50\nlasts: 1 beat",
        number=("periods", 1.746, 3, "periods"),
        severity="refused",
        ways=[],
    ),
    says(
        "pitch-too-short-to-hear",
        "contour: «C3»\nattacks: 20 accelerating\nlasts: 2 beats",
        number=("periods", 4.365, 6, "periods"),
        ways=["lasts: 3 beats", "contour: C4", "contour: xC3"],
    ),
    says(
        "pitch-too-short-to-hear",
        "contour: C5 as slap-tongue, «D5@1/128 as ordinary»\nlasts: 2/128 beats",
        number=("periods", 3.062, 6, "periods"),
        ways=["lasts: 1 beat", "contour: xC5 as slap-tongue, xD5@1/128 as ordinary"],
    ),
    says(
        "pitch-too-short-to-hear",
        "contour: C5 as half-valve, «D5@1/128 as ordinary»\nlasts: 2/128 beats",
        number=("periods", 3.062, 6, "periods"),
        ways=["lasts: 1 beat", "contour: xC5 as half-valve, xD5@1/128 as ordinary"],
    ),
    says(
        "run-too-fast",
        "technique: lip-gliss\ncontour: C5 -- A5@1/8, C4@1 as chromatic «~~» C5@1.5\nlasts: 2 beats",
        number=("notes a second", 24, 12, "notes a second"),
        ways=[],
    ),
    says(
        "run-too-fast",
        "technique: chromatic\ncontour: C4 ~~ C4@1/2 «~~» C5@1\nlasts: 2 beats",
        number=("notes a second", 24, 12, "notes a second"),
        ways=["technique: fingered-gliss"],
    ),
    says(
        "run-too-fast",
        "technique: chromatic\ncontour: C4 ~~ G4@1 «~~» G5@1.5\nlasts: 2 beats",
        number=("notes a second", 24, 12, "notes a second"),
        ways=["technique: fingered-gliss", "technique: harmonic-gliss"],
    ),
    says(
        "run-too-fast",
        "technique: chromatic\ncontour: C4 «~~» C#4@1/20\nlasts: 2 beats",
        number=("notes a second", 20, 12, "notes a second"),
        ways=["technique: fingered-gliss"],
    ),
    says(
        "run-too-fast",
        "technique: chromatic\ncontour: C3 «~~» C4@1.25\nlasts: 2 beats",
        number=("notes a second", 9.6, 8, "notes a second"),
        ways=["technique: fingered-gliss"],
    ),
    says(
        "run-too-fast",
        "technique: chromatic\ncontour: C4 «~~» C3@1.25\nlasts: 2 beats",
        number=("notes a second", 9.6, 8, "notes a second"),
        ways=["technique: fingered-gliss"],
    ),
    says(
        "run-too-fast",
        "technique: chromatic\ncontour: C4 «~~» C5@1/4\nlasts: 1/2 beats",
        number=("notes a second", 48, 25, "notes a second"),
        ways=["technique: fingered-gliss", "technique: harmonic-gliss"],
        severity="refused",
    ),
    says(
        "run-too-fast",
        "contour: «C4» __ D4 __ D#4\nlasts: 3/16 beats",
        number=("notes a second", 16, 12, "notes a second"),
        ways=["lasts: 1 beat"],
    ),
    says(
        "run-too-fast",
        "contour: «C3» __ D3@1/10 __ D#3@2/10 __ D3@3/10\nlasts: 1/2 beats",
        number=("notes a second", 10, 8, "notes a second"),
        ways=[],
    ),
    says(
        "run-too-fast",
        "contour: C4, «C4@1» __ D4@17/16 __ D#4@18/16\nlasts: 4 beats",
        number=("notes a second", 16, 12, "notes a second"),
        ways=[],
    ),
    silent("run-too-fast", "contour: C5 __ D5 -- E5 __ F5\nlasts: 1/4 beats"),
    says(
        "run-too-fast",
        "technique: chromatic\ncontour: C4 «~~» C5\nlasts: 1.99 beats",
        number=("notes a second", 12.161, 12, "notes a second"),
        ways=["lasts: 3 beats", "technique: fingered-gliss"],
        tempo=121,
    ),
    says(
        "run-too-fast",
        "technique: chromatic\ncontour: C4 «~~» C5@1/5\nlasts: 1 beat",
        number=("notes a second", 60, 25, "notes a second"),
        ways=["technique: fingered-gliss", "technique: harmonic-gliss"],
        severity="refused",
    ),
    says(
        "run-too-fast",
        "contour: «C4» __ D4 __ D#4\nlasts: 3/60 beats",
        number=("notes a second", 60, 25, "notes a second"),
        ways=["lasts: 1 beat"],
        severity="refused",
    ),
    says(
        "attacks-too-fast",
        "technique: single-tongue\ncontour: G4, «C5@1 sixteenths», G4@3\nlasts: 4 beats",
        number=("attacks a second", 8, 7.9, "attacks a second"),
        ways=["technique: double-tongue"],
        tempo=120,
    ),
    says(
        "attacks-too-fast",
        "contour: G4, «C5@1 thirty-seconds», G4@3\nlasts: 4 beats",
        number=("attacks a second", 16, 12.4, "attacks a second"),
        tempo=120,
    ),
    silent("attacks-too-fast", "contour: G4, C5@1 sixteenths, G4@3\nlasts: 4 beats", tempo=120),
    silent("attacks-too-fast", "contour: C3 unmeasured, G5@2 unmeasured\nlasts: 4 beats", tempo=120),
    says(
        "forte-piano-too-quick",
        "contour: C5, D5, E5, F5\ndynamics: «fp» each\nlasts: 1 beat",
        number=("seconds", 0.25, 0.3, "s"),
        ways=["lasts: 2 beats"],
    ),
    silent("forte-piano-too-quick", "contour: C5, D5, E5, F5\ndynamics: fp each\nlasts: 6/5 beats"),
    silent("forte-piano-too-quick", "contour: C5, D5, E5, F5\ndynamics: sfz each\nlasts: 1 beat"),
    # In double tonguing the fingers have to keep up: not where the note stays.
    says(
        "run-too-fast",
        "technique: double-tongue\ncontour: «C4», D4, C4, D4, C4, D4, C4, D4\nlasts: 1/2 beats",
        number=("notes a second", 16, 12, "notes a second"),
    ),
    silent("run-too-fast", "technique: double-tongue\ncontour: C4, C4, C4, C4, C4, C4, C4, C4\nlasts: 1/2 beats"),
    says(
        "run-too-fast",
        "contour: C4, D4@1, E4@2, «C4@3» __ D4@49/16 __ D#4@50/16\nlasts: 5 beats",
        number=("notes a second", 16, 12, "notes a second"),
        ways=[],
    ),
    says(
        "run-too-fast",
        "contour: «C4» __ B3@1/10 __ C4@2/10\nlasts: 3/10 beats",
        number=("notes a second", 10, 8, "notes a second"),
        ways=[],
    ),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
