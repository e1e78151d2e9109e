"""What is said of techniques that do not go together, or not on the instrument (GS301, GS302)."""

from __future__ import annotations

import pytest
from rules.saying import holds, says, silent

ROWS = [
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss»\ncontour: C5 -- B4",
        "bend + lip-gliss: both say how the pitch moves",
        ways=["technique: bend", "technique: lip-gliss"],
        source="derived: what each technique takes up: lip, tongue, hand, valves, tone",
    ),
    says(
        "techniques-contradict",
        "technique: «stopped + muted»\ncontour: C5",
        "stopped + muted: both say what is done at the bell",
        ways=["technique: stopped", "technique: muted"],
    ),
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss + chromatic»\ncontour: C5 -- B4",
        "bend + chromatic: both say how the pitch moves",
        ways=["technique: ordinary"],
        of=3,
    ),
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss + chromatic»\ncontour: C5 -- B4",
        "bend + lip-gliss: both say how the pitch moves",
        ways=["technique: ordinary"],
        of=3,
    ),
    says(
        "techniques-contradict",
        "technique: «bend + lip-gliss + chromatic»\ncontour: C5 -- B4",
        "lip-gliss + chromatic: both say how the pitch moves",
        ways=["technique: ordinary"],
        of=3,
    ),
    silent("techniques-contradict", "technique: stopped\ncontour: C5, D5 as muted"),
    silent("techniques-contradict", "technique: air\ncontour: xC5, D5 as flutter-tongue"),
    silent("techniques-contradict", "technique: flutter-tongue\ncontour: C5, D5 as growl"),
    says(
        "techniques-contradict",
        "technique: «growl + flutter-tongue»\ncontour: C5",
        "growl + flutter-tongue: both say what the mouth does",
        ways=["technique: growl", "technique: flutter-tongue"],
    ),
    says(
        "techniques-contradict",
        "technique: «growl + flutter-tongue»\ncontour: C5, D5 as stopped",
        "growl + flutter-tongue: both say what the mouth does",
        ways=["technique: growl", "technique: flutter-tongue"],
    ),
    silent("techniques-contradict", "technique: hand-gliss\ncontour: B4 as stopped -- C5 as ordinary"),
    says(
        "techniques-contradict",
        "technique: «hand-gliss + stopped»\ncontour: C5 -- B4",
        "hand-gliss + stopped: the hand that stops the bell cannot close or open it as well",
        ways=["technique: hand-gliss", "technique: stopped"],
    ),
    silent(
        "techniques-contradict",
        "technique: hand-gliss\ncontour: C5 -- B4 as half-stopped, C5 as stopped -- B4",
    ),
    silent("techniques-contradict", "contour: C5 as air, D5 as growl"),
    says(
        "techniques-contradict",
        "technique: air\ncontour: xC5, «xD5 as bend» -- xC5",
        "air and bend from here on: air gives no tone, and bend works on a tone that sounds",
        ways=["technique: ordinary"],
    ),
    says(
        "instrument-lacks-means",
        "technique: «slide-gliss»\ncontour: C5 -- G4",
        "slide-gliss needs a slide; the double horn in F/B-flat has none",
        ways=["technique: harmonic-gliss", "technique: lip-gliss", "technique: fingered-gliss"],
        physical=True,
        source="derived: what the double horn in F/B-flat is built with",
    ),
    says(
        "instrument-lacks-means",
        "technique: «stopped»\ncontour: C5",
        "stopped needs a hand in the bell; the trumpet in B-flat has none",
        ways=["technique: muted", "technique: ordinary"],
        physical=True,
        source="derived: what the trumpet in B-flat is built with",
        on="trumpet",
    ),
    says(
        "instrument-lacks-means",
        "technique: «half-valve»\ncontour: xBb3 ~~ xF3\nlasts: 2 beats",
        "half-valve needs valves to finger with; the tenor trombone has a slide",
        ways=["technique: slide-gliss", "technique: lip-gliss", "technique: lip-trill"],
        physical=True,
        source="derived: what the tenor trombone is built with",
        on="trombone",
    ),
    says(
        "instrument-lacks-means",
        "technique: «half-valve»\ncontour: xC5 ~~ xG4\nlasts: 2 beats",
        "half-valve needs valves to finger with; the natural horn in F has none",
        ways=["technique: lip-gliss", "technique: lip-trill", "technique: ordinary"],
        physical=True,
        source="derived: what the natural horn in F is built with",
        on="natural-horn",
    ),
    says(
        "instrument-lacks-means",
        "technique: «valve-trill»\ncontour: D4",
        "valve-trill needs valves to finger with; the tenor trombone has a slide",
        ways=["technique: lip-trill", "technique: ordinary"],
        physical=True,
        on="trombone",
    ),
    says(
        "instrument-lacks-means",
        "contour: C5, «D5 as stopped»",
        "stopped needs a hand in the bell; the trumpet in B-flat has none",
        physical=True,
        on="trumpet",
        ways=[],
    ),
    says(
        "instrument-lacks-means",
        "technique: «hand-gliss»\ncontour: C5 -- B4",
        "hand-gliss needs a hand in the bell; the trumpet in B-flat has none",
        ways=["technique: lip-gliss", "technique: fingered-gliss", "technique: chromatic"],
        physical=True,
        on="trumpet",
    ),
    silent("instrument-lacks-means", "technique: growl\ncontour: C5", on="trumpet"),
    says(
        "instrument-lacks-means",
        "technique: «valve-clicks»\ncontour: xC4",
        "valve-clicks needs valves to finger with; the tenor trombone has a slide",
        ways=["technique: mouthpiece-pop", "technique: kiss", "technique: ordinary"],
        physical=True,
        on="trombone",
    ),
    silent("instrument-lacks-means", "technique: timbre-trill\ncontour: C4", on="natural-horn"),
    says(
        "instrument-lacks-means",
        "technique: «stopped»\ncontour: C5 as muted",
        "stopped needs a hand in the bell; the trumpet in B-flat has none",
        ways=["technique: muted", "technique: ordinary"],
        physical=True,
        on="trumpet",
    ),
    says(
        "instrument-lacks-means",
        "technique: «growl + stopped»\ncontour: C5, D5 as half-stopped",
        "stopped needs a hand in the bell; the trumpet in B-flat has none",
        physical=True,
        of=2,
        on="trumpet",
        ways=[],
    ),
    says(
        "instrument-lacks-means",
        "technique: growl + stopped\ncontour: C5, «D5 as half-stopped»",
        "half-stopped needs a hand in the bell; the trumpet in B-flat has none",
        physical=True,
        of=2,
        on="trumpet",
        ways=[],
    ),
    silent("instrument-lacks-means", "technique: chromatic\ncontour: C4 -- E4", on="natural-horn"),
]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_what_is_said(row):
    holds(row)
