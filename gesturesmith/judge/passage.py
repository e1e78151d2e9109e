"""Judges a passage: the gestures it plays as written, and those it transposes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from gesturesmith import rules
from gesturesmith.diagnostics import Finding, PassageReport, Severity, Verdict
from gesturesmith.difficulty.score import passage_difficulty
from gesturesmith.judge.gesture import Judged, in_file_order, judge, judge_passage, verdict_of
from gesturesmith.model.gesture import Gesture
from gesturesmith.model.piece import Passage, PassageItem
from gesturesmith.rules.base import PassageCase


def passage_report(
    passage: Passage, own: dict[str, Gesture], judged: dict[str, Judged]
) -> tuple[PassageCase, PassageReport]:
    """The report on a passage, from the verdicts on its own gestures and on those it transposes."""
    case, findings = passage_findings(passage, own, judged)
    hard = passage_difficulty(case)
    said = PassageReport(
        name=passage.name,
        title=passage.title,
        span=passage.span,
        verdict=verdict_of(findings),
        findings=findings,
        difficulty=hard.number,
        demands=hard.demands,
    )
    return case, said


def passage_findings(
    passage: Passage, own: dict[str, Gesture], judged: dict[str, Judged]
) -> tuple[PassageCase, tuple[Finding, ...]]:
    """A passage with how its gestures are played, and the findings on it, without how hard it is."""
    moved_ones: dict[int, Judged] = {}  # a repeated gesture is one value, judged once
    played = [_played(item, own, judged, moved_ones) for item in passage.items]
    case = PassageCase(
        passage=passage,
        cases=tuple(None if p is None else p.case for p in played),
        refusals=tuple(None if p is None or not p.refusals else p.refusals[0] for p in played),
        cautions=tuple(
            _caution(p) if p is not None and _known(item, own) else None
            for item, p in zip(passage.items, played, strict=True)
        ),
    )
    moved = (
        _moved(finding, item)
        for item, p in zip(passage.items, played, strict=True)
        if p is not None and not _known(item, own)
        for finding in p.findings
        if not rules.get(finding.rule).alone
    )
    return case, in_file_order((*judge_passage(case), *_once(moved)))


def _played(
    item: PassageItem, own: dict[str, Gesture], judged: dict[str, Judged], moved: dict[int, Judged]
) -> Judged | None:
    if item.gesture is None:
        return None
    if _known(item, own):
        return judged[item.played]
    if id(item.gesture) not in moved:
        moved[id(item.gesture)] = judge(item.gesture)
    return moved[id(item.gesture)]


def _caution(judged: Judged) -> Finding | None:
    """The caution about a gesture that can be played with care."""
    if judged.verdict is not Verdict.WITH_CARE:
        return None
    return next(f for f in judged.findings if f.severity is Severity.CAUTION)


def _known(item: PassageItem, own: dict[str, Gesture]) -> bool:
    """Whether a passage plays a gesture as written: its findings are reported with the gesture."""
    there = own.get(item.played)
    if there is None or item.gesture is None:
        return False
    mine = item.gesture
    return there.points == mine.points and (there.tempo, there.pace) == (mine.tempo, mine.pace)


def _moved(finding: Finding, item: PassageItem) -> Finding:
    """The findings on a gesture a passage transposes, or on a plain pitch, placed in the passage."""
    name = item.played or "this note"
    where = f"{name}, {finding.where}" if item.played and finding.where else name
    return replace(finding, span=item.span, where=where, proposed_fixes=())


def _once(findings: Iterator[Finding]) -> Iterator[Finding]:
    """Each finding once per place, however often the passage is written out."""
    seen: set[tuple[object, ...]] = set()
    for finding in findings:
        key = (finding.span, finding.code, finding.where, finding.text)
        if key not in seen:
            seen.add(key)
            yield finding
