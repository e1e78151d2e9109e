"""Properties of every gesture: of generated files (`words/made.py`), and of contours from Hypothesis."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from realise.realised import gesture
from tones.performed import performances
from words.made import made

from gesturesmith import techniques
from gesturesmith.checker import check_text
from gesturesmith.model.gesture import LEVELS
from gesturesmith.realise import realise
from gesturesmith.source import Source
from gesturesmith.tones import Performance, Tone, perform
from gesturesmith.tones.types import rises

NAMES = ("G4", "A4", "Bb4", "C5", "D5", "Eb5", "E5", "F5", "G5", "C^5", "B4+31c")
LINES = (" -- ", " ~~ ", " -> ", " __ ", ", ")
SLIDING = (
    "half-valve",
    "hand-out",
    "harmonic-gliss",
    "lip-gliss",
    "chromatic",
    "fingered-gliss",
    "bend",
    "hand-gliss",
)


@st.composite
def contours(draw) -> str:
    count = draw(st.integers(1, 5))
    text = draw(st.sampled_from(NAMES))
    for _ in range(count - 1):
        text += draw(st.sampled_from(LINES)) + draw(st.sampled_from(NAMES))
    return text


def curves(tone: Tone):
    yield from (tone.pitch, tone.level, tone.air, tone.hand)
    yield from (w.cents for w in tone.waves)
    yield from (r.amount for r in tone.rolls)


def sound(whole: Performance) -> None:
    """Nothing outside its time, no impossible values, and one note at a time per player."""
    for tone in whole.tones:
        assert 0 <= tone.start < tone.end <= whole.seconds + 1e-9
        for curve in curves(tone):
            assert rises(curve)
            assert not curve or (curve[0][0], curve[-1][0]) == (tone.start, tone.end)
        assert bool(tone.pitch) != bool(tone.noise)
        assert all(0 <= value <= len(LEVELS) - 1 for _, value in tone.level)
        assert all(0 <= value <= 1 for curve in (tone.air, tone.hand) for _, value in curve)
        assert all(0 < cents < 12800 for _, cents in tone.pitch)
    for voice in ("played", "second", "sung"):
        row = [t for t in whole.tones if t.voice == voice]
        assert all(a.end <= b.start + 1e-9 for a, b in pairwise(row))


@settings(max_examples=60, deadline=None)
@given(contours(), st.sampled_from(SLIDING), st.integers(1, 12), st.sampled_from((40, 60, 93)))
def test_a_contour_is_heard_from_end_to_end(contour, technique, beats, tempo):
    one = gesture(contour, f"technique: {technique}", f"lasts: {beats} beats", tempo=tempo)
    played = realise(one)
    whole = perform(one, played)
    sound(whole)
    assert whole.seconds == pytest.approx(float(Fraction(60 * beats, tempo)))
    assert sum(t.end - t.start for t in whole.tones) == pytest.approx(whole.seconds)
    # It begins and ends where the contour says, except where the instrument cannot: those points have an error.
    errors = {p.index: abs(p.error_cents) for p in played.points}
    last = len(one.points) - 1
    if technique in ("bend", "hand-gliss") and "--" not in contour and "~~" not in contour and "->" not in contour:
        return
    assert abs(whole.tones[0].pitch[0][1] - one.points[0].sounding_cents) <= errors[0] + 1e-6
    ends = whole.tones[-1].pitch[-1][1]
    moved = last and not one.segments[-1].slides and technique in ("bend", "hand-gliss")
    assert moved or abs(ends - one.points[last].sounding_cents) <= errors[last] + 1e-6


@pytest.mark.parametrize("seed", range(0, 120, 2))
def test_everything_that_can_be_written_can_be_heard(seed):
    found = check_text(Source("made.gesture", made(seed)), suggestions=False)
    if found.reading.errors:
        return  # `test_every_word.py` sees that most can be read
    heard = performances(found)
    for whole in heard.values():
        sound(whole)
    for name, case in found.passage_cases.items():
        held = sum(h.seconds for h in heard[name].fermatas)
        played = sum((r.end - r.start) * (r.times - 1) for r in case.passage.repeats) + case.passage.beats
        assert heard[name].seconds == pytest.approx(float(played * 60 / case.passage.tempo) + held)


PLAIN = {"ordinary", "single-tongue", "double-tongue", "triple-tongue", "quarter-tones"}


@pytest.mark.parametrize("name", techniques.names())
def test_every_technique_is_heard(name):
    """Every technique sounds different from a plain note, except those that only say how a plain note is made."""
    technique = techniques.get(name)
    x = "x" if technique.pitched == "about" else ""
    line = " -- " if technique.needs_line else ", "
    contour = f"{x}G5 ff{line}{x}C6" if technique.pitched != "none" else "low ff, high"
    more = ("band: low",) if technique.pitched == "none" else ()
    on = "trombone" if technique.needs == "slide" else "horn"
    if on == "trombone":
        contour = "D3 ff -- F3"
    one, two = (
        gesture(contour, *more, "lasts: 4 beats", f"technique: {t}", instrument=on) for t in (name, "ordinary")
    )
    heard, plain = ([_bare(t) for t in perform(g, realise(g)).tones] for g in (one, two))
    straight = technique.path in ("hand-out", "slide", "trigger")  # as an even slide would be drawn
    assert (heard != plain) is (name not in PLAIN and not straight)


def _bare(tone: Tone) -> tuple[object, ...]:
    return (
        tone.voice, tone.start, tone.end, tone.onset, tone.pitch, tone.waves, tone.level, tone.air, tone.hand,
        tone.rolls, tone.noise, tone.mute, tone.colours,
    )  # fmt: skip
