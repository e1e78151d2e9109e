"""`term`: a cover and a page a week, and the file in which lessons are marked."""

from __future__ import annotations

import io

import pypdf
import pytest
from sampling import whole

PLAN = """lesson_plan = 1
title = "Fog Signals"
student = "{}"
begins = 2026-09-07
weeks = 4
techniques = ["kiss"]
"""


@pytest.fixture
def plan(here):
    (here / "plan.toml").write_text(PLAN.format("horn"), "utf-8")


@whole
@pytest.mark.lilypond
def test_a_cover_a_page_a_week_and_marks_that_change_what_follows(run, plan, here) -> None:
    result = run("term", "plan.toml")
    assert result.status == 0, result.err
    assert "plan-marks.toml" in result.out
    before = pypdf.PdfReader(io.BytesIO((here / "out" / "plan.pdf").read_bytes()))
    texts = [page.extract_text() for page in before.pages]
    assert len(texts) == 5
    assert "Fog Signals" in texts[0]
    assert all(f"Week {n}" in texts[n] and f"2026-09-{7 * n:02}" in texts[n] for n in (1, 2, 3, 4))
    marks = here / "out" / "plan-marks.toml"
    marks.write_text(marks.read_text("utf-8").replace("again = []", "again = [1]", 1), "utf-8")
    assert run("term", "plan.toml").status == 0
    after = pypdf.PdfReader(io.BytesIO((here / "out" / "plan.pdf").read_bytes()))
    assert after.pages[1].extract_text() == texts[1]
    assert "once more" in after.pages[2].extract_text()
    assert "again = [1]" in marks.read_text("utf-8")  # never written over


def test_what_is_wrong_in_the_files(run, plan, here) -> None:
    (here / "bad.toml").write_text(PLAN.format("hron").replace("weeks = 4", "weeks = 0"), "utf-8")
    result = run("term", "bad.toml")
    assert result.status == 2
    assert "bad.toml: line 3: student: no such profile (allowed: horn" in result.err
    assert "bad.toml: line 5: weeks: out of range" in result.err
    (here / "marks.toml").write_text("lesson_marks = 1\n[week-9]\nagain = [1]\n", "utf-8")
    result = run("term", "plan.toml", "--marks", "marks.toml", "--as", "ly")
    assert result.status == 2
    assert "week-9: there is no such week" in result.err
    (here / "marks.toml").write_text("lesson_marks = 1\n[week-1]\nagain = [7]\n", "utf-8")
    result = run("term", "plan.toml", "--marks", "marks.toml", "--as", "ly")
    assert result.status == 2
    assert "week-1: there is no line 7 on its page, which has 3" in result.err


@pytest.mark.lilypond
def test_a_mark_for_a_line_that_the_page_had_no_room_for_is_told(run, plan, here, monkeypatch) -> None:
    """Nothing is made, and the file with the marks stays as it is."""
    monkeypatch.setattr("gesturesmith.pipeline.term._full", lambda pages, *_: (1,) if _rows(pages) > 2 else ())
    marks = "lesson_marks = 1\n[week-1]\nagain = [{}]\n"
    place = here / "marks.toml"
    place.write_text(marks.format(3), "utf-8")
    result = run("term", "plan.toml", "--marks", "marks.toml", "--as", "ly")
    assert result.status == 2
    assert "marks.toml: week-1: there is no line 3 on its page, which has 2" in result.err
    assert place.read_text("utf-8") == marks.format(3)
    assert not (here / "out").exists()
    place.write_text(marks.format(2), "utf-8")
    assert run("term", "plan.toml", "--marks", "marks.toml", "--as", "ly").status == 0


def _rows(pages) -> int:
    """The lines of the first week."""
    return len(pages.weeks[0][0].lines)
