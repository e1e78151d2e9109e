"""A passage gets the same findings whether it plays a gesture as written or transposes another one to the same
place."""

from __future__ import annotations

from pathlib import Path

import pytest

from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

GALLERY = Path(__file__).parents[2] / "docs" / "gallery"
HEAD = "instrument: horn\npitches: written\n"
# Each way in which something can be found or allowed: at a lower and at a higher pitch.
PAIRS = {
    "too high": ("contour: A5, D5", "contour: A6, D6", "up P8"),
    "with care": ("contour: F4, C5", "contour: F5, C6", "up P8"),
    "allowed": (
        'contour: E5\n  allow: outside-range "ours can"',
        'contour: E6\n  allow: outside-range "ours can"',
        "up P8",
    ),
    "a fallback": (
        "technique: harmonic-gliss\n  fallback: chromatic\n  contour: C4 ~~ E4",
        "technique: harmonic-gliss\n  fallback: chromatic\n  contour: D4 ~~ F#4",
        "up M2",
    ),
    "a fingering": ("contour: C4\n  fingering: F 1-2", "contour: E4\n  fingering: F 1-2", "up M3"),
    "a band": (
        "technique: half-valve\n  band: G3..F4\n  contour: low ~~ high",
        "technique: half-valve\n  band: G4..F5\n  contour: low ~~ high",
        "up P8",
    ),
    "a quarter tone": ("contour: F^4", "contour: F^5", "up P8"),
    "sung": (
        "technique: multiphonic\n  contour: F3\n  sing: C4",
        "technique: multiphonic\n  contour: C4\n  sing: G4",
        "up P5",
    ),
    "down": ("contour: C4", "contour: C2", "down P15"),
}


def outcome(text):
    report = compile_text(Source("a.gesture", text), Options(only_check=True)).report
    assert report.errors == ()
    return [(p.verdict, p.difficulty) for p in report.passages]


@pytest.mark.parametrize("name", PAIRS)
def test_moved_or_written_there(name):
    here, there, move = PAIRS[name]
    text = f"{HEAD}gesture here\n  {here}\ngesture there\n  {there}\n"
    moved, written = outcome(f"{text}passage a\n  play: here {move}\npassage b\n  play: there\n")
    assert moved == written


@pytest.mark.parametrize("name", ["horn", "trombone", "together"])
def test_moved_by_nothing(name):
    """Every gesture of the gallery that can be transposed."""
    path = GALLERY / f"{name}.gesture"
    text = path.read_text("utf-8")
    report = compile_text(Source(path.name, text), Options(folder=path.parent, only_check=True)).report
    assert report.errors == ()
    both = ("zz-plain", ""), ("zz-moved", " up P1")
    names = [gesture.name for gesture in report.gestures]
    for number, gesture in enumerate(names):
        text += "".join(f"\npassage {word}{number}\n  meter: free\n  play: {gesture}{by}\n" for word, by in both)
    whole = compile_text(Source(path.name, text), Options(folder=path.parent, only_check=True)).report
    assert {e.rule for e in whole.errors} <= {"cannot-move"}
    said = {p.name: (p.verdict, p.difficulty) for p in whole.passages}
    moved = [n for n in range(len(names)) if f"zz-moved{n}" in said]
    assert len(moved) > len(names) / 3
    for number in moved:
        assert said[f"zz-moved{number}"] == said[f"zz-plain{number}"], names[number]
