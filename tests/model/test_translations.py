"""The composer's texts in the languages of the page, and which of them are missing."""

from __future__ import annotations

import pytest

from gesturesmith.lang import parse
from gesturesmith.model.looks import PageLook
from gesturesmith.model.reading import read
from gesturesmith.model.translations import untranslated
from gesturesmith.source import Source

HEAD = "instrument: horn\npitches: written\n"
BLOCK = """gesture a
  contour: C5
  text: "far"
  text.de: "fern"
  footnote: "As a gull."
  footnote.de: "Wie eine Möwe."
  note: "Slow."
"""


def gesture(text: str, wording: str = ""):
    reading = read(Source("a", text), look=PageLook(wording=wording))
    assert reading.errors == ()
    assert reading.piece is not None
    return reading.piece.gestures[0]


@pytest.mark.parametrize(
    ("wording", "text", "own"),
    [
        ("", "far", ("As a gull. Slow.",)),
        ("de", "fern", ("Wie eine Möwe. Slow.",)),
        ("en, de", "far / fern", ("As a gull. Slow.", "Wie eine Möwe. Slow.")),
        ("fr", "far", ("As a gull. Slow.",)),
    ],
)
def test_each_page_has_the_texts_of_its_languages(wording, text, own):
    found = gesture(HEAD + BLOCK, wording)
    assert (found.text, found.own_texts) == (text, own)


def test_texts_without_a_language_are_in_that_of_the_file():
    """A German file: its plain text is the German one, whatever language the pages are in."""
    text = f'{HEAD}wording: de\ngesture a\n  contour: C5\n  text: "fern"\n  text.en: "far"\n'
    assert gesture(text).text == "fern"
    assert gesture(text, "en").text == "far"
    assert gesture(text, "en, de").text == "far / fern"


@pytest.mark.parametrize(
    ("wording", "missing"),
    [
        ("", []),
        ("de", [("de", "a", "note")]),
        ("it, de", [("it", "a", "text"), ("it", "a", "footnote"), ("it", "a", "note"), ("de", "a", "note")]),
    ],
)
def test_missing_translations_are_named(wording, missing):
    tree = PageLook(wording=wording).on(parse(Source("a", HEAD + BLOCK))[0])
    assert list(untranslated(tree)) == missing


def test_the_languages_of_parts_count_too():
    text = 'pitches: written\npart p "P"\n  instrument: horn\n  wording: fr\n'
    text += 'gesture a\n  contour: C5\n  note: "Slow."\n'
    assert list(untranslated(parse(Source("a", text))[0])) == [("fr", "a", "note")]


@pytest.mark.parametrize("key", ["footnote.nl", "contour.de", "title.de"])
def test_other_keys_have_no_languages(key):
    (error,) = read(Source("a", f'{HEAD}gesture a\n  contour: C5\n  {key}: "x"\n')).errors
    assert error.rule == "unknown-key"
    assert key in error.message
