"""The sketch sounds as the performance has it: an independent pitch tracker is the judge."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from sampling import sample
from sound.heard import beats_against, each_technique, voices
from tones.performed import checked, performances

from gesturesmith import techniques
from gesturesmith.tones import Performance

DEMO = Path(__file__).parents[2] / "docs" / "demo" / "fog-signals.gesture"
NEAR = 5.0  # cents
SHARE = 0.95  # of the frames
FEW = 8  # frames that say something
PITCHED = {
    key for key in techniques.names() if (one := techniques.get(key)).pitched != "none" and not one.breath_only
}


def _wrong(found: dict[str, Performance]) -> Iterator[str]:
    """The lines that the tracker hears elsewhere, and the performances of which it hears too little."""
    for name, performance in found.items():
        heard = 0
        for line, errors in voices(performance):
            heard += len(errors)
            near = sum(error < NEAR for error in errors)
            if near < SHARE * len(errors):
                yield f"{name}, {line.voice} {line.number}: {near} of {len(errors)} frames"
        if heard < FEW:
            yield name


def test_every_technique_sounds_where_it_should():
    found = each_technique("horn", PITCHED)
    found |= each_technique("trombone", PITCHED - set(found))
    assert PITCHED - set(found) <= {"valve-slide-tremolo"}  # only trumpets have it
    del found["oscillating-gliss"]  # never holds still for a window: it has a test of its own
    assert list(_wrong({name: found[name] for name in sample(tuple(found), 4)})) == []


@pytest.mark.parametrize("name", ["oscillating-gliss", "vibrato"])
def test_what_never_holds_still_moves_as_it_should(name):
    """The tracker hears vibrato as well. A tone that is 33 cents higher than it should be is heard as such."""
    performance = each_technique("horn", {name})[name]
    (tone,) = [tone for tone in performance.tones if tone.pitch]
    higher = replace(tone, pitch=tuple((second, cents + 33) for second, cents in tone.pitch))
    for sounding, off in ((tone, 0.0), (higher, 33.0)):
        errors = beats_against(performance, sounding, tone)
        assert len(errors) > 5 * FEW
        assert sum(abs(error - off) < NEAR for error in errors) >= SHARE * len(errors)


def test_voices_and_changes_sound_where_they_should():
    found = performances(checked(DEMO.read_text("utf-8")))
    some = {name: found[name] for name in ("two-voices", *sample(("beacon", "gull", "tide", "breath-to-tone"), 4))}
    assert {line.voice for one in some.values() for line, _ in voices(one)} == {"played", "sung"}
    assert list(_wrong(some)) == []
