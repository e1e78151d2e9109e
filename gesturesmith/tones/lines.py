"""Tones sorted into lines in which one sounds at a time, and loudness in decibels: for every audible format."""

from __future__ import annotations

from collections.abc import Iterable

from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.kinds import Voice
from gesturesmith.tones.types import Tone
from gesturesmith.values import frozen

NIENTE_DB = Sourced(-60.0, HOUSE, "inaudible beside the rest")
SOFTEST_DB = Sourced(
    -24.0, HOUSE, "ppp: three decibels a level, somewhat less than brass span, so that soft gestures are heard"
)
LOUDEST_DB = Sourced(-3.0, HOUSE, "fff: a little room for accents and several voices")
_PPP, _FFF = 1.0, 8.0  # places in LEVELS

_GAP_S = 1e-6  # times that differ by less are the same


@frozen(kw_only=True)
class Line:
    """The tones of one voice in order of time; none overlaps another.

    number  counts the lines of the same voice from 0: the partials of a split tone are two
    """

    voice: Voice
    number: int
    tones: tuple[Tone, ...]

    def follows(self, i: int) -> bool:
        """Whether tone `i` continues the one before it without a new attack."""
        if i == 0 or self.tones[i].onset not in ("slur", "continued"):
            return False
        return abs(self.tones[i - 1].end - self.tones[i].start) < _GAP_S

    def goes_on(self, i: int) -> bool:
        """Whether tone `i` is continued by the next without a new attack."""
        return i + 1 < len(self.tones) and self.follows(i + 1)


def lines(tones: Iterable[Tone]) -> tuple[Line, ...]:
    """The tones as lines, each tone in the first line of its voice that is silent at its beginning."""
    found: dict[tuple[Voice, int], list[Tone]] = {}
    for tone in sorted(tones, key=lambda tone: tone.start):
        number = 0
        while (row := found.get((tone.voice, number))) and row[-1].end > tone.start + _GAP_S:
            number += 1
        found.setdefault((tone.voice, number), []).append(tone)
    return tuple(Line(voice=voice, number=n, tones=tuple(row)) for (voice, n), row in found.items())


def decibels(place: float) -> float:
    """The loudness of a place in LEVELS, 0 (niente) to 8 (fff), in decibels below the loudest there is."""
    if place < _PPP:
        return NIENTE_DB.value + (SOFTEST_DB.value - NIENTE_DB.value) * max(place, 0.0)
    share = (min(place, _FFF) - _PPP) / (_FFF - _PPP)
    return SOFTEST_DB.value + (LOUDEST_DB.value - SOFTEST_DB.value) * share
