"""What changes inside a passage: tempo, meter and key, and where its places are marked. Times are in quarters from
the start of the passage; the music around them is elsewhere."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.kinds import TempoTurn
from gesturesmith.units import KeySignature
from gesturesmith.values import frozen


@frozen(kw_only=True)
class TempoChange:
    """A new tempo, in quarters a minute, with the words before it; `counted`: the note that it names, in quarters,
    None if none."""

    at: Fraction
    tempo: Fraction
    words: str | None = None
    counted: Fraction | None = None


@frozen(kw_only=True)
class TempoGradually:
    """The tempo gets faster or slower from `at` until it is `tempo` at `until`."""

    at: Fraction
    until: Fraction
    turn: TempoTurn
    tempo: Fraction
    counted: Fraction | None = None


@frozen(kw_only=True)
class MeterChange:
    """A new time signature, at a bar line."""

    at: Fraction
    meter: tuple[int, int]


@frozen(kw_only=True)
class KeyChange:
    """A new key signature, in the pitch of the music it belongs to: written in a part, sounding in a score in C."""

    at: Fraction
    key: KeySignature


@frozen(kw_only=True)
class RehearsalMark:
    """A rehearsal letter, number or word."""

    at: Fraction
    text: str


@frozen(kw_only=True)
class DoubleBar:
    """A double bar line."""

    at: Fraction


type Change = TempoChange | TempoGradually | MeterChange | KeyChange | RehearsalMark | DoubleBar


def bar_beats(meter: tuple[int, int]) -> Fraction:
    """The length of a bar in quarters."""
    return Fraction(4 * meter[0], meter[1])
