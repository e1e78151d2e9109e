"""Every text is in its own language, without words of another one, by independent word lists."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import astuple
from functools import cache

import pytest
from spellchecker import SpellChecker

from gesturesmith import instruments, techniques, wording

LANGUAGES = ("en", "de", "fr", "it")
# A word this many times more frequent in another language belongs to that one: lists made from subtitles contain
# the common words of every language.
TIMES = 1000

# Quoted words are those on the page, in any language; fields are filled in later; elided articles are not words.
_NOT_OF_THE_TEXT = {
    "en": r"“[^”]*”|\{[^}]*\}",
    "de": r"„[^“]*“|\{[^}]*\}",
    "fr": r"«[^»]*»|\{[^}]*\}|\w+’",
    "it": r"«[^»]*»|\{[^}]*\}|\w+’",
}

# Trade words common to all four languages.
TRADE = {
    *("cuivré", "glissando", "niente", "rallentando", "tempo", "tremolo", "vibrato"),  # in every score
    *("marcato", "staccato", "tenuto"),  # the signs' own names
    *(
        "bend",
        "bending",
        "doit",
        "fall",
        "flip",
        "lift",
        "growl",
        "plop",
        "rip",
        "scoop",
        "shake",
        "smear",
        "spill",
    ),  # jazz names its effects in English
    *("attack", "slap", "split", "tone"),  # slap tongue, split attack, split tone
    *("althorn", "contralto", "euphonium", "piccolo", "saxhorn", "soprano", "tuba", "wagner"),  # instruments
    *("bucket", "cup", "harmon", "plunger", "stopping", "straight"),  # mutes, as they are sold
    *("ka", "ta"),  # syllables of the tongue
    *("ad", "lib"),  # at the player's liberty
    *("long", "short"),  # printed at a position of the slide
    "cent",  # a unit
    "coulisse",  # the slide, in French and Italian alike
}
# Words of the language missing from its list.
UNLISTED = {
    "de": {"fermate", "none", "ton", "transposition"},
    "fr": {"bugle", "dental", "mi", "quarte"},
    "it": {"colora", "gutturale"},
}


@cache
def frequencies(language: str) -> Mapping[str, float]:
    """How often each word comes, among all."""
    words = SpellChecker(language=language).word_frequency
    return {word: count / words.total_words for word, count in words.dictionary.items()}


def words(text: str, language: str) -> set[str]:
    text = re.sub(_NOT_OF_THE_TEXT[language], " ", text)
    return {word.lower() for word in re.findall(r"[^\W\d_]{2,}", text)}


def foreign(word: str, language: str) -> bool:
    there = max(frequencies(other).get(word, 0) for other in LANGUAGES if other != language)
    return there > TIMES * frequencies(language).get(word, 0)


def texts(language: str) -> Iterator[str]:
    """All texts for players in a language."""
    yield from (wording.text(key, language) for key in wording.keys(language))
    for technique in map(techniques.get, techniques.names()):
        yield from (technique.title[language], technique.texts[language])
        yield from (others[language] for others in technique.texts_where.values())
        for labels in (technique.labels, technique.labels_of_hand):
            if language in labels:
                yield from astuple(labels[language])
    for instrument in map(instruments.get, instruments.names()):
        yield instrument.part_names.get(language, "")


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_word_of_another_language_is_in_a_text(language: str) -> None:
    found = {word: text for text in texts(language) for word in words(text, language) if foreign(word, language)}
    assert {w: t for w, t in found.items() if w not in TRADE | UNLISTED.get(language, set())} == {}


def test_no_word_is_let_pass_without_need() -> None:
    found = {x: {w for text in texts(x) for w in words(text, x) if foreign(w, x)} for x in LANGUAGES}
    assert set().union(*found.values()) >= TRADE
    assert {language: unlisted - found[language] for language, unlisted in UNLISTED.items()} == {
        language: set() for language in UNLISTED
    }


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_word_of_another_language_would_be_found(language: str) -> None:
    """Of the words in our own other-language texts, at least eight in ten are detected."""
    own = {word for text in texts(language) for word in words(text, language)}
    for other in LANGUAGES:
        theirs = {word for text in texts(other) for word in words(text, other)} - own - TRADE
        found = {word for word in theirs if foreign(word, language)}
        assert len(found) >= 0.8 * len(theirs), (other, sorted(theirs - found))
