"""The tubes of the instruments with third slides, triggers and slides, and their partials."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest

from gesturesmith import instruments
from gesturesmith.acoustics.series import partial_cents, quarter_tone_deviation_cents
from gesturesmith.acoustics.tubing import TUNINGS, combination_error_cents, slide_extension_m
from gesturesmith.instruments import horn
from gesturesmith.instruments._build import valve_tubes
from gesturesmith.realise.ways import slide_tube, ways
from gesturesmith.units import frequency_hz

HORN = instruments.get("horn")
VALVES = (2, 1, 3)


def tuned(tuning: str):
    """The double horn with another setting of its third slides."""
    tubes = valve_tubes(HORN.sides, HORN.usual_range.value[1], HORN.widest_range.value[1], third_slide=tuning)
    return replace(HORN, key=f"horn {tuning}", tubes=tubes)


@pytest.mark.parametrize("tuning", TUNINGS)
@pytest.mark.parametrize("pressed", ["3", "1-2", "2-3", "1-3", "1-2-3"])
def test_the_third_slide_is_a_setting_of_the_instrument(tuning: str, pressed: str) -> None:
    """Every tube has the error that `tubing` gives, whose values agree with check_values.csv."""
    valves = [int(v) for v in pressed.split("-")]
    for side in HORN.sides:
        tube = tuned(tuning).tube(f"{side.name} {pressed}")
        nominal = side.fundamental_cents - 100 * sum(VALVES[v - 1] for v in valves)
        error = combination_error_cents(VALVES, valves, tuning)
        assert tube.fundamental_cents - nominal == pytest.approx(error, abs=1e-9)


def test_the_horn_is_built_with_the_setting_it_names() -> None:
    assert HORN.third_slide.value == "alone"
    assert HORN.tubes == valve_tubes(
        HORN.sides,
        HORN.usual_range.value[1],
        HORN.widest_range.value[1],
        third_slide=HORN.third_slide.value,
        shown=horn.SHOWN,
    )


# bwhisperer.com Blog 19: highest partial one expert player demonstrates; alternatives of one length share a value.
@pytest.mark.parametrize(
    ("tube", "highest"),
    [("Bb 0", 13), ("Bb 2", 14), ("Bb 1-2", 16), ("F 0", 19), ("Bb 1-3", 19), ("F 1-2", 21), ("F 1-2-3", 24)],
)
def test_highest_partials_of_a_tube_by_the_widest_reading(tube: str, highest: int) -> None:
    found = HORN.tube(tube)
    assert found.widest_partials == (1, highest)
    lowest, usual = found.partials
    assert lowest == 2
    assert usual <= highest
    top = found.fundamental_cents + partial_cents(usual)
    assert top <= HORN.usual_range.value[1] + 50


def test_the_round_trip_is_one_period_of_the_first_partial() -> None:
    """check_values.csv: 22.9 ms on the open F side, 17.2 ms on the open B-flat side."""
    assert 1000 * HORN.tube("F 0").round_trip_s == pytest.approx(22.9, abs=0.05)
    assert 1000 * HORN.tube("Bb 0").round_trip_s == pytest.approx(17.2, abs=0.05)
    for tube in HORN.tubes:
        there_and_back = 2 * tube.length_m / 343.0
        assert tube.round_trip_s == pytest.approx(there_and_back)


def test_quarter_tones_on_ideal_lengths_reach_down_to_written_b4() -> None:
    """check_values.csv: within 15 cents, contiguous from the top down to written B4 + 50, sounding E4 + 50."""
    lengths = range(2300, 3401, 100)  # twelve lengths of the double horn, valves ideal
    good = [n for n in range(1, 25) if abs(quarter_tone_deviation_cents(n)) <= 15]
    assert good == [11, 13, 22]
    reached = {
        round((first + partial_cents(n)) / 50) * 50 for first in lengths for n in good if n <= horn.SHOWN[first]
    }
    quarters = range(5050, 7701, 100)
    lowest = next(c for c in reversed(quarters) if c - 100 not in reached)
    assert lowest == 6450
    assert all(c in reached for c in quarters if c >= 6450)


@pytest.mark.parametrize(("n", "tuning", "tube", "serves"), [(7, "2-3", "F 3", True), (7, "alone", "F 3", False)])
def test_the_seventh_partial_serves_only_on_a_flat_tube(n: int, tuning: str, tube: str, serves: bool) -> None:
    """Partial 7 is 18.8 cents sharp of a quarter tone: a tube 4 to 34 cents flat brings it within 15."""
    made = tuned(tuning).tube(tube)
    off = made.fundamental_cents + partial_cents(n)
    off -= 100 * math.floor(off / 100) + 50
    assert (abs(off) <= 15) == serves


# --- slides ----------------------------------------------------------------------------------------------

TROMBONE, WITH_TRIGGER = instruments.get("trombone"), instruments.get("trombone-f")


def test_positions_are_semitones_and_the_slide_is_where_the_lengths_say() -> None:
    open_hz = frequency_hz(3400)
    for position in range(1, 8):
        tube = TROMBONE.tube(str(position))
        assert tube.fundamental_cents == 3400 - 100 * (position - 1)
        assert tube.reach == pytest.approx(position)
        out = (tube.length_m - TROMBONE.tube("1").length_m) / 2
        assert out == pytest.approx(slide_extension_m(open_hz, position))


def test_with_the_trigger_the_steps_are_longer() -> None:
    """The same extension matters less on a longer tube: derived from the lengths, in metres."""
    first = WITH_TRIGGER.tube("T 1")
    for position in range(1, 7):
        tube = WITH_TRIGGER.tube(f"T {position}")
        out = (tube.length_m - first.length_m) / 2
        assert out == pytest.approx(slide_extension_m(frequency_hz(3400), tube.reach))
        assert tube.reach >= position
    assert first.reach == 1  # the trigger alone moves no slide
    assert WITH_TRIGGER.tube("T 3").reach == pytest.approx(3.62, abs=0.01)
    assert WITH_TRIGGER.tube("T 6").reach == pytest.approx(7.40, abs=0.01)


@pytest.mark.parametrize(
    ("position", "name"), [(1.0, "1"), (2.3, "long 2"), (2.85, "3"), (3.7, "short 4"), (6.99, "7")]
)
def test_what_lies_between_positions_has_its_own_length(position: float, name: str) -> None:
    tube = slide_tube(TROMBONE, TROMBONE.sides[0], position)
    assert tube.name == name
    assert tube.reach == pytest.approx(position)
    assert tube.fundamental_cents == pytest.approx(3400 - 100 * (position - 1))


@pytest.mark.parametrize("n", range(2, 11))
@pytest.mark.parametrize("position", [1, 2.5, 4, 6.25, 7])
def test_every_partial_of_every_place_of_the_slide_is_a_way(n: int, position: float) -> None:
    """Any pitch of a partial from first to seventh position can be played without an error."""
    asked = Fraction(3400 + partial_cents(n) - 100 * (position - 1)).limit_denominator(1000)
    found = [w for w in ways(TROMBONE, asked) if w.partial == n]
    assert found
    assert abs(found[0].error) < 0.01
    assert found[0].position == pytest.approx(position, abs=0.01)
