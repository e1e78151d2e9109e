"""Suggestions for people: each with its lines as they would appear in the file."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from gesturesmith.diagnostics.edits import edited_rows
from gesturesmith.diagnostics.lines import visible
from gesturesmith.diagnostics.text import untried
from gesturesmith.diagnostics.types import (
    Edit,
    FileReport,
    Finding,
    GestureReport,
    PassageReport,
    Severity,
    Suggestion,
    Verdict,
)

_COLUMNS = 116


def render_suggestions(report: FileReport) -> str:
    """What is refused in a file, and what needs care if there is something better, with all suggestions."""
    # Passages come once their gestures are in order: most of their refusals disappear with those.
    refused = any(g.verdict is Verdict.NOT_AS_WRITTEN for g in report.gestures)
    everything: list[GestureReport | PassageReport] = [*report.gestures, *(() if refused else report.passages)]
    lines: list[str] = []
    for said in everything:
        groups = _alike(said)
        if groups:
            title = f'"{visible(said.title)}" ({visible(said.name)})' if said.title else visible(said.name)
            part = f", {visible(said.part.title)}" if said.part is not None else ""
            lines.append(f"{title}{part}, line {said.span.line}")
            for findings in groups:
                lines += [*_said(findings), *_offered(findings[0], report, said.name)]
            lines.append("")
    return "\n".join([*lines, _summary(report), *untried(report)]) + "\n"


def _alike(said: GestureReport | PassageReport) -> list[list[Finding]]:
    """The findings to show, those with the same suggestions together."""
    groups: dict[tuple[Suggestion, ...], list[Finding]] = {}
    for finding in said.findings:
        if finding.suggestions or finding.severity is Severity.REFUSED:
            groups.setdefault(finding.suggestions, []).append(finding)
    return list(groups.values())


def _said(findings: Sequence[Finding]) -> Iterator[str]:
    shown = set[str]()
    for finding in findings:
        where = f"{visible(finding.where)}: " if finding.where else ""
        severity = (finding.severity or Severity.CAUTION).heading
        text = f"{severity}: {where}{visible(finding.text)} ({finding.rule})"
        if text not in shown:
            shown.add(text)
            yield from textwrap.wrap(
                text,
                _COLUMNS,
                initial_indent="  ",
                subsequent_indent="    ",
                break_long_words=False,
                break_on_hyphens=False,
            )


def _offered(finding: Finding, report: FileReport, name: str) -> Iterator[str]:
    for number, suggestion in enumerate(finding.suggestions, start=1):
        words = f"{visible(suggestion.words)}; " if suggestion.words else ""
        changed = ", changes the music" if suggestion.changes_music else ""
        yield f"  {number}. {words}{suggestion.verdict.words}{changed}"
        yield from _changed(suggestion.edits, report.source.lines)
    if not finding.suggestions and name in report.untried:
        yield "  not everything was tried: this file has used up its tries"
    elif not finding.suggestions:
        yield f"  {f'hint: {visible(finding.hint)}' if finding.hint else 'no fix found'}"


def _changed(edits: Sequence[Edit], lines: Sequence[str]) -> Iterator[str]:
    """Changed lines, before and after, and new lines."""
    rows = edited_rows(lines, edits)
    for number in sorted({edit.line for edit in edits}):
        now, *new = rows[number - 1]
        was = lines[number - 1]
        if now != was:
            yield f"{number:>7} was | {visible(was)}".rstrip()
            yield f"{'':7} now | {visible(now)}".rstrip() if now.strip() else f"{'':7} now |"
        for line in new:
            yield f"{'':7} new | {visible(line)}".rstrip()


def _summary(report: FileReport) -> str:
    name = visible(report.source.name)
    refused = [g for g in report.gestures if g.verdict is Verdict.NOT_AS_WRITTEN]
    helped = [g for g in refused if any(f.suggestions for f in g.findings)]
    careful = sum(
        any(f.suggestions for f in g.findings) for g in report.gestures if g.verdict is not Verdict.NOT_AS_WRITTEN
    )
    parts = []
    if refused:
        parts.append(f"{len(refused)} not as written, {_all_of(len(helped), len(refused))}")
    if careful:
        parts.append(f"{careful} with care, with easier alternatives")
    passages = sum(p.verdict is Verdict.NOT_AS_WRITTEN for p in report.passages)
    if passages:
        parts.append(f"{passages} {'passage' if passages == 1 else 'passages'} not as written")
    return f"{name}: {'; '.join(parts) or 'nothing to fix'}"


def _all_of(helped: int, refused: int) -> str:
    if helped == refused:
        return "with suggestions" if refused == 1 else "all with suggestions"
    return f"{helped} with suggestions" if helped else "without suggestions"
