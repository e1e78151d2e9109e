"""The letter of a trill's second note."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gesturesmith.realise.trills import above
from gesturesmith.units import Spelling


@pytest.mark.parametrize(
    ("letter", "alter", "semitones", "name"),
    [
        ("E", 0, 1, "F4"),
        ("E", 0, 2, "F#4"),
        ("B", -1, 2, "C5"),
        ("A", 0, 3, "C5"),
        # A whole tone above B#4 is C double sharp: no plain accidental says it, and D5 does.
        ("B", 1, 2, "D5"),
        ("F", -1, 1, "F4"),
    ],
)
def test_it_is_the_next_letter_where_a_plain_accidental_can_say_it(letter, alter, semitones, name):
    assert above(Spelling(letter, Fraction(alter), 4), semitones).name == name
