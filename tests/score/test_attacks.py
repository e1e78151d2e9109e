"""Attacks on the page: every written note, in order, under a feathered beam where asked."""

from __future__ import annotations

import re

import pytest

_NOTE = re.compile(r"\b([a-g](?:s|f)?[',]*)\d+(?: \* \S+)?")


def pitches(ly: str) -> list[str]:
    return _NOTE.findall(ly)


def made(engraved, contour: str, attacks: str, lasts: str = "4 beats") -> str:
    return engraved(f"gesture one\n  contour: {contour}\n  attacks: {attacks}\n  lasts: {lasts}\n")["one"].ly


# Gould, Behind Bars (2011): a feathered beam groups written pitches whose speed changes. The notes are the file's.
@pytest.mark.parametrize("shape", ["slowing", "accelerating"])
def test_a_feathered_beam_over_the_written_notes(engraved, shape: str) -> None:
    ly = made(engraved, "G4, A4, Bb4, C5, Bb4, A4, G4", f"7 {shape}")
    assert pitches(ly) == ["g'", "a'", "bf'", "c''", "bf'", "a'", "g'"]
    assert rf"\gsFeather #{'LEFT' if shape == 'slowing' else 'RIGHT'}" in ly
    assert "stemless" not in ly.lower()
    assert r'\gsLength "4 beats"' in ly


def test_even_attacks_have_note_values(engraved) -> None:
    assert " ".join(made(engraved, "G4, A4, r, C5", "3").split()).startswith("{ g'4 a'4 r4 c''4")


def test_a_silence_under_the_beam_takes_its_time(engraved) -> None:
    ly = made(engraved, "G4, r, A4, C5", "3 slowing")
    assert pitches(ly) == ["g'", "a'", "c''"]
    assert re.search(r"r32 \* 20/3\b", ly), ly


def test_one_sound_is_struck_as_often_as_asked_and_not_in_its_silence(engraved) -> None:
    assert pitches(made(engraved, "G4, r@2", "4 slowing")) == ["g'"] * 4
    assert pitches(made(engraved, "G4", "5 accelerating")) == ["g'"] * 5


def test_in_seconds_each_note_stands_at_its_time(engraved) -> None:
    ly = made(engraved, "G4, A4, C5", "3 slowing", "3 s")
    assert pitches(ly) == ["g'", "a'", "c''"]
    assert r"\gsFeather" not in ly
