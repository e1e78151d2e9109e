"""Findings on the time that hands and tongue have (GS311 to GS316)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "stem-change-too-quick",
        "mute: harmon\ncontour: C5 as stem-in, r, «C5 as stem-out»\nlasts: 4 beats",
        number=("rest", 1.3333, 2, "s"),
    ),
    silent("stem-change-too-quick", "mute: harmon\ncontour: C5 as stem-in, r@1, C5@3 as stem-out\nlasts: 4 beats"),
    says(
        "stem-change-too-quick",
        "mute: harmon\ncontour: C5 as stem-in -- «C5@0.9 as stem-out», C5\nlasts: 4 beats",
        number=("time", 0.9, 1, "s"),
    ),
    silent("stem-change-too-quick", "mute: harmon\ncontour: C5 as stem-in -- C5@1 as stem-out, C5\nlasts: 4 beats"),
    says(
        "waves-too-fast",
        "technique: wah-wah\nmute: plunger\ncontour: C5\nlasts: 4 beats\nspeed: 2 < «4.3»",
        number=("waves", 4.3, 4.2, "1/s"),
        on="trumpet",
    ),
    silent(
        "waves-too-fast", "technique: wah-wah\nmute: plunger\ncontour: C5\nlasts: 4 beats\nspeed: 4.1", on="trumpet"
    ),
    says("waves-too-fast", "technique: vibrato\ncontour: C5\nspeed: «9»", number=("waves", 9, 8, "1/s")),
    silent("waves-too-fast", "technique: vibrato\ncontour: C5\nspeed: 8"),
    silent("waves-too-fast", "technique: valve-trill\ncontour: C5\nspeed: fast"),
    says(
        "mute-change-too-quick",
        "mute: cup\ncontour: C5 as muted, r, «D5 as ordinary»\nlasts: 4 beats",
        number=("rest", 1.333, 5, "s"),
        ways=["lasts: 15 beats"],
    ),
    says(
        "mute-change-too-quick",
        "mute: cup\ncontour: C5 as muted, «D5 as ordinary»\nlasts: 4 beats",
        number=("rest", 0, 5, "s"),
        ways=[],
    ),
    silent("mute-change-too-quick", "mute: cup\ncontour: C5 as muted, r@1, D5@6 as ordinary\nlasts: 8 beats"),
    says(
        "mute-change-too-quick",
        "mute: cup\ncontour: C5 as muted, r@1, «D5@5.9 as ordinary»\nlasts: 8 beats",
        number=("rest", 4.9, 5, "s"),
        ways=[],
    ),
    says(
        "mute-change-too-quick",
        "mute: cup\ncontour: C5, r@1, «D5@5 as muted», r@6, C5@7 as ordinary\nlasts: 8 beats",
        number=("rest", 2, 5, "s"),
        of=2,
        tempo=120,
        ways=[],
    ),
    says(
        "mute-change-too-quick",
        "mute: cup\ncontour: C5, r@1, D5@5 as muted, r@6, «C5@7 as ordinary»\nlasts: 8 beats",
        number=("rest", 0.5, 5, "s"),
        of=2,
        tempo=120,
        ways=[],
    ),
    silent(
        "mute-change-too-quick",
        "technique: muted\nmute: cup\ncontour: C5, r, C5\nlasts: 4 beats",
    ),
    says(
        "mute-change-too-quick",
        "technique: muted\nmute: cup\ncontour: C5, r, «C5 as ordinary»\nlasts: 4 beats",
        number=("rest", 1.3333, 5, "s"),
        ways=["lasts: 15 beats"],
    ),
    silent(
        "hand-change-too-quick", "contour: C5, C5 as stopped, C5 as ordinary, C5 as half-stopped\nlasts: 2 beats"
    ),
    says(
        "hand-change-too-quick",
        "contour: C5, «C5 as stopped», C5 as ordinary\nlasts: 3/8 beats",
        number=("time", 0.125, 0.15, "s"),
        of=2,
        ways=["lasts: 1 beat"],
    ),
    says(
        "hand-change-too-quick",
        "contour: C5, C5 as half-stopped, «C5 as stopped»\nlasts: 3/8 beats",
        number=("time", 0.125, 0.15, "s"),
        of=2,
        ways=["lasts: 1 beat"],
    ),
    says(
        "hand-change-too-quick",
        "mute: plunger\ncontour: C5, «C5 closed», C5\nlasts: 3/10 beats",
        number=("time", 0.1, 0.12, "s"),
        ways=["lasts: 1 beat"],
    ),
    silent("hand-change-too-quick", "mute: plunger\ncontour: C5, C5 closed, C5 open, C5 closed\nlasts: 1/2 beats"),
    says(
        "half-valve-too-fast",
        "technique: half-valve\ncontour: «xC5», xD5, xE5, xF5, xE5, xD5\nlasts: 2 beats",
        number=("notes a second", 6, 4, "notes a second"),
        ways=["lasts: 3 beats"],
        tempo=120,
    ),
    says(
        "half-valve-too-fast",
        "technique: half-valve\ncontour: xC5, «xD5@1», xE5@6/5, xF5@2\nlasts: 3 beats",
        number=("notes a second", 5, 4, "notes a second"),
        ways=[],
    ),
    silent("half-valve-too-fast", "technique: half-valve\ncontour: xC5, xD5@1, xE5@5/4, xF5@2\nlasts: 3 beats"),
    silent("half-valve-too-fast", "technique: half-valve\ncontour: xC5\nlasts: 1/6 beats"),
    says(
        "half-valve-too-fast",
        "technique: half-valve\ncontour: «xC5», xD5\nlasts: 1/3 beats",
        number=("notes a second", 6, 4, "notes a second"),
        ways=["lasts: 1 beat"],
    ),
    silent(
        "half-valve-too-fast",
        "technique: half-valve\ncontour: xC5 ~~ xD5 ~~ xE5 ~~ xF5 ~~ xE5\nlasts: 1/2 beats",
    ),
    says(
        "quarter-tones-too-fast",
        "technique: quarter-tones\ncontour: C5, «C^5», D5, D^5, E5, E^5, F5, F^5\nlasts: 2 beats",
        number=("changes a second", 8, 4, "changes a second"),
        ways=["lasts: 4 beats"],
        tempo=120,
    ),
    says(
        "quarter-tones-too-fast",
        "technique: quarter-tones\ncontour: C5, C^5@1, «D5@6/5», E5@2\nlasts: 3 beats",
        number=("changes a second", 5, 4, "changes a second"),
        ways=[],
    ),
    silent(
        "quarter-tones-too-fast",
        "technique: quarter-tones\ncontour: C5, C^5@1, D5@5/4, E5@2\nlasts: 3 beats",
    ),
    silent("quarter-tones-too-fast", "technique: quarter-tones\ncontour: C5, D5, E5, F5\nlasts: 1/2 beats"),
    # F 2 gives E^5 in tune: as fast as ordinary notes (common practice).
    silent(
        "quarter-tones-too-fast", "technique: quarter-tones\ncontour: D5, E^5, D5, E^5, D5, E^5\nlasts: 1/2 beats"
    ),
    silent("quarter-tones-too-fast", "technique: quarter-tones\ncontour: C5, xC^5, D5, D5\nlasts: 1/2 beats"),
    silent("quarter-tones-too-fast", "technique: quarter-tones\ncontour: xC5, C^5, xD5, D5\nlasts: 1/2 beats"),
    says(
        "quarter-tones-too-fast",
        "technique: quarter-tones\ncontour: C5, D5@1/10, E^5@1, C5@2, «C^5@2.2»\nlasts: 3 beats",
        number=("changes a second", 5, 4, "changes a second"),
        ways=[],
    ),
    silent("quarter-tones-too-fast", "technique: lip-gliss\ncontour: C5 -- C^5@1/10 -- D5@1/5\nlasts: 1 beat"),
    silent("quarter-tones-too-fast", "contour: C5, C^5@1, r@6/5, D5@2\nlasts: 3 beats"),
    says(
        "quarter-tones-too-fast",
        "contour: C5, C^5@1, r@11/10, «D5@6/5»\nlasts: 3 beats",
        number=("changes a second", 5, 4, "changes a second"),
        ways=[],
    ),
    silent("quarter-tones-too-fast", "technique: chromatic\ncontour: C5 ~~ C^5@1/10 ~~ D5@2/10\nlasts: 1 beat"),
    silent(
        "quarter-tones-too-fast",
        "technique: fingered-gliss\ncontour: C5 ~~ F^5@1/10 ~~ C5@2/10\nlasts: 1 beat",
    ),
    says(
        "slide-travel-too-fast",
        "contour: Bb2, «B2», Bb2, B2, Bb2, B2, Bb2, B2\nlasts: 2 beats",
        number=("positions a second", 48, 30, "positions a second"),
        ways=["lasts: 4 beats"],
        on="trombone",
        tempo=120,
    ),
    silent("slide-travel-too-fast", "contour: Bb2, B2@1, Bb2@6/5\nlasts: 3 beats", on="trombone"),
    says(
        "slide-travel-too-fast",
        "contour: Bb2, B2@1, «Bb2@7/6»\nlasts: 3 beats",
        number=("positions a second", 36, 30, "positions a second"),
        on="trombone",
        ways=[],
    ),
    says(
        "slide-travel-too-fast",
        "contour: Bb2, A2@1, «Bb2@41/40»\nlasts: 3 beats",
        number=("positions a second", 40, 30, "positions a second"),
        on="trombone",
        ways=[],
    ),
    says(
        "slide-travel-too-fast",
        "technique: slide-gliss\ncontour: Bb2 -- «E2@1/8»\nlasts: 1 beat",
        number=("positions a second", 48, 30, "positions a second"),
        on="trombone",
        ways=[],
    ),
    silent(
        "slide-travel-too-fast",
        "technique: slide-gliss\ncontour: Bb2 -- F3@1/8\nlasts: 1 beat",
        on="trombone",
    ),
    silent(
        "slide-travel-too-fast",
        "technique: lip-gliss\ncontour: Bb2 -- F3@1/8 -- E3@1/7\nlasts: 1 beat",
        on="trombone",
    ),
    silent("slide-travel-too-fast", "contour: Bb2, B2", on="trumpet"),
    says(
        "slide-travel-too-fast",
        "technique: lip-gliss\ncontour: Bb2 -- F3@1/8, E2@2, «Bb2@2.1»\nlasts: 3 beats",
        number=("positions a second", 60, 30, "positions a second"),
        on="trombone",
        ways=[],
    ),
    says(
        "slide-travel-too-fast",
        "technique: slide-gliss\ncontour: Bb2 -- A2@1, «E2@1.1»\nlasts: 3 beats",
        number=("positions a second", 50, 30, "positions a second"),
        on="trombone",
        ways=[],
    ),
    says(
        "slide-travel-too-fast",
        "technique: slide-gliss\ncontour: Bb2 -- «E2@1/8» -- Bb2@1/4\nlasts: 2 beats",
        number=("positions a second", 48, 30, "positions a second"),
        on="trombone",
        ways=[],
    ),
    silent("slide-travel-too-fast", "contour: Bb2, r@1/10, B2@1, Bb2@2\nlasts: 3 beats", on="trombone"),
    says(
        "slide-travel-too-fast",
        "contour: Bb2, r@1/10, «E2@1/9»\nlasts: 3 beats",
        number=("positions a second", 54, 30, "positions a second"),
        on="trombone",
        ways=[],
    ),
    says(
        "slide-travel-too-fast",
        "technique: slide-gliss\ncontour: Bb2 -- F3@1/8 -- E3@1, Bb2@2, «E2@2.1»\nlasts: 3 beats",
        number=("positions a second", 60, 30, "positions a second"),
        on="trombone",
        ways=[],
    ),
    silent(
        "slide-travel-too-fast",
        "technique: chromatic\ncontour: Bb2 ~~ B2@1/10\nlasts: 1 beat",
        on="trombone",
    ),
    silent(
        "slide-travel-too-fast",
        "technique: slide-gliss\ncontour: Bb2 -- B2@1/10\nlasts: 1 beat",
        on="trombone",
    ),
    silent(
        "slide-travel-too-fast",
        "technique: lip-gliss\ncontour: Bb2 -- B2@1/10\nlasts: 1 beat",
        on="trombone",
    ),
    says(
        "tongue-change-too-quick",
        "technique: double-tongue\ncontour: C5, C5, «C5 as triple-tongue», C5, C5\nlasts: 1 beat",
        number=("rest", 0, 0.3, "s"),
        tempo=120,
        ways=[],
    ),
    says(
        "tongue-change-too-quick",
        "technique: double-tongue\ncontour: C5, «C5 as triple-tongue»\nlasts: 1/2 beats",
        number=("rest", 0, 0.3, "s"),
        ways=[],
    ),
    silent(
        "tongue-change-too-quick",
        "technique: double-tongue\ncontour: C5, C5 as triple-tongue\nlasts: 0.6 beats",
    ),
    says(
        "tongue-change-too-quick",
        "technique: double-tongue\ncontour: C5, r@1/4, «C5@1/2 as triple-tongue»\nlasts: 3/4 beats",
        number=("rest", 0.25, 0.3, "s"),
        ways=["lasts: 1 beat"],
    ),
    silent(
        "tongue-change-too-quick",
        "technique: double-tongue\ncontour: C5, r@1/4, C5@0.55 as triple-tongue\nlasts: 0.8 beats",
    ),
    says(
        "tongue-change-too-quick",
        "technique: double-tongue\ncontour: C5, «C5 as single-tongue»\nlasts: 1/2 beats",
        number=("rest", 0, 0.3, "s"),
        ways=[],
    ),
    says(
        "tongue-change-too-quick",
        "technique: single-tongue\ncontour: C5, «C5 as double-tongue»\nlasts: 1/2 beats",
        number=("rest", 0, 0.3, "s"),
        ways=[],
    ),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
