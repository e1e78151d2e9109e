"""Numbers and pitches as MusicXML writes them."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from gesturesmith.importers.musicxml.tree import Element
from gesturesmith.units import LETTERS, Interval, Spelling

_MOST_EIGHTHS = Fraction(3, 2)  # there are signs for eighth tones up to five
# No exponents: they would ask for numbers of any length.
_NUMBER = re.compile(r"[+-]?([0-9]{1,12})(\.[0-9]{1,12})?\Z")


@lru_cache(maxsize=4096)
def number(text: str) -> Fraction | None:
    """A decimal number; None if it is none."""
    return Fraction(text) if _NUMBER.match(text) else None


def whole_number(text: str) -> int | None:
    """A whole number; None if it is none."""
    found = number(text)
    return int(found) if found is not None and found.denominator == 1 else None


def pitch(element: Element) -> Spelling | None:
    """The pitch of a `pitch` or `unpitched`; None if there is none that can be."""
    kind = "display-" if element.tag == "unpitched" else ""
    return _pitch(element.says(f"{kind}step"), element.says("alter"), element.says(f"{kind}octave"))


@lru_cache(maxsize=4096)
def _pitch(letter: str, altered: str, height: str) -> Spelling | None:
    octave, alter = whole_number(height), number(altered or "0")
    if len(letter) != 1 or letter not in LETTERS or octave is None or not 0 <= octave <= 9:
        return None
    if alter is None or abs(alter) > 3:
        return None
    return spelled(letter, alter, octave)


def spelled(letter: str, alter: Fraction, octave: int) -> Spelling:
    """A pitch by its alteration in semitones: quarter and eighth tones as such, anything finer in cents."""
    if (alter.denominator <= 2 and abs(alter) <= 2) or (alter.denominator == 4 and abs(alter) < _MOST_EIGHTHS):
        return Spelling(letter, alter, octave)
    plain = Fraction(max(-1, min(1, round(alter))))
    return Spelling(letter, plain, octave, round((alter - plain) * 100))


def transposition(element: Element) -> Interval | None:
    """The interval of a `transpose`, from written to sounding; None if it is no interval."""
    semitones = number(element.says("chromatic") or "0")
    octaves = whole_number(element.says("octave-change") or "0")
    steps = whole_number(element.says("diatonic") or "x")
    if semitones is None or octaves is None or abs(semitones) > 60 or abs(octaves) > 5:
        return None
    if steps is None:  # left out by some: by the semitones
        up = (0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6)
        octave, rest = divmod(abs(int(semitones)), 12)
        steps = (7 * octave + up[rest]) * (-1 if semitones < 0 else 1)
    return Interval(steps + 7 * octaves, 100 * (semitones + 12 * octaves))
