"""What the page shows of a checked text, as values for JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from gesturesmith.checker import Checked
from gesturesmith.diagnostics import Finding, GestureReport, PassageReport, Severity, report_object
from gesturesmith.live.checking import CheckedText
from gesturesmith.pictures.sketch import sketch
from gesturesmith.pictures.strain import strain
from gesturesmith.source import folded


def view(seen: CheckedText) -> dict[str, Any]:
    """The report as for `check --json`, with the suggestions in words, the block at the cursor and its sketches."""
    report = seen.report
    shown = report_object(report)
    everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
    for said, own in zip(everything, (*shown["gestures"], *shown["passages"]), strict=True):
        own |= {"words": said.verdict.words, "part_title": said.part.title if said.part is not None else None}
        for finding, found in zip(said.findings, own["findings"], strict=True):
            found |= {"heading": _heading(finding)}
            for way, suggested in zip(finding.suggestions, found["suggestions"], strict=True):
                suggested |= {"words": way.in_words, "verdict_words": way.verdict.words}
    here = seen.here
    return {
        "report": shown,
        "whole": seen.whole,
        "here": None
        if here is None
        else {
            "kind": here.kind,
            "name": here.name,
            "title": here.title,
            "line": here.span.line,
            "last_line": here.last_line,
        },
        "sketches": list(_sketches(seen.checked, here.name)) if here is not None and here.name else [],
    }


def _heading(finding: Finding) -> str:
    return (finding.severity or Severity.CAUTION).heading


def _sketches(checked: Checked, name: str, title: str = "") -> Iterator[dict[str, str]]:
    """The picture of a gesture or passage; in a file with parts one for each part that plays it."""
    for part in checked.parts:
        yield from _sketches(part, name, part.part.title if part.part is not None else "")
    for gesture in checked.report.gestures:
        case = checked.cases.get(gesture.name)
        if case is not None and folded(gesture.name) == folded(name):
            yield {"part": title, "svg": sketch(case, gesture.findings, gesture.verdict.words, bare=True)}
    for passage in checked.report.passages:
        whole = checked.passage_cases.get(passage.name)
        if whole is not None and folded(passage.name) == folded(name):
            drawn = strain(whole, passage.findings, passage.verdict.words, bare=True)
            if drawn:
                yield {"part": title, "svg": drawn}
