"""A few points of a gesture as a gesture: times, ends, techniques and levels agree with the whole."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from gesturesmith.model.excerpt import excerpt, with_harmonics
from gesturesmith.units import Spelling

BB4 = Spelling("B", Fraction(-1), 4)


@pytest.fixture
def gesture(piece):
    def make(block: str):
        return piece(f"gesture g\n{block}").gestures[0]

    return make


LINE = (
    "  technique: half-valve\n  contour: xG4 ~~ xD5@2 ~~ xB4@3 ~~ xF5\n  lasts: 4 beats\n  dynamics: p < f@3 > p\n"
)


def test_times_begin_at_nothing(gesture):
    shown = excerpt(gesture(LINE), 1, 2)
    assert [p.at for p in shown.points] == [0, 1]
    assert shown.points[-1].until == shown.beats
    assert len(shown.segments) == 1


def test_the_first_point_is_attacked_and_a_line_that_is_cut_ends_in_a_note(gesture):
    shown = excerpt(gesture(LINE), 1, 2)
    assert shown.points[0].reached == "attack"
    assert shown.points[-1].held
    assert not shown.points[-1].stops


def test_the_end_of_the_whole_stays_as_it_is(gesture):
    shown = excerpt(gesture(LINE), 2, 3)
    assert shown.points[-1].stops
    assert shown.beats == 1


def test_a_long_note_is_shortened(gesture):
    whole = gesture("  contour: G4, C5@1\n  lasts: 9 beats\n")
    assert excerpt(whole, 0, 1).beats == 3  # a beat, and two of the eight


def test_composers_words_stay_away(gesture):
    shown = excerpt(gesture('  contour: G4\n  text: "softly"\n  footnote: "As you like."\n'), 0, 0)
    assert (shown.text, shown.footnote, shown.title) == (None, None, None)


@pytest.mark.parametrize(
    ("keep", "left"), [(None, {"half-valve", "flutter-tongue"}), (("half-valve",), {"half-valve"})]
)
def test_techniques_that_are_kept(gesture, keep, left):
    whole = gesture("  technique: half-valve + flutter-tongue\n  contour: xG4 ~~ xD5\n  lasts: 2 beats\n")
    shown = excerpt(whole, 0, 1, keep=keep)
    assert {t.key for t in shown.techniques} == left
    assert {t.key for p in shown.points for t in p.techniques} == left


def test_levels_around_a_cut_are_brought_in(gesture):
    whole = gesture(LINE)
    assert excerpt(whole, 0, 1).dynamics == ()
    marks = excerpt(whole, 1, 2, dynamics=True).dynamics
    # The crescendo that began before and the diminuendo that ends after are both visible.
    assert [(m.level, m.join) for m in marks] == [("p", "<"), ("f", ">"), ("p", "")]
    assert [m.at for m in marks] == [0, 1, marks[-1].at]
    assert marks[-1].at <= excerpt(whole, 1, 2).beats


def test_attacks_keep_their_speed(gesture):
    whole = gesture("  contour: G4\n  attacks: 16\n  lasts: 4 beats\n")
    shown = excerpt(whole, 0, 0)
    assert shown.attacks.count == 8
    assert shown.beats / shown.attacks.count == Fraction(1, 4)


def test_fingerings_go_with_their_points(gesture):
    whole = gesture("  contour: G4, r, A4, B4\n  fingering: F 0, Bb 1-2, F 1-2\n")
    assert excerpt(whole, 2, 3).fingering.tubes == ("Bb 1-2", "F 1-2")


def test_harmonics_stand_on_the_line_and_the_note_keeps_its_value(gesture):
    whole = gesture("  technique: harmonic-gliss\n  contour: G4 ~~ G5@3/2\n  lasts: 2 beats\n")
    shown = with_harmonics(whole, 0, [BB4, replace(BB4, letter="D", alter=Fraction(0), octave=5)])
    assert [p.passing for p in shown.points] == [False, True, True, False]
    assert shown.points[0].value == Fraction(3, 2)
    assert [p.pitch.written.name for p in shown.points[1:3]] == ["Bb4", "D5"]
    assert [p.pitch.sounding.name for p in shown.points[1:3]] == ["Eb4", "G4"]  # a horn
    assert [s.kind for s in shown.segments] == ["wavy"] * 3
    assert shown.points[-1].until == shown.beats


@pytest.mark.parametrize("line", [0, 1])
def test_with_harmonics_on_its_line_each_note_ends_where_the_next_begins(gesture, line):
    whole = gesture("  technique: harmonic-gliss\n  contour: G4 ~~ G5@1 ~~ G4@2, C5@3\n  lasts: 4 beats\n")
    shown = with_harmonics(whole, line, [BB4, BB4])
    assert [p.until for p in shown.points] == [*(p.at for p in shown.points[1:]), shown.beats]
    assert len({p.until - p.at for p in shown.points[line : line + 3]}) == 1  # the harmonics stand evenly
    assert [p.until - p.at for p in shown.points[line + 3 :]] == [1] * (3 - line)  # the rest is unchanged


def test_a_point_that_a_line_passes_has_no_value_before_harmonics_either(gesture):
    whole = gesture("  technique: harmonic-gliss\n  contour: G4 ~~ G5@1 ~~ C5@2\n  lasts: 3 beats\n")
    assert [p.value for p in with_harmonics(whole, 1, [BB4]).points] == [None] * 4


def test_harmonics_stay_away_where_there_is_no_room(gesture):
    whole = gesture("  technique: harmonic-gliss\n  contour: G4 ~~ G5@3/2\n  lasts: 2 beats\n")
    assert with_harmonics(whole, 0, [BB4] * 9) is whole
    some = with_harmonics(whole, 0, [BB4] * 4)
    assert with_harmonics(some, 4, [BB4] * 3) is some
