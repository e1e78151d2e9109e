"""Levels and hairpins at their own times."""

from __future__ import annotations

import re

import pytest


def dynamics_of(engraved, dynamics: str, contour: str = "C5", lasts: int = 4) -> str:
    return engraved(f"gesture one\n  contour: {contour}\n  lasts: {lasts} beats\n  dynamics: {dynamics}\n")[
        "one"
    ].ly


def compact(ly: str) -> str:
    return re.sub(r"\s+", " ", ly)


def test_at_the_notes(engraved):
    ly = compact(dynamics_of(engraved, "p < f@2", "C5, D5@2"))
    assert r"c''2 \p \< d''2 \f" in ly


def test_at_the_very_end_after_the_note(engraved):
    ly = compact(dynamics_of(engraved, "p < f"))
    assert r"\afterGrace 63/64 c''1 \p \< { \gsLevelAtEnd s8 \f }" in ly


def test_under_the_last_stroke_where_it_has_no_length(engraved):
    """After a click it would be before a rest, giving a level to silence; the hairpin ends there too."""
    clicks = (
        "gesture one\n  technique: valve-clicks\n  band: low\n  contour: low, high@1/2{more}\n  lasts: 2 beats\n"
    )
    ly = compact(engraved(clicks.format(more="") + "  dynamics: mf < ff\n")["one"].ly)
    assert r"b'4. \ff" in ly
    assert r"\gsLevelAtEnd" not in ly
    assert r"\gsShortHairpin #4" in ly
    ly = compact(engraved(clicks.format(more=", C4@1 as ordinary") + "  dynamics: mf < ff\n")["one"].ly)
    assert r"\gsLevelAtEnd" in ly


def test_inside_a_note_on_a_track_of_skips(engraved):
    ly = compact(dynamics_of(engraved, "p < f@3/2 > p@3"))
    assert r"{ c''1 } { \gsShortHairpin #2 s4 * 3/2 \p \< \gsShortHairpin #2 s4 * 3/2 \f \> s4 \p }" in ly


def test_from_and_to_nothing(engraved):
    ly = compact(dynamics_of(engraved, "n < f@2 > n", "C5, D5@2"))
    assert r"\gsNiente \gsShortHairpin #1 c''2 \<" in ly
    assert r"\gsNiente \gsShortHairpin #1 \afterGrace 63/64 d''2 \f \> { s8 \! }" in ly


def test_nothing_alone_is_written_out(engraved):
    assert r'\gsLevel "n"' in dynamics_of(engraved, "n")


def test_a_hairpin_of_two_beats_or_less_or_under_one_note_asks_for_room(engraved):
    """For the letters at its ends; niente has none. Without it two of them under a whole note alone in its bar
    would be too small."""
    ly = dynamics_of(engraved, "n < mf@1/2 > pp@3 < f")
    assert re.findall(r"gsShortHairpin #(\d)", ly) == ["2", "4", "3"]
    ly = dynamics_of(engraved, "n < mf@1/2 > pp@3 < f", "C5, D5@2")
    assert re.findall(r"gsShortHairpin #(\d)", ly) == ["2", "3"]
    assert re.findall(r"gsShortHairpin #(\d)", dynamics_of(engraved, "p < mf@2 > p")) == ["3", "3"]


def test_two_levels_close_together_keep_apart(engraved):
    text = (
        "gesture a\n  contour: C5\n  lasts: 4 beats\n  dynamics: f > p\ngesture b\n  contour: C5\n  dynamics: pp\n"
    )
    assert r"\gsEndLevel" in engraved(text + "passage one\n  play: a, b\n")["one"].ly
    assert r"\gsEndLevel" not in engraved(text + "passage one\n  play: a, rest 1, b\n")["one"].ly


def test_one_level_where_both_would_say_the_same(engraved):
    """The hairpin continues to the next note; after a rest, or at a head where a line stops, each has its own."""
    loud = "  lasts: 4 beats\n  dynamics: p < f\ngesture b\n  contour: C5\n  dynamics: f\n"
    text = f"gesture a\n  contour: C5\n{loud}"
    assert compact(engraved(f"{text}passage one\n  play: a, b\n")["one"].ly).count(r"\f ") == 1
    assert compact(engraved(f"{text}passage one\n  play: a, rest 1, b\n")["one"].ly).count(r"\f ") == 2
    text = f"gesture a\n  technique: half-valve\n  contour: xC5 ~~ xG4\n{loud}"
    assert compact(engraved(f"{text}passage one\n  play: a, b\n")["one"].ly).count(r"\f ") == 2


SHARED = """meter: 4/4
gesture swell
  contour: C5
  lasts: 3 beats
  dynamics: p < f@2 > p
gesture even
  contour: C5
  lasts: 8/3 beats
  dynamics: p < f@2
gesture odd
  contour: C5
  lasts: 5/3 beats
  dynamics: p < f@1/2
gesture short
  contour: C5
  lasts: 1/3 beats
  dynamics: ff
gesture slide
  technique: lip-gliss
  contour: C5 -- E5
  lasts: 2 beats
  dynamics: p < f
gesture voice
  technique: multiphonic
  contour: C4
  sing: E4, G4@1
  lasts: 8/3 beats
  dynamics: p
gesture roll
  contour: C5
  lasts: 8/3 beats
  attacks: 4 accelerating
  dynamics: p
"""


@pytest.mark.parametrize(
    ("play", "expected"),
    [
        # A level at the first note, and the last level before the next note.
        ("swell, G4 for 2/3", [r"{ g'8 c''4 \p \< ~ }", r"{ \afterGrace 63/64 c''2 { \gsLevelAtEnd s8 \p } g'4 }"]),
        # The track has the remaining time.
        ("even, G4 for 1", [r"{ g'8 c''4 \p \< ~ }", r"{ { c''2 } { s4 * 4/3 s4 * 2/3 \f } }"]),
        # A level between two leaves needs a track from the beginning.
        ("odd, G4 for 1", [r"{ g'8 }", r"{ c''4 ~ } c''4 } { s4 * 1/2 \p \< s4 * 7/6 \f }"]),
        ("short, short, G4 for 1", [r"{ g'8 [ c''8 \ff c''8 \ff ] }"]),
        # The line stops before the note that follows.
        ("slide, G4 for 2/3", [r"{ \gsStops e''8 \f \gsLineEnd } g'4 }"]),
    ],
)
def test_in_a_triplet_that_gestures_share(play, expected, engraved):
    ly = compact(engraved(f"{SHARED}passage one\n  play: G4 for 1/3, {play}\n")["one"].ly)
    ly = re.sub(r"\\gsShortHairpin #\d ", "", ly.replace("<<", "{").replace(">>", "}"))
    for part in expected:
        assert part in ly


@pytest.mark.parametrize("name", ["voice", "roll"])
def test_a_voice_or_beam_of_its_own_begins_with_its_gesture(name, engraved):
    """A triplet shared with the note before it is split."""
    ly = compact(engraved(f"{SHARED}passage one\n  play: G4 for 1/3, {name}, C4 for 1\n")["one"].ly)
    assert r"\tuplet 3/2 { g'8 }" in ly
