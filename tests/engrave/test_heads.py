"""Names, heights, shapes and cents of heads."""

from __future__ import annotations

import re

import pytest

# LilyPond's English note names, as its ly/english.ly has them; c' is middle C.
NAMES = {
    "C4": "c'",
    "B3": "b",
    "C3": "c",
    "B2": "b,",
    "F#5": "fs''",
    "Bb3": "bf",
    "F##4": "fss'",
    "Ebb4": "eff'",
    "F^4": "fqs'",
    "Gv4": "gqf'",
    "F#^4": "ftqs'",
    "Bbv4": "btqf'",
}


def notes(ly: str) -> list[str]:
    """The names of the notes in a score text, in order."""
    return re.findall(r"^\s*([a-g][a-z]*[',]*)!?\d", ly, re.MULTILINE)


@pytest.mark.parametrize(("written", "name"), NAMES.items())
def test_spelling_is_the_composers(written, name, engraved):
    assert notes(engraved(f"gesture one\n  contour: {written}\n")["one"].ly) == [name]


# A tuner shows the nearest tempered note and the cents from it; the note is named where it is not the one printed.
CENTS = {
    "C5-14c": ("c''", r"\gsCents #-14"),
    "C5+10c": ("c''", r"\gsCents #10"),
    "C5+31c": ("cqs''", r'\gsTuned "C" #31'),
    "C#5+70c": ("ctqs''", r'\gsTuned "D" #-30'),
    "Db5-40c": ("dtqf''", r'\gsTuned "D♭" #-40'),
    "Bv4-5c": ("bqf'", r'\gsTuned "B♭" #45'),
}


@pytest.mark.parametrize(("written", "expected"), CENTS.items())
def test_cents_as_a_tuner_shows_them(written, expected, engraved):
    ly = engraved(f"gesture one\n  contour: {written}\n")["one"].ly
    name, command = expected
    assert notes(ly) == [name]
    assert command in ly


def test_heights_on_three_lines(engraved):
    music = engraved("gesture one\n  band: middle\n  contour: low, mid, high, 25%, highest, lowest\n")["one"]
    assert music.staff_lines == 3
    assert re.findall(r"gsHeight #(\S+)", music.ly) == ["-4", "0", "4", "-2", "6", "-6"]


def test_heights_in_a_band_of_pitches(engraved):
    """Half way between C4 and C5 in staff steps lies between F4 and G4; no accidental stands there."""
    music = engraved("gesture one\n  band: C4..C5\n  contour: low, 50%, high\n")["one"]
    assert music.staff_lines == 5
    assert notes(music.ly) in (["c'", "f'", "c''"], ["c'", "g'", "c''"])
    assert music.ly.count(r"\gsBare") == 3


@pytest.mark.parametrize(("heights", "lines"), [("auto", 3), ("lines", 3), ("band", 5)])
def test_the_file_says_how_heights_stand(heights, lines, engraved):
    head = f"instrument: horn\npitches: written\nheights: {heights}\n"
    assert engraved(head + "gesture one\n  band: middle\n  contour: low, high\n")["one"].staff_lines == lines


def test_a_pitch_beside_heights_needs_the_staff(engraved):
    assert engraved("gesture one\n  band: middle\n  contour: low, G4\n")["one"].staff_lines == 5


SHAPES = {
    "contour: C5": [],
    "contour: xC5": [r"\gsX"],
    "contour: highest": [r"\gsTriangleUp"],
    "contour: lowest": [r"\gsTriangleDown"],
    "contour: xC5\n  notehead: normal": [],
    "contour: C5\n  notehead: slash": [r"\gsSlash"],
    "contour: C5\n  technique: air": [r"\gsDiamond"],
    "contour: xC5\n  technique: air": [r"\gsX"],
}


@pytest.mark.parametrize(("block", "shapes"), SHAPES.items())
def test_shapes(block, shapes, engraved):
    ly = engraved(f"gesture one\n  {block}\n")["one"].ly
    assert re.findall(r"\\gs(?:X|Diamond|Slash|Triangle\w+)", ly) == shapes
