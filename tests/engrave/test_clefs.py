"""Clefs where a copyist would change them: with a margin, never inside a line."""

from __future__ import annotations

import re

import pytest


def clefs(music) -> list[str]:
    return [music.clef, *re.findall(r'\\clef "(\w+)"', music.ly)]


# The horn's bass clef in new notation: written notes stay where the treble clef would have them.
HORN = {
    "C5": ["treble"],
    "C4, D4, E4": ["treble"],
    "C3, G2, E3": ["bass"],
    "C3, G2, E2, C5, E5, G5": ["bass", "treble"],
    "C5, G3, C5": ["treble"],
    "C5, D3, G4, F3, A4": ["treble"],  # two low notes do not take two high ones onto ledger lines with them
    "G4, C3, G4, C3, G4, C3": ["treble"],
}


@pytest.mark.parametrize(("contour", "expected"), HORN.items())
def test_horn(contour, expected, engraved):
    if contour == "G4, C3, G4, C3, G4, C3":
        # Whatever it costs, it does not flap.
        assert len(clefs(engraved(f"gesture one\n  contour: {contour}\n")["one"])) <= 2
    else:
        assert clefs(engraved(f"gesture one\n  contour: {contour}\n")["one"]) == expected


def test_no_change_inside_a_line(engraved):
    music = engraved("gesture one\n  technique: lip-gliss\n  contour: xC3 ~~ xC5@2 ~~ xG5\n")["one"]
    assert len(clefs(music)) == 1


TROMBONE = {"C3, F3": ["bass"], "Bb3, C4": ["bass"], "E4, G4, A4, Bb4, G4, A4": ["tenor"]}


@pytest.mark.parametrize(("contour", "expected"), TROMBONE.items())
def test_trombone(contour, expected, engraved):
    head = "instrument: trombone\n"
    assert clefs(engraved(f"{head}gesture one\n  contour: {contour}\n")["one"]) == expected


def test_home_after_a_rest(engraved):
    text = "gesture bottom\n  contour: C3, G2, E2\ngesture home\n  contour: C4, D4, E4\n"
    music = engraved(text + "passage one\n  play: bottom, rest 12, home\n")["one"]
    assert clefs(music) == ["bass", "treble"]
