"""First lines as musicians type them who do not know the language: each message leads on to what is read."""

from __future__ import annotations

import pytest

from gesturesmith import instruments, techniques
from gesturesmith.checker.file import check_text
from gesturesmith.lang.format import format_text
from gesturesmith.lang.words import AND
from gesturesmith.source import Source, as_said

HORN = "instrument: horn\npitches: written\n"
TRUMPET = "instrument: trumpet\npitches: written\n"
TROMBONE = "instrument: trombone\n"
TRIGGER = "instrument: trombone-f\n"


def gesture(*lines: str, top: str = HORN) -> str:
    return f"{top}gesture a\n" + "".join(f"  {line}\n" for line in lines)


# A file as it was typed, and what its writer changes, one after the other: what stands there, what is put in its
# place, and the words of a message that say so where they are not those put in.
FILES = [
    # one technique or several
    (gesture("technique: gliss", "contour: G4 -- B4"), [("gliss", "lip-gliss")]),
    (gesture("technique: glissando", "contour: G4 -- G5"), [("glissando", "harmonic-gliss")]),
    (gesture("technique: gliss", "contour: B4 -- Bb4"), [("gliss", "hand-gliss")]),
    (gesture("technique: Glissando", "contour: G3 -- F4", top=TROMBONE), [("Glissando", "slide-gliss")]),
    (gesture("technique: gliss.", "contour: C5 -- G5", top=TRUMPET), [("gliss.", "half-valve")]),
    (gesture("contour: G4 gliss. C5"), [("G4 gliss. C5", "G4 -- C5", "technique: harmonic-gliss")]),
    (gesture("technique: portamento", "contour: G4 -- B4"), [("portamento", "lip-gliss")]),
    (gesture("technique: tr", "contour: C5"), [("technique: tr", "technique: valve-trill", "valve-trill")]),
    (gesture("technique: Triller", "contour: E5"), [("Triller", "lip-trill")]),
    (gesture("contour: C5 tr"), [("C5 tr", "C5 as valve-trill")]),
    (gesture("technique: Zungentremolo", "contour: C5"), [("Zungentremolo", "flutter-tongue")]),
    (gesture("technique: trem", "contour: C5"), [("trem", "tremolo")]),
    # how often, how long, before what
    (gesture("contour: C5 q, D5 q"), [("C5 q", "C5 for 1"), ("D5 q", "D5 for 1")]),
    (gesture("contour: C5 x 5"), [("C5 x 5", "C5\n  attacks: 5", "attacks: 5")]),
    (gesture("contour: triplet C5, D5, E5"),
     [("triplet C5, D5, E5", "C5 for 1/3, D5 for 1/3, E5 for 1/3", "C5 for 1/3, D5 for 1/3")]),
    (gesture("contour: Quintole C5, D5"),
     [("Quintole C5, D5", "C5 for 1/5, D5 for 1/5", "C5 for 1/5, D5 for 1/5")]),
    (gesture("contour: acciaccatura B4, C5"), [("acciaccatura B4", "B4 grace")]),
    (gesture("contour: B4 grace note, C5"), [("grace note", "grace", "`grace`")]),
    (gesture("mute: plunger", "contour: C5 +, D5 o", top=TRUMPET),
     [("+", "closed"), ("D5 o", "D5 open", "`open`")]),
    (gesture("technique: tap", "contour: C5"), [("tap", "bell-tap")]),
    (gesture("technique: mouthpiece", "contour: xC5"),
     [("technique: mouthpiece", "technique: mouthpiece-alone", "mouthpiece-alone")]),
    (gesture("technique: cuivre", "contour: C5", "dynamics: ff"), [("cuivre", "brassy")]),
    (gesture("technique: breath", "contour: G4"), [("breath", "air")]),
    (gesture("technique: singing", "contour: F3"), [("singing", "multiphonic")]),
    (gesture("technique: Flatterzunge", "contour: C5"), [("Flatterzunge", "flutter-tongue")]),
    (gesture("technique: flz.", "contour: C5"), [("flz.", "flutter-tongue")]),
    (gesture("technique: frullato", "contour: C5"), [("frullato", "flutter-tongue")]),
    (gesture("technique: flutter tongue", "contour: C5"), [("flutter tongue", "flutter-tongue")]),
    (gesture("technique: growl and flutter", "contour: C5"),
     [("and", "+", "joined with +"), ("flutter", "flutter-tongue")]),
    (gesture("contour: G4, C5 as flutter tongue"), [("flutter tongue", "flutter-tongue")]),
    (gesture("technique: gestopft", "contour: C5"), [("gestopft", "stopped")]),
    (gesture("technique: sons bouchés", "contour: C5"), [("sons bouchés", "stopped")]),
    (gesture("contour: C5 con sord."), [("C5 con sord.", "C5 as muted")]),
    (gesture("technique: con sordino", "contour: C5"), [("con sordino", "muted")]),
    (gesture("technique: mit Dämpfer", "contour: C5"), [("mit Dämpfer", "muted")]),
    (gesture("technique: plunger", "contour: C5", top=TRUMPET), [("technique: plunger", "mute: plunger")]),
    (gesture("technique: wah", "mute: plunger", "contour: C5", top=TRUMPET),
     [("technique: wah", "technique: wah-wah", "`wah-wah`")]),
    (gesture("mute: wah", "contour: C5", top=TRUMPET), [("mute: wah", "mute: harmon", "`harmon`")]),
    (gesture("mute: harmon stem out", "contour: C5", top=TRUMPET),
     [("mute: harmon stem out", "technique: stem-out", "`stem-out`")]),
    (gesture("technique: stem out", "contour: C5", top=TRUMPET), [("stem out", "stem-out")]),
    (gesture("technique: half stem", "contour: C5", top=TRUMPET), [("half stem", "stem-half-out")]),
    (gesture("technique: wah wah wah", "contour: C5", top=TRUMPET), [("wah wah wah", "wah-wah")]),
    (gesture("contour: C5 wah"), [("C5 wah", "C5 as wah-wah")]),
    (gesture("contour: C5 (ghost)"), [("C5 (ghost)", "C5 as ghost")]),
    (gesture("contour: C5 harmon", top=TRUMPET),
     [("contour: C5 harmon", "mute: harmon\n  contour: C5", "mute: harmon")]),
    (gesture("contour: as high as possible", "technique: half-valve"), [("as high as possible", "highest")]),
    (gesture("trill: semitone", "contour: C5"), [("semitone", "half")]),
    (gesture("trill: tone", "contour: C5"), [("tone", "whole")]),
    (gesture("trill: D", "contour: C5"), [("trill: D", "trill: D5", "D5")]),
    (gesture("technique: vibrato", "rate: fast", "contour: C5"), [("rate", "speed")]),
    (gesture("technique: vibrato", "speed: accel", "contour: C5"), [("accel", "slow < fast")]),
    (gesture("technique: vibrato", "speed: slow to fast", "contour: C5"), [("slow to fast", "slow < fast")]),
    (gesture("technique: vibrato", "width: wider", "contour: C5"), [("wider", "narrow < wide")]),
    (gesture("technique: shake", "speed: fast > slow", "contour: G5"), []),
    (gesture("sourdine: bol", "contour: C5", top=TRUMPET), [("sourdine", "mute"), ("bol", "cup")]),
    (gesture("technique: legato", "contour: G4, A4"),
     [("  technique: legato\n  contour: G4, A4", "  contour: G4 __ A4", "G4 __ A4")]),
    (gesture("vibrato: yes", "contour: C5"), [("vibrato: yes", "technique: vibrato")]),
    # instruments
    (gesture("contour: C5", top="instrument: French horn\npitches: written\n"), [("French horn", "horn")]),
    (gesture("contour: C5", top="instrument: Horn\npitches: klingend\n"),
     [("Horn", "horn"), ("klingend", "sounding")]),
    (gesture("contour: C5", top="instrument: horn, trumpet\npitches: written\n"), [("horn, trumpet", "horn")]),
    ("instrument: horn, trumpet\npitches: written\ngesture a\n  contour: C5\n",
     [("instrument: horn, trumpet\n", "", "a part of its own"),
      ("gesture", "part one\n  instrument: horn\npart two\n  instrument: trumpet\ngesture", "instrument"),
      ("contour: C5\n", "contour: C5\npassage p\n  one: a\n  two: a\n", "")]),
    (gesture("contour: C5 1, D5 1/2"), [("C5 1", "C5 for 1"), ("D5 1/2", "D5 for 1/2")]),
    (gesture("contour: C4 quarter note, D4 Achtel"),
     [("C4 quarter note", "C4 for 1"), ("D4 Achtel", "D4 for 1/2")]),
    (gesture("contour: C5 crescendo D5"), [("C5 crescendo D5", "C5, D5\n  dynamics: p < f", "dynamics: p < f")]),
    (gesture("contour: C5 ghost"), [("C5 ghost", "C5 as ghost")]),
    (gesture("technique: smear", "contour: C5"), []),
    (gesture("technique: spill", "contour: C5"), []),
    (gesture("technique: lift", "contour: C5"), []),
    (gesture("contour: C5", top="instrument: Bb trumpet\npitches: concert\n"),
     [("Bb trumpet", "trumpet"), ("concert", "sounding")]),
    (gesture("contour: C4", top="instrument: Tenorposaune\n"), [("Tenorposaune", "trombone")]),
    (gesture("contour: C4", top="instrument: Trombone basse\n"), [("Trombone basse", "bass-trombone")]),
    (gesture("contour: C5", top="strumento: corno\npitches: written\n"),
     [("strumento", "instrument"), ("corno", "horn")]),
    # notes
    (gesture("contour: c4, d4"), [("c4", "C4"), ("d4", "D4")]),
    (gesture("contour: ^B4"), [("^B4", "B^4")]),
    (gesture("contour: C5+"), [("C5+", "C^5")]),
    (gesture("contour: C5-, D5"), [("C5-", "Cv5")]),
    (gesture("contour: fis4, es5"), [("fis4", "F#4"), ("es5", "Eb5")]),
    (gesture("contour: sol4, mib5"), [("sol4", "G4"), ("mib5", "Eb5")]),
    (gesture("contour: c'', g'"), [("c''", "C5"), ("g'", "G4")]),
    (gesture("contour: D5 flat"), [("D5 flat", "Db5")]),
    (gesture("contour: (G4)"), [("(G4)", "xG4")]),
    (gesture("contour: (G4), A4"), [("(G4)", "G4 as ghost")]),
    (gesture("contour: C5 / E5"), [("C5 / E5", "C5, E5", "a comma")]),
    (gesture("contour: G4 to C5"), [("G4 to C5", "G4 -- C5")]),
    (gesture("contour: G4 to", "  C5"), [("G4 to", "G4 --", "G4 -- C5")]),
    (gesture("contour: C5., D5>"), [("C5.", "C5 staccato"), ("D5>", "D5 accent")]),
    (gesture("band: middle", "contour: tief, hoch"), [("tief", "low"), ("hoch", "high")]),
    (gesture("contour: C5 forte, D5 piano"), [("forte", "f"), ("piano", "p")]),
    # keys and numbers
    (gesture("contour: C5", "dynamics: forte crescendo fortissimo"),
     [("forte ", "f ", "write `f`"), ("crescendo", "<"), ("fortissimo", "ff")]),
    (gesture("Dauer: 4 Schläge", "contour: C5"), [("Dauer", "lasts"), ("Schläge", "beats")]),
    (gesture("durée: 4 temps", "nuance: doux", "contour: C5"),
     [("durée", "lasts"), ("temps", "beats"), ("nuance", "dynamics"), ("doux", "p")]),
    (gesture("durata: 2 tempi", "contour: C5"), [("durata", "lasts"), ("tempi", "beats")]),
    (gesture("lasts: quarter note", "contour: C5"), [("quarter note", "1 beat")]),
    (gesture("contour: C5", top=f"{HORN}title: Fog Signals\ncomposer: J. S. Example\n"), []),
    (gesture("contour: C5", top=f"{HORN}Titel: Nebelhörner\nKomponist: unbekannt\n"),
     [("Titel", "title"), ("Komponist", "composer")]),
    (gesture("contour: C5", top=f"{HORN}time signature: 4/4\n"), [("time signature", "meter")]),
    (gesture("contour: C5", top=f"{HORN}tempo: Andante 60\n"), [("Andante 60", '"Andante" 60')]),
    (gesture("contour: C5", top=f"{HORN}tempo: Allegro\n"), [("Allegro", '"Allegro" 60')]),
    (gesture("contour: C5", top=f"{HORN}clef: treble\n"), [("clef: treble\n", "", "leave this line out")]),
    (gesture("contour: G3", "fingering: T12"), [("T12", "T1-2", "1-2"), ("T1-2", "Bb 1-2")]),
    (gesture("contour: F4", "fingering: T0"), [("T0", "Bb 0")]),
    (gesture("contour: D5", "fingering: 1+2"), [("1+2", "1-2")]),
    (f"{HORN}gesture Fog Signals\n  contour: C5\n", [("Fog Signals", "Fog-Signals")]),
    (f"{HORN}Gesture beacon\n  contour: C5\n", [("Gesture", "gesture")]),
]  # fmt: skip


def said(text: str) -> list[str]:
    """Every sentence about a text: errors, then findings."""
    report = check_text(Source("first.gesture", text)).report
    return [e.message for e in report.errors] + [f.text for g in report.gestures for f in g.findings]


@pytest.mark.parametrize(("text", "edits"), FILES, ids=[f"{i}" for i in range(len(FILES))])
def test_every_message_leads_on(text, edits):
    for wrong, right, *offered in edits:
        sentences = said(text)
        assert any((offered or [right])[0] in sentence for sentence in sentences), (wrong, sentences)
        assert wrong in text
        text = text.replace(wrong, right, 1)
    report = check_text(Source("first.gesture", text)).report
    assert report.readable, [e.message for e in report.errors]


def test_there_are_enough_first_lines():
    assert len(FILES) >= 40


def offers(word: str, top: str = HORN) -> tuple[str, ...]:
    """The techniques that are offered for a word."""
    (error,) = check_text(
        Source("first.gesture", gesture(f"technique: {word}", "contour: G4", top=top))
    ).report.errors
    assert error.rule == "unknown-technique"
    return error.nearest


NAMES = sorted({(name, word) for name in techniques.names() for word in techniques.get(name).called})


def test_no_technique_has_the_name_of_another():
    own = {as_said(name): name for name in techniques.names()}
    assert [(name, word) for name, word in NAMES if own.get(as_said(word), name) != name] == []


def test_every_name_of_the_trade_leads_to_its_technique():
    tops = {"": HORN, "hand": HORN, "valves": HORN, "slide": TROMBONE, "trigger": TRIGGER, "valve-slide": TRUMPET}
    for name, word in NAMES:
        if word in techniques.names():
            continue
        found = offers(word.replace("’", " "), tops[techniques.get(name).needs])
        assert name in found, (name, word, found)


def test_a_word_with_a_slip_offers_no_technique_of_another_kind():
    """A letter left out of a name: what is offered is of the kind of something that is so called."""
    one = {word for _, word in NAMES if len(word) > 4 and not set(word.split()) & set(AND)}
    for word in one | {"gliss", "glisando", "stoped", "flutertongue"}:
        for slip in (word[:2] + word[3:], word[:-1]):
            if techniques.called(slip):
                continue  # a name of its own: "Plop"
            found = offers(slip)
            found = tuple(name for offer in found for name in offer.split(" + "))
            kinds = {techniques.get(name).layer for name in techniques.called(word) or found}
            assert {techniques.get(name).layer for name in found} <= kinds, (word, slip, found)


def test_a_glissando_is_explained_for_the_instrument():
    """Each way of it that the instrument has, with what moves; none that it has not."""
    for top, there, missing in ((HORN, "hand-gliss", "slide-gliss"), (TROMBONE, "slide-gliss", "hand-gliss")):
        (sentence,) = said(gesture("technique: gliss", "contour: G4 -- C5", top=top))
        assert there in sentence
        assert missing not in sentence
        for name in offers("gliss", top):
            assert f"`{name}` ({techniques.get(name).means})" in sentence


def test_techniques_that_share_a_name_say_how_they_go():
    """Where one name has several meanings, each of them is told apart."""
    for word in {as_said(word) for _, word in NAMES}:
        found = techniques.called(word)
        if len(found) > 2 and word not in techniques.names():
            assert all(techniques.get(name).means for name in found), (word, found)


def test_every_name_of_an_instrument_leads_to_it():
    for word in instruments.spoken():
        found = instruments.called(word)
        assert found
        assert set(found) <= set(instruments.names())
    for word, first in (("French horn", "horn"), ("2 horns", "horn"), ("Horn 3", "horn"), ("F tuba", "tuba-f")):
        assert (instruments.called(word) or ("",))[0] == first


def test_the_list_for_an_unknown_instrument_is_short():
    (sentence,) = said(gesture("contour: G4", top="instrument: saxophone\npitches: written\n"))
    assert "`horn`" in sentence
    assert sentence.count("`") <= 20


def test_a_plain_title_is_read_as_it_was_typed():
    text = f"{HORN}title: Étude n° 2  (fog – sea) in B♭!  # draft\ncomposer: J. S. Example\n" + gesture(
        "contour: G4", top=""
    )
    checked = check_text(Source("first.gesture", text))
    settings = checked.reading.piece.settings
    assert settings is not None
    assert (settings.title, settings.composer) == ("Étude n° 2  (fog – sea) in B♭!", "J. S. Example")
    formatted = format_text(Source("first.gesture", text))
    assert 'title: "Étude n° 2  (fog – sea) in B♭!"  # draft\ncomposer: "J. S. Example"\n' in formatted
    assert format_text(Source("first.gesture", formatted)) == formatted


def test_a_title_that_is_no_plain_words_still_needs_its_quotes():
    for value in ('Fog "Signals"', "'Fog'", "Fog # Signals", "= Fog", "Fog | Signals"):
        report = check_text(Source("first.gesture", f"title: {value}\n" + gesture("contour: G4"))).report
        assert not report.readable, value
