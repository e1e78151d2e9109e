"""A trill says which note it goes to: a small accidental beside the sign, or the second note itself in parentheses.

Gould, on trills (from memory): without an indication, a player uses the next note of the key; here there is no key.
"""

from __future__ import annotations

import re

import pytest

# technique, note: what stands at it. Lip trills and shakes go to the next partial of the fingering: of an open horn
# the eighth and ninth are written C5 and D5, the fourth and fifth C4 and E4.
TRILLS = {
    ("valve-trill", "C5"): [r"\gsTrillTo d''"],
    ("valve-trill", "E5"): [r"\gsTrillTo fs''"],
    ("valve-trill", "Bb4"): [r"\gsTrillTo c''"],
    ("valve-trill", "F#4"): [r"\gsTrillTo gs'"],
    ("valve-trill", "B4"): [r"\gsTrillTo cs''"],
    ("valve-trill", "Db5"): [r"\gsTrillTo ef''"],
    ("valve-trill + stopped", "G4"): [r"\gsTrillTo a'"],  # the hand shifts both notes alike
    ("valve-trill + stopped", "C5"): [r"\gsTrillTo d''"],
    ("lip-trill + stopped", "C5"): [r"\gsTrillTo d''"],
    ("timbre-trill", "G4"): [r"\gsTrill"],
    ("lip-trill", "C5"): [r"\gsTrillTo d''"],
    ("lip-trill", "C4"): [r"\gsTrill", r"\gsSecondPlain e'"],
    ("shake", "C5"): [r"\gsSecondPlain d''"],
    ("shake", "E5"): [r"\gsSecond fs''"],
    ("valve-trill", "xC5"): [r"\gsTrill"],  # approximately C5, so approximately D5
    ("flutter-tongue", "C5"): [],
}


def signs(ly: str) -> list[str]:
    return re.findall(r"\\gs(?:Trill|Second).*", ly)


@pytest.mark.parametrize(("played", "said"), TRILLS.items())
def test_the_second_note_is_said(played, said, engraved):
    technique, note = played
    music = engraved(f"gesture one\n  technique: {technique}\n  contour: {note}\n  lasts: 2 beats\n")["one"]
    assert signs(music.ly) == said


def test_a_concert_score_says_the_sounding_note(engraved):
    text = "gesture one\n  technique: valve-trill\n  contour: E5\n  lasts: 2 beats\n"
    assert signs(engraved(text, pitches="sounding")["one"].ly) == [r"\gsTrillTo b'"]


def test_waves_over_tied_notes_say_it_at_their_beginning(engraved):
    text = "gesture one\n  technique: valve-trill\n  contour: E5\n  lasts: 5 beats\n"
    assert signs(engraved(text)["one"].ly) == [r"\gsTrillSpanTo fs''", r"\gsTrillSpanEnd"]


@pytest.mark.parametrize(
    ("contour", "said"),
    [
        ("G4 -- A4@2 as valve-trill -- G4@4", [r"\gsTrillSpanTo b'", r"\gsTrillSpanEnd", r"\gsTrillTo a'"]),
        ("C5 -- D5@2 as lip-trill -- C5@4", [r"\gsTrillSpanTo e''", r"\gsTrillSpanEnd", r"\gsTrillTo d''"]),
        ("C5 -- D5@2 as shake -- C5@4", [r"\gsSecondPlain e''", r"\gsSecondPlain d''"]),
        ("C5 -- C5@2 as timbre-trill -- D5@4", [r"\gsTrillSpan", r"\gsTrillSpanEnd", r"\gsTrill"]),
        ("C5 -- D5 as lip-trill", [r"\gsTrillTo e''"]),
    ],
)
def test_a_trill_that_a_line_turns_into_has_its_sign_where_it_begins(contour, said, engraved):
    """Its word alone, over a head on the line, does not show that it is a trill."""
    assert signs(engraved(f"gesture one\n  contour: {contour}\n  lasts: 6 beats\n")["one"].ly) == said


def test_a_natural_stands_before_the_second_note_where_its_line_was_altered(engraved):
    """Only there can a player be in doubt: nothing else has an accidental, and the file has no key."""
    text = "gesture one\n  technique: shake\n  contour: C5, Db5\n  lasts: 2 beats\n"
    assert signs(engraved(text)["one"].ly)[0] == r"\gsSecond d''"
