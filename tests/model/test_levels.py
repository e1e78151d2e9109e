"""The level at every time of a gesture, and the mean of a quantity while the level changes."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gesturesmith.model.gesture import LEVELS
from gesturesmith.model.levels import extent, level_at, level_held, mean, place_at, ramps
from gesturesmith.model.reading import read
from gesturesmith.source import Source

N, PPP, PP, P, MP, MF, FO, FF, FFF = range(9)


@pytest.mark.parametrize(
    ("dynamics", "at"),
    [
        ("", {0: MF, 4: MF}),
        ("dynamics: p", {0: P, 4: P}),
        ("dynamics: p@1", {0: MF, Fraction(1, 2): MF, 1: P, 4: P}),
        ("dynamics: p < ff", {0: P, 1: MP, 2: MF, 3: FO, 4: FF}),
        ("dynamics: n < pp@2 < ff", {0: N, 1: PPP, 2: PP, 3: Fraction(9, 2), 4: FF}),
        ("dynamics: ff > pp@1", {0: FF, Fraction(1, 2): Fraction(9, 2), 1: PP, 3: PP}),
        ("dynamics: p@0 < f@2", {0: P, 1: Fraction(9, 2), 2: FO, 3: FO}),
        ("dynamics: sfz", {0: FO, 2: FO}),
        ("dynamics: fp", {0: FO, Fraction(1, 8): P, 2: P}),
        ("dynamics: fp < f", {0: FO, Fraction(4, 3): MP, 4: FO}),
    ],
)
def test_the_place_moves_evenly_along_a_hairpin_and_stays_elsewhere(gesture, dynamics, at):
    made = gesture("contour: C5", "lasts: 4 beats", *filter(None, [dynamics]))
    assert {t: place_at(made, Fraction(t)) for t in at} == at
    assert [level_at(made, Fraction(t)) for t in at] == [
        LEVELS[int(place + Fraction(1, 2))] for place in at.values()
    ]


@pytest.mark.parametrize(
    ("dynamics", "start", "end", "softest", "loudest"),
    [
        ("p < ff@2 > p", 0, 4, P, FF),  # what is between two equal ends counts
        ("p < ff@2 > p", 1, 3, MF, FF),
        ("p < ff", 1, 2, MP, MF),
        ("fp", 0, 4, P, FO),  # the stroke as well
        ("p < ff@2", 0, 2, P, FF),  # up to what a hairpin leads to
        ("ff > n", 0, 4, N, FF),
    ],
)
def test_the_softest_and_the_loudest_of_a_stretch(gesture, dynamics, start, end, softest, loudest):
    made = gesture("contour: C5", "lasts: 4 beats", f"dynamics: {dynamics}")
    assert extent(made, Fraction(start), Fraction(end)) == (softest, loudest)


def test_a_level_set_anew_belongs_to_the_note_it_stands_at(gesture):
    made = gesture("contour: C5 p, D5 ff", "lasts: 4 beats")
    assert extent(made, Fraction(0), Fraction(2)) == (P, P)
    assert extent(made, Fraction(2), Fraction(4)) == (FF, FF)


MARKS = st.lists(st.sampled_from(LEVELS), min_size=1, max_size=5)


@given(MARKS, st.lists(st.booleans(), min_size=5, max_size=5), st.integers(0, 16), st.integers(0, 16))
def test_the_curve_has_no_gaps_and_no_place_outside_its_extent(marks, joins, one, other):
    words = marks[0]
    for joined, mark in zip(joins, marks[1:], strict=False):
        words += f" {'<' if joined else '>'} {mark}"
    text = f"instrument: horn\npitches: written\ngesture a\n  contour: C5\n  lasts: 4 beats\n  dynamics: {words}\n"
    (made,) = read(Source("levels", text)).piece.gestures
    whole = list(ramps(made, Fraction(0), Fraction(4)))
    assert (whole[0].start, whole[-1].end) == (0, 4)
    assert all(a.end == b.start for a, b in pairwise(whole))
    start, end = sorted((Fraction(one, 4), Fraction(other, 4)))
    low, high = extent(made, start, end)
    pieces = list(ramps(made, start, end))
    assert sum(r.end - r.start for r in pieces) == end - start
    for at in (start, *((r.start + r.end) / 2 for r in pieces)):
        assert low <= place_at(made, at) <= high
    held = level_held(made, start)
    if held is not None:
        assert [(r.first, r.last) for r in ramps(made, start, Fraction(4))] == [(held, held)] * (start < 4)
    else:
        assert made.dynamics[-1].at > start


def test_a_number_by_level_is_averaged_over_the_way():
    table = [0.0, 0.0, 1.0, 1.0, 3.0, 3.0, 3.0, 3.0, 11.0]
    assert mean(table, 2, 2) == 1.0
    assert mean(table, 1.5, 1.5) == 0.5
    assert mean(table, 1, 2) == mean(table, 2, 1) == 0.5
    assert mean(table, 1, 3) == 0.75  # half of the way at 0.5, half at 1
    assert mean(table, 2.5, 4) == pytest.approx((0.5 * 1 + 1 * 2) / 1.5)
    assert mean(table, 7, 8) == 7.0
