"""Descriptions of gestures, in the languages of the page."""

from __future__ import annotations

import re
import string

import pytest

from gesturesmith import wording

FILE = """
gesture call "Call {length}"
  technique: half-valve
  contour: xG4 ~~ growing xD5@2 accent, r@3, xC5@3.5
  lasts: 9/2 beats
  dynamics: n < f > p
gesture shut
  contour: C5 as stopped -> D5@2 as ordinary
  attacks: 5 slowing
  lasts: 2.5 s
gesture heights
  band: middle
  contour: highest, 35%, lowest
passage all "All"
  meter: 3/4
  play: call, rest 3/2, G4 for 1
"""


def head(languages: str) -> str:
    return f"instrument: horn\npitches: written\nwording: {languages}\n"


def test_english(engraved):
    made = engraved(head("en") + FILE)
    assert made["call"].music.description == (
        "Call {length}: Half-valve, 4.5 beats. About G4 at 0, along a wavy line to about D5 at 2, accent "
        "(growing), then silence at 3, then about C5 at 3.5. Dynamics niente, growing to f, fading to p."
    )
    assert made["shut"].music.description == (
        "shut: Ordinary playing, 2.5 seconds. C5 as Stopped (by hand) at 0, along an arrow to D5 as Ordinary "
        "playing at 2. 5 attacks, getting slower."
    )
    assert "The highest possible note at 0, then 35 % of the register at 1" in made["heights"].music.description
    assert made["all"].music.description == (
        "All: passage in 3/4, 7 beats: Call {length}, rest for 1.5 beats, G4 for 1 beat."
    )


def test_what_ends_is_told(engraved):
    text = "gesture one\n  technique: growl + stopped\n  contour: C5, D5 without growl\n"
    assert "D5 without Growl at 1" in engraved(head("en") + text)["one"].music.description
    assert "D5 ohne Growl" in engraved(head("de") + text)["one"].music.description


def test_german_with_its_own_words(engraved):
    made = engraved(head("de") + FILE)
    assert made["call"].music.description == (
        "Call {length}: Halbventil, 4,5 Schläge. Etwa G4 bei 0, auf einer Wellenlinie nach etwa D5 bei 2, Akzent "
        "(zunehmend), dann Stille bei 3, dann etwa C5 bei 3,5. Dynamik niente, zunehmend bis f, abnehmend bis p."
    )


def test_two_languages(engraved):
    made = engraved(head("fr, it") + FILE)["shut"].music.description
    french, italian = made.split(" / ")
    assert french == engraved(head("fr") + FILE)["shut"].music.description
    assert italian == engraved(head("it") + FILE)["shut"].music.description


def test_pitches_as_the_page_names_them(engraved):
    assert "C4" in engraved(head("en") + FILE, pitches="sounding")["call"].music.description


@pytest.mark.parametrize("language", wording.languages())
def test_every_language_has_the_same_fields(language):
    """A field missing from a language would be lost; an unknown one would fail."""
    fields = {
        key: {name for _, name, _, _ in string.Formatter().parse(wording.text(key, "en")) if name}
        for key in wording.keys("en")
        if key.startswith("say-")
    }
    assert fields
    for key, names in fields.items():
        assert set(re.findall(r"\{(\w+)\}", wording.text(key, language))) == names, key
