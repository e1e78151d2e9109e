"""Changes inside a passage on the page: bars, rests, beams and accidentals follow; marks stand beside the notes."""

from __future__ import annotations

import re

import pytest

from gesturesmith.sheets._timeline import graces, timeline
from gesturesmith.units import KeySignature

TROMBONE = "instrument: trombone\npassage one\n"
_LEAVES = re.compile(r"(?:R1(?: \* \S+)?|[a-gr][,'a-z]*[0-9]+\.*|\\fermata|~|\[|\])")


def music(engraved, play: str, *keys: str):
    more = "".join(f"  {key}\n" for key in keys)
    return engraved(f"{TROMBONE}{more}  play: {play}\n")["one"]


def leaves(engraved, play: str, *keys: str) -> str:
    return " ".join(found.replace(" ", "") for found in _LEAVES.findall(music(engraved, play, *keys).ly))


@pytest.mark.parametrize(
    ("play", "meter", "expected"),
    [
        # A note tied over a change; in 6/8 eighths are beamed in threes, in 3/4 in twos.
        ("F3 for 3, G3 for 5, meter 3/4, A3 for 3", "4/4", "f2. g4 ~ g1 a2."),
        ("F3 for 3, meter 6/8, G3 for 1/2, A3 for 1/2, G3 for 1/2, F3 for 3/2", "3/4", "f2. g8 [ a8 g8 ] f4."),
        # A silence is divided where something changes, as a bar with its number is.
        ("F3 for 4, rest 8, meter 3/4, rest 6, F3 for 3", "4/4", "f1 R1*2/1 R1*3/2 f2."),
        ("F3 for 4, rest 8, mark A, rest 4, F3 for 4", "4/4", "f1 R1*2/1 R1 f1"),
        ("F3 for 4, rest 8, tempo 90, rest 4 fermata, F3 for 4", "4/4", "f1 R1*2/1 R1 \\fermata f1"),
        ("F3 for 1, rest 1 fermata, rest 2", "4/4", "f4 r4 \\fermata r2"),
        # The end of the last bar of the new meter is filled.
        ("F3 for 4, meter 3/4, F3 for 1", "4/4", "f1 f4 r4 r4"),
    ],
)
def test_notes_and_rests_follow_the_bars(engraved, play, meter, expected):
    assert leaves(engraved, play, f"meter: {meter}") == expected


@pytest.mark.parametrize(
    ("pickup", "play", "expected"),
    [
        ("1 beat", "F3 for 1, G3 for 3, A3 for 5", "f4 g2. a4 ~ a1"),
        ("1/2", "F3 for 1/2, G3 for 1/2, A3 for 1/2, G3 for 3", "f8 g8 [ a8 ] g2."),
        ("1 beat", "rest 1, rest 4, F3 for 4", "r4 R1 f1"),
        ("3 beats", "F3 for 4, G3 for 3", "f2. ~ f4 g2."),
    ],
)
def test_a_pickup_is_before_the_first_whole_bar(engraved, pickup, play, expected):
    assert leaves(engraved, play, "meter: 4/4", f"pickup: {pickup}") == expected


def test_the_bars_of_a_passage_are_counted_through_its_meters(engraved):
    found = music(engraved, "F3 for 1, F3 for 4, meter 3/4, F3 for 6", "meter: 4/4", "pickup: 1 beat")
    bars = found.music.bars
    assert [bars.bar_start(at) for at in (0, 1, 4, 5, 7, 8)] == [-3, 1, 1, 5, 5, 8]
    assert (bars.bar_end(0), bars.bar_end(6)) == (1, 8)


def test_what_changes_stands_beside_the_notes(engraved):
    text = (
        'F3 for 4, tempo "Faster" 90, mark A, key Eb major, Eb3 for 4, double bar, meter 3/4, '
        "ritardando to 60 over 3, Ab3 grace, G3 for 3, F3 for 3"
    )
    one = music(engraved, text, "meter: 4/4", "key: D minor").music
    waits = graces(one)
    lines = str(timeline(one, upper=True, waits=waits)).splitlines()
    assert lines[1:-1] == [
        "s1*4/4",
        "\\key ef \\major",
        '\\gsRehearsal "A"',
        '\\gsTempo "Faster" "90"',
        "s1*4/4",
        '\\bar "||"',
        "\\time 3/4",
        "\\grace { s1*1/8 }",
        's1*3/4\\gsGradually "rit." ##f',
        '\\gsTempo "" "60"',
        "s1*3/4\\gsGraduallyEnd",
    ]
    lower = str(timeline(one, upper=False, waits=waits))
    assert "gsTempo" not in lower
    assert "gsRehearsal" not in lower
    assert (one.key, timeline(music(engraved, "F3 for 1").music, upper=True, waits={})) == (
        KeySignature(-1, "minor"),
        None,
    )


def test_a_horn_part_has_the_key_transposed(engraved):
    text = "instrument: horn\npitches: {}\npassage one\n  key: Eb major\n  play: C4 for 2, key none, C4 for 2\n"
    for pitches, fifths in (("written", -3), ("sounding", -2)):
        one = engraved(text.replace("{}", pitches))["one"].music
        assert (one.key.fifths, one.changes[0].key) == (fifths, KeySignature(0))


def test_in_free_time_what_the_key_has_is_printed_again_after_another(engraved):
    found = music(engraved, "Bb3 for 1, B3 for 1, Bb3 for 1, Bb3 for 1", "key: F major").ly
    assert re.findall(r"bf?[!]?4", found) == ["bf4", "b4", "bf!4", "bf4"]


def test_a_user_text_in_a_mark_is_only_text(engraved):
    one = music(engraved, 'F3 for 1, mark "}#(x)\\"", tempo "\\" }" 90, F3 for 1').music
    written = str(timeline(one, upper=True, waits={}))
    assert '\\gsRehearsal "}#(x)\\""' in written
    assert '\\gsTempo "\\" }" "90"' in written
