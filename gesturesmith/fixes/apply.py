"""A text with its first suggestions made, as long as that leaves less refused."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from gesturesmith.diagnostics import FileReport, GestureReport, PassageReport, Severity, Suggestion, Verdict
from gesturesmith.diagnostics.edits import apply_edits
from gesturesmith.source import Source, folded
from gesturesmith.values import frozen


@frozen(kw_only=True)
class AppliedFixes:
    """The text as it then stands and what is said of it; what was made, by the gestures' names, in order."""

    source: Source
    report: FileReport
    made: tuple[tuple[str, Suggestion], ...]


def apply_fixes(report: FileReport, judged: Callable[[Source], FileReport], only: str = "") -> AppliedFixes:
    """Make the first suggestion for each gesture that is refused, then for each passage; with `only`, for that
    gesture alone.

    `judged` reads and judges a text, as that of `report` was.

    After each round the text is read and judged anew, so edits never meet: one whose line another has changed
    waits for the next. It ends when nothing is refused, nothing is suggested, or it would not get better.
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
    """The first suggestion of each refused gesture, but for those that would change a line twice; where none is
    refused any more, of each refused passage."""
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
