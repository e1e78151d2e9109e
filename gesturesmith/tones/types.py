"""Sound as values, independent of notation and audio formats."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from fractions import Fraction
from itertools import pairwise
from operator import itemgetter

from gesturesmith.kinds import Breath, Colour, Noise, Onset, Voice, WaveKind
from gesturesmith.values import frozen

# (seconds, value) in order of time: linear between two rows, a step if two rows have the same time. () for nothing.
type Curve = tuple[tuple[float, float], ...]

_time = itemgetter(0)


@frozen(kw_only=True)
class Wave:
    """A periodic movement of the pitch.

    kind    "vibrato", around the pitch; "trill", the pitch and the one above in turn; "timbre", two fingerings of
            the pitch in turn
    hz      cycles per second, at its beginning if `speeds` says how they change
    cents   width over time: of a vibrato, to either side; of a trill, from the first note to the second, signed
    speeds  cycles per second over time; () for `hz` throughout
    """

    kind: WaveKind
    hz: float
    cents: Curve
    speeds: Curve = ()

    def cycles(self, start: float, end: float) -> float:
        """How many cycles there are between two times."""
        return area(self.speeds, start, end) if self.speeds else (end - start) * self.hz


@frozen(kw_only=True)
class Roll:
    """A roll of tongue or throat in the tone: rolls per second; `amount` from 0 to 1 over time."""

    hz: float
    amount: Curve


@frozen(kw_only=True)
class Tone:
    """One sound of one voice, from its beginning to the next or to a silence.

    Times are seconds from the beginning of the music, pitches sounding cents above C-1 (A4 is 6900).

    voice       "played"; "second", sounding with it on the same lips; "sung"; "spoken", away from the instrument
    start, end  start < end
    onset       how it begins: "attack", tongued; "split", spat so that it cracks; "slur", a new note without the
                tongue; "continued", the sound of the tone that ends here goes on
    pitch       without the waves; () for a noise, and for sounds breathed or spoken in a rest. For air, the
                fingered pitch, which colours it
    waves       the movements around the pitch
    level       places in LEVELS, 0 (niente) to 8 (fff)
    air         share of breath in the sound, 0 to 1, where 1 has no lip tone; () for 0
    hand        how far the hand, a plunger or whatever covers the mute closes the bell, 0 to 1; () for 0
    rolls       of tongue and throat
    noise       slap, kiss, click, pop, tap: a stroke without pitch; "" for a tone or air
    breath      "in" or "out" if the direction of the air is given; without pitch, only the breath sounds
    syllable    spoken or breathed at its beginning, "" for none
    mute        the mute in the bell, "" for none
    colours     other colours, as named in `Technique.sound`
    techniques  keys of the techniques in force
    gesture     name of its gesture, "" for a plain note of a passage
    """

    voice: Voice = "played"
    start: float
    end: float
    onset: Onset = "attack"
    pitch: Curve = ()
    waves: tuple[Wave, ...] = ()
    level: Curve
    air: Curve = ()
    hand: Curve = ()
    rolls: tuple[Roll, ...] = ()
    noise: Noise = ""
    breath: Breath = ""
    syllable: str = ""
    mute: str = ""
    colours: tuple[Colour, ...] = ()
    techniques: tuple[str, ...] = ()
    gesture: str = ""

    def __post_init__(self) -> None:
        if not self.start < self.end:
            raise ValueError(f"a tone from {self.start} s to {self.end} s")

    def cents_at(self, seconds: float) -> float | None:
        """The audible pitch at a time, with its waves; None for a noise."""
        if not self.pitch:
            return None
        heard = at(self.pitch, seconds)
        for wave in self.waves:
            phase = wave.cycles(self.start, seconds) % 1.0
            share = math.sin(2 * math.pi * phase) if wave.kind == "vibrato" else float(phase >= 0.5)
            heard += share * at(wave.cents, seconds)
        return heard


@frozen(kw_only=True)
class Fermata:
    """A fermata: at a time in beats, with repeats written out, time stops for `seconds`."""

    beats: Fraction
    seconds: float


@frozen(kw_only=True)
class Performance:
    """A performance: its tones in order of beginning, its length in seconds, its fermatas.

    begins  (seconds, name) of each gesture, whenever it is played
    time    (beats, seconds) from (0, 0.0) to the end, with repeats written out: a steady tempo from row to row, in
            which the fermatas are included
    """

    tones: tuple[Tone, ...]
    seconds: float
    fermatas: tuple[Fermata, ...] = ()
    begins: tuple[tuple[float, str], ...] = ()
    time: tuple[tuple[Fraction, float], ...] = ()


def at(curve: Curve, seconds: float, *, before: bool = False) -> float:
    """The value of a curve at a time: constant beyond its ends, 0 if empty; at a step the value after it, or
    `before` it."""
    if not curve:
        return 0.0
    i = (bisect_left if before else bisect_right)(curve, seconds, key=_time)
    if i == 0:
        return curve[0][1]
    if i == len(curve):
        return curve[-1][1]
    (start, first), (end, last) = curve[i - 1], curve[i]
    if seconds == end:
        return last
    return first + (last - first) * (seconds - start) / (end - start)


def area(curve: Curve, start: float, end: float) -> float:
    """What lies under a curve between two times."""
    rows = part(curve, start, end) if end > start else ()
    return sum((b[0] - a[0]) * (a[1] + b[1]) / 2 for a, b in pairwise(rows))


def times_of(curve: Curve, start: float, end: float, step: float) -> tuple[float, ...]:
    """When the area under a curve above zero reaches 0, `step`, twice `step` ... between two times."""
    whole = area(curve, start, end)
    found, low = [start], start
    for n in range(1, int(whole / step + 1e-9) + 1):
        high = end
        for _ in range(40):
            middle = (low + high) / 2
            low, high = (middle, high) if area(curve, start, middle) < n * step else (low, middle)
        found.append(high)
    return tuple(found)


def part(curve: Curve, start: float, end: float) -> Curve:
    """The part of a curve between two times."""
    if not curve:
        return ()
    inside = (row for row in curve if start < row[0] < end)
    return simple(((start, at(curve, start)), *inside, (end, at(curve, end, before=True))))


def simple(rows: Curve) -> Curve:
    """The curve without redundant rows: repeated ones, and those inside a constant stretch."""
    kept: list[tuple[float, float]] = []
    for row in rows:
        if kept and kept[-1] == row:
            continue
        if len(kept) > 1 and kept[-1][1] == kept[-2][1] == row[1]:
            kept.pop()
        kept.append(row)
    return tuple(kept)


def rises(curve: Curve) -> bool:
    """Whether the times of a curve never decrease."""
    return all(a[0] <= b[0] for a, b in pairwise(curve))
