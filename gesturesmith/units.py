"""Pitch spellings, intervals and exact cents.

Pitches are in cents above C-1, so that A4 is 6900 and middle C (C4) is 6000. Every number is a `Fraction` or an
`int`: with floats, a written and a sounding file of the same music might differ.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from gesturesmith.values import frozen

LETTERS = "CDEFGAB"
_SEMITONES = dict(zip(LETTERS, (0, 2, 4, 5, 7, 9, 11), strict=True))
_ALTER_SIGNS = {
    Fraction(-2): "bb",
    Fraction(-3, 2): "bv",
    Fraction(-5, 4): "b\\",
    Fraction(-1): "b",
    Fraction(-3, 4): "b/",
    Fraction(-1, 2): "v",
    Fraction(-1, 4): "\\",
    Fraction(0): "",
    Fraction(1, 4): "/",
    Fraction(1, 2): "^",
    Fraction(3, 4): "#\\",
    Fraction(1): "#",
    Fraction(5, 4): "#/",
    Fraction(3, 2): "#^",
    Fraction(2): "##",
}
_ALTER_BY_CENTS = {100 * alter: alter for alter in _ALTER_SIGNS}
A4_HZ = 440.0  # ISO 16:1975


@frozen
class Interval:
    """A musical interval: diatonic steps (a fifth is 4) and size in cents, both signed."""

    steps: int
    cents: Fraction

    def __neg__(self) -> Interval:
        return Interval(-self.steps, -self.cents)


UNISON = Interval(0, Fraction(0))


def _natural_cents(letter: str, octave: int) -> int:
    """Cents above C-1 of a letter without accidental."""
    return 100 * (_SEMITONES[letter] + 12 * (octave + 1))


@frozen
class Spelling:
    """A spelled pitch: letter, alteration in semitones (quarter tones are halves), octave, extra cents.

    `octave` is scientific (C4 is middle C). `alter` goes from -2 to 2 in halves, for eighth tones in
    quarters. `cents` is the distance from the pitch as spelled, for pitches finer than that.
    """

    letter: str
    alter: Fraction
    octave: int
    cents: int = 0

    @property
    def pitch_cents(self) -> Fraction:
        """Cents above C-1."""
        # In integers: this is called more often than anything else, and fractions take ten times as long.
        altered = 100 * self.alter.numerator // self.alter.denominator
        return Fraction(_natural_cents(self.letter, self.octave) + altered + self.cents)

    @property
    def steps(self) -> int:
        """Diatonic steps above C0: C4 is 28. The height on a staff, regardless of the accidental."""
        return self.octave * 7 + LETTERS.index(self.letter)

    @property
    def name(self) -> str:
        """The name in the gesture language: `F#^4`, `C4+31c`."""
        extra = f"{self.cents:+d}c" if self.cents else ""
        return f"{self.letter}{_ALTER_SIGNS[self.alter]}{self.octave}{extra}"

    @property
    def of_a_white_key(self) -> bool:
        """Whether it is E#, B#, Cb or Fb, which have simpler names."""
        return f"{self.letter}{_ALTER_SIGNS[self.alter]}" in ("E#", "B#", "Cb", "Fb")

    def transposed(self, interval: Interval) -> Spelling:
        """The pitch transposed by `interval`, spelled by its steps if an accidental allows, else in the usual
        way."""
        steps = self.steps + interval.steps
        octave, index = divmod(steps, 7)
        target = self.pitch_cents - self.cents + interval.cents
        alter = _ALTER_BY_CENTS.get(target - _natural_cents(LETTERS[index], octave))
        if alter is not None:
            return Spelling(LETTERS[index], alter, octave, self.cents)
        usual = spell(target)
        if self.alter.denominator == 4:
            usual = replace(usual, alter=usual.alter + Fraction(usual.cents, 100), cents=0)
        return replace(usual, cents=usual.cents + self.cents)

    @property
    def nearest(self) -> Spelling:
        """An eighth tone without its eighth: the note with the plain accidental that its sign is drawn on."""
        return replace(self, alter=Fraction(round(self.alter))) if self.alter.denominator == 4 else self


_ON_FIFTHS = "FCGDAEB"  # the naturals in order of fifths
Mode = Literal["major", "minor"]
_FIRST: dict[Mode, int] = {"major": 1, "minor": 4}  # among them, the tonic without a sign: C or A
_MOST_FIFTHS = 7


@frozen
class KeySignature:
    """A key: `fifths` sharps, or flats where it is negative, -7 to 7; and its mode, "" if it is open."""

    fifths: int
    mode: Mode | Literal[""] = ""

    @property
    def tonic(self) -> str:
        """Its first degree: `Eb`; "" if it is open."""
        if not self.mode:
            return ""
        turns, index = divmod(self.fifths + _FIRST[self.mode], 7)
        return _ON_FIFTHS[index] + ("#" * turns if turns > 0 else "b" * -turns)

    @property
    def name(self) -> str:
        """As the language names it: `Eb major`, `none`."""
        return f"{self.tonic} {self.mode}" if self.mode else "none"

    def alter(self, letter: str) -> int:
        """What it does to a letter: 1 sharpens it, -1 flattens it."""
        place = _ON_FIFTHS.index(letter)
        return int(self.fifths > place) - int(-self.fifths > 6 - place)

    def transposed(self, interval: Interval) -> KeySignature:
        """The key transposed; by its other name where it would need more than seven signs. An open one stays."""
        if not self.mode:
            return self
        fifths = self.fifths + 7 * int(interval.cents) // 100 - 12 * interval.steps
        while fifths > _MOST_FIFTHS:
            fifths -= 12
        while fifths < -_MOST_FIFTHS:
            fifths += 12
        return KeySignature(fifths, self.mode)


def key_signature(tonic: str, mode: Mode) -> KeySignature:
    """The key of a tonic (`Eb`) and a mode, though it may need more than seven signs."""
    turns = tonic.count("#") - tonic.count("b")
    return KeySignature(_ON_FIFTHS.index(tonic[0]) + 7 * turns - _FIRST[mode], mode)


_SHARPS = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")
_FLATS = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
_USUAL = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")


def spell(cents: Fraction | float, *, sharps: bool = False) -> Spelling:
    """The usual spelling of a pitch given in cents above C-1, to the cent.

    Quarter tones (exact multiples of 50) are spelled as such; anything else is the nearest tempered note with the
    rest in cents. `sharps=True` prefers sharps for black keys.
    """
    whole = round(cents)
    if whole % 100 == 50:
        below = spell(Fraction(whole - 50), sharps=True)
        if below.alter == 0:
            return replace(below, alter=Fraction(1, 2))
        return replace(below, alter=below.alter + Fraction(1, 2))
    semitone = round(Fraction(whole, 100))
    name = (_SHARPS if sharps else _USUAL)[semitone % 12]
    alter = Fraction({"": 0, "#": 1, "b": -1}[name[1:]])
    return Spelling(name[0], alter, semitone // 12 - 1, whole - 100 * semitone)


def spell_quarter(cents: Fraction | int) -> Spelling:
    """A quarter tone with the plainest accidental: raised from the natural below, else lowered from the one
    above."""
    below, above = spell(cents - 50, sharps=True), spell(cents + 50, sharps=True)
    if not below.alter:
        return replace(below, alter=Fraction(1, 2))
    return replace(above, alter=Fraction(-1, 2))


def spell_ladder(cents: Sequence[Fraction | int]) -> tuple[Spelling, ...]:
    """The names of tempered pitches, in cents above C-1, as intervals above the first: for B, F# D# A, never Eb.

    Names like E# or Cb and double accidentals are replaced by the usual names; the first is named such that this
    happens as late as possible.
    """

    def named(first: Spelling) -> tuple[Spelling, ...]:
        names = (first.transposed(chromatic(int(c - first.pitch_cents) // 100)) for c in cents)
        return tuple(spell(n.pitch_cents) if n.of_a_white_key or abs(n.alter) > 1 else n for n in names)

    def kept(row: tuple[Spelling, ...]) -> int:
        return next((at for at, name in enumerate(row) if not is_plain(row[0], name)), len(row))

    usual = spell(cents[0])
    other = usual.transposed(Interval(1, Fraction(0))) if usual.alter > 0 else usual
    return max((named(usual), named(other)), key=kept)


_STEPS_WITHIN = ((0,), (1,), (1,), (2,), (2,), (3,), (3, 4), (4,), (5,), (5,), (6,), (6,))


def spell_row(cents: Sequence[Fraction], first: Spelling) -> tuple[Spelling, ...]:
    """The names of a series of pitches that begins on `first`: those that read most easily together.

    cents   above C-1; pitches off the semitones have their usual name, after a flat that with a flat
    """

    def between(c: Fraction) -> Spelling:
        usual = spell(c)
        if first.alter >= 0 or usual.alter.denominator == 1 or usual.alter < 1:
            return usual
        return replace(spell(c + 50), alter=Fraction(-1, 2))  # A lowered by a quarter tone, for G# raised by one

    def named(row: Sequence[str]) -> tuple[Spelling, ...]:
        return tuple(first if c == first.pitch_cents else between(c) if c % 100 else _named(c, row) for c in cents)

    semitones = [(c - first.pitch_cents) / 100 for c in cents]
    by_interval = tuple(
        first.transposed(chromatic(int(s))) if s.denominator == 1 else between(c)
        for c, s in zip(cents, semitones, strict=True)
    )
    return min((by_interval, named(_SHARPS), named(_FLATS)), key=lambda row: awkwardness((first, *row)))


def _named(cents: Fraction, row: Sequence[str]) -> Spelling:
    octave, place = divmod(int(cents) // 100, 12)
    name = row[place]
    return Spelling(name[0], Fraction({"": 0, "#": 1, "b": -1}[name[1:]]), octave - 1)


def simplest(semitones: int, names: Sequence[Spelling]) -> Interval:
    """The interval of this many semitones that gives transposed pitches the easiest names."""
    usual = chromatic(semitones)
    if semitones % 12 == 0:
        return usual
    ways = (usual, *(Interval(usual.steps + more, usual.cents) for more in (1, -1)))
    return min(ways, key=lambda way: awkwardness([name.transposed(way) for name in names]))


def awkwardness(names: Sequence[Spelling]) -> int:
    """How hard the names of a series are to read together. The weights are our own judgement.

    It counts accidentals, mixtures of both kinds, double ones, E#, Cb and the like, and augmented or diminished
    steps that have a plainer spelling.
    """
    whole = [name for name in names if name.alter.denominator == 1]
    weight = sum(10 if abs(n.alter) > 1 else 1 for n in whole if n.alter)
    weight += 3 * sum(name.of_a_white_key for name in whole)
    weight += 4 * (min((n.alter for n in whole), default=0) < 0 < max((n.alter for n in whole), default=0))
    return weight + 4 * sum(not is_plain(a, b) for a, b in pairwise(names))


def is_plain(a: Spelling, b: Spelling) -> bool:
    """Whether two names are a perfect, major or minor interval apart, a tritone, or not whole semitones."""
    low, high = (a, b) if a.pitch_cents <= b.pitch_cents else (b, a)
    semitones, rest = divmod(high.pitch_cents - low.pitch_cents, 100)
    octaves, within = divmod(int(semitones), 12)
    return bool(rest) or high.steps - low.steps - 7 * octaves in _STEPS_WITHIN[within]


def frequency_hz(cents: Fraction | float) -> float:
    """Frequency of a pitch in cents above C-1, in equal temperament at A4 = 440 Hz (ISO 16)."""
    return A4_HZ * math.exp2((float(cents) - 6900.0) / 1200.0)


_SIMPLE = {1: 0, 2: 2, 3: 4, 4: 5, 5: 7, 6: 9, 7: 11}
_INTERVAL = re.compile(r"([PMmAd])([1-9][0-9]?)\Z")


def interval(name: str) -> Interval | None:
    """The interval called `name` (`M2`, `P5`, `m10`, `A4`, `d5`), or None if there is no such interval."""
    match = _INTERVAL.match(name)
    if not match:
        return None
    quality, number = match[1], int(match[2])
    octaves, simple = divmod(number - 1, 7)
    perfect = simple + 1 in (1, 4, 5)
    change = {"P": 0 if perfect else None, "M": None if perfect else 0, "m": None if perfect else -1}.get(
        quality, 1 if quality == "A" else (-1 if perfect else -2)
    )
    if change is None or (number == 1 and quality == "d"):
        return None
    return Interval(number - 1, Fraction(100 * (_SIMPLE[simple + 1] + 12 * octaves + change)))


def chromatic(semitones: int) -> Interval:
    """The most common interval of this many semitones (3 is a minor third, 6 an augmented fourth)."""
    octaves, rest = divmod(abs(semitones), 12)
    steps = (0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6)[rest] + 7 * octaves
    up = Interval(steps, Fraction(100 * abs(semitones)))
    return up if semitones >= 0 else -up
