"""Words beside a staff that ask for techniques and mutes, in four languages."""

from __future__ import annotations

import pytest

from gesturesmith import techniques
from gesturesmith.importers.said import said
from gesturesmith.techniques.base import PLAIN_END


@pytest.mark.parametrize(
    "words",
    ["con sord.", "con sordino", "mit Dämpfer", "avec sourdine", "with mute", "muted", "sord.", "gedämpft"],
)
def test_a_mute_goes_in(words):
    assert (said(words).turns_to, said(words).mute) == (("muted",), "straight")


@pytest.mark.parametrize("words", ["senza sord.", "ohne Dämpfer", "sans sourdine", "mute off", "Dämpfer weg"])
def test_a_mute_comes_out(words):
    assert (said(words).turns_to, said(words).ends) == ((), ("muted",))


@pytest.mark.parametrize(
    ("words", "mute"),
    [
        ("cup mute", "cup"),
        ("con sord. (harmon)", "harmon"),
        ("Harmon-Dämpfer", "harmon"),
        ("plunger", "plunger"),
        ("bucket", "bucket"),
        ("Stopfdämpfer", "stopping"),
    ],
)
def test_the_kind_of_mute(words, mute):
    assert said(words).mute == mute


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("flz.", "flutter-tongue"),
        ("Flatterzunge", "flutter-tongue"),
        ("vib. 3–7/s", "vibrato"),
        ("wah-wah 2.5/s", "wah-wah"),
        ("frullato", "flutter-tongue"),
        ("gestopft", "stopped"),
        ("bouché", "stopped"),
        ("suoni chiusi", "stopped"),
        ("cuivré", "brassy"),
        ("schmetternd", "brassy"),
        ("Schalltrichter hoch", "bells-up"),
        ("pavillons en l’air", "bells-up"),
        ("campane in aria", "bells-up"),
        ("dolce, flz.", "flutter-tongue"),
    ],
)
def test_techniques_in_four_languages(words, key):
    assert said(words).turns_to == (key,)


def test_every_word_that_we_print_is_understood():
    """What a technique's look prints turns to it, and what cancels it ends it."""
    for technique in map(techniques.get, techniques.names()):
        for look in technique.looks:
            word = look.word.replace("{mute}", "straight")
            if word and not look.trill:
                assert technique.key in (*said(word).turns_to, *said(word).slides), word
            if look.cancel == PLAIN_END:
                assert said(look.cancel).plain
                assert not said(look.cancel).ends
                assert not look.word or look.trill or technique.key in said(look.named_end).ends, look.named_end
            elif look.cancel:
                assert technique.key in said(look.cancel).ends, look.cancel


@pytest.mark.parametrize("words", ["open", "offen", "ouvert", "aperto"])
def test_open_frees_the_bell_whatever_was_in_it(words):
    assert {"stopped", "muted", "closed"} <= set(said(words).ends)


@pytest.mark.parametrize("words", ["ord.", "nat.", "modo ordinario", "normale"])
def test_plain_playing_ends_everything(words):
    assert said(words).plain


@pytest.mark.parametrize("words", ["espr.", "a2", "Allegro con brio", "solo", "dolce", "Tempo I", "1.", "zu 2"])
def test_other_words_ask_for_nothing(words):
    assert said(words) == said("")


def test_a_glissando_waits_for_its_line():
    assert len(said("gliss.").slides) > 1
    assert said("harm. gliss., flz.") == (("flutter-tongue",), (), False, "", ("harmonic-gliss",))
