"""Ways out as changes of the text: as edits of lines have them, and nothing is changed that stays."""

from __future__ import annotations

from pathlib import Path

import pytest

from gesturesmith.checker import check_text
from gesturesmith.diagnostics import Edit
from gesturesmith.diagnostics.edits import apply_edits
from gesturesmith.editing.text import TextChange, applied, changes, corrections
from gesturesmith.explain.mistakes import codes, mistake
from gesturesmith.source import Source, Span

REFUSED = Path(__file__).parent.parent.parent / "docs" / "demo" / "not-as-written.gesture"


def test_every_suggestion_is_the_same_as_changes():
    source = Source(REFUSED.name, REFUSED.read_text("utf-8"))
    report = check_text(source).report
    tried = [s for g in report.gestures for f in g.findings for s in f.suggestions]
    assert len(tried) > 5
    for suggestion in tried:
        made = changes(source.lines, suggestion.edits)
        assert made is not None
        assert applied(source.lines, made) == "\n".join(apply_edits(source.lines, suggestion.edits))


def test_only_what_differs_is_replaced():
    made = changes(("  contour: G6, C5",), (Edit(1, "contour: G6, C5", "contour: G5, C5"),))
    assert made == (TextChange(Span(1, 13, 14), "5"),)


def test_a_new_line_comes_after_its_line():
    made = changes(("gesture a", "  contour: C5"), (Edit(1, "", "  lasts: 4 beats"),))
    assert made == (TextChange(Span(1, 10, 10), "\n  lasts: 4 beats"),)


@pytest.mark.parametrize("edit", [Edit(9, "a", "b"), Edit(0, "a", "b"), Edit(1, "elsewhere", "b")])
def test_edits_of_another_text_are_none(edit: Edit):
    assert changes(("gesture a",), (edit,)) is None


def _whole(text: str) -> str:
    """An example of a mistake as a file: an indented line is in a gesture."""
    return text if text[:1].strip() else f"gesture a\n{text}"


@pytest.mark.parametrize("rule", [rule for rule in codes() if _whole and mistake(rule).wrong])
def test_what_is_offered_for_a_word_makes_its_mistake_disappear(rule: str):
    source = Source("", _whole(mistake(rule).wrong))
    report = check_text(source, suggestions=False).report
    for error in report.errors:
        for change in corrections(source, error):
            after = check_text(Source("", applied(source.lines, (change,))), suggestions=False).report
            assert (error.code, error.message) not in [(e.code, e.message) for e in after.errors]


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("  tecnique: bend", ["technique"]),
        ("  contour: c4", ["C4"]),
        ("  contour: H4", ["B4", "Bb4"]),
        ("  contour: C4+31", ["C4+31c"]),
        ("  contour: do4, D4", ["C4"]),
        ("  lasts: quarter note", ["1 beat"]),
        ("  contour: C5 -- growing D5", []),  # `~~` is offered for the word, where it would be a second line
    ],
)
def test_corrections_of_common_slips(line: str, offered: list[str]):
    source = Source("", f"gesture a\n{line}\n  band: middle\n")
    report = check_text(source, suggestions=False).report
    error = next(e for e in report.errors if e.span.line == 2)
    assert [change.text for change in corrections(source, error)] == offered
