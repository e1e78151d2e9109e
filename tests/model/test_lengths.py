"""Lengths typed on points, `C5 for 3/2`, and lengths in bars: one way to mean it, and a message for every other."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gesturesmith.model.reading import read
from gesturesmith.source import Source

HEAD = "instrument: horn\npitches: written\n"
F = Fraction


def _read(body: str, head: str = HEAD):
    return read(Source("made", f"{head}gesture a\n  {body}\n"))


@pytest.mark.parametrize(
    ("contour", "expected", "beats"),
    [
        ("C5 for 3/2, D5 for 1/2", [(0, F(3, 2)), (F(3, 2), 2)], 2),
        ("C5 for 1/5, r for 2/5, D5 for 2/5", [(0, F(1, 5)), (F(1, 5), F(3, 5)), (F(3, 5), 1)], 1),
        ("C5 for 2 beats __ D5 for 1 accent", [(0, 2), (2, 3)], 3),
        ("C5 for 2 -- D5", [(0, 2), (2, 2)], 2),
        ("C5 for 2 -- D5 for 1", [(0, 2), (2, 3)], 3),
        ("G4 grace, C5 for 2, D5 for 1", [(0, 2), (2, 3)], 3),
    ],
)
def test_each_point_takes_its_length(contour: str, expected, beats) -> None:
    technique = "technique: half-valve\n  " if "--" in contour else ""
    found = _read(f"{technique}contour: {contour}")
    assert found.piece is not None
    assert not found.errors
    (gesture,) = found.piece.gestures
    assert [(p.at, p.until) for p in gesture.points] == expected
    assert gesture.beats == beats


@pytest.mark.parametrize(
    ("body", "rule", "said"),
    [
        ("contour: C5 for 1, D5@2", "bad-place", "by `for` or by @, not by both: remove @2"),
        ("contour: C5 for 1, D5", "incomplete", "add `for` and its beats"),
        ("contour: C5 for 1, D5 for 1\n  lasts: 2 beats", "lasts-twice", "2 beats in all: remove `lasts`"),
        ("contour: C5 for 1 for 2", "said-twice", "one `for` per point"),
        ("contour: C5 for 2 s", "unknown-unit", "counts in beats: 2 beats"),
        ("contour: C5 1, D5 2", "bad-place", "write C5 for 1"),
        ("contour: C5 for 0", "out-of-range", "above zero"),
        ("contour: G4 grace for 1, C5 for 1", "bad-grace", "leave out `for`"),
        ("technique: multiphonic\n  contour: C4\n  sing: G4 for 1", "bad-place", "with @, as in G4@2"),
        ("contour: C5\n  lasts: 2 bars", "bars-without-meter", "`meter: 4/4`"),
    ],
)
def test_what_is_wrong_is_said(body: str, rule: str, said: str) -> None:
    errors = _read(body).errors
    assert errors[0].rule == rule
    assert said in errors[0].message


@pytest.mark.parametrize(("meter", "beats"), [("4/4", 8), ("6/8", 6), ("5/4", 10)])
def test_bars_are_those_of_the_file(meter: str, beats: int) -> None:
    found = _read("contour: C5\n  lasts: 2 bars", f"{HEAD}meter: {meter}\n")
    assert found.piece is not None
    assert found.piece.gestures[0].beats == beats
