"""Completion: all of the language is offered, under any of its names, and what is offered can be read."""

from __future__ import annotations

import pytest
from editing.asking import BEFORE, HEAD, completed, taken, words
from sampling import sample

from gesturesmith import instruments, techniques
from gesturesmith.editing.complete import CompletionOffer
from gesturesmith.lang import meanings, parse, values
from gesturesmith.lang import words as fixed
from gesturesmith.lang.keys import IN_BLOCK, SETTINGS, Key
from gesturesmith.source import Source

PLACES: dict[str, dict[str, Key]] = {"": SETTINGS, **IN_BLOCK}
EVERY = [(block, name, key) for block, keys in PLACES.items() for name, key in keys.items()]
# What a composer writes freely.
FREE = (values.text, values.title)
# Offers after which something must follow, and what a reader says as long as it does not.
UNFINISHED = {
    "partial": "unknown-word", "accelerando": "bad-change", "ritardando": "bad-change", "mark": "bad-change",
}  # fmt: skip


@pytest.mark.parametrize("block", PLACES)
def test_every_key_is_offered_where_it_belongs(block: str):
    there = completed(f"{BEFORE[block]}|").offers
    assert {o.word for o in there if o.kind == "key"} == set(PLACES[block])
    assert all(o.help and "\n" not in o.help for o in there)
    blocks = {o.word for o in there if o.kind == "block"}
    assert blocks == (set() if block else set(fixed.BLOCKS))


@pytest.mark.parametrize(("block", "name", "key"), EVERY, ids=[f"{b or 'settings'}-{n}" for b, n, _ in EVERY])
def test_every_key_has_values_to_choose_from(block: str, name: str, key: Key):
    before = f"{BEFORE[block]}{name}: "
    offers = completed(f"{before}|").offers
    assert bool(offers) != (key.read in FREE), name
    for offer in offers:
        text = taken(f"{before}|", offer)
        assert text == before + offer.insert
        wrong = [e for e in parse(Source("", text))[1] if e.span.line == text.count("\n") + 1]
        said = UNFINISHED.get(offer.word, "incomplete")
        goes_on = offer.insert.endswith(" ") or offer.word in key.words
        assert not wrong or (goes_on and {e.rule for e in wrong} == {said}), (offer, wrong)


@pytest.mark.parametrize(("block", "name", "key"), EVERY, ids=[f"{b or 'settings'}-{n}" for b, n, _ in EVERY])
def test_every_fixed_word_of_a_value_is_offered(block: str, name: str, key: Key):
    for word, means in key.words.items():
        first = words(f"{BEFORE[block]}{name}: {word[:1]}|") if word[:1].isalpha() else []
        later = words(f"{BEFORE[block]}{name}: 9 {word[:1]}|") if word[:1].isalpha() else [word]
        assert word in (*first, *later), word
        assert means, word


@pytest.mark.parametrize(
    ("said", "known"),
    [
        (meanings.PITCHES, fixed.PITCHES),
        (meanings.HEIGHT_LOOKS, fixed.HEIGHT_LOOKS),
        (meanings.ACCIDENTALS, fixed.ACCIDENTALS),
        (meanings.FINGERINGS, fixed.FINGERINGS),
        (meanings.WORDINGS, fixed.WORDINGS),
        (meanings.PAPERS, fixed.PAPERS),
        (meanings.REGISTERS, fixed.REGISTERS),
        (meanings.HEIGHTS, (*fixed.HEIGHTS, *fixed.EXTREMES)),
        (meanings.LEVELS, fixed.LEVELS),
        (meanings.POINT_WORDS, fixed.POINT_WORDS),
        (meanings.GROWTH, fixed.GROWTH),
        (meanings.MUTES, fixed.MUTES),
        (meanings.NOTEHEADS, fixed.NOTEHEADS),
        (meanings.SECONDS, fixed.SECONDS),
        (meanings.SPEEDS, fixed.SPEEDS),
        (meanings.WIDTHS, fixed.WIDTHS),
        (meanings.SHAPES, fixed.SHAPES),
        (meanings.FINGERS, ("auto", "held", *fixed.SIDES, *fixed.SHADES)),
        (meanings.YES_NO, fixed.YES_NO),
        (meanings.ORDERS, fixed.ORDERS),
        (meanings.PACES, fixed.PACES),
        (meanings.CHOICES, fixed.CHOICES),
        (meanings.PLAYERS, fixed.PLAYERS),
        (meanings.LINE_SIGNS, fixed.LINES),
        (meanings.BLOCKS, fixed.BLOCKS),
        (meanings.BEATS, (*fixed.BEATS, "dotted")),
    ],
)
def test_every_word_has_a_meaning_and_no_other_has(said, known):
    assert set(said) == set(known)


def test_techniques_are_offered_wherever_one_may_stand():
    every = set(techniques.names())
    for before in ("technique: ", "technique: bend + ", "fallback: ", "contour: C5 as ", "contour: C5 as air + "):
        assert set(words(f"{BEFORE['gesture']}{before}|")) == every, before
    assert set(words(f"{BEFORE['gesture']}contour: C5 as air -- D5 without |")) == every
    assert set(words(f"{BEFORE['passage']}play: C5 for 2 as |")) == every


@pytest.mark.parametrize("name", techniques.names())
def test_a_technique_is_found_by_all_its_names(name: str):
    """In four languages, whole, and where a key is expected with the key before it."""
    spoken = techniques.names_of(name)
    for said in (spoken[0], *sample(spoken[1:], 3)):
        assert name in words(f"{BEFORE['gesture']}technique: {said}|"), said
        offers = completed(f"{BEFORE['gesture']}{said}|").offers
        assert f"technique: {name}" in [o.word for o in offers], said


@pytest.mark.parametrize("name", instruments.names())
def test_an_instrument_is_found_by_all_its_names(name: str):
    for said in instruments.names_of(name):
        assert name in words(f"instrument: {said}|"), said
    assert f"instrument: {name}" in words(f"{instruments.get(name).part_name.replace('♭', 'b')}|")


# What somebody types who has not read the manual, where, and what leads on.
NEWCOMERS = [
    ("technique: gliss|", "harmonic-gliss"),
    ("technique: gliss|", "half-valve"),
    ("gliss|", "technique: harmonic-gliss"),
    ("contour: C5 gliss|", "-- (harmonic-gliss)"),
    ("technique: wah|", "wah-wah"),
    ("mute: wah|", "plunger"),
    ("mute: wah|", "harmon"),
    ("wah|", "technique: wah-wah"),
    ("contour: c4|", "C4"),
    ("c4|", "contour: C4"),
    ("contour: G4, fis|", "F#5"),
    ("French horn|", "instrument: horn"),
    ("contour: do4|", "C4"),
    ("tr|", "trill"),
    ("technique: tr|", "valve-trill"),
    ("contour: C5 tr|", "as lip-trill"),
    ("lasts: quarter note|", "1 beat"),
    ("lasts: quar|", "1 beat"),
    ("lasts: semibreve|", "4 beats"),
    ("quarter note|", "lasts: 1 beat"),
    ("contour: C5 quarter note|", "for 1"),
    ("contour: C5 for half|", "2"),
    ("technique: smear|", "smear"),
    ("smear|", "technique: smear"),
    ("contour: C5 smear|", "as smear"),
    ("con sordino|", "mute: straight"),
    ("mute: con sordino|", "straight"),
    ("technique: con sordino|", "muted"),
    ("contour: C5 as con sord|", "muted"),
    ("Flatterzunge|", "technique: flutter-tongue"),
    ("technique: Flatterz|", "flutter-tongue"),
    ("contour: C5 Flatterzunge|", "as flutter-tongue"),
    ("dynamics: piano|", "p"),
    ("dynamics: p cresc|", "<"),
    ("Dämpfer|", "mute"),
    ("durée|", "lasts"),
    ("tecnique|", "technique"),
    ("dynamics: pian|", "pp"),
]


@pytest.mark.parametrize(("line", "wanted"), NEWCOMERS)
def test_what_newcomers_type_leads_on(line: str, wanted: str):
    assert wanted in words(BEFORE["gesture"] + line)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("French horn|", "instrument: horn"),
        ("instrument: French h|", "horn"),
        ("instrument: Posaune|", "trombone"),
        ("instrument: Cor en|", "horn"),
        (f"{HEAD}gliss|", "gesture … technique: harmonic-gliss"),
        (f"{HEAD}c4|", "gesture … contour: C4"),
        ("tempi|", "tempo"),
        ("pitches: klingend|", "sounding"),
        (f"{BEFORE['passage']}play: Fog|", "call"),
        (f"{BEFORE['passage']}play: c4|", "C4"),
        (f"{BEFORE['passage']}play: call, C5 for 1 Flatterz|", "as flutter-tongue"),
        (f"{BEFORE['passage']}play: accelerando |", "to"),
        (f"{BEFORE['passage']}play: accelerando to 96 |", "over"),
        (f"{BEFORE['passage']}play: call |", "up"),
        (f"{BEFORE['passage']}play: call up |", "M2"),
        (f"{BEFORE['passage']}play: rest 2 |", "fermata"),
        (f"{HEAD}part one\npassage p\n  |", "one"),
        (f"{HEAD}part one\npassage p\n  one: c|", "call"),
        (f"{BEFORE['gesture']}contour: C5 ~~ |", "growing"),
        (f"{BEFORE['gesture']}contour: C5 ~~ D5,\n    E5 |", "staccato"),
        (f"{BEFORE['gesture']}contour: random 7 |", "seed"),
        (f"{BEFORE['gesture']}allow: outside|", "outside-range"),
        (f"{BEFORE['exercises']}from: |", "call"),
        (f"{BEFORE['box']}play: |", "call"),
    ],
)
def test_other_places(text: str, wanted: str):
    assert wanted in words(text)


@pytest.mark.parametrize(
    "text",
    [
        f'{BEFORE["gesture"]}text: "ca|',
        f'{BEFORE["gesture"]}text: "ca"|',
        "# inst|",
        f"{BEFORE['gesture']}technique: bend  # ben|",
        f"{HEAD}gesture |",
        f"{HEAD}gesture ca|",
        f'{HEAD}gesture ca "Ti|',
        f"{BEFORE['gesture']}contour: C5 say |",
        f"{BEFORE['gesture']}nothing: |",
    ],
)
def test_nothing_is_offered_where_a_composer_writes_freely(text: str):
    assert words(text) == []


def test_a_passage_is_not_offered_to_itself():
    assert "here" not in words(f"{BEFORE['passage']}play: |")


def test_an_offer_that_a_name_of_the_trade_led_to_says_so():
    found = {o.word: o.said for o in completed(f"{BEFORE['gesture']}technique: Flatterz|").offers}
    assert found == {"flutter-tongue": "Flatterzunge"}


def test_several_words_are_replaced_together():
    before = f"{BEFORE['gesture']}lasts: quarter note|"
    offer = completed(before).offers[0]
    assert taken(before, offer).endswith("\n  lasts: 1 beat")
    before = f"{HEAD}gliss|"
    offer = next(o for o in completed(before).offers if o.word.endswith("harmonic-gliss"))
    assert taken(before, offer) == f"{HEAD}gesture new\n  technique: harmonic-gliss\n  "


def test_the_likeliest_comes_first():
    def first(text: str) -> CompletionOffer:
        return completed(text).offers[0]

    assert first(f"{BEFORE['gesture']}technique: be|").word == "bell-tap"
    assert first(f"{BEFORE['gesture']}dynamics: pp|").word == "pp"
    assert first(f"{BEFORE['gesture']}technique: growl|").word == "growl"
    assert first("instrument: Horn in F|").word == "horn"


@pytest.mark.parametrize(
    "before", ["gesture here\n  contour: C5 tr", "passage here\n  play: C5 tr", "gesture here\n  technique: tr"]
)
def test_what_the_trade_calls_exactly_so_comes_before_what_only_begins_so(before: str):
    """*tr* stands for a trill (Gould, *Behind Bars*)."""
    found = [word.removeprefix("as ") for word in words(f"{HEAD}{before}|")]
    trills = {name for name in found if name.endswith("-trill")}
    assert set(found[: len(trills)]) == trills
    assert "tremolo" in found[len(trills) :]
    assert words(f"{HEAD}gesture here\n  mute|")[0] == "mute"  # its own name comes before those of others


def test_a_gesture_begun_by_its_first_note_goes_on_in_that_line():
    (offer,) = (one for one in completed(f"{HEAD}c4|").offers if one.word.startswith("gesture"))
    assert taken(f"{HEAD}c4|", offer) == f"{HEAD}gesture new\n  contour: C4"
