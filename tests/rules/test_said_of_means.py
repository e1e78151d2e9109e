"""Findings on techniques that exclude each other, or that the instrument lacks (GS301, GS302)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss»\ncontour: C5 -- B4",
        ways=["technique: bend", "technique: lip-gliss"],
        source="derived: what each technique takes up: lip, tongue, hand, valves, tone",
        severity="refused",
    ),
    says(
        "techniques-contradict",
        "technique: «stopped + muted»\ncontour: C5",
        ways=["technique: stopped", "technique: muted"],
        severity="refused",
    ),
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss + chromatic»\ncontour: C5 -- B4",
        ways=["technique: chromatic"],
        of=3,
        severity="refused",
    ),
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss + chromatic»\ncontour: C5 -- B4",
        ways=["technique: chromatic"],
        of=3,
        severity="refused",
    ),
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss + chromatic»\ncontour: C5 -- B4",
        ways=["technique: chromatic"],
        of=3,
        severity="refused",
    ),
    silent("techniques-contradict", "technique: stopped\ncontour: C5, D5 as muted"),
    silent("techniques-contradict", "technique: air\ncontour: xC5, D5 as flutter-tongue"),
    silent("techniques-contradict", "technique: flutter-tongue\ncontour: C5, D5 as growl"),
    silent("techniques-contradict", "technique: growl + flutter-tongue\ncontour: C5"),
    silent("techniques-contradict", "technique: brassy + flutter-tongue\ncontour: C5"),
    says("techniques-contradict", "technique: «stopped»\nmute: plunger\ncontour: C5", severity="refused"),
    says(
        "techniques-contradict",
        "technique: «brassy + air-tone»\ncontour: C5",
        ways=["technique: brassy", "technique: air-tone"],
        severity="refused",
    ),
    says(
        "techniques-contradict",
        "technique: «brassy + air-tone»\ncontour: C5, D5 as stopped",
        ways=["technique: brassy", "technique: air-tone"],
        severity="refused",
    ),
    silent("techniques-contradict", "technique: hand-gliss\ncontour: B4 as stopped -- C5 as ordinary"),
    says(
        "techniques-contradict",
        "technique: «hand-gliss + stopped»\ncontour: C5 -- B4",
        ways=["technique: hand-gliss", "technique: stopped"],
        severity="refused",
    ),
    silent(
        "techniques-contradict",
        "technique: hand-gliss\ncontour: C5 -- B4 as half-stopped, C5 as stopped -- B4",
    ),
    silent("techniques-contradict", "contour: C5 as air, D5 as growl"),
    says(
        "techniques-contradict", "technique: air\ncontour: xC5, «xD5 as bend» -- xC5", ways=[], severity="refused"
    ),
    silent("techniques-contradict", "technique: stopped\ncontour: C5 as hand-gliss -- B4"),
    silent("techniques-contradict", "technique: stopped\ncontour: C5 -- B4 as hand-gliss -- A4"),
    says(
        "techniques-contradict",
        "technique: air\ncontour: xC5, «xD5 as bend» -- xC5, xD5 as bend -- xC5",
        ways=[],
        severity="refused",
    ),
    says(
        "instrument-lacks-means",
        "technique: «slide-gliss»\ncontour: C5 -- G4",
        ways=["technique: lip-gliss", "technique: fingered-gliss", "technique: harmonic-gliss"],
        physical=True,
        source="derived: what the double horn in F/B-flat is built with",
        severity="refused",
    ),
    says(
        "instrument-lacks-means",
        "technique: «stopped»\ncontour: C5",
        ways=["technique: muted", "technique: ordinary"],
        physical=True,
        source="derived: what the trumpet in B-flat is built with",
        on="trumpet",
        severity="refused",
    ),
    says(
        "instrument-lacks-means",
        "technique: «half-valve»\ncontour: xBb3 ~~ xF3\nlasts: 2 beats",
        ways=["technique: slide-gliss", "technique: lip-gliss"],
        physical=True,
        source="derived: what the tenor trombone is built with",
        on="trombone",
        severity="refused",
    ),
    says(
        "instrument-lacks-means",
        "technique: «half-valve»\ncontour: xC5 ~~ xG4\nlasts: 2 beats",
        ways=["technique: lip-gliss"],
        physical=True,
        source="derived: what the natural horn in F is built with",
        on="natural-horn",
        severity="refused",
    ),
    says(
        "instrument-lacks-means",
        "technique: «valve-trill»\ncontour: D4",
        ways=["technique: lip-trill", "technique: shake"],
        physical=True,
        on="trombone",
        severity="refused",
    ),
    says(
        "instrument-lacks-means",
        "contour: C5, «D5 as stopped»",
        physical=True,
        on="trumpet",
        ways=[],
        severity="refused",
    ),
    says(
        "instrument-lacks-means",
        "technique: «hand-gliss»\ncontour: C5 -- B4",
        ways=["technique: lip-gliss", "technique: bend", "technique: fingered-gliss"],
        physical=True,
        on="trumpet",
        severity="refused",
    ),
    silent("instrument-lacks-means", "technique: growl\ncontour: C5", on="trumpet"),
    says(
        "instrument-lacks-means",
        "technique: «valve-clicks»\ncontour: xC4",
        ways=["technique: mouthpiece-pop", "technique: kiss"],
        physical=True,
        on="trombone",
        severity="refused",
    ),
    silent("instrument-lacks-means", "technique: timbre-trill\ncontour: C4", on="natural-horn"),
    says(
        "instrument-lacks-means",
        "technique: «stopped»\ncontour: C5 as muted",
        ways=["technique: muted", "technique: ordinary"],
        physical=True,
        on="trumpet",
        severity="refused",
    ),
    says(
        "instrument-lacks-means",
        "technique: «growl + stopped»\ncontour: C5, D5 as half-stopped",
        physical=True,
        of=2,
        on="trumpet",
        ways=[],
        severity="refused",
    ),
    says(
        "instrument-lacks-means",
        "technique: growl + stopped\ncontour: C5, «D5 as half-stopped»",
        physical=True,
        of=2,
        on="trumpet",
        ways=[],
        severity="refused",
    ),
    silent("instrument-lacks-means", "technique: chromatic\ncontour: C4 -- E4", on="natural-horn"),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
