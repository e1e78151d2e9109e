"""One period of a tone, by height, loudness and what colours it.

A sketch: enough to tell open from stopped and soft from loud. Every number here is our own choice; nothing else
reads them.
"""

from __future__ import annotations

import math
from functools import cache

from gesturesmith.values import frozen

RATE = 22_050  # samples a second: enough for the partials drawn here
PERIOD = 1024  # samples of one period
BRIGHTNESSES = 8  # steps from the softest tone to the loudest
CLOSINGS = 4  # steps from the open bell to the closed one
_BUCKET = 200.0  # cents that share a period

_MOST_HARMONICS = 24
_HIGHEST = 0.45 * RATE
_RMS = 0.3

# Peaks and dips: (centre in hertz, width in octaves, decibels)
type Filter = tuple[tuple[float, float, float], ...]
_OPEN: Filter = ((450, 1.6, 6),)
_STOPPED: Filter = ((2500, 0.8, 18), (300, 1.2, -10))
_COVERED: Filter = ((700, 0.8, 8), (2500, 1.2, -18))
_SUNG: Filter = ((600, 0.5, 8), (1100, 0.5, 6), (2800, 0.5, 4))
_COLOURS: dict[str, Filter] = {
    "brassy": ((2200, 1.2, 12),),
    "bell-raised": ((1800, 1.4, 5),),
    "half-valve": ((700, 0.7, 4), (2200, 1.0, -14)),
    "buzz": ((1200, 1.5, 10), (250, 1.0, -14)),
}
_MUTES: dict[str, Filter] = {
    "straight": ((1900, 0.9, 10), (350, 1.2, -10)),
    "stopping": _STOPPED,
    "cup": ((900, 0.7, 6), (2500, 1.0, -14)),
    "harmon": ((1600, 0.6, 16), (400, 1.2, -14)),
    "plunger": ((800, 0.8, 6), (2500, 1.2, -8)),
    "bucket": ((600, 1.0, 3), (2400, 1.2, -16)),
    "practice": ((700, 0.8, 2), (2200, 1.2, -20)),
    "glass": ((1300, 0.7, 10), (400, 1.2, -8)),
    "cloth": ((500, 1.0, 2), (2000, 1.2, -18)),
}


@frozen(kw_only=True)
class Timbre:
    """What colours a tone apart from height and loudness."""

    voice: str = "played"
    mute: str = ""
    colours: tuple[str, ...] = ()

    def filters(self, closing: int) -> tuple[tuple[Filter, float], ...]:
        """Its filters and how much of each, with the bell closed by so many steps of CLOSINGS."""
        if self.voice == "sung":
            return ((_SUNG, 1.0),)
        shut = closing / CLOSINGS
        covering = _COVERED if self.mute else _STOPPED
        of_mute = _MUTES[self.mute] if self.mute else _OPEN
        mine = ((of_mute, 1.0 if self.mute else 1.0 - shut), (covering, shut))
        return (*mine, *((_COLOURS[colour], 1.0) for colour in self.colours))


@cache
def _sines() -> tuple[tuple[float, ...], ...]:
    one = tuple(math.sin(2 * math.pi * k / PERIOD) for k in range(PERIOD))
    return tuple(tuple(one[h * k % PERIOD] for k in range(PERIOD)) for h in range(_MOST_HARMONICS + 1))


def period(timbre: Timbre, cents: float, brightness: int, closing: int) -> list[float]:
    """One period, the same loudness for all.

    cents       the pitch, in sounding cents above C-1
    brightness  0 to BRIGHTNESSES - 1
    closing     0 to CLOSINGS
    """
    return _period(timbre, round(cents / _BUCKET), brightness, closing)


@cache
def _period(timbre: Timbre, bucket: int, brightness: int, closing: int) -> list[float]:
    hertz = frequency(bucket * _BUCKET)
    bright = brightness / (BRIGHTNESSES - 1)
    last = max(1, min(_MOST_HARMONICS, int(_HIGHEST // (hertz * 1.1))))
    amplitudes = [_amplitude(h, hertz, bright, timbre, closing) for h in range(1, last + 1)]
    scale = _RMS / math.sqrt(sum(a * a for a in amplitudes) / 2)
    whole = [0.0] * PERIOD
    for sine, amplitude in zip(_sines()[1:], amplitudes, strict=False):
        a = amplitude * scale
        if a > 1e-4:
            whole = [v + a * s for v, s in zip(whole, sine, strict=True)]
    return whole


def _amplitude(h: int, hertz: float, bright: float, timbre: Timbre, closing: int) -> float:
    f = h * hertz
    slope = 1.3 if timbre.voice == "sung" else 0.4
    reach = 2500.0 if timbre.voice == "sung" else 350 + 1900 * bright**1.5
    decibels = sum(
        share * gain * math.exp(-0.5 * (math.log2(f / centre) / width) ** 2)
        for rows, share in timbre.filters(closing)
        for centre, width, gain in rows
    )
    return float(h**-slope * math.exp(-f / reach) * 10 ** (decibels / 20))


def frequency(cents: float) -> float:
    """Hertz from sounding cents above C-1, at A4 = 440 Hz (ISO 16)."""
    return float(440.0 * 2 ** ((cents - 6900.0) / 1200))
