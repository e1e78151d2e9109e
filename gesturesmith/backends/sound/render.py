"""Tones as samples: a sketch of pitch and time, not of timbre.

The standard library takes 8 ms for a second of sound. The same loop with numpy takes 4, or half a millisecond for
whole tones at once, and importing it as long as 17 s of sound: that is no extra worth having.

Every pitch is where the performance has it, within a cent; only steps take the few milliseconds that lips take.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterable, Sequence
from functools import cache

from gesturesmith.backends.sound.timbre import (
    BRIGHTNESSES,
    CLOSINGS,
    PERIOD,
    RATE,
    Timbre,
    frequency,
    period,
)
from gesturesmith.kinds import Noise
from gesturesmith.tones import Curve, Performance, Tone
from gesturesmith.tones.lines import Line, decibels, lines

_HOP = 32  # samples for which all but the phase is computed once
_AFTER_S = 0.1  # silence at the end
_ATTACK_S, _RELEASE_S = 0.015, 0.03
_LIPS_S = 0.004  # time constant of a step from one pitch to another
_STEP = 30.0  # cents within one hop that are a step, not a slide
_AIR = 0.45  # loudness of breath alone against a tone of the same level
_HISS = 2500.0  # hertz: breath at the mouthpiece, brighter the higher the note that is fingered
_ROLL = 0.84  # share of the loudness that a roll takes away and gives back
_CRACK_S, _CRACK_HZ, _CRACK = (
    0.012,
    1800.0,
    0.7,
)  # the noise of a split attack: how it dies, its middle, its loudness
_WHISPER = {"s": 5200.0, "sh": 2600.0, "f": 3800.0, "t": 4200.0, "k": 2000.0, "h": 900.0}  # hertz, by the beginning
_WHISPERED = 1500.0  # hertz, for other syllables

# How a noise dies away, in seconds; the middle of its band, in hertz; its loudness at the beginning, against a tone
_NOISES: dict[Noise, tuple[float, float, float]] = {
    "slap": (0.012, 600.0, 5.0),
    "kiss": (0.020, 3000.0, 2.0),
    "click": (0.004, 4000.0, 1.5),
    "pop": (0.025, 350.0, 6.0),
    "tap": (0.015, 1500.0, 3.0),
}


def render(performances: Iterable[Performance]) -> list[float]:
    """Performances that begin together as samples, RATE a second, 1.0 for the loudest possible; reduced as a whole
    if they would be louder."""
    made = tuple(performances)
    seconds = max((p.seconds for p in made), default=0.0)
    last = max((tone.end for p in made for tone in p.tones), default=0.0)
    out = [0.0] * (math.ceil((max(seconds, last) + _AFTER_S) * RATE) + _HOP)
    for performance in made:
        for line in lines(performance.tones):
            _add(out, line)
    loudest = max(map(abs, out), default=0.0)
    return [v / loudest for v in out] if loudest > 1.0 else out


def _add(out: list[float], line: Line) -> None:
    """Adds a line."""
    phase, cents = 0.0, 0.0
    for i, tone in enumerate(line.tones):
        joined = line.follows(i)
        if tone.noise:
            _stroke(out, tone)
        elif not tone.pitch:
            _breath(out, tone)
        else:
            if not joined:
                phase, cents = 0.0, tone.cents_at(tone.start) or 0.0
            phase, cents = _tone(out, tone, joined, line.goes_on(i), phase, cents)


class _Along:
    """A curve read from left to right; `value` where it has nothing."""

    def __init__(self, curve: Curve, value: float) -> None:
        self._curve, self._value, self._i = curve, value, 0

    def __call__(self, seconds: float) -> float:
        curve = self._curve
        if not curve:
            return self._value
        last = len(curve) - 1
        while self._i < last and curve[self._i + 1][0] <= seconds:
            self._i += 1
        start, first = curve[self._i]
        if self._i == last or seconds <= start:
            return first
        end, then = curve[self._i + 1]
        return first + (then - first) * (seconds - start) / (end - start)


def _tone(
    out: list[float], tone: Tone, joined: bool, goes_on: bool, phase: float, cents: float
) -> tuple[float, float]:
    """Adds a tone with its air; gives the phase and pitch at its end."""
    timbre = Timbre(
        voice="sung" if tone.voice == "sung" else "played",
        mute=tone.mute,
        colours=tuple(dict.fromkeys(tone.colours)),
    )
    level, air, hand = _Along(tone.level, 0.0), _Along(tone.air, 0.0), _Along(tone.hand, 0.0)
    rolls = [(2 * math.pi * roll.hz, _Along(roll.amount, 0.0)) for roll in tone.rolls]
    pitch = _pitch(tone)
    envelope = _envelope(tone, joined, goes_on)
    lips = 1 - math.exp(-_HOP / RATE / _LIPS_S)
    first, last = round(tone.start * RATE), round(tone.end * RATE)
    gain_before, air_before, breath = None, 0.0, None
    for i in range(first, last, _HOP):
        seconds = i / RATE
        until = min(i + _HOP, last)
        want = pitch(seconds)
        cents = want if abs(want - cents) <= _STEP else cents + (want - cents) * lips
        place = level(seconds)
        loud = 10 ** (decibels(place) / 20) * envelope(seconds)
        for turn, amount in rolls:
            loud *= 1 - _ROLL * amount(seconds) * (1 + math.cos(turn * (seconds - tone.start))) / 2
        share = air(seconds)
        gain = loud * (1 - share)
        if gain_before is None:
            gain_before = gain
        if gain or gain_before:
            brightness = min(BRIGHTNESSES - 1, max(0, int((place - 1) / 7 * (BRIGHTNESSES - 1) + 0.5)))
            table = period(timbre, cents, brightness, round(hand(seconds) * CLOSINGS))
            step = frequency(cents) * PERIOD / RATE
            ramp = (gain - gain_before) / _HOP
            g = gain_before
            for k in range(i, until):
                out[k] += table[int(phase) & 1023] * g
                phase += step
                g += ramp
            phase %= PERIOD
        gain_before = gain
        puff = loud * share**3 * _AIR  # a tone hides much of its breath
        if puff or air_before:
            breath = breath or _NoiseBand(_HISS + 2 * frequency(cents), 0.8, first)
            breath.add(out, i, until, air_before, puff)
        air_before = puff
    if tone.onset == "split":
        _burst(out, first, last, _CRACK * 10 ** (decibels(tone.level[0][1]) / 20), _CRACK_S, _CRACK_HZ)
    return phase, cents


def _pitch(tone: Tone) -> Callable[[float], float]:
    """The pitch with its waves, read from left to right."""
    if tone.waves:
        return lambda seconds: tone.cents_at(seconds) or 0.0
    return _Along(tone.pitch, 0.0)


def _envelope(tone: Tone, joined: bool, goes_on: bool) -> Callable[[float], float]:
    """How a tone begins and ends, 0 to 1 over time."""
    whole = tone.end - tone.start
    rise = 0.0 if joined else min(_ATTACK_S, whole / 4)
    fall = 0.0 if goes_on else min(_RELEASE_S, whole / 3)

    def value(seconds: float) -> float:
        loud = 1.0
        if rise:
            loud = min(loud, (seconds - tone.start) / rise)
        if fall:
            loud = min(loud, (tone.end - _HOP / RATE - seconds) / fall)
        return max(loud, 0.0)

    return value


def _stroke(out: list[float], tone: Tone) -> None:
    """Adds a noise that dies away at once."""
    if tone.noise:
        dies, hertz, loud = _NOISES[tone.noise]
        loud *= 10 ** (decibels(tone.level[0][1]) / 20)
        _burst(out, round(tone.start * RATE), round(tone.end * RATE), loud, dies, hertz)


def _burst(out: list[float], first: int, last: int, loud: float, dies: float, hertz: float) -> None:
    noise = _NoiseBand(hertz, 1.0, first)
    before = loud
    for i in range(first, last, _HOP):
        until = min(i + _HOP, last)
        after = loud * math.exp(-(until - first) / RATE / dies)
        noise.add(out, i, until, before, after)
        before = after


def _breath(out: list[float], tone: Tone) -> None:
    """Adds a sound of breath alone: whispered, or drawn in, which swells, or let out, which dies away."""
    start = tone.syllable.lower()
    hertz = next((_WHISPER[s] for s in ("sh", *_WHISPER) if start.startswith(s)), _WHISPERED)
    noise = _NoiseBand(hertz, 0.7, round(tone.start * RATE))
    level, envelope = _Along(tone.level, 0.0), _envelope(tone, False, False)
    first, last = round(tone.start * RATE), round(tone.end * RATE)
    before = 0.0
    for i in range(first, last, _HOP):
        seconds = i / RATE
        share = (seconds - tone.start) / (tone.end - tone.start)
        shape = {"in": share, "out": 1 - share}.get(tone.breath, 1.0)
        loud = 10 ** (decibels(level(seconds)) / 20) * envelope(seconds) * shape
        noise.add(out, i, min(i + _HOP, last), before, loud)
        before = loud


class _NoiseBand:
    """Noise around a pitch: the same at every run.

    hertz   the middle of the band
    width   of the band, as a share of the middle
    seed    where in the noise it begins
    """

    def __init__(self, hertz: float, width: float, seed: int) -> None:
        hertz = min(max(hertz, 150.0), 0.4 * RATE)
        radius = math.exp(-math.pi * hertz * width / RATE)
        self._a = 2 * radius * math.cos(2 * math.pi * hertz / RATE)
        self._b = -radius * radius
        self._gain = (1 - radius) * math.sqrt(1 - 2 * radius * math.cos(4 * math.pi * hertz / RATE) + radius**2)
        self._y = self._z = 0.0
        self._at = seed * 40_503 % len(_noise())

    def add(self, out: list[float], first: int, last: int, before: float, after: float) -> None:
        """Adds it between two samples, its loudness changing from `before` to `after`."""
        noise, at, y, z, a, b = _noise(), self._at, self._y, self._z, self._a, self._b
        g, ramp = before * self._gain, (after - before) * self._gain / _HOP
        for k in range(first, last):
            y, z = noise[at & 8191] + a * y + b * z, y
            out[k] += y * g
            at += 1
            g += ramp
        self._at, self._y, self._z = at & 8191, y, z


@cache
def _noise() -> Sequence[float]:
    rows = random.Random(1)
    return tuple(rows.uniform(-1, 1) for _ in range(8192))
