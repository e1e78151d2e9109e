"""Silence on the page: one rest for each silence, multi-bar rests, levels only where something sounds."""

from __future__ import annotations

import re

import pytest

GESTURES = """tempo: 60
gesture ends
  contour: C5, r, r
gesture begins
  contour: r, C5
gesture loud
  contour: C5, r
  dynamics: p < f
gesture late
  contour: r, C5, D5
  dynamics: p < f
gesture seconds
  contour: C5, r@1
  lasts: 2 s
"""
_VALUE = re.compile(r"(?:R1(?: \* \S+)?|[a-gr][',]*[0-9]+\.*(?: \* \S+)?)")


def leaves_of(engraved, play: str, meter: str) -> str:
    ly = engraved(f"{GESTURES}passage one\n  meter: {meter}\n  play: {play}\n")["one"].ly
    return " ".join(found.replace(" ", "") for found in _VALUE.findall(ly))


# Rests show the beats and the half of a bar of four; a silent bar has one rest in its middle, several silent bars
# in a part one rest with their number. Adjacent rests are one silence, whatever their origin.
@pytest.mark.parametrize(
    ("meter", "play", "expected"),
    [
        ("4/4", "ends, rest 1", "c''4 r4 r2"),
        ("4/4", "rest 1, begins, rest 1", "r2 c''4 r4"),
        ("4/4", "ends, rest 1/2, begins, rest 1/2", "c''4 r4 r2 r8 c''4 r8 r2"),
        ("4/4", "rest 1, rest 1, rest 2, C5 for 4", "R1 c''1"),
        ("4/4", "ends, rest 9, C5 for 4", "c''4 r4 r2 R1*2/1 c''1"),
        ("4/4", "ends, rest 3, begins, rest 4", "c''4 r4 r2 r2 r4 c''4 R1"),
        ("3/4", "ends, rest 9, C5 for 3", "c''4 r4 r4 R1*9/4 c''2."),
        (
            "6/8",
            "C5 for 1/2, rest 1/2, rest 1/2, rest 1/2, rest 1, rest 3, C5 for 3",
            "c''8 r8 r8 r4. R1*3/4 c''2.",
        ),
        ("free", "ends, rest 2, begins", "c''4 r1 r4 c''4"),
        ("free", "rest 1, rest 1, begins", "r2 r4 c''4"),
    ],
)
def test_a_silence_is_one_rest(engraved, meter: str, play: str, expected: str) -> None:
    assert leaves_of(engraved, play, meter) == expected


def test_two_silences_of_a_gesture_are_one_rest(engraved) -> None:
    assert "r2" in engraved(GESTURES)["ends"].ly


def test_a_level_stands_where_something_sounds(engraved) -> None:
    made = {name: " ".join(music.ly.split()) for name, music in engraved(GESTURES).items() if name}
    assert r"\afterGrace 63/64 c''4 \p \< { \gsLevelAtEnd s8 \f } r4" in made["loud"]
    assert r"r4 \gsShortHairpin #2 c''4 \p \<" in made["late"]


def test_a_mute_is_announced_where_a_gathered_rest_begins(engraved) -> None:
    text = "gesture m\n  technique: muted\n  contour: C5, r\ngesture o\n  contour: r, C5\n"
    ly = " ".join(engraved(f"{text}passage one\n  meter: 4/4\n  play: m, rest 6, o, rest 2\n")["one"].ly.split())
    assert ly.count("senza sord.") == 3  # one each time
    assert re.search(r"c''4 \\gsSay \S+con sord.*? r4 \\gsSay \S+senza sord.*? r2 ", ly), ly


def test_no_line_begins_with_a_rest_where_it_can_be_helped(engraved) -> None:
    ly = engraved("gesture a\n  contour: C5\npassage one\n  play: a, rest 2, a, a\n")["one"].ly
    assert r'\bar "" \gsRestNext r2 \bar "" c' in " ".join(ly.split())
    assert ly.count(r"\gsRestNext") == 1


def test_seconds_have_no_metronome_mark_and_their_rests_a_length(engraved) -> None:
    made = engraved(
        f"{GESTURES}passage one\n  play: seconds, rest 5/2, seconds\npassage two\n  play: seconds, ends\n"
    )
    assert made["one"].music.tempo is None
    assert made["two"].music.tempo == 60
    assert r'\gsLength "2.5 s"' in made["one"].ly
    assert made["one"].ly.count(r"\gsLength ") == made["one"].ly.count(r"\gsLengthEnd") == 3


@pytest.mark.parametrize(
    ("meter", "expected"),
    [
        ("free", ["4 beats", "2/37 beats"]),
        ("5/4", ["4 beats", "2/37 beats"]),
        ("6/8", ["4 quarters", "2/37 quarters"]),
        ("7/8", ["4 quarters", "2/37 quarters"]),
        ("3/2", ["4 quarters", "2/37 quarters"]),
    ],
)
def test_a_length_is_told_in_the_note_it_is_counted_in(meter: str, expected: list[str], engraved) -> None:
    """In 6/8 the player's beat is a dotted quarter, and "4 beats" would last half as long again."""
    text = "gesture fans\n  contour: C5\n  attacks: 8 accelerating\n  lasts: 4 beats\n"
    ly = engraved(f"{text}passage one\n  meter: {meter}\n  play: fans, rest 2/37, C5 for 72/37\n")["one"].ly
    assert re.findall(r'gsLength "(.*?)"', ly)[:2] == expected
