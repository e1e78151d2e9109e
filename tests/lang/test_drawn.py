"""Points that are drawn by lot, and contours that are only suggested."""

from __future__ import annotations

from itertools import pairwise

import pytest
from lang.reading import read, value

from gesturesmith.checker.file import check_text
from gesturesmith.lang.format import format_text
from gesturesmith.lang.nodes import Height, Note
from gesturesmith.source import Source
from gesturesmith.units import Spelling

HORN = "instrument: horn\npitches: written\n"


def cents(text: str) -> list[int]:
    heights = [p.height for p in value(f"contour: {text}").points]
    assert all(isinstance(h, Note) and h.about for h in heights)
    return [int(Spelling(h.letter, h.alter, h.octave).pitch_cents) for h in heights]


def test_the_same_text_draws_the_same_heights_and_another_seed_others():
    # Drawn with Mersenne Twister, seeded with 3: what it gives is fixed for good.
    first = cents("random 7 in G4..C5 seed 3")
    assert first == [6800, 7000, 6900, 7000, 6700, 7200, 6800]
    assert cents("random 7 in G4..C5 seed 4") != first
    assert cents("random 7 in G4..C5") == cents("random 7 in G4..C5 seed 1")


def test_all_lie_in_the_band_and_none_stands_twice_in_a_row():
    drawn = cents("random 200 in G4..C5 seed 9")
    assert set(drawn) == {6700, 6800, 6900, 7000, 7100, 7200}
    assert all(one != two for one, two in pairwise(drawn))


def test_without_a_band_they_are_heights_of_the_gestures_own():
    points = value("contour: random 50 seed 2").points
    heights = [p.height.percent for p in points if isinstance(p.height, Height)]
    assert len(heights) == 50
    assert all(0 <= percent <= 100 and percent % 5 == 0 for percent in heights)


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("random 3", ["none", "none"]),
        ("random 3 ~~", ["wavy", "wavy"]),
        ("random 3 ~~ seed 2", ["wavy", "wavy"]),
        ("xG4 ~~ random 3 ~~ in A4..E5 -- xC5", ["wavy", "wavy", "wavy", "straight"]),
        ("random 3 ~~ xC5", ["none", "none", "wavy"]),
        ("random 3 ~~ growing xC5", ["none", "none", "wavy"]),
        ("r, random 2 __ in A4..E5, r", ["none", "slur", "none"]),
    ],
)
def test_a_line_between_them_stands_after_their_number(text, kinds):
    assert [line.kind for line in value(f"contour: {text}").lines] == kinds


@pytest.mark.parametrize(
    ("text", "rule", "words"),
    [
        ("random", "incomplete", "how many points"),
        ("random 1", "out-of-range", "at least 2"),
        ("random 501", "out-of-range", "at most 500"),
        ("random 7 in C5..G4", "bad-band", "the lower pitch comes first"),
        ("random 7 in xG4..C5", "bad-band", "plain notes"),
        ("random 7 in G4", "incomplete", "two dots"),
        ("random 7 seed 1000000", "out-of-range", "from 0 to 999999"),
        ("random 7 accent", "unexpected-sign", "neither words nor times"),
        ("random 7@2", "unexpected-sign", "neither words nor times"),
        ('G4 "softly" ad lib', "said-twice", "keep one"),
    ],
)
def test_each_wrong_use_has_its_message(text, rule, words):
    _, errors = read(f"gesture a\n  contour: {text}\n")
    assert errors[0].rule == rule
    assert words in errors[0].message


def test_a_missing_band_is_told_once():
    report = check_text(Source("a.gesture", f"{HORN}gesture a\n  contour: random 7\n")).report
    assert [e.rule for e in report.errors] == ["missing-band"]


def test_formatting_keeps_them():
    text = "gesture a\n  contour: xG4 ad  lib ~~ random 5 ~~ in A4 .. E5 seed 2 -> highest\n"
    expected = "gesture a\n  contour: xG4 ad lib ~~ random 5 ~~ in A4..E5 seed 2 -> highest\n"
    assert format_text(Source("a.gesture", text)) == expected
    assert format_text(Source("a.gesture", expected)) == expected


def test_ad_lib_stands_above_its_point():
    case = check_text(Source("a.gesture", f"{HORN}gesture a\n  contour: xG4 ad lib ~~ xC5\n")).cases["a"]
    assert [p.words for p in case.gesture.points] == ["ad lib.", ""]
