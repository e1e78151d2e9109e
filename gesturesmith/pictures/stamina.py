"""What a player of a score breathes and owes over time: the picture of a passage, for a whole part."""

from __future__ import annotations

from gesturesmith.diagnostics import Finding, ScorePartReport
from gesturesmith.pictures.strain import strain
from gesturesmith.rules.base import PassageCase
from gesturesmith.source import Span

_DRAWN = ("breath-too-short", "effort-overdrawn", "strain-without-rest")


def stamina(part: ScorePartReport, passage: PassageCase) -> str:
    """The picture as SVG, with the findings on breath and strain below it, each at its first place."""
    findings = [
        Finding(
            span=Span(1, 1, 2),
            severity=found.severity,
            where=f"bar {found.places[0].bar}",
            text=found.text,
            evidence=found.evidence,
        )
        for found in part.findings
        if found.rule in _DRAWN
    ]
    return strain(passage, findings, part.verdict.words)
