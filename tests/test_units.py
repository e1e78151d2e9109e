"""Pitches and intervals against an outside reference: music21 10.5 (`transpose`, `Pitch.frequency`), which follows
equal temperament at A4 = 440 Hz (ISO 16)."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import music21
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gesturesmith.units import (
    Interval,
    Spelling,
    chromatic,
    frequency_hz,
    interval,
    is_plain,
    spell,
    spell_ladder,
    spell_row,
)

NAMES = ["C4", "C#4", "Db4", "E4", "Fb4", "F#4", "G3", "Ab5", "Bb2", "B4", "B#3", "Cb5", "D##4", "Ebb5"]
INTERVALS = ["m2", "M2", "m3", "M3", "P4", "A4", "d5", "P5", "m6", "M6", "m7", "M7", "P8", "M9", "m10", "P12"]


def ours(name: str) -> Spelling:
    letter, sign, octave = name[0], name[1:-1], int(name[-1])
    return Spelling(letter, Fraction({"": 0, "#": 1, "b": -1, "##": 2, "bb": -2}[sign]), octave)


def theirs(name: str):
    return music21.pitch.Pitch(name.replace("b", "-"))


@pytest.mark.parametrize("name", NAMES)
def test_pitches(name):
    assert ours(name).name == name
    assert ours(name).pitch_cents == pytest.approx(theirs(name).ps * 100)
    assert frequency_hz(ours(name).pitch_cents) == pytest.approx(theirs(name).frequency, rel=1e-9)


@pytest.mark.parametrize("size", INTERVALS)
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("sign", [1, -1])
def test_transposition_keeps_the_spelling(name, size, sign):
    found = interval(size)
    assert isinstance(found, Interval)
    moved = ours(name).transposed(found if sign > 0 else -found)
    expected = theirs(name).transpose(music21.interval.Interval(size if sign > 0 else f"-{size}"))
    assert moved.pitch_cents == pytest.approx(expected.ps * 100)
    if abs(expected.alter) <= 2:  # beyond a double sharp or flat there is no sign to write
        assert moved.name == expected.nameWithOctave.replace("-", "b")


def test_cents_stay_where_no_accidental_can_say_the_spelling():
    """An E double sharp raised by a semitone on its own step is G: 31 cents above it stay so."""
    assert Spelling("E", Fraction(2), 4, 31).transposed(Interval(0, Fraction(100))).name == "G4+31c"


def test_the_horn_in_f():
    """Written = sounding + a perfect fifth (music21 Horn, P-5; abjad FrenchHorn)."""
    fifth = interval("P5")
    assert ours("C4").transposed(-fifth).name == "F3"
    assert Spelling("F", Fraction(3, 2), 4).transposed(-fifth).name == "B^3"


@pytest.mark.parametrize("name", ["P3", "M5", "d1", "X2", "", "M0", "P100"])
def test_no_such_interval(name):
    assert interval(name) is None


@pytest.mark.parametrize("semitones", range(-24, 25))
def test_chromatic_moves_by_semitones(semitones):
    assert ours("G4").transposed(chromatic(semitones)).pitch_cents == 6700 + 100 * semitones


@pytest.mark.parametrize(
    ("cents", "name"), [(6000, "C4"), (6100, "C#4"), (6300, "Eb4"), (6050, "C^4"), (6650, "F#^4"), (6031, "C4+31c")]
)
def test_spelling_of_a_pitch(cents, name):
    assert spell(Fraction(cents)).name == name
    assert spell(Fraction(cents)).pitch_cents == cents


@pytest.mark.parametrize(
    ("name", "cents", "up_a_fifth"),
    [("C/4", 6025, "G/4"), ("F#\\4", 6575, "C#\\5"), ("Bb/3", 5825, "F/4"), ("B/3", 5925, "F#/4")],
)
def test_an_eighth_tone_is_a_quarter_of_a_semitone(name, cents, up_a_fifth):
    alter = {"/": Fraction(1, 4), "#\\": Fraction(3, 4), "b/": Fraction(-3, 4)}[name[1:-1]]
    pitch = Spelling(name[0], alter, int(name[-1]))
    assert (pitch.pitch_cents, pitch.name) == (cents, name)
    assert pitch.transposed(chromatic(7)).name == up_a_fifth
    assert pitch.nearest.alter == round(alter)


def _frequencies():
    with (Path(__file__).parent / "reference" / "check_values.csv").open(encoding="utf-8", newline="") as file:
        rows = [r for r in csv.DictReader(file) if r["quantity"].startswith("frequency ")]
    for row in rows:
        word = row["quantity"].split()[1]
        if "quarter" in row["quantity"]:
            alter = Fraction(1, 2) if "sharp" in row["quantity"] else Fraction(-1, 2)
            yield row, Spelling(word[0], alter, int(word[-1])).pitch_cents
        else:
            yield row, ours(word).pitch_cents


@pytest.mark.parametrize(
    ("row", "cents"), list(_frequencies()), ids=lambda v: v["quantity"] if isinstance(v, dict) else ""
)
def test_equal_tempered_frequencies(row, cents):
    """The source of each row stands in the table."""
    assert float(row["low"]) <= frequency_hz(cents) <= float(row["high"])


# --- names that read easily ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("first", "semitones", "names"),
    [
        ("C4", [3, 0], "Eb4 C4"),
        ("B3", [4, 0], "D#4 B3"),
        ("D4", [1, 2, 3], "Eb4 E4 F4"),
        ("C4", [6, 8], "F#4 G#4"),
        ("Eb4", [2, 4, 5], "F4 G4 Ab4"),
        ("Gb4", [Fraction(5, 2)], "Av4"),
        ("Eb4", [Fraction(7, 2), Fraction(1, 2)], "Gv4 Ev4"),
        ("C4", [Fraction(13, 2)], "F#^4"),
    ],
)
def test_a_row_has_names_that_belong_together(first: str, semitones: list[int], names: str) -> None:
    letter, octave = first[0], int(first[-1])
    start = Spelling(letter, Fraction(-1 if "b" in first[1:] else 0), octave)
    row = spell_row([start.pitch_cents + 100 * s for s in semitones], start)
    assert " ".join(name.name for name in row) == names


@given(st.integers(36, 96), st.integers(-24, 24))
def test_a_plain_interval_is_what_music21_calls_one(midi: int, semitones: int) -> None:
    """Perfect, major or minor by music21 (an outside reference), or the tritone, which has no plain name."""
    low = spell(100 * midi)
    high = low.transposed(chromatic(semitones))
    assert is_plain(low, high)
    assert music21_name(low, high)[0] in "PMm" or semitones % 12 == 6
    wrong = Spelling(high.letter, high.alter, high.octave).transposed(Interval(1, Fraction(0)))
    if wrong.letter != high.letter and semitones % 12 != 6:
        assert not is_plain(low, wrong)


def music21_name(a: Spelling, b: Spelling) -> str:
    first, second = (theirs(s.name) for s in sorted((a, b), key=lambda s: s.pitch_cents))
    return music21.interval.Interval(first, second).simpleName


@pytest.mark.parametrize(
    ("first", "names"),
    [
        ("C2", "C2 C3 G3 C4 E4 G4 Bb4 C5 D5 E5 F#5 G5"),
        ("B1", "B1 B2 F#3 B3 D#4 F#4 A4 B4 C#5 D#5 F5 F#5"),
        ("Ab1", "Ab1 Ab2 Eb3 Ab3 C4 Eb4 Gb4 Ab4 Bb4 C5 D5 Eb5"),
        ("F#1", "F#1 F#2 C#3 F#3 A#3 C#4 E4 F#4 G#4 A#4 C5 C#5"),
        ("C#2", "Db2 Db3 Ab3 Db4 F4 Ab4 B4 Db5 Eb5 F5 G5 Ab5"),
    ],
)
def test_harmonics_are_named_as_intervals_above_the_first(first: str, names: str) -> None:
    """The third above B is D#, the seventh above Ab is Gb: of no ladder some are sharps and others their flats."""
    above = (0, 12, 19, 24, 28, 31, 34, 36, 38, 40, 42, 43)
    cents = [ours(first).pitch_cents + 100 * n for n in above]
    assert " ".join(note.name for note in spell_ladder(cents)) == names
