"""What an independent ear hears: the pitch tracker of Praat (Boersma 1993), through parselmouth."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import parselmouth
from tones.performed import checked, performances

from gesturesmith.backends import sound
from gesturesmith.tones import Performance, Tone
from gesturesmith.tones.lines import Line, lines
from gesturesmith.tones.types import at

GALLERY = Path(__file__).parents[2] / "docs" / "gallery"
_BLOCK = re.compile(r"^gesture ([a-z-]+)-middle-short\b.*?(?=^gesture |\Z)", re.MULTILINE | re.DOTALL)

EVERY_S = 0.01  # between two frames
_LOWEST, _HIGHEST = 40.0, 2500.0  # hertz
_STEADY, _MOVING = 10.0, 60.0  # cents within the window of a frame: what moves further has no one pitch
_BREATHY = 0.6  # share of breath from which a tone is more breath than pitch
_LIPS_S = 0.012  # a step takes this long
_BEATS_S = 0.03  # over which a tone is compared with another: several periods of the lowest


def each_technique(instrument: str, wanted: set[str]) -> dict[str, Performance]:
    """A performance of each of the techniques that an instrument has, by its name."""
    text = (GALLERY / f"{instrument}.gesture").read_text("utf-8")
    head = text[: text.index("\ngesture ")]
    blocks = [match[0] for match in _BLOCK.finditer(text) if match[1] in wanted]
    found = performances(checked("\n\n".join([head, *blocks])))
    return {name.removesuffix("-middle-short"): one for name, one in found.items()}


def errors(performance: Performance, line: Line) -> list[float]:
    """How far the tracker's pitch is from the performance, in cents, for each frame that lies within one tone and
    in whose window the pitch does not step; infinity where the tracker hears no pitch."""
    mine = [tone for tone in line.tones if tone.pitch]
    if not mine:
        return []
    samples = np.array(sound.render([replace(performance, tones=line.tones)]))
    heard = parselmouth.Sound(samples, sound.RATE)
    lowest = min(min(_around(tone, (tone.start + tone.end) / 2, (tone.end - tone.start) / 2)) for tone in mine)
    found: dict[int, float] = {}
    # A long window for what holds still, one of few periods for what moves.
    for floor, moves in ((_LOWEST, _STEADY), (max(20.0, 0.75 * 440 * 2 ** ((lowest - 6900) / 1200)), _MOVING)):
        half = 3 / floor + _LIPS_S
        track = heard.to_pitch_ac(
            time_step=EVERY_S,
            pitch_floor=floor,
            pitch_ceiling=_HIGHEST,
            very_accurate=True,
            silence_threshold=0.001,
            voicing_threshold=0.3,
            octave_cost=0.05,  # of a pure tone, a third of its frequency fits as well
        )
        for seconds, hertz in zip(track.xs(), track.selected_array["frequency"], strict=True):
            frame = round(seconds / EVERY_S)
            tone = next((t for t in mine if t.start + half < seconds < t.end - half), None)
            if frame in found or tone is None or at(tone.air, seconds) > _BREATHY:
                continue
            around = _around(tone, seconds, half)
            if max(around) - min(around) <= (_STEADY if any(w.kind != "vibrato" for w in tone.waves) else moves):
                cents = 6900 + 1200 * math.log2(hertz / 440) if hertz > 0 else math.inf
                found[frame] = abs(cents - around[len(around) // 2])
    return list(found.values())


def _around(tone: Tone, seconds: float, half: float) -> list[float]:
    """The pitch around a time."""
    return [tone.cents_at(seconds + half * k / 15) or 0.0 for k in range(-15, 16)]


def voices(performance: Performance) -> Iterator[tuple[Line, list[float]]]:
    """Each pitched line of a performance, with the errors of its frames."""
    for line in lines(performance.tones):
        if any(tone.pitch for tone in line.tones):
            yield line, errors(performance, line)


def beats_against(performance: Performance, tone: Tone, asked: Tone) -> list[float]:
    """For one tone that never holds still for a tracker's window: how far it is, in cents, from a pure tone that
    moves as is asked, for each frame in whose window that does not step. The two are multiplied, and what is left
    beats with their difference."""
    first, last = round(tone.start * sound.RATE), round(tone.end * sound.RATE)
    samples = np.array(sound.render([replace(performance, tones=(tone,))]))[first:last]
    times = np.arange(first, last) / sound.RATE
    hertz = np.array([440 * 2 ** (((asked.cents_at(second) or 0.0) - 6900) / 1200) for second in times])
    window = np.hanning(round(_BEATS_S * sound.RATE))
    beat = np.convolve(samples * np.exp(-2j * np.pi * np.cumsum(hertz) / sound.RATE), window, mode="same")
    apart = np.diff(np.unwrap(np.angle(beat))) * sound.RATE / (2 * np.pi)
    steps = [one[0] for one, two in pairwise(asked.pitch) if one[0] == two[0]]
    frames = np.arange(len(window), len(apart) - len(window), round(EVERY_S * sound.RATE))
    return [
        abs(1200 * math.log2(1 + apart[frame] / hertz[frame]))
        for frame in frames
        if all(abs(times[frame] - step) > _BEATS_S / 2 + _LIPS_S for step in steps)
    ]
