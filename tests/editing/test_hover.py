"""Help at the cursor: nothing in the language is without it, and its texts are those of the language page."""

from __future__ import annotations

import re

import pytest
from editing.asking import BEFORE, HEAD, cursor
from sampling import sample

from gesturesmith import instruments, rules, techniques
from gesturesmith.editing.hover import Help, hover
from gesturesmith.lang import meanings, words
from gesturesmith.lang.keys import IN_BLOCK, SETTINGS, Key
from gesturesmith.source import Span

PLACES: dict[str, dict[str, Key]] = {"": SETTINGS, **IN_BLOCK}
EVERY = [(block, name, key) for block, keys in PLACES.items() for name, key in keys.items()]


def helped(text: str) -> Help | None:
    return hover(*cursor(text))


def on(text: str) -> Help:
    found = helped(text)
    assert found is not None, text
    return found


@pytest.mark.parametrize(("block", "name", "key"), EVERY, ids=[f"{b or 'settings'}-{n}" for b, n, _ in EVERY])
def test_every_key_has_help_with_the_text_of_the_language_page(block: str, name: str, key: Key):
    found = on(f"{BEFORE[block]}{name[:1]}|{name[1:]}: ")
    assert found.title == name
    assert key.value in found.text
    for word, means in key.words.items():
        last = len(word) - len(word.split()[-1])
        said = on(f"{BEFORE[block]}{name}: {word[:last]}|{word[last:]}")
        assert said.title == word
        assert means in said.text, word


@pytest.mark.parametrize("name", techniques.names())
def test_every_technique_has_help(name: str):
    for before in ("technique: ", "technique: air + ", "contour: C5 as ", "contour: C5 as air -- D5 without "):
        found = on(f"{BEFORE['gesture']}{before}|{name}")
        assert (found.title, found.more) == (techniques.get(name).title["en"], name)
        assert techniques.get(name).texts["en"] in found.text


@pytest.mark.parametrize("name", instruments.names())
def test_every_instrument_has_help(name: str):
    found = on(f"instrument: |{name}")
    assert found.title == instruments.get(name).name
    assert instruments.get(name).part_name in found.text


@pytest.mark.parametrize("name", sample(rules.names(), 6))
def test_rules_have_help(name: str):
    assert rules.get(name).code in on(f'{BEFORE["gesture"]}allow: |{name} "why"').title


def test_the_range_of_the_horn_is_written_as_the_part_has_it():
    """The horn in F sounds a fifth below what is written: G. Adler, The Study of Orchestration, gives it as written
    F#2 to C6."""
    assert "F#2 to C6" in on("instrument: |horn").text


POINT_WORDS = sorted(words.POINT_WORDS | {*words.HEIGHTS, *words.EXTREMES, "r", "as", "for", "without", "say"})


@pytest.mark.parametrize("word", POINT_WORDS)
def test_every_word_of_a_contour_has_help(word: str):
    before = "" if word in (*words.HEIGHTS, *words.EXTREMES, "r") else "C5 "
    assert on(f"{BEFORE['gesture']}contour: {before}|{word}").title == word


@pytest.mark.parametrize("sign", words.LINES)
def test_every_line_has_help(sign: str):
    assert on(f"{BEFORE['gesture']}contour: C5 |{sign} D5").text == words.LINE_MEANINGS[words.LINES[sign]]


@pytest.mark.parametrize("form", meanings.POINTS, ids=lambda form: form.written)
def test_every_form_of_a_point_explains_its_words(form: meanings.Form):
    for word in form.words:
        assert form.means in on(f"{BEFORE['gesture']}contour: C5 |{word}").text


@pytest.mark.parametrize("form", meanings.ENTRIES, ids=lambda form: form.written)
def test_every_entry_explains_its_words(form: meanings.Form):
    first = form.words[0]
    for word in form.words:
        before = "" if word == first or word == "ritardando" else f"{first} "
        assert form.means in on(f"{BEFORE['passage']}play: {before}|{word}").text


def test_every_example_of_a_form_is_on_its_row():
    """A row says what it explains: its words are in what is written."""
    for form in (*meanings.POINTS, *meanings.ENTRIES):
        shown = re.sub(r"[^\w-]+", " ", form.written).split()
        listed = re.sub(r"[^\w-]+", " ", form.means).split()
        missing = set(form.words) - {*shown, *listed, *words.LEVELS}
        assert not missing, form.written


@pytest.mark.parametrize(
    ("text", "title"),
    [
        (f"{BEFORE['passage']}play: ca|ll up 2", "gesture call"),
        (f"{BEFORE['passage']}play: call |up 2", "up"),
        (f"{BEFORE['passage']}play: |rest 2", "rest"),
        (f"{BEFORE['passage']}play: C4 for 2 |accent", "accent"),
        (f"{BEFORE['passage']}play: C4 for 2 as |growl", "Growl"),
        (f"{BEFORE['passage']}play: key Eb |major", "major"),
        (f"{BEFORE['exercises']}from: |call", "gesture call"),
        ("instrument: horn\n\nges|ture a", "gesture"),
        (f"{HEAD}part one\npassage p\n  |one: call", "one"),
        (f"{BEFORE['gesture']}contour: C5 --|D5", "D5"),
        (f"{BEFORE['gesture']}contour: C5|-- D5", "--"),
        (f"{BEFORE['gesture']}contour: C5 -- |D5@2", "D5"),
        (f"{BEFORE['gesture']}contour: C5 -- D5@|2", "@2"),
        (f"{BEFORE['gesture']}contour: |35%, low", "35%"),
        (f"{BEFORE['gesture']}contour: F |0:11", "0:11"),
        (f"{BEFORE['gesture']}contour: C5 --\n    D5 |staccato", "staccato"),
    ],
)
def test_other_places(text: str, title: str):
    assert on(text).title == title


def test_a_name_shows_the_lines_of_its_block():
    text = on(f"{BEFORE['passage']}play: ca|ll").text
    assert text == '```gesture\ngesture call "Fog call"\n  contour: C5\n```'


@pytest.mark.parametrize(
    "text",
    [
        "# instr|ument",
        f'{BEFORE["gesture"]}text: "te|xt"',
        f"{BEFORE['gesture']}technique: bend  # |bend",
        f"{BEFORE['gesture']}technique: |nonsense",
        f"{BEFORE['gesture']}nonsense|: 4",
        f"{BEFORE['gesture']}|",
        f'{HEAD}gesture a "Ti|tle"',
    ],
)
def test_nothing_is_said_where_there_is_nothing_to_say(text: str):
    assert helped(text) is None


def test_the_span_is_that_of_the_word():
    assert on(f"{HEAD}gesture a\n  contour: C5 acc|ent, D5").span == Span(8, 15, 21)
