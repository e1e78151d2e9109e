"""Tones as lines, and the steady stretches of time."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from tones.performed import passage, performed

from gesturesmith.model.gesture import LEVELS
from gesturesmith.tones.lines import decibels, lines


def test_no_line_sounds_twice_at_once():
    whole = performed("C4 -- D4", "technique: multiphonic", "sing: A4", "lasts: 4 beats")
    split = performed("C5, D5@2", "technique: split-tone", "lasts: 4 beats")
    for performance, voices in ((whole, [("played", 0), ("sung", 0)]), (split, [("played", 0), ("second", 0)])):
        found = lines(performance.tones)
        assert [(line.voice, line.number) for line in found] == voices
        assert sorted(t.start for line in found for t in line.tones) == [t.start for t in performance.tones]
        for line in found:
            assert all(a.end <= b.start + 1e-6 for a, b in pairwise(line.tones))


def test_what_follows_without_the_tongue_goes_on():
    (line,) = lines(performed("C5 __ D5@1, E5@2", "lasts: 3 beats").tones)
    assert [line.follows(i) for i in range(3)] == [False, True, False]
    assert [line.goes_on(i) for i in range(3)] == [True, False, False]


def test_each_level_is_louder_than_the_one_before():
    found = [decibels(place) for place in range(len(LEVELS))]
    assert all(a < b for a, b in pairwise(found))
    assert found[-1] <= 0
    assert decibels(-1) == found[0]
    assert decibels(9) == found[-1]
    assert decibels(4.5) == pytest.approx((found[4] + found[5]) / 2)


def test_time_is_steady_from_row_to_row():
    """A fermata doubles its note, whose end stays on its beat."""
    assert performed("C5 fermata, D5@2", "lasts: 4 beats").time == ((0, 0.0), (2, 4.0), (4, 6.0))
    # A line leaves a held pitch later, and arrives on its beat.
    assert performed("C5 fermata -- D5@2, E5@3", "lasts: 4 beats").time == ((0, 0.0), (2, 4.0), (4, 6.0))
    assert performed("C5, D5@2", "lasts: 4 beats").time == ((0, 0.0), (4, 4.0))


def test_every_gesture_of_a_passage_is_told_when_it_begins():
    text = "passage p\n  play: one, rest 2, G4 for 2\n  repeat: 2\ngesture one\n  contour: C5\n  lasts: 2 beats\n"
    whole = passage(text)
    assert whole.begins == ((0, "one"), (6, "one"))
    assert whole.time == ((Fraction(0), 0.0), (Fraction(12), 12.0))
