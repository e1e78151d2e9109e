"""Pitches named by an interval or by the partial of a tube."""

from fractions import Fraction

import pytest
from lang.reading import read, value

from gesturesmith.lang.format import format_text
from gesturesmith.lang.nodes import Harmonic, JustNote
from gesturesmith.source import Source


def points(text: str):
    return [p.height for p in value(f"contour: {text}").points]


def test_a_just_interval_is_a_ratio_of_a_note():
    (height,) = points("7/4 of F2")
    assert isinstance(height, JustNote)
    assert (height.ratio, height.of.letter, height.of.octave) == (Fraction(7, 4), "F", 2)


@pytest.mark.parametrize(
    ("text", "side", "valves", "partial"),
    [("F 0:11", "F", "0", 11), ("Bb 1-3:5", "Bb", "1-3", 5), ("0:8", "", "0", 8), ("3-1:4", "", "1-3", 4),
     ("T 2:5", "T", "2", 5), ("partial 11 of F 0", "F", "0", 11), ("partial 5 of Bb 1-3", "Bb", "1-3", 5),
     ("partial 7 of 3", "", "3", 7)],
)  # fmt: skip
def test_a_harmonic_names_its_tube(text, side, valves, partial):
    (height,) = points(text)
    assert isinstance(height, Harmonic)
    assert (height.tube.side, height.tube.valves, height.partial) == (side, valves, partial)


def test_they_stand_wherever_a_point_does():
    tree, errors = read("gesture a\n  contour: F 0:6 ~~ F 0:8@2 accent, 3/2 of C4 as air -- r@3\n")
    assert [e.rule for e in errors] == ["line-at-silence"]
    assert tree.blocks[0].name.text == "a"


def test_formatting_keeps_them():
    text = "gesture a\n  contour: F  0:6 ~~ partial 8 of Bb 1-3,5/4 of C4\n  fingering: auto,auto , F 0\n"
    expected = "gesture a\n  contour: F 0:6 ~~ partial 8 of Bb 1-3, 5/4 of C4\n  fingering: auto, auto, F 0\n"
    assert format_text(Source("a.gesture", text)) == expected
    assert format_text(Source("a.gesture", expected)) == expected


@pytest.mark.parametrize(
    ("text", "rule", "words"),
    [
        ("contour: 7/4 of", "incomplete", "7/4 of F2"),
        ("contour: 7/4 of xF2", "bad-note", "an interval from about a note"),
        ("contour: 100 of F2", "out-of-range", "from 1/32 to 32"),
        ("contour: partial 11", "incomplete", "F 0:11"),
        ("contour: partial 11 of high", "unexpected-sign", "the tube: F 0"),
        ("contour: F 0:0", "out-of-range", "numbered from 1"),
        ("contour: F 0:99", "out-of-range", "to 64"),
    ],
)
def test_each_wrong_use_has_its_message(text, rule, words):
    _, errors = read(f"gesture a\n  {text}\n")
    assert errors[0].rule == rule
    assert words in errors[0].message


def test_a_harmonic_in_a_passage_is_an_item():
    _, errors = read("passage a\n  play: F 0:8 for 2, 7/4 of C4 grace, C5 for 1\n")
    assert errors == ()
