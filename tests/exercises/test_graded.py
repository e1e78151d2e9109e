"""Graded sheets: only playable gestures, harder from level to level, in lines that can be practised."""

from __future__ import annotations

from itertools import pairwise

import pytest

from gesturesmith import instruments, techniques
from gesturesmith.diagnostics import Verdict
from gesturesmith.exercises.graded import LEVELS_OF_SHEETS, of_level, playable
from gesturesmith.judge.gesture import judge

CASES = [("horn", "hand-out"), ("trumpet", "harmonic-gliss"), ("trombone", "slide-gliss"), ("tuba", "kiss")]


@pytest.fixture(scope="module", params=CASES, ids=lambda case: "-".join(case))
def found(request):
    instrument, technique = request.param
    return playable(techniques.get(technique), instruments.get(instrument))


def test_every_line_is_playable_without_a_word(found) -> None:
    for level in LEVELS_OF_SHEETS:
        for line in of_level(found, level):
            for one in line:
                judged = judge(one.case.gesture)
                assert judged.verdict is Verdict.PLAYABLE
                assert judged.findings == ()


def test_no_level_is_empty_and_none_reaches_into_the_next(found) -> None:
    levels = [[g.difficulty for line in of_level(found, level) for g in line] for level in LEVELS_OF_SHEETS]
    assert all(levels)
    for easier, harder in pairwise(levels):
        assert max(easier) <= min(harder)


def test_a_line_is_one_shape_at_one_pace_climbing(found) -> None:
    for level in LEVELS_OF_SHEETS:
        for line in of_level(found, level):
            assert len({g.series for g in line}) == 1
            assert all(0 < b.start - a.start <= 500 for a, b in pairwise(line))


def test_lines_stand_in_order_of_difficulty_and_none_twice(found) -> None:
    for level in LEVELS_OF_SHEETS:
        lines = of_level(found, level)
        means = [sum(g.difficulty for g in line) / len(line) for line in lines]
        assert means == sorted(means)
        assert len({(line[0].series, line[0].start) for line in lines}) == len(lines) <= 8


def test_where_all_of_it_needs_correcting_it_is_practised_all_the_same() -> None:
    """All quarter tones of the trumpet are a little out of tune: the checker says so, as advice."""
    found = playable(techniques.get("quarter-tones"), instruments.get("trumpet"))
    assert all(of_level(found, level) for level in LEVELS_OF_SHEETS)
    for one in found[:: len(found) // 20]:
        assert judge(one.case.gesture).verdict is Verdict.PLAYABLE


def test_the_same_every_time(found) -> None:
    assert of_level(found, 3) == of_level(tuple(found), 3)


def test_too_little_makes_no_level() -> None:
    assert of_level((), 1) == ()


@pytest.mark.parametrize("name", ["horn", "trombone", "trumpet"])
def test_a_sheet_of_bends_goes_down(name) -> None:
    """The sign and its text mean downwards, and the lip can take a note up only a little."""
    for one in playable(techniques.get("bend"), instruments.get(name)):
        first, *rest = (p.sounding_cents for p in one.case.gesture.points)
        assert all(cents <= first for cents in rest), [p.pitch.written.name for p in one.case.gesture.points]
