"""Grace notes in time, as they are judged and heard."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gesturesmith.model.graces import USUAL_S, groups, unfolded
from gesturesmith.model.move import by_semitones, changed, mirrored
from gesturesmith.model.reading import read
from gesturesmith.source import Source


def gesture(contour: str, *more: str, tempo: int = 60):
    lines = "".join(f"  {line}\n" for line in (f"contour: {contour}", *more))
    found = read(Source("a", f"instrument: trombone\npitches: written\ntempo: {tempo}\ngesture a\n{lines}"))
    assert found.piece is not None, found.errors
    assert not found.errors
    return found.piece.gestures[0]


def row(one) -> list[tuple[str, float, float, str]]:
    return [(p.pitch.written.name, float(p.at), float(p.until), p.reached) for p in one.points]


def test_at_the_beginning_they_take_time_from_their_note() -> None:
    one = gesture("G3 grace, A3 grace __ C4")
    assert row(one) == [("C4", 0, 1, "attack")]
    found = row(unfolded(one))
    assert found == [("G3", 0, 0.1, "attack"), ("A3", 0.1, 0.2, "attack"), ("C4", 0.2, 1, "slur")]


def test_after_a_longer_note_they_come_before_the_beat() -> None:
    found = row(unfolded(gesture("D4, G3 grace -- C4@2", "lasts: 3 beats")))
    assert found == [("D4", 0, 1.9, "attack"), ("G3", 1.9, 2, "attack"), ("C4", 2, 3, "line")]


def test_at_the_end_they_take_the_end_of_the_last_note() -> None:
    found = row(unfolded(gesture("C4 __ B3 grace, C4 grace", "lasts: 2 beats")))
    assert found == [("C4", 0, 1.8, "attack"), ("B3", 1.8, 1.9, "slur"), ("C4", 1.9, 2, "attack")]


def test_they_last_as_long_at_any_tempo_but_no_longer_than_half_of_a_note() -> None:
    for tempo in (60, 120, 150):
        quick = unfolded(gesture("G3 grace, C4", tempo=tempo)).points[0]
        assert (quick.until - quick.at) * 60 / tempo == USUAL_S.value
    short = unfolded(gesture("G3 grace, A3 grace, C4", "lasts: 1/8 beats"))
    assert [float(p.at) for p in short.points] == [0, 1 / 32, 1 / 16]


def test_with_all_the_time_there_is() -> None:
    slow = unfolded(gesture("G3 grace, A3 grace, C4", "lasts: 2 beats"), slowest=True)
    assert [float(p.at) for p in slow.points] == [0, 0.5, 1]
    (group,) = groups(gesture("D4, G3 grace, C4@3", "lasts: 4 beats"))
    assert (group.early, group.beats, group.index) == (True, Fraction(3, 2), 1)


def test_repeated_attacks_are_written_out_after_them() -> None:
    found = row(unfolded(gesture("G3 grace, C4", "attacks: 2", "lasts: 2 beats")))
    assert [name for name, *_ in found] == ["G3", "C4", "C4"]
    assert found[-1][1:3] == (1, 2)


def test_they_move_with_their_gesture() -> None:
    one = gesture("G3 grace, C4, D4 grace")
    moved = changed(one, by_semitones(2, [one]))
    assert [name for name, *_ in row(unfolded(moved))] == ["A3", "D4", "E4"]
    assert [name for name, *_ in row(unfolded(mirrored(one)))] == ["F4", "C4", "Bb3"]


def test_attacks_along_a_line_have_none() -> None:
    text = "instrument: trombone\ngesture a\n  contour: G3 grace, C4 -- D4\n  attacks: 4\n"
    assert [e.rule for e in read(Source("a", text)).errors] == ["graces-on-line"]


@pytest.mark.parametrize("play", ["G3 grace, C4 for 2", "G3 grace, C4 for 2, rest 1"])
def test_before_a_pitch_of_a_passage(play: str) -> None:
    piece = read(Source("a", f"instrument: trombone\npassage p\n  play: {play}\n")).piece
    assert piece is not None
    item = piece.passages[0].items[0]
    assert item.beats == 2
    assert [name for name, *_ in row(unfolded(item.gesture))] == ["G3", "C4"]
