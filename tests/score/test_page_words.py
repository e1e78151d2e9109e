"""The words of techniques in the language of the page, on the staff and quoted in the notes."""

from __future__ import annotations

import re

import pytest

from gesturesmith import techniques, wording
from gesturesmith.checker import check_text
from gesturesmith.model.looks import AS_WRITTEN, PageLook
from gesturesmith.score import Music, passage_score
from gesturesmith.source import Source
from gesturesmith.techniques.base import PLAIN_END

GESTURES = """
gesture plain
  contour: C5
gesture valve
  technique: half-valve
  contour: xC5
gesture flz
  technique: flutter-tongue
  contour: C5
gesture cup
  technique: muted
  mute: cup
  contour: C5
gesture air
  technique: air
  contour: xC5
gesture raised
  technique: bells-up
  contour: C5
gesture sung
  technique: multiphonic
  contour: C5
  sing: G5
gesture out
  technique: hand-out
  contour: C5
"""
PLAY = "valve, air, plain, raised, plain, sung, plain, out, plain, rest 1, cup, rest 1, plain"
# What stands on the page, in order; "ord." and mutes sold under English names are the same everywhere.
SAID = {
    "de": (
        "½ Ventil | Ventile ord. | Luft | ord. | Schalltrichter hoch | Schalltrichter normal | "
        "singen + spielen | ord. | Hand heraus | Hand wieder hinein | mit Dämpfer (Cup) | ohne Dämpfer"
    ),
    "fr": (
        "½ palette | palettes normales | souffle | ord. | pavillon en l’air | pavillon normal | "
        "chanter + jouer | ord. | main dehors | main dans le pavillon | avec sourdine (bol) | sans sourdine"
    ),
    "it": (
        "½ cilindro | cilindri ord. | soffio | ord. | padiglione in alto | padiglione normale | "
        "cantare + suonare | ord. | mano fuori | mano dentro | con sord. (cup) | senza sord."
    ),
    "en": (
        "½ valve | valves ord. | air | ord. | bells up | bells normal | sing + play | "
        "ord. | hand out | hand in | con sord. (cup) | senza sord."
    ),
}
TECHNIQUES = tuple(map(techniques.get, techniques.names()))


def made(head: str, *, instrument: str = "horn", play: str = PLAY, look: PageLook = AS_WRITTEN) -> Music:
    """The music of a passage, with these settings."""
    text = f"instrument: {instrument}\npitches: written\n{head}\n{GESTURES}\npassage one\n  play: {play}\n"
    checked = check_text(Source("a", text), look=look)
    assert checked.report.errors == ()
    return passage_score(checked.passage_cases["one"], checked.reading.piece.settings)


def words(head: str, **more) -> list[str]:
    parts = made(head, **more).parts
    labels = (label for part in parts for event in part.played.events for label in event.labels)
    return [label.first for label in labels if label.first]


@pytest.mark.parametrize("language", SAID)
def test_words_are_in_the_language_of_the_page(language):
    assert words(f"wording: {language}\nwords: language") == SAID[language].split(" | ")


def test_words_are_international_unless_asked_for():
    assert [word.replace("Cup", "cup") for word in words("wording: de")] == SAID["en"].split(" | ")
    assert words("wording: de\nwords: international") == words("wording: de")


def test_of_two_languages_the_first_counts():
    assert words("wording: de, fr\nwords: language") == SAID["de"].split(" | ")
    assert words("wording: en, de\nwords: language") == SAID["en"].split(" | ")


def test_a_run_in_another_language_has_its_words():
    assert words("wording: fr\nwords: language", look=PageLook(wording="de")) == SAID["de"].split(" | ")


def test_valves_without_a_hand_in_the_bell_are_pistons():
    assert words("wording: fr\nwords: language", instrument="trumpet", play="valve, flz, plain") == [
        "½ piston",
        "pistons normaux",
        "flz.",
        "ord.",
    ]


def test_notes_quote_the_words_that_are_printed():
    head = "wording: de, en\nwords: language"
    notes = " ".join(note.text for note in made(head).footnotes)
    assert "„ohne Dämpfer“" in notes
    assert "“ohne Dämpfer”" in notes
    assert "„Hand wieder hinein“" in notes
    assert "senza sord" not in notes


@pytest.mark.parametrize("technique", [t for t in TECHNIQUES if t.labels], ids=lambda t: t.key)
def test_a_label_says_what_it_ends(technique):
    """A word with an own name for its end in the language has one, since "non" goes with Italian abbreviations."""
    for language, label in (*technique.labels.items(), *technique.labels_of_hand.items()):
        assert language in wording.languages()
        if label.word and technique.look.cancel == PLAIN_END:
            assert label.over or technique.look.over, language
        if label.word and technique.look.cancel not in ("", PLAIN_END):
            assert label.cancel, language
        for words_of in (label.word, label.cancel):
            assert set(re.findall(r"\{\w+\}", words_of)) <= {"{mute}"}


@pytest.mark.parametrize("language", ["de", "fr", "it"])
def test_no_two_techniques_have_one_label(language):
    labels = [wording.PageWords(language=language).look(t).word for t in TECHNIQUES if t.look.word]
    assert len(set(labels)) == len(labels)


@pytest.mark.parametrize("language", ["de", "fr", "it"])
def test_texts_quote_each_word_of_the_page(language):
    page = wording.PageWords(language=language)
    for technique in TECHNIQUES:
        shown, was = page.look(technique).cancel, technique.look.cancel
        for told, text in technique.texts.items():
            quotes = re.findall(r"[“„«]\u00a0?([^”“»\u00a0]+)", text) if shown != was else []
            if was in quotes:
                assert shown in page.quoted(technique, text), (technique.key, told)
