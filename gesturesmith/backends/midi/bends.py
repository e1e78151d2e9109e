"""Curves as few messages: what is sent is never further from the curve than half of what counts as a change."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import pairwise

from gesturesmith.tones import Curve, Tone
from gesturesmith.tones.types import at, simple

_MISSED = 0.25  # cents by which straight lines may miss the curve of a vibrato


def heard(tone: Tone) -> Curve:
    """The pitch with its waves as a curve; two fingerings or notes in turn as steps."""
    if not tone.waves:
        return tone.pitch
    times = {tone.start, tone.end, *(t for t, _ in tone.pitch)}
    for wave in tone.waves:
        # Straight lines between n points of a sine miss it by (pi / n)^2 / 2 of its width at most.
        width = max((abs(cents) for _, cents in wave.cents), default=0.0)
        per_cycle = 4 * math.ceil(math.pi * math.sqrt(width / 2 / _MISSED) / 4) if wave.kind == "vibrato" else 2
        per_cycle = max(per_cycle, 2)
        count = math.ceil((tone.end - tone.start) * wave.hz * per_cycle)
        times |= {tone.start + n / (wave.hz * per_cycle) for n in range(count)}
        times |= {t for t, _ in wave.cents}
    inside = sorted(t for t in times if tone.start <= t <= tone.end)
    rows: list[tuple[float, float]] = []
    for a, b in pairwise(inside):
        nearly = (b - a) * 1e-6  # at a step, the value on this side of it
        rows += [(a, _pitch(tone, a + nearly)), (b, _pitch(tone, b - nearly))]
    return simple(tuple(rows))


def _pitch(tone: Tone, seconds: float) -> float:
    return tone.cents_at(seconds) or 0.0


def sampled(curve: Curve, change: float, number: Callable[[float], int]) -> Iterator[tuple[float, int]]:
    """The messages for a curve: (seconds, value), only where the value changes.

    change  how far the curve moves until the next is sent; the value sent is that of the middle of the way there
    number  the value to send for a value of the curve
    """
    before: int | None = None
    for (start, first), (end, last) in pairwise(curve) if len(curve) > 1 else ((curve[0], curve[0]),):
        steps = max(1, math.ceil(abs(last - first) / change))
        for k in range(steps if end > start or before is None else 0):
            value = number(first + (last - first) * (k + 0.5) / steps)
            if value != before:
                yield start + (end - start) * k / steps, value
            before = value


def product(one: Curve, other: Curve) -> Curve:
    """Two curves multiplied, at the rows of both."""
    times = sorted({t for t, _ in one} | {t for t, _ in other})
    rows: list[tuple[float, float]] = []
    for t in times:
        rows += [(t, at(one, t, before=True) * at(other, t, before=True)), (t, at(one, t) * at(other, t))]
    return simple(tuple(rows))
