"""A term of lessons: what is new, what comes again and when, and what a teacher's marks change."""

from __future__ import annotations

import datetime

import pytest

from gesturesmith.diagnostics import Verdict
from gesturesmith.exercises import term, term_file
from gesturesmith.judge.gesture import judge

STUDENT = """instrument_profile = 1
player = "Mia"
based_on = "trombone"

[student]
lowest = "Bb2"
highest = "Bb3"
tempo = [56, 84]
keys = ["Bb major", "Eb major"]
"""
PLAN = """lesson_plan = 1
title = "Autumn term"
student = "mia.toml"
begins = 2026-09-07
weeks = 10
pauses = [2026-10-21]
techniques = ["kiss", "vibrato"]
"""


@pytest.fixture
def plan(tmp_path):
    (tmp_path / "mia.toml").write_text(STUDENT, "utf-8")
    path = tmp_path / "plan.toml"
    path.write_text(PLAN, "utf-8")
    found, errors = term_file.read_plan(path)
    assert errors == ()
    return found


def test_a_week_after_another_without_those_that_are_free(plan) -> None:
    """The 21st of October lies in the week from the 19th."""
    weeks = term.weeks(plan, {}, 5)
    assert [week.number for week in weeks] == list(range(1, 10))
    days = [week.date for week in weeks]
    assert datetime.date(2026, 10, 19) not in days
    assert plan.pauses == (datetime.date(2026, 10, 19),)
    assert days[0] == datetime.date(2026, 9, 7)
    assert days[-1] == datetime.date(2026, 11, 9)


def test_every_week_has_something_new_but_the_last(plan) -> None:
    *weeks, last = term.weeks(plan, {}, 5)
    assert all(week.new for week in weeks)
    assert last.new == ()
    assert len(last.lines) == 5
    order = list(dict.fromkeys(one.technique for week in weeks for one in week.new))
    assert order == ["kiss", "vibrato"]


def test_what_went_well_comes_again_at_growing_distances_and_quicker(plan) -> None:
    weeks = term.weeks(plan, {}, 20)  # room for everything that is due
    first = weeks[0].lines[0].line
    shown = [(week.number, one.tempi) for week in weeks for one in week.lines if one.line is first]
    assert [number for number, _ in shown[:4]] == [1, 2, 4, 8]
    starts = [tempi[0] for _, tempi in shown]
    assert starts == sorted(starts)
    assert starts[0] < starts[-1]


def test_what_did_not_go_well_comes_again_the_week_after_no_quicker(plan) -> None:
    before = term.weeks(plan, {}, 5)[0].lines[0]
    weeks = term.weeks(plan, {1: (1,)}, 5)
    again = weeks[1].lines[0]
    assert (again.line, again.again, again.tempi) == (before.line, True, before.tempi)


def test_marks_of_a_week_change_only_later_weeks(plan) -> None:
    plain, marked = term.weeks(plan, {}, 5), term.weeks(plan, {4: (1, 2)}, 5)
    assert plain[:4] == marked[:4]
    assert plain[4:] != marked[4:]
    assert len(marked[4].new) == 1 < len(plain[4].new)  # trouble leaves room


def test_every_tempo_of_a_ladder_is_the_students_and_playable(plan) -> None:
    for week in term.weeks(plan, {}, 5):
        for one in week.lines:
            assert list(one.tempi) == sorted(set(one.tempi))
            for tempo in one.tempi:
                assert 56 <= tempo <= 84
                assert judge(one.at(tempo).gesture).verdict is Verdict.PLAYABLE


def test_the_form_for_marks_reads_as_no_marks(tmp_path) -> None:
    path = tmp_path / "marks.toml"
    assert term_file.read_marks(path, 9) == ({}, ())
    path.write_text(term_file.marks_form(9), "utf-8")
    marks, errors = term_file.read_marks(path, 9)
    assert errors == ()
    assert set(marks) == set(range(1, 10))
    assert not any(marks.values())


@pytest.mark.parametrize(
    ("was", "becomes", "key", "words"),
    [
        ("weeks = 10", "weeks = 1", "weeks", "2 to 40"),
        ("weeks = 10", "weeks = 3\npauses2 = 1", "pauses2", "unknown key"),
        ("weeks = 10", "weeks = 2", "weeks", "too few"),
        ('"vibrato"', '"vibratto"', "techniques", "unknown technique (allowed: vibrato"),
        ('"vibrato"', '"half-valve"', "techniques", "half-valve needs valves"),
        ("2026-09-07", '"soon"', "begins", "not a date"),
        ("[2026-10-21]", "[3]", "pauses", "list of dates"),
        ('"mia.toml"', '"horm"', "student", "no such profile (allowed: horn"),
        ('"mia.toml"', '"none.toml"', "student", "no such file"),
        ("lesson_plan = 1", "lesson = 1", "", "lesson_plan = 1"),
    ],
)
def test_mistakes_of_a_plan_are_told_with_their_keys(tmp_path, was, becomes, key, words) -> None:
    (tmp_path / "mia.toml").write_text(STUDENT, "utf-8")
    path = tmp_path / "plan.toml"
    path.write_text(PLAN.replace(was, becomes), "utf-8")
    found, errors = term_file.read_plan(path)
    assert found is None
    assert [e.key for e in errors if words in e.message] == [key]


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("[week-12]\nagain = [1]", "week-12"),
        ("[third]\nagain = [1]", "third"),
        ("[week-2]\nagain = [1]\nwell = [1]", "week-2.again"),
        ("[week-2]\nagain = 1", "week-2.again"),
        ("[week-2]\nbad = [1]", "week-2.bad"),
    ],
)
def test_mistakes_of_marks_are_told(tmp_path, text, key) -> None:
    path = tmp_path / "marks.toml"
    path.write_text(f"lesson_marks = 1\n{text}\n", "utf-8")
    _, errors = term_file.read_marks(path, 9)
    assert [e.key for e in errors] == [key]
