"""A whole file judged: its gestures, passages and exercises, with all that is to be said of each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from gesturesmith.diagnostics import (
    ExerciseReport,
    FileReport,
    Finding,
    GestureReport,
    PassageReport,
    ReadError,
    Severity,
    Verdict,
)
from gesturesmith.difficulty.score import difficulty, passage_difficulty
from gesturesmith.exercises.variants import Practice, lines
from gesturesmith.judge.gesture import Judged, in_file_order, judge, judge_passage, verdict_of
from gesturesmith.lang.nodes import File
from gesturesmith.model.gesture import Gesture
from gesturesmith.model.piece import Passage, PassageItem, Piece
from gesturesmith.realise.gesture import as_json
from gesturesmith.rules.base import Case, PassageCase
from gesturesmith.source import Source, folded
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from gesturesmith.fixes.tester import Bench


_LONGEST_TRIED = 1000  # notes of a passage that is played through again for every edit


@frozen(kw_only=True)
class Checked:
    """What is said of a file, and what is engraved from it, by the names of the blocks."""

    report: FileReport
    cases: dict[str, Case]
    passage_cases: dict[str, PassageCase]
    practices: dict[str, Practice]


def check(
    piece: Piece,
    tree: File,
    source: Source,
    errors: tuple[ReadError, ...],
    *,
    suggestions: bool = True,
    only: str | None = None,
) -> Checked:
    """Judge everything in a file. Without `suggestions` nothing is tried out to put it right, with `only` that one
    gesture alone."""
    judged = {g.name: judge(g) for g in piece.gestures}
    own = {g.name: g for g in piece.gestures}
    passages = tuple(passage_said(p, own, judged) for p in piece.passages)
    wanted = any(j.findings for j in judged.values()) or any(said.findings for _, said in passages)
    bench = _bench(piece, tree, source, judged) if suggestions and wanted else None
    practices = tuple(lines(e) for e in piece.exercises)
    untried: list[str] = []

    def bench_for(name: str) -> Bench | None:
        if bench is None or (only is not None and folded(name) != folded(only)):
            return None
        bench.stopped = False
        return bench

    def told[Said: (GestureReport, PassageReport)](said: Said) -> Said:
        if bench is not None and bench.stopped:
            untried.append(said.name)
            bench.stopped = False
        return said

    gestures = tuple(told(_gesture_report(j, bench_for(name))) for name, j in judged.items())
    report = FileReport(
        source=source,
        readable=not errors,
        errors=tuple(sorted(errors, key=lambda e: (e.span.line, e.span.column, e.code))),
        gestures=gestures,
        passages=tuple(told(_passage_report(c, said, piece, bench_for(said.name))) for c, said in passages),
        untried=tuple(untried),
        exercises=tuple(_exercise(p) for p in practices),
        unread=_unread(piece, tree, errors),
    )
    return Checked(
        report=report,
        cases={name: j.case for name, j in judged.items()},
        passage_cases={case.passage.name: case for case, _ in passages},
        practices={p.exercise.name: p for p in practices},
    )


def _unread(piece: Piece, tree: File, errors: tuple[ReadError, ...]) -> tuple[tuple[str, str], ...]:
    """The gestures and passages with a mistake in them, or that play one, by name and title."""
    wrong = piece.unread | {e.gesture.casefold() for e in errors if e.gesture is not None}
    blocks = (b for b in tree.blocks if b.kind != "exercises" and b.name.text.casefold() in wrong)
    return tuple(dict.fromkeys((b.name.text, b.title.text if b.title is not None else b.name.text) for b in blocks))


def _bench(piece: Piece, tree: File, source: Source, judged: dict[str, Judged]) -> Bench:
    from gesturesmith.fixes.tester import Bench  # a file without a fault does not pay for it

    return Bench(tree, piece.settings, source.lines, judged)


def _with_suggestions(judged: Judged, bench: Bench | None) -> tuple[Finding, ...]:
    if bench is None or not judged.findings:
        return judged.findings
    from gesturesmith.fixes.suggest import with_suggestions

    return with_suggestions(bench, judged)


def _gesture_report(judged: Judged, bench: Bench | None) -> GestureReport:
    gesture = judged.case.gesture
    hard = difficulty(judged.case)
    return GestureReport(
        name=gesture.name,
        title=gesture.title,
        span=gesture.span,
        verdict=judged.verdict,
        findings=_with_suggestions(judged, bench),
        realisation=as_json(judged.case.realisation),
        difficulty=hard.number,
        demands=hard.demands,
    )


def _passage_report(case: PassageCase, said: PassageReport, piece: Piece, bench: Bench | None) -> PassageReport:
    notes = sum(i.gesture.size for i in case.passage.items if i.gesture is not None)
    if bench is None or said.verdict is not Verdict.REFUSED or notes > _LONGEST_TRIED:
        return said
    from gesturesmith.fixes.passages import with_suggestions

    return with_suggestions(bench, piece.settings, said)


# --- passages --------------------------------------------------------------------------------------------


def passage_said(
    passage: Passage, own: dict[str, Gesture], judged: dict[str, Judged]
) -> tuple[PassageCase, PassageReport]:
    """A passage: what its own gestures were found to be, and how those it moves come out."""
    moved_ones: dict[int, Judged] = {}  # what is played again is one value, and judged once
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
    )
    findings = in_file_order((*judge_passage(case), *_once(moved)))
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
    """What is to be minded in a gesture that can be played with care."""
    if judged.verdict is not Verdict.CAUTION:
        return None
    return next(f for f in judged.findings if f.severity is Severity.CAUTION)


def _known(item: PassageItem, own: dict[str, Gesture]) -> bool:
    """Whether a passage plays a gesture as it stands in the file: its findings are given there."""
    there = own.get(item.played)
    if there is None or item.gesture is None:
        return False
    return there.points == item.gesture.points and there.tempo == item.gesture.tempo


def _moved(finding: Finding, item: PassageItem) -> Finding:
    """What was found on a gesture a passage moves, or on a pitch of its own, at its place in the passage."""
    name = item.played or "this note"
    where = f"{name}, {finding.where}" if item.played and finding.where else name
    return replace(finding, span=item.span, where=where, try_values=())


def _once(findings: Iterator[Finding]) -> Iterator[Finding]:
    """A passage may be written out several times: the same finding at the same place is said once."""
    seen: set[tuple[object, ...]] = set()
    for finding in findings:
        key = (finding.span, finding.code, finding.where, finding.text)
        if key not in seen:
            seen.add(key)
            yield finding


# --- exercises -------------------------------------------------------------------------------------------


def _exercise(practice: Practice) -> ExerciseReport:
    """Which variants a sheet has, and which cannot be played, each with its first reason."""
    exercise = practice.exercise
    return ExerciseReport(
        name=exercise.name,
        title=exercise.title,
        span=exercise.span,
        made=len(practice.kept),
        left_out=practice.left_out,
        kept=tuple((line.label, line.difficulty) for line in practice.kept),
    )
