"""Findings on levels and registers (GS504 to GS509)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

# Between the two marks of a hairpin the level is the one on the way, even on the scale of levels: 0 is n, 8 is fff.
ON_THE_WAY = [
    says(
        "effect-too-loud",
        "technique: half-stopped\ncontour: C5, «D5», E5, F5\ndynamics: p@0 < ff@3",
        number=("level", 3 + 8 / 3, 5, "steps from niente"),
    ),
    says(
        "effect-too-loud",
        "contour: C5, «D5@1 as half-stopped»\nlasts: 4 beats\ndynamics: ff > p@4",
        number=("level", 6, 5, "steps from niente"),
    ),
    # Loud in the middle of one note only: neither end tells.
    says(
        "effect-too-loud",
        "technique: half-stopped\ncontour: «C5»\nlasts: 4 beats\ndynamics: p < ff@2 > p",
        number=("level", 7, 5, "steps from niente"),
    ),
    silent("effect-too-loud", "contour: C5, D5@2 as half-stopped\nlasts: 4 beats\ndynamics: ff > p@2"),
    silent("effect-too-loud", "technique: half-stopped\ncontour: C5, D5\nlasts: 4 beats\ndynamics: p < mf@2 > p"),
    says(
        "effect-too-soft",
        "technique: growl\ncontour: C5, «D5@2», E5@3\nlasts: 4 beats\ndynamics: f > ppp",
        number=("level", 2.5625, 4, "steps from niente"),
    ),
    # What comes after the fourth attack is on its way to pp, though no point of the contour stands there.
    says(
        "effect-too-soft",
        "technique: growl\ncontour: «C5»\nlasts: 4 beats\nattacks: 4\ndynamics: mf > pp",
        number=("level", 2.75, 4, "steps from niente"),
    ),
    silent("effect-too-soft", "technique: growl\ncontour: C5, D5\nlasts: 4 beats\ndynamics: n@0 < f@2"),
    says(
        "register-too-loud",
        "contour: «G2»\nlasts: 4 beats\ndynamics: p < fff@2 > p",
        number=("level", 8, 7, "steps from niente"),
    ),
    silent("register-too-loud", "technique: lip-gliss\ncontour: C4 -- G4\nlasts: 4 beats\ndynamics: p < fff@2 > p"),
    says(
        "register-too-soft",
        "contour: G5, «B5@2»\nlasts: 4 beats\ndynamics: mp > n",
        number=("level", 2, 3, "steps from niente"),
    ),
    silent("register-too-soft", "contour: G5, B5@1\nlasts: 4 beats\ndynamics: f > n"),
    says(
        "pedal-too-loud",
        "contour: «F2»\nlasts: 4 beats\ndynamics: p < fff@2 > p",
        number=("level", 8, 6, "steps from niente"),
    ),
    says(
        "pedal-too-loud",
        "contour: «F2»\nlasts: 4 beats\ndynamics: sffz",
        number=("level", 7, 6, "steps from niente"),
    ),
    # fp is struck f and goes on p.
    silent("register-too-soft", "contour: C5, B5@2\nlasts: 4 beats\ndynamics: fp"),
]

ROWS = [
    *ON_THE_WAY,
    says(
        "effect-too-soft",
        "technique: flutter-tongue\ncontour: «C5»\ndynamics: ppp",
        number=("level", 1, 3, "steps from niente"),
        ways=["dynamics: p", "technique: ordinary"],
    ),
    silent("effect-too-soft", "technique: flutter-tongue\ncontour: C5\ndynamics: p"),
    says(
        "effect-too-soft",
        "technique: flutter-tongue\ncontour: «C5», D5\ndynamics: ppp",
        number=("level", 1, 3, "steps from niente"),
        ways=["dynamics: p", "technique: ordinary"],
    ),
    # The goal of a hairpin is reached only at its end: its last quarter does not count.
    says(
        "effect-too-soft",
        "technique: flutter-tongue + lip-gliss\ncontour: «C5» -- D5\ndynamics: p > ppp",
        number=("level", 1.5, 3, "steps from niente"),
    ),
    silent("effect-too-soft", "technique: flutter-tongue + lip-gliss\ncontour: C5 -- D5\ndynamics: mp > pp"),
    silent("effect-too-soft", "technique: growl\ncontour: C5\ndynamics: f > n"),
    silent("effect-too-soft", "technique: rip\ncontour: C5\nlasts: 4 beats\ndynamics: f > p"),
    says(
        "effect-too-soft",
        "technique: growl\ncontour: «C5», D5@2\nlasts: 4 beats\ndynamics: f > pp@2",
        number=("level", 3, 4, "steps from niente"),
        ways=["dynamics: f > mp@2", "technique: ordinary"],
    ),
    says(
        "effect-too-soft",
        "technique: growl\ncontour: «C5 pp», D5 f\nlasts: 4 beats",
        number=("level", 2, 4, "steps from niente"),
        ways=["contour: C5 mp, D5 f", "technique: ordinary"],
    ),
    silent("effect-too-soft", "technique: growl\ncontour: C5\ndynamics: n < f"),
    says(
        "effect-too-soft",
        "technique: growl + brassy\ncontour: «C5»\ndynamics: ppp",
        number=("level", 1, 5, "steps from niente"),
        of=2,
        ways=["dynamics: mf", "technique: growl"],
    ),
    says(
        "effect-too-soft",
        "technique: growl + brassy\ncontour: «C5»\ndynamics: ppp",
        number=("level", 1, 4, "steps from niente"),
        of=2,
        ways=["dynamics: mp", "technique: brassy"],
    ),
    says(
        "effect-too-soft",
        "technique: flutter-tongue + lip-gliss\ncontour: «C5» -- D5, E5@2\nlasts: 4 beats\ndynamics: p > ppp@2",
        number=("level", 2.25, 3, "steps from niente"),
        ways=["dynamics: mp > p@2", "technique: lip-gliss"],
    ),
    says(
        "effect-too-soft",
        "technique: stopped + flutter-tongue\ncontour: «C5»\ndynamics: ppp",
        number=("level", 1, 3, "steps from niente"),
        ways=["dynamics: p", "technique: stopped"],
    ),
    says(
        "effect-too-loud",
        "technique: half-stopped\ncontour: «C5»\ndynamics: ff",
        number=("level", 7, 5, "steps from niente"),
        ways=["dynamics: mf", "technique: ordinary"],
    ),
    silent("effect-too-loud", "technique: half-stopped\ncontour: C5\ndynamics: mf"),
    says(
        "effect-too-loud",
        "technique: half-stopped\ncontour: «C5», D5\ndynamics: ff",
        number=("level", 7, 5, "steps from niente"),
        ways=["dynamics: mf", "technique: ordinary"],
    ),
    says(
        "effect-too-loud",
        "technique: half-stopped\ncontour: «C5», D5@2\nlasts: 4 beats\ndynamics: p < ff@2",
        number=("level", 7, 5, "steps from niente"),
        ways=["dynamics: p < mf@2", "technique: ordinary"],
    ),
    says(
        "effect-too-loud",
        "technique: half-stopped + multiphonic\ncontour: «C5»\ndynamics: ff",
        number=("level", 7, 5, "steps from niente"),
        ways=["dynamics: mf", "technique: multiphonic"],
        of=2,
    ),
    says(
        "effect-too-loud",
        "technique: half-stopped + multiphonic\ncontour: «C5»\ndynamics: ff",
        number=("level", 7, 6, "steps from niente"),
        ways=["dynamics: f"],
        of=2,
    ),
    says(
        "effect-too-loud",
        "technique: half-stopped + growl\ncontour: «C5», D5@2\nlasts: 4 beats\ndynamics: mf < ff@2",
        number=("level", 7, 5, "steps from niente"),
        ways=["dynamics: mp < mf@2", "technique: growl"],
    ),
    says(
        "effect-too-loud",
        "technique: half-stopped\ncontour: «C5», D5 as multiphonic\nlasts: 4 beats\ndynamics: ff",
        number=("level", 7, 5, "steps from niente"),
        ways=["dynamics: mf", "technique: ordinary"],
        of=2,
    ),
    says(
        "effect-too-loud",
        "technique: half-stopped\ncontour: C5, «D5 as multiphonic»\nlasts: 4 beats\ndynamics: ff",
        number=("level", 7, 6, "steps from niente"),
        ways=["dynamics: f"],
        of=2,
    ),
    says(
        "technique-out-of-register",
        "technique: flutter-tongue\ncontour: «B5»",
        ways=["technique: ordinary", "contour: B4"],
    ),
    says(
        "technique-out-of-register",
        "technique: flutter-tongue\ncontour: G5, «Ab5», B5",
        ways=["technique: ordinary", "contour: G4, Ab4, B4"],
    ),
    # A noise too has a register in which it resonates.
    says("technique-out-of-register", "technique: slap-tongue\ncontour: «xC6»"),
    silent("technique-out-of-register", "technique: slap-tongue\ncontour: xG4"),
    silent("technique-out-of-register", "technique: growl\ncontour: G5"),
    silent("technique-out-of-register", "technique: shake\ncontour: C4"),
    silent("technique-out-of-register", "technique: rip\ncontour: C3"),
    silent("technique-out-of-register", "technique: split-tone\ncontour: C3"),
    silent("technique-out-of-register", "technique: lip-trill\ncontour: C3"),
    silent("technique-out-of-register", "technique: vibrato\ncontour: C3"),
    says(
        "technique-out-of-register",
        "technique: flutter-tongue\nband: B5..C6\ncontour: «low», high",
        ways=["technique: ordinary", "band: B4..C5"],
    ),
    says(
        "technique-out-of-register",
        "technique: stopped + flutter-tongue\ncontour: C5, «B5», C6",
        ways=["technique: stopped", "contour: C4, B4, C5"],
    ),
    says(
        "register-too-loud",
        "contour: «G2»\ndynamics: fff",
        number=("level", 8, 7, "steps from niente"),
        ways=["dynamics: ff"],
    ),
    silent("register-too-loud", "contour: G2\ndynamics: ff"),
    says(
        "register-too-loud",
        "contour: C5, «B3», G2\ndynamics: fff",
        number=("level", 8, 7, "steps from niente"),
        ways=["dynamics: ff", "contour: C6, B4, G3"],
    ),
    silent("register-too-loud", "contour: C4\ndynamics: fff"),
    silent("register-too-loud", "technique: air\ncontour: xG2\ndynamics: fff"),
    says(
        "register-too-loud",
        "band: G2..B3\ncontour: «low», high\ndynamics: fff",
        number=("level", 8, 7, "steps from niente"),
        ways=["dynamics: ff"],
    ),
    says(
        "register-too-loud",
        "contour: r, «G2»\ndynamics: fff",
        number=("level", 8, 7, "steps from niente"),
        ways=["dynamics: ff"],
    ),
    says(
        "register-too-soft",
        "contour: «B5»\ndynamics: ppp",
        number=("level", 1, 3, "steps from niente"),
        ways=["dynamics: p", "contour: B4"],
    ),
    silent("register-too-soft", "contour: B5\ndynamics: p"),
    says(
        "register-too-soft",
        "contour: C5 -- B5, «C6»\ndynamics: ppp",
        number=("level", 1, 3, "steps from niente"),
        ways=["dynamics: p", "contour: C4 -- B4, C5"],
    ),
    silent("register-too-soft", "contour: G5\ndynamics: ppp"),
    silent("register-too-soft", "technique: air\ncontour: xB5\ndynamics: ppp"),
    says(
        "register-too-soft",
        "contour: «B5», C6\ndynamics: ppp < p",
        number=("level", 1, 3, "steps from niente"),
        ways=["dynamics: p < mp", "contour: B4, C5"],
    ),
    says(
        "register-too-soft",
        "band: B5..C6\ncontour: «low», high\ndynamics: ppp",
        number=("level", 1, 3, "steps from niente"),
        ways=["dynamics: p", "band: B4..C5"],
    ),
    says(
        "pedal-too-loud",
        "contour: «F2»\ndynamics: fff",
        number=("level", 8, 6, "steps from niente"),
        ways=["dynamics: f", "contour: F3"],
    ),
    silent("pedal-too-loud", "contour: F2\ndynamics: f"),
    says(
        "pedal-too-loud",
        "contour: C5, «F2», E2\ndynamics: ff",
        number=("level", 7, 6, "steps from niente"),
        ways=["dynamics: f", "contour: C6, F3, E3"],
    ),
    silent("pedal-too-loud", "contour: F#2\ndynamics: ff"),
    silent("pedal-too-loud", "contour: C3\ndynamics: ff"),
    says(
        "pedal-too-loud",
        "band: E2..F2\ncontour: «low», high\ndynamics: ff",
        number=("level", 7, 6, "steps from niente"),
        ways=["dynamics: f", "band: E3..F3"],
    ),
    silent("pedal-too-loud", "technique: slap-tongue\ncontour: xF2\ndynamics: fff"),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
