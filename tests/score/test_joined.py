"""Techniques that stand together: the signs and words of both, and what is heard of both."""

from __future__ import annotations

import pytest
from tones.performed import tones


@pytest.mark.parametrize(
    ("technique", "words"),
    [
        ("muted + bells-up", ("con sord. (straight)", "bells up")),
        ("stopped + bells-up", ("bells up", "gsPlus")),
        ("brassy + growl + shake", ("cuivré", "growl", "shake")),
        ("air + multiphonic + flutter-tongue", ("air", "sing", "flz.")),
        ("vibrato + growl", ("vib.", "growl")),
    ],
)
def test_each_of_several_techniques_has_its_word_or_sign(engraved, technique, words):
    ly = engraved(f"gesture a\n  technique: {technique}\n  contour: G4, A4\n")["a"].ly
    for word in words:
        assert word in ly, word


def test_both_after_one_as_and_each_end_is_said(engraved):
    text = "gesture a\n  technique: muted\n  contour: C5, C5 as muted + bells-up, C5 as ordinary\n"
    ly = engraved(text)["a"].ly
    assert "senza sord." not in ly.partition("bells up")[0]
    assert "senza sord." in ly.partition("bells up")[2]
    assert "bells normal" in ly.partition("bells up")[2]


def test_beside_breath_one_sings_and_does_not_play(engraved):
    text = "gesture a\n  technique: {}\n  contour: C4, D4\n  lasts: 4 beats\n"
    assert "sing + play" in engraved(text.format("multiphonic"))["a"].ly
    assert "sing + play" not in engraved(text.format("multiphonic + air"))["a"].ly


def test_voice_and_breath_are_both_heard():
    played = tones("C4, D4", "technique: multiphonic + air", "lasts: 4 beats")
    sung = tones("C4, D4", "technique: multiphonic + air", "lasts: 4 beats", voice="sung")
    assert len(played) == len(sung) == 2
    assert {value for tone in played for _, value in tone.air} == {1.0}
    assert not any(tone.air for tone in sung)
