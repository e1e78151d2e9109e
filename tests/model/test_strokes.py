"""Notes repeated with strokes: when each repeat comes, and what cannot be repeated so."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gesturesmith.model.reading import read
from gesturesmith.model.strokes import gap_beats, struck
from gesturesmith.source import Source

HEAD = "instrument: trumpet\npitches: written\n"


def gesture(contour: str, *more: str, tempo: int = 60):
    lines = "".join(f"  {line}\n" for line in (f"contour: {contour}", *more))
    found = read(Source("a", f"{HEAD}tempo: {tempo}\ngesture a\n{lines}"))
    assert found.piece is not None
    assert not found.errors, found.errors
    return found.piece.gestures[0]


def test_measured_repeats_fill_their_note() -> None:
    one = gesture("C5 eighths, D5@1, E5@2 sixteenths", "lasts: 3 beats")
    found = [(float(at), point.pitch.written.name) for at, point in struck(one)]
    assert found == [(0, "C5"), (0.5, "C5"), (1, "D5"), *[(2 + n / 4, "E5") for n in range(4)]]


def test_repeats_in_a_triplet_divide_its_values() -> None:
    """Two strokes divide a printed quarter in four, in a triplet as outside."""
    one = gesture("C5 for 2/3 sixteenths, D5 for 1/3, E5 for 1/3 sixteenths, F5 for 2/3")
    found = [(at, point.pitch.written.name) for at, point in struck(one)]
    c = [(Fraction(n, 6), "C5") for n in range(4)]
    e = [(1 + Fraction(n, 6), "E5") for n in range(2)]
    assert found == [*c, (Fraction(2, 3), "D5"), *e, (Fraction(4, 3), "F5")]


@pytest.mark.parametrize("tempo", [40, 60, 144])
def test_unmeasured_repeats_are_as_fast_as_the_tongue_is_in_comfort(tempo: int) -> None:
    one = gesture("G4 unmeasured", "lasts: 4 beats", tempo=tempo)
    per_s = Fraction(tempo, 60) / gap_beats(one, one.points[0])
    limit = one.instrument.limits["single_tongue_per_s_middle"].narrow.value
    assert 0.9 * limit < per_s <= limit
    low = gesture("F#3 unmeasured", "lasts: 4 beats", tempo=tempo)
    assert gap_beats(low, low.points[0]) > gap_beats(one, one.points[0])
    double = gesture("G4 unmeasured", "technique: double-tongue", "lasts: 4 beats", tempo=tempo)
    assert gap_beats(double, double.points[0]) < gap_beats(one, one.points[0])


MISTAKES = [
    ("contour: C5 «sixteenths» -- D5", "commas beside the note"),
    ("contour: C5 __ D5 «eighths»", "commas beside the note"),
    ("contour: C5 «sixteenths»\n  attacks: 4", "keep one"),
    ("technique: flutter-tongue\n  contour: C5 «sixteenths»", "flutter-tongue is written with strokes"),
    ("contour: C5 «sixteenths»\n  lasts: 3 s", "write `unmeasured`"),
    ("contour: C5 «sixteenths»\n  lasts: 1/5 beats", "a multiple, or write `unmeasured`, or the repeats as"),
    ("contour: C5 «sixteenths»\n  lasts: 4/3 beats", "`for 2/3 sixteenths`, which count in triplets"),
    ("contour: C5 «eighths»\n  lasts: 1/3 beats", "each of them 1/3 beats: make it a multiple"),
    ("contour: C5 «sixteenths»\n  lasts: 1/4 beats", "make it a multiple"),
]


@pytest.mark.parametrize(("body", "message"), MISTAKES)
def test_what_cannot_be_repeated(body: str, message: str) -> None:
    text = f"{HEAD}gesture a\n  {body.replace('«', '').replace('»', '')}\n"
    (error,) = read(Source("a", text)).errors
    assert (error.rule, message in error.message) == ("strokes-misplaced", True), error.message


def test_a_level_at_each_attack() -> None:
    one = gesture("G4, A4, Bb4@3", "lasts: 4 beats", "dynamics: fp each")
    assert [(float(m.at), m.level) for m in one.dynamics] == [(0, "fp"), (1.5, "fp"), (3, "fp")]
    spread = gesture("G4", "attacks: 4 slowing", "lasts: 4 beats", "dynamics: sfz each")
    assert len({m.at for m in spread.dynamics}) == 4
