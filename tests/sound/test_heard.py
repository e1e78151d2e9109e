"""The sketch sounds as the performance has it: an independent pitch tracker is the judge."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from sampling import sample
from sound.heard import each_technique, voices
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
    del found["oscillating-gliss"]  # never holds still for a window: tests/midi reads it
    assert list(_wrong({name: found[name] for name in sample(tuple(found), 4)})) == []


def test_voices_and_changes_sound_where_they_should():
    found = performances(checked(DEMO.read_text("utf-8")))
    some = {name: found[name] for name in ("two-voices", *sample(("beacon", "gull", "tide", "breath-to-tone"), 4))}
    assert {line.voice for one in some.values() for line, _ in voices(one)} == {"played", "sung"}
    assert list(_wrong(some)) == []
