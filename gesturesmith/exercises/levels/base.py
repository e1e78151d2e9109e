"""The definition of a level: what a student of that level is asked, on any instrument."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from gesturesmith.evidence import Sourced
from gesturesmith.values import frozen

# Which notes of a line use the technique, from one new thing at a time to all of it:
#   held       long notes only, two at most, each after a plain one
#   long       every long note
#   every other   every other note
#   all        every note
type Share = Literal["held", "long", "every other", "all"]


@frozen(kw_only=True)
class StudentLevel:
    """What lines of a level ask; what notes and keys they use is a matter of the instrument (`compass`).

    number      1 (the first year) to 5 (a professional)
    tempi       quarters a minute
    pace        multiples of a shape's note values, which are quarters, halves and wholes
    shares      which notes use the technique
    widest      the widest step between two notes, in cents
    dynamics    levels to play at: one, or two with a hairpin between them
    tongue      the speed of repeated notes, least and most, as a share of what the instrument or technique allows
    position    the farthest slide position; None for all of them
    times       how often a line is played
    joined      whether a second technique may join the first
    """

    number: int
    tempi: Sourced[tuple[int, ...]]
    pace: Sourced[tuple[Fraction, ...]]
    shares: Sourced[tuple[Share, ...]]
    widest: Sourced[int]
    dynamics: Sourced[tuple[tuple[str, ...], ...]]
    tongue: Sourced[tuple[float, float]]
    position: Sourced[int] | None = None
    times: int = 1
    joined: bool = False
