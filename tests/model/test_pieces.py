"""Passages, exercises, and the same music in a written and in a sounding file."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sampling import count

from gesturesmith.checker import check_text
from gesturesmith.model.reading import read
from gesturesmith.source import Source

A = "gesture a\n  contour: G4 ~~ C5\n  lasts: 2 beats\n"


def names(piece, passage=0):
    return [
        (i.played, i.at, i.beats, i.gesture.points[0].pitch.written.name if i.gesture else None)
        for i in piece.passages[passage].items
    ]


def test_items_follow_each_other(piece):
    made = piece(A + "passage p\n  play: a, rest 3, C4 for 1/2 pp accent, a up M2, a down 1\n")
    assert names(made) == [
        ("a", 0, 2, "G4"),
        ("", 2, 3, None),
        ("", 5, Fraction(1, 2), "C4"),
        ("a", Fraction(11, 2), 2, "A4"),
        ("a", Fraction(15, 2), 2, "F#4"),
    ]
    note = made.passages[0].items[2].gesture
    assert (note.points[0].dynamic, note.points[0].marks) == ("pp", ("accent",))


def test_a_passage_inside_another_is_written_out(piece):
    made = piece(A + "passage in\n  play: a, rest 1\n  repeat: 2\npassage out\n  play: in, C4 for 1\n")
    assert [n[0] for n in names(made, 1)] == ["a", "", "a", "", ""]
    assert made.passages[0].repeats[0].times == 2
    assert made.passages[1].repeats == ()


def test_a_passage_has_its_own_tempo(piece):
    made = piece(A + "passage p\n  tempo: 120\n  play: a\n")
    assert made.gestures[0].seconds == 2
    assert made.passages[0].items[0].gesture.seconds == 1


@pytest.mark.parametrize(
    ("line", "count"),
    [
        ("start: G4..C5 by 1", 6),
        ("lasts: 8, 6, 4 beats", 3),
        ("tempo: 60..80 by 10", 3),
        ("stretch: 1/2, 1, 3/2", 3),
        ("mirror: yes", 2),
        ("start: G4, A4\n  tempo: 60, 72", 4),
    ],
)
def test_variants_are_all_combinations(piece, line, count):
    made = piece(A + f"exercises e\n  from: a\n  {line}\n").exercises[0]
    assert len(made.variants) == len(made.labels) == count
    assert len(set(made.labels)) == count


def test_what_variants_change(piece):
    made = piece(A + "exercises e\n  from: a\n  start: A4\n  lasts: 4 beats\n  stretch: 2\n").exercises[0]
    (variant,) = made.variants
    assert [p.pitch.written.name for p in variant.points] == ["A4", "G5"]  # a fourth, twice as wide
    assert variant.beats == 4


PITCHES = st.tuples(st.sampled_from("CDEFGAB"), st.sampled_from(["", "#", "b", "^", "v"]), st.integers(3, 5))


@given(st.lists(PITCHES, min_size=1, max_size=5), st.sampled_from(["~~", "--", ",", "__"]))
@settings(max_examples=count(40, 150))
def test_written_and_sounding_files_are_the_same_music(pitches, line):
    """The horn sounds a fifth below what is written: the same gestures and findings, to the cent."""
    results = []
    first = _file("written", [f"{a}{b}{c}" for a, b, c in pitches], line)
    reading = read(first)
    assert reading.errors == ()
    heard = [p.pitch.sounding.name for p in reading.piece.gestures[0].points]
    for source in (first, _file("sounding", heard, line)):
        checked = check_text(source)
        assert checked.report.errors == ()
        made = checked.reading.piece
        report = checked.report.gestures[0]
        results.append(
            (
                [p.sounding_cents for p in made.gestures[0].points],
                report.verdict,
                [(f.rule, f.severity, f.text) for f in report.findings],
            )
        )
    assert results[0] == results[1]


def _file(pitches, notes, line):
    return Source(
        "a.gesture", f"instrument: horn\npitches: {pitches}\ngesture a\n  contour: {f' {line} '.join(notes)}\n"
    )
