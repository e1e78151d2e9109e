"""The tempo of a passage, and times in seconds, against sums of short beats and closed forms."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from music21 import note, stream, tempo
from sampling import sample

from gesturesmith.model.changes import DoubleBar, KeyChange, MeterChange, RehearsalMark, TempoChange, TempoGradually
from gesturesmith.model.reading import read
from gesturesmith.model.tempo import mapped, steady
from gesturesmith.source import Source
from gesturesmith.units import KeySignature, interval, key_signature

F = Fraction
HORN = "instrument: horn\npitches: written\n"
MAP = mapped(F(60), [(F(4), F(4), F(90)), (F(6), F(14), F(45)), (F(16), F(16), F(120))])


def passage(play: str, more: str = "", name: str = "p"):
    found = read(Source("a", f"{HORN}passage {name}\n  play: {play}\n{more}"))
    assert not found.errors, found.errors
    return found.piece.passages[-1]


def slowly(tempo, at: F, steps: int = 20_000) -> float:
    """Seconds up to a time, as a sum of short stretches, each at the tempo in its middle."""
    short = at / steps
    return sum(float(short * 60 / tempo(short * n + short / 2)) for n in range(steps))


@pytest.mark.parametrize("at", sample([0, 3, 4, 5, 6, 7, F(21, 2), 14, 15, 16, 20], 4))
def test_seconds_are_the_sum_of_short_beats(at):
    assert MAP.seconds(F(at)) == pytest.approx(slowly(MAP.tempo_at, F(at)), abs=2e-4)


def test_an_accelerando_is_a_logarithm():
    # The integral of 60/T with T = 60 + 7.5 b from 0 to 8, and of its second half.
    turn = mapped(F(60), [(F(0), F(8), F(120))])
    assert turn.seconds(F(8)) == pytest.approx(8 * math.log(2), rel=1e-12)
    assert turn.between(F(4), F(8)) == pytest.approx(8 * math.log(120 / 90), rel=1e-12)
    assert turn.tempo_at(F(4)) == 90
    assert turn.between(F(8), F(10)) == 1.0  # from there on 120


def test_one_tempo_is_exact():
    assert steady(F(90)).between(F(1), F(4)) == 2.0
    assert steady(F(90)).steady
    assert not MAP.steady


def test_music21_counts_the_same_seconds():
    turns = [(F(2), F(2), F(96)), (F(5), F(5), F(144)), (F(11, 2), F(11, 2), F(40))]
    score = stream.Stream()
    for at, bpm in ((F(0), 60), *((at, int(to)) for at, _, to in turns)):
        score.insert(at, tempo.MetronomeMark(number=bpm))
    score.insert(0, note.Note("C4", quarterLength=8))
    assert mapped(F(60), turns).seconds(F(8)) == pytest.approx(score.seconds)


@pytest.mark.parametrize(("start", "end"), [(0, 4), (0, 20), (3, 5), (5, 9), (7, 13), (7, 17), (14, 16), (16, 18)])
def test_a_part_has_the_same_times(start, end):
    part = MAP.part(F(start), F(end))
    assert part.stretches[0].at == 0
    for at in range(end - start + 1):
        assert part.seconds(F(at)) == pytest.approx(MAP.between(F(start), F(start + at)), rel=1e-12)
    assert [MAP.part(F(a), F(a + 2)).steady for a in (0, 14, 16, 3)] == [True, True, True, False]


def test_what_entries_say():
    found = passage(
        'C4 for 1, C4 for 3, tempo "Faster" 96, mark A, key Eb major, C4 for 4, double bar, meter 3/4, '
        "ritardando to 60 over 2 bars, C4 for 6, tempo dotted quarter = 40, mark 12, C4 for 3",
        "  meter: 4/4\n  key: F minor\n",
    )
    assert found.changes == (
        TempoChange(at=F(4), tempo=F(96), words="Faster"),
        RehearsalMark(at=F(4), text="A"),
        KeyChange(at=F(4), key=KeySignature(-4, "major")),  # a horn in F sounds a fifth lower
        DoubleBar(at=F(8)),
        MeterChange(at=F(8), meter=(3, 4)),
        TempoGradually(at=F(8), until=F(14), turn="ritardando", tempo=F(60)),
        TempoChange(at=F(14), tempo=F(60), counted=F(3, 2)),
        RehearsalMark(at=F(14), text="12"),
    )
    assert found.key == KeySignature(-5, "minor")
    assert found.tempo_map.seconds(found.beats) == pytest.approx(4 + 4 * 60 / 96 + 10 * math.log(1.6) + 3)


def test_notes_know_the_tempo_around_them():
    before, through, after = (
        i.gesture for i in passage("C4 for 2, accelerando to 120 over 4, C4 for 4, C4 for 2").items
    )
    assert (before.tempo, before.pace, before.seconds) == (60, None, 2)
    assert float(through.seconds) == pytest.approx(4 * math.log(2))
    assert through.seconds_between(F(2), F(4)) == pytest.approx(4 * math.log(120 / 90))
    assert (after.tempo, after.pace, after.seconds) == (120, None, 1)


def test_a_gesture_in_seconds_keeps_them():
    text = f"{HORN}gesture a\n  contour: C4\n  lasts: 3 s\npassage p\n  play: a, tempo 120, a\n"
    one, two = read(Source("a", text)).piece.passages[0].items
    assert (one.beats, two.beats) == (3, 6)
    assert one.gesture.seconds == two.gesture.seconds == 3


def test_a_passage_inside_another_brings_its_changes():
    inner = "passage q\n  play: C4 for 2, tempo 120, C4 for 2\n  repeat: 2\npassage p\n"
    found = read(Source("a", HORN + inner + "  play: rest 1, q, C4 for 3\n")).piece.passages[-1]
    assert [(c.at, c.tempo) for c in found.changes] == [(3, 120), (7, 120)]
    assert [i.gesture.tempo for i in found.items[1:]] == [60, 120, 120, 120, 120]


def test_at_the_beginning_it_replaces_what_was_there():
    found = passage('tempo "Slow" 50, meter 3/4, key C minor, C4 for 3', "  meter: 4/4\n  tempo: 90\n")
    assert (found.tempo, found.tempo_text, found.meter, found.changes) == (50, "Slow", (3, 4), ())


def test_one_line_says_it_for_all_parts():
    text = (
        "part one\n  instrument: horn\n  pitches: written\npart two\n  instrument: trombone\npassage p\n"
        "  meter: 4/4\n  key: Eb major\n  one: C4 for 4, tempo 90, mark A, C4 for 4\n"
        "  two: F3 for 6, ritardando to 50 over 2, F3 for 2\n"
    )
    found = read(Source("a", text))
    assert not found.errors
    one, two = (part.reading.piece.passages[0] for part in found.parts)
    assert one.changes == two.changes
    assert [type(c).__name__ for c in one.changes] == ["TempoChange", "RehearsalMark", "TempoGradually"]
    assert one.key == two.key == KeySignature(-3, "major")  # sounding: the parts have several transpositions
    assert two.items[0].gesture.pace is not None  # the tempo changes under its long note


def test_names_of_gestures_stay_names():
    gestures = "gesture mark\n  contour: C4\ngesture tempo\n  contour: D4\n"
    found = read(Source("a", f"{HORN}{gestures}passage p\n  play: mark, tempo, mark up 2, mark A, mark"))
    assert [i.played for i in found.piece.passages[0].items] == ["mark", "tempo", "mark", "mark"]


@pytest.mark.parametrize(
    ("key", "by", "name"),
    [
        ("Eb major", "P5", "Bb major"),
        ("F# major", "M2", "Ab major"),
        ("A minor", "M2", "B minor"),
        ("none", "P5", "none"),
    ],
)
def test_keys_are_transposed(key, by, name):
    tonic, _, mode = key.partition(" ")
    found = key_signature(tonic, mode) if mode else KeySignature(0)
    assert (found.name, found.transposed(interval(by)).name) == (key, name)
