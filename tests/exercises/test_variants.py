"""The lines of an exercise sheet: what is left out, the order of the rest, and how it is thinned."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rules.checking import checked

from gesturesmith.diagnostics import Verdict
from gesturesmith.exercises.variants import _mixed, _thinned

FILE = """instrument: horn
pitches: written
tempo: 60

gesture call
  contour: C5, G5
  lasts: 2 beats

exercises week
  from: call
  start: {start}
  order: {order}
  keep: {keep}
"""
RISING = "C4..C6 by 2"  # from C6 it would end above the horn


def practice(*, start: str = RISING, order: str = "as listed", keep: str = "all"):
    return checked(FILE.format(start=start, order=order, keep=keep)).practices["week"]


def labels(lines):
    return [line.label for line in lines]


def test_what_is_refused_is_left_out_with_its_reason():
    made = practice()
    assert made.left_out
    for label, reason in made.left_out:
        assert label in made.exercise.labels
        assert reason.endswith(")")
    assert "outside-range" in made.left_out[-1][1]
    assert len(made.kept) + len(made.left_out) == len(made.exercise.variants)
    assert not set(labels(made.kept)) & {label for label, _ in made.left_out}
    assert all(line.judged.verdict is not Verdict.NOT_AS_WRITTEN for line in made.kept)


def test_every_line_has_what_a_sheet_prints():
    first = practice(keep="3").kept[0]
    assert (first.number, first.label) == (1, "from C4")
    assert first.case.realisation.points
    assert 0 <= first.difficulty <= 100


@pytest.mark.parametrize("start", [RISING, "C6, C4, A5, E4, G5"])
def test_the_orders(start):
    listed = practice(start=start).kept
    easy = practice(start=start, order="easiest first").kept
    hard = practice(start=start, order="hardest first").kept
    assert [line.number for line in listed] == sorted(line.number for line in listed)
    assert all(a.hardness.exact <= b.hardness.exact for a, b in pairwise(easy))
    assert all(a.hardness.exact >= b.hardness.exact for a, b in pairwise(hard))
    assert set(labels(listed)) == set(labels(easy)) == set(labels(hard))


@pytest.mark.parametrize("order", ["easiest first", "hardest first", "as listed"])
def test_of_equals_the_first_listed_stands_first(order):
    made = practice(start="E4, D4, E4, D4", order=order).kept  # the call ends within the middle register
    assert [line.number for line in made if line.label == "from E4"] == [1, 3]
    assert [line.number for line in made if line.label == "from D4"] == [2, 4]


def test_mixed_has_an_easier_and_a_harder_line_by_turns():
    made = practice(order="mixed").kept
    numbers = [line.hardness.exact for line in made]
    middle = sorted(numbers)[(len(numbers) - 1) // 2]
    assert all(n <= middle for n in numbers[0::2])
    assert all(n >= middle for n in numbers[1::2])
    assert numbers not in (sorted(numbers), sorted(numbers, reverse=True))
    assert labels(made) == labels(practice(order="mixed").kept)


def test_mixed_is_thinned_before_it_is_mixed():
    """Every other line of a mixed row would be easy."""
    kept = practice(order="mixed", keep="4").kept
    assert set(labels(kept)) == set(labels(practice(order="easiest first", keep="4").kept))


@pytest.mark.parametrize("order", ["easiest first", "hardest first", "as listed", "mixed"])
def test_keep_keeps_the_first_and_the_last(order):
    whole, kept = practice(order=order).kept, practice(order=order, keep="4").kept
    assert len(kept) == 4
    if order == "mixed":
        whole = practice(order="easiest first").kept
        assert {whole[0].label, whole[-1].label} <= set(labels(kept))
    else:
        assert (kept[0].label, kept[-1].label) == (whole[0].label, whole[-1].label)


def test_one_page_keeps_all_until_the_page_knows_how_many_fit():
    made = practice(order="easiest first", keep="one page")
    assert labels(made.kept) == labels(practice(order="easiest first").kept)
    assert labels(made.at_most(4)) == labels(practice(order="easiest first", keep="4").kept)
    assert labels(made.at_most(1000)) == labels(made.kept)


def test_a_page_with_less_room_than_is_kept_thins_further():
    made = practice(order="mixed", keep="5")
    assert labels(made.at_most(3)) == labels(practice(order="mixed", keep="3").kept)
    assert labels(made.at_most(9)) == labels(made.kept)


def test_where_nothing_can_be_played_nothing_is_kept():
    made = practice(start="C7, D7")
    assert (made.kept, len(made.left_out), made.at_most(3)) == ((), 2, ())


def test_the_report_names_what_is_kept():
    (said,) = checked(FILE.format(start=RISING, order="hardest first", keep="3")).report.exercises
    kept = practice(order="hardest first", keep="3").kept
    assert said.made == 3
    assert said.kept == tuple((line.label, line.difficulty) for line in kept)


@given(st.integers(0, 200), st.integers(1, 60))
def test_thinning_goes_in_even_steps(size, count):
    kept = _thinned(range(size), count)
    assert len(kept) == min(size, count)
    assert kept[:1] == tuple(range(size))[:1]
    if count > 1:
        assert kept[-1:] == tuple(range(size))[-1:]
    gaps = [b - a for a, b in pairwise(kept)]
    assert all(gap > 0 for gap in gaps)
    assert max(gaps, default=0) - min(gaps, default=0) <= 1


@given(st.integers(0, 50))
def test_mixing_loses_nothing_and_alternates(size):
    row = _mixed(range(size))
    assert sorted(row) == list(range(size))
    half = (size + 1) // 2
    assert [n >= half for n in row] == [bool(k % 2) for k in range(size)]


@pytest.mark.parametrize(
    ("there", "count", "kept"),
    [(6, 4, [0, 2, 3, 5]), (10, 4, [0, 3, 6, 9]), (8, 3, [0, 4, 7]), (5, 1, [0]), (3, 5, [0, 1, 2])],
)
def test_what_is_thinned_keeps_the_steps_as_even_as_they_can_be(there, count, kept):
    """Each is the nearest to its place in an even spacing, halves rounded up."""
    assert list(_thinned(range(there), count)) == kept
