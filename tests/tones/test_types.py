"""Curves, and what is heard at a time.

Cents and hertz against the MIDI Tuning Standard (MIDI Manufacturers Association): a note number of 14 bits below
the semitone, A4 = 440 Hz (ISO 16) at note 69. The examples are those of the specification that hold by its own
formula (others in its table are misprinted: midi.org forum, "MTS frequency data examples in spec").
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gesturesmith.tones.types import Curve, Tone, Wave, at, part, rises, simple
from gesturesmith.units import frequency_hz

MTS = {
    (0x00, 0x00, 0x00): 8.1758,
    (0x01, 0x00, 0x00): 8.6620,
    (0x0C, 0x00, 0x00): 16.3516,
    (0x3C, 0x00, 0x00): 261.6256,
    (0x44, 0x7F, 0x7F): 439.9984,
    (0x45, 0x00, 0x00): 440.0,
    (0x45, 0x00, 0x01): 440.0016,
}


@pytest.mark.parametrize(("data", "hz"), MTS.items())
def test_sounding_cents_are_midi_notes_in_hundredths(data, hz):
    semitone, high, low = data
    cents = 100 * (semitone + (high << 7 | low) / 2**14)
    tone = Tone(start=0.0, end=1.0, pitch=((0.0, cents), (1.0, cents)), level=((0.0, 4.0),))
    assert frequency_hz(tone.cents_at(0.5)) == pytest.approx(hz, abs=0.00005)


@st.composite
def curves(draw) -> Curve:
    times = sorted(draw(st.lists(st.floats(0, 60), min_size=1, max_size=8)))
    return tuple((t, draw(st.floats(-100, 100))) for t in times)


@given(curves(), st.floats(-1, 61))
def test_a_curve_stays_between_its_values(curve, seconds):
    values = [value for _, value in curve]
    assert min(values) - 1e-6 <= at(curve, seconds) <= max(values) + 1e-6


@given(curves(), st.floats(0, 59), st.floats(0.01, 60), st.floats(0, 1))
def test_a_part_is_the_curve_itself(curve, start, length, share):
    end = start + length
    piece = part(curve, start, end)
    assert rises(piece)
    assert (piece[0][0], piece[-1][0]) == (start, end)
    inside = start + (end - start) * share
    if start < inside < end and all(abs(inside - t) > 1e-3 for t, _ in curve):
        assert at(piece, inside) == pytest.approx(at(curve, inside), abs=1e-3)


@given(curves(), st.floats(0, 60))
def test_what_is_left_out_says_nothing(curve, seconds):
    if all(abs(seconds - t) > 1e-6 for t, _ in curve):
        assert at(simple(curve), seconds) == pytest.approx(at(curve, seconds), abs=1e-6)


def test_a_step_has_two_values():
    step = ((0.0, 1.0), (2.0, 1.0), (2.0, 5.0), (4.0, 5.0))
    assert (at(step, 2.0, before=True), at(step, 2.0)) == (1.0, 5.0)
    assert part(step, 0.0, 2.0) == ((0.0, 1.0), (2.0, 1.0))
    assert part(step, 2.0, 4.0) == ((2.0, 5.0), (4.0, 5.0))


def waving(kind: str, hz: float, cents: float) -> Tone:
    wave = Wave(kind=kind, hz=hz, cents=((0.0, cents), (2.0, cents)))
    return Tone(start=0.0, end=2.0, pitch=((0.0, 6900.0), (2.0, 6900.0)), waves=(wave,), level=((0.0, 4.0),))


def test_a_vibrato_goes_to_both_sides_so_often():
    tone = waving("vibrato", 5.0, 25.0)
    heard = [tone.cents_at(n / 1000) for n in range(1000)]
    assert max(heard) == pytest.approx(6925, abs=0.1)
    assert min(heard) == pytest.approx(6875, abs=0.1)
    assert sum(a <= 6900 < b for a, b in pairwise(heard)) == 5
    assert math.isclose(sum(heard) / 1000, 6900, abs_tol=0.1)


def test_a_trill_begins_on_its_note_and_is_on_the_other_half_of_the_time():
    tone = waving("trill", 4.0, 200.0)
    heard = [tone.cents_at(n / 1000) for n in range(1000)]
    assert heard[0] == 6900
    assert set(heard) == {6900, 7100}
    assert heard.count(7100) == 500


def test_a_noise_has_no_pitch():
    assert Tone(start=0.0, end=0.1, level=(), noise="slap").cents_at(0.05) is None


@pytest.mark.parametrize("end", [0.0, 1.0])
def test_a_tone_has_a_length(end):
    with pytest.raises(ValueError, match="a tone from"):
        Tone(start=1.0, end=end, level=())
