"""The effort of techniques: multiples of plain playing."""

from __future__ import annotations

from itertools import pairwise

import pytest
from rules.checking import checked, horn

from gesturesmith import techniques
from gesturesmith.difficulty.score import difficulty

# No tone to hold, or hardly any: breath, strokes of the tongue, the mouthpiece struck.
EASIER = {
    "air": "breath without the lips",
    "air-tone": "breath around a faint tone",
    "bell-tap": "fingers on the bell",
    "kiss": "one pull of the lips",
    "mouthpiece-pop": "a hand on the mouthpiece",
    "reversed-mouthpiece": "breath without the lips",
    "slap-tongue": "one stroke of the tongue",
    "valve-clicks": "fingers alone",
}
# What closes the bore or chokes the tone lets less air through.
BREATH = {"air", "air-tone", "reversed-mouthpiece"}
LESS_AIR = {
    "closed",
    "half-closed",
    "half-stopped",
    "half-valve",
    "half-valve-notes",
    "hand-gliss",
    "muted",
    "stopped",
    "wah-wah",
} | EASIER.keys() - BREATH
ALL = [techniques.get(key) for key in techniques.names()]


@pytest.mark.parametrize("technique", ALL, ids=lambda t: t.key)
def test_it_tires_at_least_as_much_as_plain_playing(technique):
    assert technique.effort is not None
    assert technique.flow is not None
    assert (technique.effort.value < 1) == (technique.key in EASIER)
    assert (technique.flow.value < 1) == (technique.key in LESS_AIR)


# More of the same is harder: the lips bend a note further, the tongue flutters, the voice is added.
ROWS = [
    ("plain", ["ordinary", "scoop", "bend", "lip-gliss"]),
    ("of the tongue", ["single-tongue", "double-tongue", "flutter-tongue"]),
    ("trills", ["timbre-trill", "lip-trill", "shake"]),
    ("of the bell", ["ordinary", "half-stopped", "stopped"]),
    ("raised", ["ordinary", "bells-up", "brassy"]),
    ("of the throat", ["muted", "multiphonic", "growl"]),
    ("through the harmonics", ["valve-trill", "rip", "split-attack"]),
    ("slides", ["hand-gliss", "fingered-gliss", "harmonic-gliss", "hand-out"]),
    ("half valves", ["ordinary", "half-valve", "brassy"]),
]


@pytest.mark.parametrize(("_", "keys"), ROWS, ids=[name for name, _ in ROWS])
def test_what_takes_more_force_tires_more(_, keys):
    found = [techniques.get(key).effort.value for key in keys]
    assert all(a < b for a, b in pairwise(found)), dict(zip(keys, found, strict=True))


@pytest.mark.parametrize("key", ["bells-up", "brassy", "flutter-tongue", "growl", "half-valve", "stopped"])
def test_a_phrase_takes_that_much_more(key):
    technique = techniques.get(key)

    def effort(lines):
        return difficulty(checked(horn(f"{lines}\ncontour: C5\nlasts: 8 beats")).cases["a"]).effort

    assert effort(f"technique: {key}") == pytest.approx(effort("technique: ordinary") * technique.effort.value)
