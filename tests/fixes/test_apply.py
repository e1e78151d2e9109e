"""Which suggestions are applied together: never two that change the same line."""

from __future__ import annotations

from dataclasses import replace

from gesturesmith.diagnostics import Edit, FileReport, Finding, GestureReport, Severity, Suggestion, Verdict
from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.fixes.apply import apply_fixes
from gesturesmith.source import Source, Span

TEXT = "gesture one\ngesture two\npassage both\n  play: one, two\n"


def refused(name: str, line: int, *edits: Edit) -> GestureReport:
    finding = Finding(
        span=Span(line, 1, 2),
        text="",
        evidence=Sourced(1, HOUSE, ""),
        severity=Severity.REFUSED,
        suggestions=(Suggestion(edits=edits, verdict=Verdict.PLAYABLE),),
    )
    return GestureReport(
        name=name, title=None, span=finding.span, verdict=Verdict.NOT_AS_WRITTEN, findings=(finding,)
    )


def test_of_two_that_change_one_line_the_second_waits_for_the_next_round():
    """Both halve their gesture, and so change what the passage plays."""
    one = refused("one", 1, Edit(4, "one", "one-a, one-b"))
    two = refused("two", 2, Edit(4, "two", "two-a, two-b"))
    report = FileReport(source=Source("a", TEXT), readable=True, gestures=(one, two))
    seen: list[str] = []

    def judged(source: Source) -> FileReport:
        seen.append(source.text)
        return replace(report, source=source, gestures=(two,) if len(seen) == 1 else ())

    made = apply_fixes(report, judged)
    assert [text.split("\n")[3] for text in seen] == [
        "  play: one-a, one-b, two",
        "  play: one-a, one-b, two-a, two-b",
    ]
    assert [name for name, _ in made.made] == ["one", "two"]
