"""Findings and verdicts in pictures: their words and colours."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from gesturesmith.diagnostics import Finding, Severity, Verdict
from gesturesmith.pictures.svg import CARE, REACH, REFUSED, SOFT

_INDENT = "\N{NO-BREAK SPACE}" * 3


def told(findings: Sequence[Finding], columns: int) -> Iterator[tuple[str, str]]:
    """The lines of text under a picture, each with its colour; findings are numbered from 1."""
    for number, finding in enumerate(findings, start=1):
        where = f"{finding.where}: " if finding.where else ""
        heading = finding.severity.heading if finding.severity is not None else ""
        lines = textwrap.wrap(f"{number}  {heading}: {where}{finding.text}", columns - len(_INDENT))
        for row, line in enumerate(lines):
            yield (f"{_INDENT}{line}" if row else line), severity_colour(finding.severity)


def severity_colour(severity: Severity | None) -> str:
    """The colour of a finding."""
    if severity is Severity.REFUSED:
        return REFUSED
    return CARE if severity is Severity.CAUTION else SOFT


def verdict_colour(verdict: str) -> str:
    """The colour of a verdict, by its words."""
    colours = {Verdict.NOT_AS_WRITTEN.words: REFUSED, Verdict.WITH_CARE.words: CARE}
    return colours.get(verdict, REACH)
