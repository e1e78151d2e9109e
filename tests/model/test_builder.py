"""Gestures made without text: equal to those of a file, with the same mistakes."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from gesturesmith import instruments, techniques
from gesturesmith.checker import check_text
from gesturesmith.judge.gesture import judge
from gesturesmith.model.builder import NewFingering, NewGesture, NewLevel, NewPoint, make
from gesturesmith.model.reading import read
from gesturesmith.source import Source
from gesturesmith.units import Spelling

HORN = instruments.get("horn")
C5, E5, G5 = (Spelling(letter, Fraction(0), 5) for letter in "CEG")
HALF = Fraction(1, 2)
TABLE = [
    ("contour: C5", {"points": (NewPoint(pitch=C5),)}),
    ("contour: C5\ntremolo: E5", {"points": (NewPoint(pitch=C5),), "tremolo": E5}),
    ("contour: C5, E5\ntremolo: m3", {"points": (NewPoint(pitch=C5), NewPoint(pitch=E5)), "tremolo": "m3"}),
    (
        "technique: valve-trill\ncontour: E5\ntrill: G5",
        {"points": (NewPoint(pitch=E5),), "techniques": ("valve-trill",), "trill": G5},
    ),
    (
        "technique: timbre-trill\ncontour: C5, G5\nfingering: F 0 / Bb 0, F 0 / Bb 1",
        {
            "points": (NewPoint(pitch=C5), NewPoint(pitch=G5)),
            "techniques": ("timbre-trill",),
            "fingering": (
                NewFingering(side="F", valves="0", other=NewFingering(side="Bb", valves="0")),
                NewFingering(side="F", valves="0", other=NewFingering(side="Bb", valves="1")),
            ),
        },
    ),
    (
        "technique: half-valve + growl\ncontour: xC5 ~~ growing xE5@1/2 ~~ xG5\n"
        "lasts: 3 beats\ndynamics: p < f@1 > n",
        {
            "points": (
                NewPoint(pitch=C5, about=True),
                NewPoint(pitch=E5, about=True, at=HALF, line="wavy", growth="growing"),
                NewPoint(pitch=G5, about=True, line="wavy"),
            ),
            "techniques": ("half-valve", "growl"),
            "lasts": Fraction(3),
            "dynamics": (
                NewLevel(level="p", join="<"),
                NewLevel(level="f", at=Fraction(1), join=">"),
                NewLevel(level="n"),
            ),
        },
    ),
    (
        "contour: C5 accent ff, r, E5 as stopped, G5 without stopped breath\nlasts: 4 s",
        {
            "points": (
                NewPoint(pitch=C5, marks=("accent", "ff")),
                NewPoint(pitch=None),
                NewPoint(pitch=E5, turns_to="stopped"),
                NewPoint(pitch=G5, ends=("stopped",), marks=("breath",)),
            ),
            "lasts": Fraction(4),
            "in_seconds": True,
        },
    ),
    (
        "contour: C5\nattacks: 7 slowing\nmute: cup\nfallback: ordinary\nsing: xG5 -- E5\nlasts: 2 beats",
        {
            "points": (NewPoint(pitch=C5),),
            "attacks": 7,
            "shape": "slowing",
            "mute": "cup",
            "fallback": "ordinary",
            "sing": (NewPoint(pitch=G5, about=True), NewPoint(pitch=E5, line="straight")),
            "lasts": Fraction(2),
        },
    ),
    (
        "band: C5..G5\ncontour: 25%, highest",
        {"band": (C5, G5), "points": (NewPoint(pitch=Fraction(25)), NewPoint(pitch="highest"))},
    ),
    ("band: high\ncontour: low", {"band": "high", "points": (NewPoint(pitch=Fraction(0)),)}),
    # With a mistake in them.
    ("technique: growling\ncontour: C5", {"techniques": ("growling",), "points": (NewPoint(pitch=C5),)}),
    ("contour: C5@1, E5@1/2", {"points": (NewPoint(pitch=C5, at=Fraction(1)), NewPoint(pitch=E5, at=HALF))}),
    ("contour: 25%", {"points": (NewPoint(pitch=Fraction(25)),)}),
    ("band: highish\ncontour: low", {"band": "highish", "points": (NewPoint(pitch=Fraction(0)),)}),
    ("contour: C5\nlasts: 0 beats", {"points": (NewPoint(pitch=C5),), "lasts": Fraction(0)}),
    ("contour: C5, E5\nattacks: 3", {"points": (NewPoint(pitch=C5), NewPoint(pitch=E5)), "attacks": 3}),
    (
        "contour: C5 ff\ndynamics: p",
        {"points": (NewPoint(pitch=C5, marks=("ff",)),), "dynamics": (NewLevel(level="p"),)},
    ),
    ("contour: C5 louder", {"points": (NewPoint(pitch=C5, marks=("louder",)),)}),
    ("contour: C5\nmute: tin", {"points": (NewPoint(pitch=C5),), "mute": "tin"}),
    ("contour: C5 -- r", {"points": (NewPoint(pitch=C5), NewPoint(pitch=None, line="straight"))}),
    ("contour: C5\nattacks: 0", {"points": (NewPoint(pitch=C5),), "attacks": 0}),
]


def without_places(value: object) -> str:
    """A value as text, without spans."""
    return re.sub(r"Span\([^)]*\)|spans=mappingproxy\(\{[^}]*\}\)", "", repr(value))


@pytest.mark.parametrize(("lines", "made_of"), TABLE, ids=[lines for lines, _ in TABLE])
@pytest.mark.parametrize("pitches", ["written", "sounding"])
def test_it_is_what_a_file_says(lines, made_of, pitches):
    block = "".join(f"  {line}\n" for line in lines.split("\n"))
    reading = read(Source("a", f"instrument: horn\npitches: {pitches}\ntempo: 90\ngesture new\n{block}"))
    new = NewGesture(instrument=HORN, tempo=Fraction(90), pitches=pitches, **made_of)
    gesture, errors = make(new)
    assert [e.rule for e in errors] == [e.rule for e in reading.errors]
    assert [e.code for e in errors] == [e.code for e in reading.errors]
    if not errors:
        assert without_places(gesture) == without_places(reading.piece.gestures[0])


def test_what_is_found_on_it_is_what_is_found_on_a_file():
    points = NewPoint(pitch=C5), NewPoint(pitch=Spelling("G", Fraction(0), 7))
    gesture, _ = make(NewGesture(instrument=HORN, points=points))
    text = "instrument: horn\npitches: written\ngesture new\n  contour: C5, G7\n"
    found = check_text(Source("a", text), suggestions=False).report.gestures[0].findings
    assert [(f.code, f.where, f.text) for f in judge(gesture).findings] == [
        (f.code, f.where, f.text) for f in found
    ]
    assert found[0].where == "second note (written G7)"


def test_points_are_told_apart_by_their_number():
    points = (NewPoint(pitch=C5), NewPoint(pitch=E5, turns_to="growling"), NewPoint(pitch=G5, marks=("louder",)))
    _, (wrong,) = make(NewGesture(instrument=HORN, points=points))
    assert (wrong.rule, wrong.span.column) == ("unknown-word", 3)
    _, (wrong,) = make(NewGesture(instrument=HORN, points=points[:2]))
    assert (wrong.rule, wrong.span.column) == ("unknown-technique", 2)


@pytest.mark.parametrize("key", techniques.names())
def test_every_technique_can_be_made(key):
    technique = techniques.get(key)
    count = max(technique.points[0], 2 if technique.needs_line else 1)
    line = technique.lines[0] if technique.lines else "none"
    points = tuple(NewPoint(pitch=C5 if n % 2 == 0 else E5, about=True, line=line) for n in range(count))
    gesture, errors = make(NewGesture(instrument=HORN, points=points, techniques=(key,)))
    assert errors == ()
    # Without a mute the hand in the horn's bell does what covers another's.
    mute = ["muted"] if technique.of_mute else []  # what belongs to a mute brings it
    assert [t.key for t in gesture.techniques] == [*mute, technique.in_hand or key]
