"""What is heard of a music, as values: nothing of notation, nothing of audio."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from fractions import Fraction
from itertools import pairwise
from operator import itemgetter

from gesturesmith.kinds import Colour, Noise, Onset, Voice, WaveKind
from gesturesmith.values import frozen

# (seconds, value) in order of time: even between two rows, a step where two rows have one time. () where there is
# none of it.
type Curve = tuple[tuple[float, float], ...]

_time = itemgetter(0)


@frozen(kw_only=True)
class Wave:
    """A pitch that goes away and comes back.

    kind    "vibrato", about the pitch; "trill", by turns the pitch and the one above; "timbre", by turns two
            fingerings of the pitch
    hz      times there and back a second
    cents   width along time: to either side of a vibrato; from the first note of a trill to the second, signed
    """

    kind: WaveKind
    hz: float
    cents: Curve


@frozen(kw_only=True)
class Roll:
    """A roll of tongue or throat in the tone: so many a second; `amount` from 0 to 1 along time."""

    hz: float
    amount: Curve


@frozen(kw_only=True)
class Tone:
    """One sound of one voice, from where it begins to where the next begins, or a silence.

    Times are seconds from the beginning of the music, pitches sounding cents above C-1 (A4 is 6900).

    voice       "played"; "second", what sounds with it of one lip; "sung"
    start, end  start < end
    onset       how it begins: "attack", tongued; "split", spat so that it cracks; "slur", a new note without the
                tongue; "continued", the same sound goes on from the tone that ends here
    pitch       without the waves; () for a noise. Of air it is what is fingered, which colours it
    waves       what moves about the pitch
    level       places in LEVELS, 0 (niente) to 8 (fff)
    air         share of breath in the sound, 0 to 1, where 1 has no tone of the lips; () for 0
    hand        how far the hand shuts the bell, 0 to 1; () for 0
    rolls       of the tongue, of the throat
    noise       slap, kiss, click, pop: a stroke without pitch; "" for a tone or air
    mute        the mute in the bell, "" for none
    colours     what else colours it, as `Technique.sound` names it
    techniques  keys of the techniques in force
    gesture     name of the gesture it belongs to, "" for a plain note of a passage
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
    mute: str = ""
    colours: tuple[Colour, ...] = ()
    techniques: tuple[str, ...] = ()
    gesture: str = ""

    def __post_init__(self) -> None:
        if not self.start < self.end:
            raise ValueError(f"a tone from {self.start} s to {self.end} s")

    def cents_at(self, seconds: float) -> float | None:
        """What is heard at a time, waves and all; None of a noise."""
        if not self.pitch:
            return None
        heard = at(self.pitch, seconds)
        for wave in self.waves:
            phase = (seconds - self.start) * wave.hz % 1.0
            share = math.sin(2 * math.pi * phase) if wave.kind == "vibrato" else float(phase >= 0.5)
            heard += share * at(wave.cents, seconds)
        return heard


@frozen(kw_only=True)
class Fermata:
    """A fermata: after so many beats of the music, repeats played out, time stands still for `seconds`."""

    beats: Fraction
    seconds: float


@frozen(kw_only=True)
class Performance:
    """A music as it is heard: its tones in order of their beginning, its length in seconds, the fermatas in it."""

    tones: tuple[Tone, ...]
    seconds: float
    fermatas: tuple[Fermata, ...] = ()


def at(curve: Curve, seconds: float, *, before: bool = False) -> float:
    """A curve at a time, level beyond its ends, 0 where there is none; where it steps the value after the step, or
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


def part(curve: Curve, start: float, end: float) -> Curve:
    """The part of a curve from one time to a later one."""
    if not curve:
        return ()
    inside = (row for row in curve if start < row[0] < end)
    return simple(((start, at(curve, start)), *inside, (end, at(curve, end, before=True))))


def simple(rows: Curve) -> Curve:
    """The curve without rows that say nothing: those said twice, and those within a stretch that stays level."""
    kept: list[tuple[float, float]] = []
    for row in rows:
        if kept and kept[-1] == row:
            continue
        if len(kept) > 1 and kept[-1][1] == kept[-2][1] == row[1]:
            kept.pop()
        kept.append(row)
    return tuple(kept)


def rises(curve: Curve) -> bool:
    """Whether the times of a curve never fall."""
    return all(a[0] <= b[0] for a, b in pairwise(curve))
