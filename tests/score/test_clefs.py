"""Clefs where a copyist would change them: with a margin, never inside a line."""

from __future__ import annotations

import re

import pytest


def clefs(music) -> list[str]:
    return [music.music.clef, *re.findall(r'\\clef "(\w+)"', music.ly)]


# The horn's bass clef in new notation: written notes stay where the treble clef would have them.
HORN = {
    "C5": ["treble"],
    "C4, D4, E4": ["treble"],
    "C3, G2, E3": ["bass"],
    "G3": ["treble"],
    "Ab3": ["treble"],
    "E3": ["bass"],
    "C3, G2, E2, C5, E5, G5": ["bass", "treble"],
    "C5, G3, C5": ["treble"],
    "C5, D3, G4, F3, A4": ["treble"],  # two low notes do not take two high ones onto ledger lines with them
    "G4, C3, G4, C3, G4, C3": ["treble"],
}


@pytest.mark.parametrize(("contour", "expected"), HORN.items())
def test_horn(contour, expected, engraved):
    if contour == "G4, C3, G4, C3, G4, C3":
        # Never back and forth, whatever the cost.
        assert len(clefs(engraved(f"gesture one\n  contour: {contour}\n")["one"])) <= 2
    else:
        assert clefs(engraved(f"gesture one\n  contour: {contour}\n")["one"]) == expected


def test_no_change_inside_a_line(engraved):
    music = engraved("gesture one\n  technique: lip-gliss\n  contour: xC3 ~~ xC5@2 ~~ xG5\n")["one"]
    assert len(clefs(music)) == 1


# What begins high and stays there is in tenor clef; two ledger lines over the bass clef are read without it, alone
# or in company, so that no note stands in one clef here and in another there.
LOW_BRASS = {
    ("trombone", "C3, F3"): ["bass"],
    ("trombone", "Bb3, C4"): ["bass"],
    ("trombone", "F4"): ["bass"],
    ("trombone", "F4, D4, Bb3"): ["bass"],
    ("trombone", "Bb2, F4, Bb2, F4"): ["bass"],
    ("trombone", "C4, E4, F4, G4, F4, E4"): ["bass"],
    ("trombone", "E4, G4, A4, Bb4, G4, A4"): ["tenor"],
    ("trombone", "G4, A4, Bb4, C5"): ["tenor"],
    ("bass-trombone", "F4"): ["bass"],
    ("bass-trombone", "Bb1, F4"): ["bass"],
    ("euphonium", "F4, Bb4"): ["bass"],
    ("tuba", "F1, F4"): ["bass"],
}


@pytest.mark.parametrize(("instrument", "contour"), LOW_BRASS)
def test_low_brass(instrument, contour, engraved):
    text = f"instrument: {instrument}\ngesture one\n  contour: {contour}\n"
    assert clefs(engraved(text)["one"]) == LOW_BRASS[instrument, contour]


def test_between_rests_a_trombone_keeps_its_clef(engraved):
    """F4 alone, before and after a high phrase in another clef."""
    text = (
        "instrument: trombone\ngesture a\n  contour: F4\ngesture b\n  contour: Bb4, C5, Bb4, A4, Bb4, C5\n"
        "passage all\n  play: a, rest 2, a, rest 2, b, rest 2, a, rest 2, a\n"
    )
    assert clefs(engraved(text)["all"]) == ["bass", "tenor", "bass"]


def test_home_after_a_rest(engraved):
    text = "gesture bottom\n  contour: C3, G2, E2\ngesture home\n  contour: C4, D4, E4\n"
    music = engraved(text + "passage one\n  play: bottom, rest 12, home\n")["one"]
    assert clefs(music) == ["bass", "treble"]
