"""Applies the first suggestions to a text, as long as fewer refusals remain."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from gesturesmith.diagnostics import FileReport, GestureReport, PassageReport, Severity, Suggestion, Verdict
from gesturesmith.diagnostics.edits import apply_edits
from gesturesmith.source import Source, folded
from gesturesmith.values import frozen


@frozen(kw_only=True)
class AppliedFixes:
    """The resulting text with its report, and the suggestions applied, by name of the gesture, in order."""

    source: Source
    report: FileReport
    made: tuple[tuple[str, Suggestion], ...]


def apply_fixes(report: FileReport, judged: Callable[[Source], FileReport], only: str = "") -> AppliedFixes:
    """Apply the first suggestion for each refused gesture, then for each refused passage; with `only`, just for
    that gesture.

    `judged` reads and judges a text in the same way as that of `report`.

    After each round the text is read and judged again, so edits never collide: one whose line has been changed
    waits for the next round. It ends when nothing is refused, nothing is suggested, or nothing would improve.
    """
    source = report.source
    made: list[tuple[str, Suggestion]] = []
    while report.readable:
        chosen = tuple(_chosen(report, folded(only)))
        edits = tuple(edit for _, suggestion in chosen for edit in suggestion.edits)
        text = "\n".join(apply_edits(source.lines, edits))
        after = judged(Source(source.name, text)) if edits else report
        if not after.readable or _refused(after) >= _refused(report):
            break
        source, report = after.source, after
        made += chosen
    return AppliedFixes(source=source, report=report, made=tuple(made))


def _chosen(report: FileReport, only: str) -> Iterator[tuple[str, Suggestion]]:
    """The first suggestion for each refused gesture, except any that would change a line twice; if no gesture is
    refused any more, for each refused passage."""
    taken: set[int] = set()
    refused = any(g.verdict is Verdict.NOT_AS_WRITTEN for g in report.gestures)
    everything: tuple[GestureReport | PassageReport, ...] = report.gestures if refused or only else report.passages
    for said in everything:
        suggestion = _first(said) if not only or folded(said.name) == only else None
        lines = {edit.line for edit in suggestion.edits} if suggestion is not None else set[int]()
        if suggestion is not None and not lines & taken:
            taken |= lines
            yield said.name, suggestion


def _first(said: GestureReport | PassageReport) -> Suggestion | None:
    found = (f.suggestions[0] for f in said.findings if f.severity is Severity.REFUSED and f.suggestions)
    return next(found, None) if said.verdict is Verdict.NOT_AS_WRITTEN else None


def _refused(report: FileReport) -> int:
    verdicts = [g.verdict for g in report.gestures] + [p.verdict for p in report.passages]
    return verdicts.count(Verdict.NOT_AS_WRITTEN)
