"""Findings and verdicts in pictures: their words and colours."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from gesturesmith.diagnostics import Finding, Severity, Verdict
from gesturesmith.pictures.svg import CARE, REACH, REFUSED, SOFT

_LETTER, _VERDICT_LETTER = 9.6, 7.8  # widths in the sizes of title and verdict
_INDENT = "\N{NO-BREAK SPACE}" * 3


def told(findings: Sequence[Finding], columns: int) -> Iterator[tuple[str, str]]:
    """The lines of text under a picture, each with its colour; findings are numbered from 1."""
    for number, finding in enumerate(findings, start=1):
        where = f"{finding.where}: " if finding.where else ""
        heading = finding.severity.heading if finding.severity is not None else ""
        lines = textwrap.wrap(f"{number}  {heading}: {where}{finding.text}", columns - len(_INDENT))
        for row, line in enumerate(lines):
            yield (f"{_INDENT}{line}" if row else line), severity_colour(finding.severity)


def shortened(title: str, verdict: str, width: float) -> str:
    """A title that leaves room for the verdict at the right end of its line. Letters are taken to be wide."""
    room = int((width - _VERDICT_LETTER * len(verdict) - _LETTER) / _LETTER)
    return title if len(title) <= room else f"{title[: room - 1].rstrip()}…"


def severity_colour(severity: Severity | None) -> str:
    """The colour of a finding."""
    if severity is Severity.REFUSED:
        return REFUSED
    return CARE if severity is Severity.CAUTION else SOFT


def verdict_colour(verdict: str) -> str:
    """The colour of a verdict, by its words."""
    colours = {Verdict.NOT_AS_WRITTEN.words: REFUSED, Verdict.WITH_CARE.words: CARE}
    return colours.get(verdict, REACH)
