"""Names, heights, shapes and cents of heads."""

from __future__ import annotations

import re

import pytest

# LilyPond's English note names, as in its ly/english.ly; c' is middle C.
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


# A tuner shows the nearest tempered note and the cents from it; the note is named if it is not the printed one. A
# quarter-tone accidental is only used within 5 cents of one; otherwise accidental and cents would disagree.
CENTS = {
    "C5-14c": ("c''", r"\gsCents #-14"),
    "C5+10c": ("c''", r"\gsCents #10"),
    "C5+31c": ("c''", r"\gsCents #31"),
    "Eb4-31c": ("ef'", r"\gsCents #-31"),  # printed as three quarters flat once, beside "E♭ −31"
    "E4-25c": ("e'", r"\gsCents #-25"),  # an eighth of a tone
    "Ev4-31c": ("ef'", r"\gsCents #19"),
    "C5+44c": ("c''", r"\gsCents #44"),
    "C5+45c": ("cqs''", r"\gsTuned c'' #45"),
    "C5+48c": ("cqs''", r"\gsTuned c'' #48"),
    "C5+50c": ("cqs''", ""),
    "C#5+70c": ("d''", r"\gsCents #-30"),
    "B4+80c": ("bs'", r"\gsCents #-20"),
    "Db5-40c": ("df''", r"\gsCents #-40"),
    "Db5-48c": ("dtqf''", r"\gsTuned df'' #-48"),
    "Bv4-5c": ("bqf'", r"\gsTuned bf' #45"),
    "F##4+10c": ("fss'", r"\gsTuned g' #10"),
}


@pytest.mark.parametrize(("written", "expected"), CENTS.items())
def test_cents_as_a_tuner_shows_them(written, expected, engraved):
    ly = engraved(f"gesture one\n  contour: {written}\n")["one"].ly
    name, command = expected
    assert notes(ly) == [name]
    assert re.findall(r"\\gs(?:Cents|Tuned).*", ly) == [command] * bool(command)


def test_cents_by_one_rule_wherever_a_pitch_stands(engraved):
    """In free time, sung, in a concert score and within a passage, as in a single gesture."""
    text = "gesture one\n  contour: C5+31c ~~ D5\n  lasts: 3 s\n"
    text += "gesture two\n  technique: multiphonic\n  contour: C4\n  sing: E4-25c ~~ F4\n  lasts: 4 beats\n"
    musics = engraved(text + "passage three\n  play: two, C5+31c for 1\n")
    for name, count in (("one", 1), ("two", 1), ("three", 2)):
        assert len(re.findall(r"\\gsCents #(?:31|-25)", musics[name].ly)) == count
        assert not re.search(r"\b[a-g]t?q[sf][',]*\d", musics[name].ly)


def test_heights_on_three_lines(engraved):
    music = engraved("gesture one\n  band: middle\n  contour: low, mid, high, 25%, highest, lowest\n")["one"]
    assert music.music.staff_lines == 3
    assert re.findall(r"gsHeight #(\S+)", music.ly) == ["-4", "0", "4", "-2", "6", "-6"]


def test_heights_in_a_band_of_pitches(engraved):
    """Half way between C4 and C5 in staff steps is between F4 and G4; no accidental is printed."""
    music = engraved("gesture one\n  band: C4..C5\n  contour: low, 50%, high\n")["one"]
    assert music.music.staff_lines == 5
    assert notes(music.ly) in (["c'", "f'", "c''"], ["c'", "g'", "c''"])
    assert music.ly.count(r"\gsBare") == 3


@pytest.mark.parametrize(("heights", "lines"), [("auto", 3), ("lines", 3), ("band", 5)])
def test_the_file_says_how_heights_stand(heights, lines, engraved):
    head = f"instrument: horn\npitches: written\nheights: {heights}\n"
    assert engraved(head + "gesture one\n  band: middle\n  contour: low, high\n")["one"].music.staff_lines == lines


def test_a_pitch_beside_heights_needs_the_staff(engraved):
    assert engraved("gesture one\n  band: middle\n  contour: low, G4\n")["one"].music.staff_lines == 5


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


def test_three_lines_say_which_register_they_stand_for(engraved):
    """Otherwise a player could not tell low heights of the low register from those of the top one; in a passage
    every change is named."""
    text = "".join(
        f"gesture {name}\n  technique: slap-tongue\n  band: {band}\n  contour: low, high\n"
        for name, band in (("one", "low"), ("two", "top"))
    )
    made = engraved(f"{text}passage all\n  play: one, one, two\n")
    assert r'\gsWord "low register"' in made["one"].ly
    assert r'\gsWord "top register"' in made["two"].ly
    assert made["all"].ly.count("register") == 2
    assert "register" not in engraved("gesture one\n  band: low\n  contour: C4, high\n")["one"].ly
