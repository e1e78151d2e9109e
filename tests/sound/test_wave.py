"""WAVE files: what they hold besides pitch."""

from __future__ import annotations

import io
import math
import struct
import wave
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from timing import within
from tones.performed import checked, passage, performances, tones

from gesturesmith import writers
from gesturesmith.backends import sound
from gesturesmith.backends.sound.timbre import _MUTES
from gesturesmith.lang.words import MUTES
from gesturesmith.model.gesture import LEVELS
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source
from gesturesmith.tones import Performance, Tone
from gesturesmith.tones.lines import decibels
from gesturesmith.writers.base import is_ours

HEAD = "instrument: horn\npitches: written\ntempo: 60\n"
A_SECOND = 0.2  # processor seconds of work for a second of sound


def performance(*parts: Tone) -> Performance:
    return Performance(tones=parts, seconds=max(t.end for t in parts), time=((Fraction(0), 0.0),))


def rendered(contour: str, *more: str, **options) -> np.ndarray:
    return np.array(sound.render([performance(*tones(contour, *more, **options))]))


def rms(samples: np.ndarray, start: float, end: float) -> float:
    inside = samples[round(start * sound.RATE) : round(end * sound.RATE)]
    return float(np.sqrt(np.mean(inside**2)))


def spectrum(samples: np.ndarray, start: float, end: float) -> tuple[np.ndarray, np.ndarray]:
    inside = samples[round(start * sound.RATE) : round(end * sound.RATE)]
    return np.fft.rfftfreq(len(inside), 1 / sound.RATE), np.abs(np.fft.rfft(inside * np.hanning(len(inside))))


def centre(samples: np.ndarray, start: float, end: float) -> float:
    """Where the middle of the spectrum is, in hertz."""
    hertz, much = spectrum(samples, start, end)
    return float((hertz * much).sum() / much.sum())


def delivered(text: str, kind: str = "snippet") -> dict[str, bytes]:
    writer = writers.get("wav")
    items = compile_text(Source("piece.gesture", text), Options()).items
    return {i.name: writer.finish(i, b"") for i in items if i.kind == kind and writer.takes(i)}


def test_a_file_is_read_by_another_reader_and_bears_our_mark():
    text = HEAD + 'gesture one "A title"\n  contour: C5, E5\n  lasts: 3 s\n'
    (data,) = delivered(text).values()
    assert (data,) == tuple(delivered(text).values())
    with wave.open(io.BytesIO(data)) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, sound.RATE)
        assert 3 < file.getnframes() / sound.RATE < 3.2
    assert is_ours(data)
    assert b"not of timbre" in data
    assert not is_ours(data[:-2] + b"xx")


@pytest.mark.parametrize("title", ["A", "Ab", "Ünter", "x" * 999])
def test_every_chunk_is_where_riff_has_it(title):
    """Multimedia Programming Interface and Data Specifications 1.0 (1991): even chunks, sizes that fit."""
    (data,) = delivered(f'{HEAD}gesture one "{title}"\n  contour: C5\n  lasts: 1 s\n').values()
    name, size, form = struct.unpack_from("<4sI4s", data)
    assert (name, size, form) == (b"RIFF", len(data) - 8, b"WAVE")
    place, found = 12, {}
    while place < len(data):
        key, length = struct.unpack_from("<4sI", data, place)
        found[key] = data[place + 8 : place + 8 + length]
        assert length % 2 == 0
        place += 8 + length
    assert place == len(data)
    assert list(found) == [b"LIST", b"fmt ", b"data"]
    assert title.encode() + b"\0" in found[b"LIST"]


def test_the_lines_of_a_score_sound_together():
    text = (
        "pitches: written\ntempo: 60\npart one\n  instrument: horn\npart two\n  instrument: trombone\n"
        "passage p\n  one: C5 for 2, rest 2\n  two: rest 2, Bb3 for 2\n"
    )
    (data,) = delivered(text, "score").values()
    with wave.open(io.BytesIO(data)) as file:
        samples = np.frombuffer(file.readframes(file.getnframes()), "<i2") / 32768
    for start, hertz in ((0.5, 349.23), (2.5, 233.08)):  # F4 and Bb3, equal temperament at A4 = 440 Hz
        heard, much = spectrum(samples, start, start + 1)
        low = heard < 1.4 * hertz
        assert heard[low][much[low].argmax()] == pytest.approx(hertz, abs=1.5)


def test_silence_is_silent_and_levels_are_levels():
    samples = rendered("C5, r@1, C5@2", "lasts: 3 beats")
    assert rms(samples, 1.05, 1.95) == 0
    assert rms(samples, 0.2, 0.8) > 0.05
    found = [rms(rendered("C5", f"dynamics: {level}", "lasts: 1 s"), 0.3, 0.7) for level in LEVELS]
    for place, (softer, louder) in enumerate(pairwise(found)):
        difference = 20 * math.log10(louder / softer)
        assert difference == pytest.approx(decibels(place + 1) - decibels(place), abs=0.6)


@pytest.mark.parametrize(("technique", "hertz"), [("flutter-tongue", (20, 30)), ("growl", (20, 90))])
def test_a_roll_is_a_roll_of_the_loudness(technique, hertz):
    (tone,) = tones("C5", f"technique: {technique}", "lasts: 2 s")
    samples = np.array(sound.render([performance(tone)]))
    window = round(0.004 * sound.RATE)
    loud = np.convolve(np.abs(samples), np.ones(window) / window, "same")[
        round(0.3 * sound.RATE) : round(1.7 * sound.RATE)
    ]
    much = np.abs(np.fft.rfft((loud - loud.mean()) * np.hanning(len(loud))))
    heard = np.fft.rfftfreq(len(loud), 1 / sound.RATE)
    inside = (heard > 8) & (heard < 120)
    peak = heard[inside][much[inside].argmax()]
    assert peak == pytest.approx(tone.rolls[0].hz, abs=1)
    assert hertz[0] <= peak <= hertz[1]


def test_breath_is_noise_and_the_bell_colours():
    tone, air = rendered("C5", "lasts: 1 s"), rendered("C5", "technique: air", "lasts: 1 s")
    assert _peak_share(tone) > 5 * _peak_share(air)
    stopped = rendered("C5", "technique: stopped", "lasts: 1 s")
    cup = rendered("C5", "technique: muted", "mute: cup", "lasts: 1 s")
    assert centre(stopped, 0.2, 0.8) > 1.3 * centre(tone, 0.2, 0.8) > 1.3 * centre(cup, 0.2, 0.8)


def _peak_share(samples: np.ndarray) -> float:
    _, much = spectrum(samples, 0.2, 0.8)
    return float(much.max() / much.sum())


def test_every_mute_of_the_language_has_a_colour():
    assert set(_MUTES) == set(MUTES)


def test_a_noise_is_over_at_once():
    for noise in ("slap-tongue", "kiss", "valve-clicks", "mouthpiece-pop", "bell-tap"):
        samples = rendered("mid", f"technique: {noise}", "band: middle", "lasts: 1 s")
        assert rms(samples, 0, 0.02) > 0.02, noise
        assert np.abs(samples[round(0.1 * sound.RATE) :]).max() < 0.005, noise


def test_what_goes_on_has_no_gap():
    slurred, tongued = rendered("C5 __ D5@1", "lasts: 2 s"), rendered("C5, D5@1", "lasts: 2 s")
    assert rms(slurred, 0.99, 1.01) > 0.8 * rms(slurred, 0.5, 0.6)
    assert rms(tongued, 0.99, 1.01) < 0.7 * rms(tongued, 0.5, 0.6)


def test_nothing_is_louder_than_a_file_can_hold():
    (tone,) = tones("C5", "dynamics: fff", "lasts: 1 s")
    many = [performance(replace(tone, level=((0.0, 8.0), (1.0, 8.0)))) for _ in range(12)]
    assert max(map(abs, sound.render(many))) <= 1.0


def test_a_sketch_is_quick():
    whole = passage("passage p\n  play: C5 for 8, G4 for 8, E5 for 8\n")
    within(A_SECOND * whole.seconds, lambda: sound.render([whole]))
    found = performances(checked(HEAD + "gesture g\n  contour: C5 -- E5\n  technique: lip-gliss\n  lasts: 4 s\n"))
    within(A_SECOND * 4, lambda: sound.render(found.values()))
