"""The leaves of the score: tied heads, beams, rests in free time, and where pages may end."""

from __future__ import annotations

import re

import pytest


def ly(engraved, text: str, name: str = "one") -> str:
    return re.sub(r"\s+", " ", engraved(text)[name].ly)


def gesture(*lines: str) -> str:
    return "\n  ".join(("gesture one", *lines)) + "\n"


def passage(text: str, play: str, *lines: str) -> str:
    return text + "\n  ".join(("passage all", *lines, f"play: {play}")) + "\n"


def test_a_tied_head_looks_like_the_first(engraved):
    assert ly(engraved, gesture("contour: xC5", "lasts: 5 beats")).count(r"\gsX c''") == 2
    low = ly(engraved, gesture("technique: split-attack", "band: low", "contour: low", "lasts: 5 beats"))
    assert low.count(r"\gsHeight #-4 \gsX") == 2


def test_slashes_at_every_tied_note_and_edges_where_it_ends(engraved):
    made = ly(engraved, gesture("technique: flutter-tongue + fall", "contour: C5", "lasts: 5 beats"))
    assert made.count(r"\gsFlutter") == 2
    assert made.index("~") < made.index(r"\gsFall")
    bent = ly(engraved, gesture("technique: bend", "contour: C5", "lasts: 5 beats"))
    assert bent.index("~") < bent.index(r"\gsBend")


def test_a_fermata_stands_over_the_last_of_tied_notes(engraved):
    made = ly(engraved, gesture("contour: C5 fermata", "lasts: 5 beats"))
    assert made.index("~") < made.index("fermata")
    assert made.count("fermata") == 1


def test_a_noise_is_over_at_once(engraved):
    """A slap of five beats is one note value and rests, without a tie."""
    made = ly(engraved, gesture("technique: slap-tongue", "contour: xC5", "lasts: 5 beats"))
    assert "~" not in made
    assert re.search(r"c''1 .* r4", made)
    assert "~" in ly(engraved, gesture("technique: air", "contour: C5", "lasts: 5 beats"))


def test_silence_in_seconds_is_a_rest(engraved):
    made = ly(engraved, gesture("contour: C5, r@1, D5@2", "lasts: 3 s"))
    assert len(re.findall(r"\br4", made)) == 1


def test_in_free_time_a_line_stops_at_its_own_place(engraved):
    """Not in a grace note, which would take space from the time before it."""
    free = ly(engraved, gesture("contour: C5 -- D5@1 -- E5", "lasts: 3 s"))
    assert "afterGrace" not in free
    assert re.search(r"\\gsStops e''4 \* 1/16", free)
    assert "afterGrace" in ly(engraved, gesture("contour: C5 -- E5", "lasts: 3 beats"))


def test_points_between_attacks_stand_under_the_beam(engraved):
    """LilyPond cannot beam over a quarter note: a point without an attack is as short as its neighbours."""
    made = ly(engraved, gesture("contour: C5 -- G5@2 -- E4@3 -- C4", "attacks: 9 slowing", "lasts: 4 beats"))
    inside = made[made.index(" [") : made.index(" ]")]
    assert r"\gsStemless" in inside
    assert not re.search(r"'+4\b", inside)


def test_notes_of_one_beat_are_beamed_across_what_is_played(engraved):
    made = ly(engraved, passage("", "C5 for 1/2, D5 for 1/2, E5 for 1", "meter: 2/4"), "all")
    assert re.search(r"c''8 \[ d''8 \] e''4", made)


def test_where_a_page_should_not_end(engraved):
    """Not at a bar line during playing; at a rest of two seconds it may."""
    text = "tempo: 60\n" + gesture("contour: C5", "lasts: 4 beats")
    made = ly(
        engraved,
        "instrument: horn\npitches: written\n" + passage(text, "one, one, rest 4, one", "meter: 4/4"),
        "all",
    )
    assert made.count(r"\gsPlaysOn") == 1
    short = ly(
        engraved,
        "instrument: horn\npitches: written\n" + passage(text, "one, rest 1, C5 for 3, one", "meter: 4/4"),
        "all",
    )
    assert short.count(r"\gsPlaysOn") == 2


def test_a_fingering_is_for_a_pitch(engraved):
    """None under a height; a complete row if it belongs to the sign."""
    heights = ly(
        engraved,
        "instrument: horn\npitches: written\nfingerings: all\n"
        + gesture("technique: split-attack", "band: middle", "contour: high, highest"),
    )
    assert r"\gsFingering" not in heights
    quarters = gesture("technique: quarter-tones", "contour: F#^4 __ G4 __ Ev4 __ F#^4", "lasts: 4 beats")
    assert ly(engraved, quarters).count(r"\gsFingering") == 4


def test_heads_without_values_are_not_counted_in_threes(engraved):
    points = gesture("technique: lip-gliss", "contour: G4 -- C5@5/3 -- G5@3", "lasts: 4 beats")
    assert r"\omit TupletNumber" in ly(engraved, points)
    values = gesture("technique: lip-gliss", "contour: G4 -- C5@5/3, G5@3", "lasts: 4 beats")
    assert r"\omit TupletNumber" not in ly(engraved, values)


@pytest.mark.parametrize(
    ("contour", "count"),
    [
        ("F3, F3, F3", 1),
        ("F3, r, F3", 2),  # what is below nothing is the usual position, after a rest as well
        ("F3, C4, F3", 3),
        ("F3 __ C4", 2),
        ("F3 -- F3@2", 1),
    ],
)
def test_a_position_stands_at_every_note_that_wants_it(contour: str, count: int, engraved) -> None:
    """Below a note if the usual one is not meant: F3 and C4 are also in 6, besides 1 and 3."""
    text = f"instrument: trombone\ntempo: 60\ngesture one\n  fingering: 6\n  contour: {contour}\n  lasts: 3 beats\n"
    assert engraved(text)["one"].ly.count(r'\gsFingering "6"') == count


def test_a_triplet_of_one_note_says_what_it_is(engraved):
    """No bracket fits over it, and a 3 alone looks like a finger or a slide position."""
    head = "instrument: trombone\npitches: written\npassage one\n  play: "
    assert engraved(f"{head}D3 for 2/3, rest 2, B3 for 2/3\n")["one"].ly.count("calc-fraction-text") == 2
    three = "contour: D3, F3@1/3, A3@2/3\n  lasts: 1 beat\n"
    made = engraved(f"instrument: trombone\npitches: written\ngesture one\n  {three}")["one"].ly
    assert r"\tuplet" in made
    assert "calc-fraction-text" not in made


def test_pitches_in_free_time_make_tuplets_and_beams(engraved):
    """Each by itself had no note value, and its length over it; those of a box keep to it."""
    fifths = ", ".join(f"{name} for 1/5" for name in ("C5", "D5", "E5", "F5", "G5"))
    head = "instrument: horn\npitches: written\n"
    box = f"box ring\n  play: {fifths}, C5 for 1/2, D5 for 1/2, rest 1\n  lasts: 20 s\n"
    made = engraved(f"{head}{box}passage one\n  play: {fifths}, A4 for 1/2, ring, B4 for 1/2\n")["one"].ly
    assert "gsLength" not in made
    assert made.count(r"\tuplet 5/4") == 2
    assert " ".join(made.split()).count("'8 [") == 1


def test_a_pitch_after_a_box_is_timed_from_itself(engraved):
    """What a box lasts in seconds has no note value, as little as what would begin in the middle of it."""
    head = "instrument: horn\npitches: written\ntempo: 56\n"
    box = "box ring\n  play: C5 for 1/3, D5 for 2/3, rest 1\n  lasts: 20 s\n"
    made = engraved(f"{head}{box}passage one\n  play: ring, B4 for 4\n")["one"].ly
    assert "b'1" in made
    assert "~" not in made


def test_a_tuplet_at_the_end_leaves_the_repeat_sign(engraved):
    text = "instrument: horn\npitches: written\npassage one\n  play: C5 for 1/3, D5 for 2/3\n  repeat: 2\n"
    made = engraved(text)["one"].ly
    assert r"\tuplet" in made
    assert r"\bar" not in made


def test_a_head_as_short_as_its_repeats_has_no_strokes(engraved):
    """A quarter of sixteenths off the beat is tied from three sixteenths to one, which is one repeat."""
    text = "meter: 4/4\ngesture a\n  contour: C5 sixteenths\npassage p\n  play: D5 for 1/4, a, D5 for 3/4\n"
    assert engraved(f"instrument: horn\npitches: written\n{text}")["p"].ly.count("gsStrokes") == 1


def test_a_fake_tone_has_no_fingering(engraved):
    """It stands between the harmonics: any fingering would be a wrong one."""
    text = "instrument: trombone\npitches: written\ngesture one\n  technique: {}\n  contour: {}, {}\n"
    assert r"\gsFingering" not in engraved(text.format("factitious", "xEb2", "xD2"))["one"].ly
    assert r"\gsFingering" not in engraved(text.format("pedal", "Bb1", "A1"))["one"].ly


@pytest.mark.parametrize(
    ("accidentals", "printed"),
    [("stein", r"\gsEighth #1/8 a'4"), ("arrows", r"a'4 \gsCents #25")],
)
def test_an_eighth_tone_is_an_arrow_or_its_cents(engraved, accidentals, printed):
    text = f"instrument: horn\npitches: written\naccidentals: {accidentals}\ngesture one\n  contour: A/4, C#\\5\n"
    music = " ".join(engraved(text)["one"].ly.split())
    assert printed in music
    assert (r"\gsEighth #-1/8 cs''4" in music) is (accidentals == "stein")
