"""The definition of a compass: the notes and keys of a student of an instrument."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import Sourced
from gesturesmith.exercises.probes import written_range
from gesturesmith.instruments._build import cents
from gesturesmith.instruments.base import Instrument
from gesturesmith.values import frozen


@frozen(kw_only=True)
class Compass:
    """Notes and keys by level.

    instruments   the keys of the instruments it holds for
    ranges        written lowest and highest note of levels 1 to 4; level 5 has the instrument's usual range
    keys          of levels 1 to 5: written key signatures of major keys, sharps or (-) flats, those learnt first
                  at the beginning
    """

    instruments: tuple[str, ...]
    ranges: tuple[Sourced[tuple[str, str]], ...]
    keys: tuple[Sourced[tuple[int, ...]], ...]

    def range_of(self, level: int, instrument: Instrument) -> tuple[Fraction, Fraction]:
        """The written lowest and highest note of a level that the instrument has in its usual range, in cents above
        C-1."""
        whole = written_range(instrument)
        lowest, highest = whole[0].pitch_cents, whole[-1].pitch_cents
        if level > len(self.ranges):
            return lowest, highest
        low, high = self.ranges[level - 1].value
        return max(lowest, Fraction(cents(low))), min(highest, Fraction(cents(high)))

    def keys_of(self, level: int) -> tuple[int, ...]:
        """The written keys of a level."""
        return self.keys[level - 1].value
