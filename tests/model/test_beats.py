"""The beat of a file is the note that its tempo names; everything counted in beats follows it."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from gesturesmith.model.reading import read
from gesturesmith.source import Source

F = Fraction
BODY = """gesture a
  contour: C5, D5@1/3
  lasts: 2 beats
  dynamics: p < f@1
gesture b
  contour: C5 for 2, r for 1
gesture c
  contour: C5, D5
gesture d
  contour: C5
  lasts: 3 s
gesture e
  contour: C5
  lasts: 1 bar
passage p
  play: a, rest 2, C5 for 2
exercises x
  from: a
  lasts: 1, 4 beats
  tempo: 30
"""


def _piece(tempo: str, body: str = BODY):
    found = read(Source("made", f"instrument: horn\npitches: written\nmeter: 6/8\ntempo: {tempo}\n{body}"))
    assert found.errors == ()
    assert found.piece is not None
    return found.piece


@pytest.mark.parametrize(
    ("tempo", "beat"),
    [("60", F(1)), ("dotted quarter = 60", F(3, 2)), ("half = 60", F(2)), ('"Slow" eighth = 60', F(1, 2))],
)
def test_the_beat_is_the_note_that_the_tempo_names(tempo: str, beat: Fraction) -> None:
    piece = _piece(tempo)
    a, b, c, d, e = piece.gestures
    assert a.beats == 2 * beat
    assert a.points[1].at == beat / 3
    assert [mark.at for mark in a.dynamics] == [0, beat]
    assert a.seconds == 2
    assert b.beats == 3 * beat
    assert c.beats == 2 * beat
    assert d.seconds == 3
    assert e.beats == 3  # of 6/8, whatever is counted
    assert [item.beats for item in piece.passages[0].items] == [2 * beat, 2 * beat, 2 * beat]
    assert [(v.beats, v.seconds) for v in piece.exercises[0].variants] == [(beat, 2), (4 * beat, 8)]


def test_a_passage_may_name_another_note_for_its_own_tempo() -> None:
    (passage,) = _piece("dotted quarter = 60", "passage p\n  tempo: eighth = 120\n  play: C5 for 1\n").passages
    assert (passage.tempo, passage.counted, passage.beats) == (60, F(1, 2), F(3, 2))


def test_it_is_printed_as_that_note_and_beamed_in_it(engraved) -> None:
    text = "gesture a\n  contour: C5, D5, E5, F5, G5, A5\n  lasts: 2 beats\npassage p\n  meter: 6/8\n  play: a\n"
    made = engraved(f"instrument: horn\npitches: written\ntempo: dotted quarter = 60\n{text}")
    assert len(re.findall(r"\[", made["a"].ly)) == 2
    assert made["p"].music.counted == F(3, 2)
