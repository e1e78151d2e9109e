"""The harmonic series against music21 10.5.1, which gives integer cents."""

from __future__ import annotations

import math

import pytest
from music21 import pitch

from gesturesmith.acoustics import series
from gesturesmith.acoustics.response import periods_in, round_trips_in
from gesturesmith.acoustics.tubing import (
    TUNINGS,
    combination_error_cents,
    lowering_cents,
    slide_position,
    slide_reach,
    valve_lengths,
)


@pytest.mark.parametrize("n", range(1, 25))
def test_partials_match_music21(n: int) -> None:
    fundamental = pitch.Pitch("F1")
    found = fundamental.getHarmonic(n)
    ours = series.partial_cents(n)
    theirs = 100 * (found.ps - fundamental.ps)  # .ps includes the microtone
    assert ours == pytest.approx(theirs, abs=0.51)


@pytest.mark.parametrize("n", range(1, 33))
def test_a_partial_is_its_own_nearest(n: int) -> None:
    assert series.nearest_partial(2900 + series.partial_cents(n), 2900) == n


@pytest.mark.parametrize(("low", "high", "expected"), [(1, 5, 5), (3, 64, 12), (20, 24, 20)])
def test_nearest_partial_keeps_to_what_the_tube_has(low: int, high: int, expected: int) -> None:
    assert series.nearest_partial(2900 + 4300, 2900, low, high) == expected


def test_nearest_partial_of_absurd_pitches() -> None:
    assert series.nearest_partial(1e9, 2900, 1, 16) == 16
    assert series.nearest_partial(-1e9, 2900, 1, 16) == 1


def test_partials_between_counts_both_ends() -> None:
    assert series.partials_between(2900, 2900 + 2400, 2900 + 3600) == (4, 5, 6, 7, 8)
    assert series.partials_between(2900, 5000, 4000) == ()


def test_partials_between_has_no_slack_of_its_own() -> None:
    assert series.partials_between(2900, 2900 + 2400.5, 2900 + 3599.5) == (5, 6, 7)
    assert series.partials_between(2900, 2900 + 2400.5, 2900 + 3599.5, 0.5) == (4, 5, 6, 7, 8)


def test_partials_between_reaches_from_the_first_to_the_last_there_is() -> None:
    assert series.partials_between(2900, 0, 2900) == (1,)
    assert series.partials_between(2900, 2900 + series.partial_cents(63), 1e9) == (63, 64)


def test_nearest_partial_of_a_tube_with_one_and_with_none() -> None:
    assert series.nearest_partial(2900, 2900, 5, 5) == 5
    with pytest.raises(ValueError, match="no partials from 6 to 5"):
        series.nearest_partial(2900, 2900, 6, 5)


def test_the_hand_cannot_lower_the_first_partial() -> None:
    assert series.hand_glide_cents(1) == 0
    # From the octave down, all but the last half step.
    assert series.hand_glide_cents(2) == 1100


def test_a_difference_of_as_much_again_is_an_octave() -> None:
    assert series.cents_of_difference(440, 440) == 1200
    assert series.cents_of_difference(440, 0) == 0


@pytest.mark.parametrize("tuning", TUNINGS)
def test_the_third_slide_makes_its_combination_exact(tuning: str) -> None:
    pressed = {"alone": (3,), "2-3": (2, 3), "1-3": (1, 3)}[tuning]
    assert combination_error_cents((2, 1, 3), pressed, tuning) == pytest.approx(0, abs=1e-9)


def test_an_unknown_tuning_is_a_fault() -> None:
    with pytest.raises(ValueError, match=r"'1-2-3': one of alone, 2-3, 1-3$"):
        valve_lengths((2, 1, 3), "1-2-3")


def test_valves_are_tuned_alone_unless_said_otherwise() -> None:
    assert valve_lengths((2, 1, 3)) == valve_lengths((2, 1, 3), "alone")
    assert lowering_cents((2, 1, 3), (3,)) == pytest.approx(300)
    assert lowering_cents((2, 1, 3), (3,), "2-3") > 300


def test_a_longer_side_needs_longer_steps() -> None:
    """Lengths by definition: a side in F is 2^(5/12) of one in B-flat, and so are its steps."""
    side = 2 ** (5 / 12)
    for position in (1, 3.5, 6):
        out = side * (2 ** ((position - 1) / 12) - 1)
        assert slide_reach(position, 2900, 3400) == pytest.approx(1 + 12 * math.log2(1 + out), abs=1e-9)
    assert slide_reach(6, 2900, 3400) == pytest.approx(7.4, abs=0.05)


def test_combinations_are_sharp_and_sharper_the_more_valves() -> None:
    errors = [combination_error_cents((2, 1, 3), p) for p in ((1,), (1, 2), (2, 3), (1, 3), (1, 2, 3))]
    assert errors == sorted(errors)
    assert errors[0] == pytest.approx(0, abs=1e-9)


def test_slide_positions_are_semitones() -> None:
    assert [slide_position(3400, 3400 - 100 * k) for k in range(7)] == [1, 2, 3, 4, 5, 6, 7]


def test_time_scales_with_frequency() -> None:
    assert periods_in(0.1, 440) == pytest.approx(44)
    assert round_trips_in(0.1, 43.65) == pytest.approx(4.365)
