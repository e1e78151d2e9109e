"""Judges a whole file: its gestures, passages and exercises, with the report on each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gesturesmith.diagnostics import (
    ExerciseReport,
    FileReport,
    Finding,
    GestureReport,
    PassageReport,
    Verdict,
)
from gesturesmith.difficulty.score import difficulty
from gesturesmith.exercises.variants import Practice, lines
from gesturesmith.instruments.base import Instrument
from gesturesmith.judge.gesture import Judged, judge
from gesturesmith.judge.passage import passage_report
from gesturesmith.model.piece import Piece, Settings
from gesturesmith.model.reading import Reading, read
from gesturesmith.realise.gesture import realisation_report
from gesturesmith.rules.base import Case, PassageCase
from gesturesmith.source import Source, folded
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from pathlib import Path

    from gesturesmith.fixes.tester import EditTester


_LONGEST_TRIED = 1000  # notes of a passage that is judged again for every edit


@frozen(kw_only=True)
class Checked:
    """The report on a file, and what is engraved from it, by block name."""

    reading: Reading
    report: FileReport
    cases: dict[str, Case]
    passage_cases: dict[str, PassageCase]
    practices: dict[str, Practice]


def check_text(
    source: Source,
    *,
    folder: Path | None = None,
    instrument: Instrument | None = None,
    suggestions: bool = True,
    only: str | None = None,
) -> Checked:
    """Parse, resolve and judge a text: `check` applied to the result of `read`, whose arguments it takes.

    >>> text = "instrument: horn\\npitches: written\\ngesture a\\n  contour: G4, C5"
    >>> check_text(Source("a", text)).report.gestures[0].verdict
    <Verdict.PLAYABLE: 'playable'>
    """
    return check(read(source, folder=folder, instrument=instrument), suggestions=suggestions, only=only)


def check(reading: Reading, *, suggestions: bool = True, only: str | None = None) -> Checked:
    """Judge everything in a file. `suggestions`: whether to try fixes; `only`: for this gesture alone."""
    piece = reading.piece
    if piece is None:
        report = FileReport(source=reading.source, readable=False, errors=reading.errors)
        return Checked(reading=reading, report=report, cases={}, passage_cases={}, practices={})
    judged = {g.name: judge(g) for g in piece.gestures}
    own = {g.name: g for g in piece.gestures}
    passages = tuple(passage_report(p, own, judged) for p in piece.passages)
    wanted = any(j.findings for j in judged.values()) or any(said.findings for _, said in passages)
    tester = _tester(reading, piece.settings, judged) if suggestions and wanted else None
    practices = tuple(lines(e) for e in piece.exercises)
    untried: list[str] = []

    def tester_for(name: str) -> EditTester | None:
        if tester is None or (only is not None and folded(name) != folded(only)):
            return None
        tester.stopped = False
        return tester

    def told[Said: (GestureReport, PassageReport)](said: Said) -> Said:
        if tester is not None and tester.stopped:
            untried.append(said.name)
            tester.stopped = False
        return said

    gestures = tuple(told(_gesture_report(j, tester_for(name))) for name, j in judged.items())
    report = FileReport(
        source=reading.source,
        readable=not reading.errors,
        errors=tuple(sorted(reading.errors, key=lambda e: (e.span.line, e.span.column, e.code))),
        gestures=gestures,
        passages=tuple(told(_passage_report(c, said, piece, tester_for(said.name))) for c, said in passages),
        untried=tuple(untried),
        exercises=tuple(_exercise(p) for p in practices),
        unread=_unread(piece, reading),
    )
    return Checked(
        reading=reading,
        report=report,
        cases={name: j.case for name, j in judged.items()},
        passage_cases={case.passage.name: case for case, _ in passages},
        practices={p.exercise.name: p for p in practices},
    )


def _unread(piece: Piece, reading: Reading) -> tuple[tuple[str, str], ...]:
    """The gestures and passages that contain a mistake, or play one that does, by name and title."""
    wrong = piece.unread | {e.gesture.casefold() for e in reading.errors if e.gesture is not None}
    blocks = (b for b in reading.tree.blocks if b.kind != "exercises" and b.name.text.casefold() in wrong)
    return tuple(dict.fromkeys((b.name.text, b.title.text if b.title is not None else b.name.text) for b in blocks))


def _tester(reading: Reading, settings: Settings, judged: dict[str, Judged]) -> EditTester:
    from gesturesmith.fixes.tester import EditTester  # a file without faults does not pay for it

    return EditTester(reading.tree, settings, reading.source.lines, judged)


def _with_suggestions(judged: Judged, tester: EditTester | None) -> tuple[Finding, ...]:
    if tester is None or not judged.findings:
        return judged.findings
    from gesturesmith.fixes.suggest import with_suggestions

    return with_suggestions(tester, judged)


def _gesture_report(judged: Judged, tester: EditTester | None) -> GestureReport:
    gesture = judged.case.gesture
    hard = difficulty(judged.case)
    return GestureReport(
        name=gesture.name,
        title=gesture.title,
        span=gesture.span,
        verdict=judged.verdict,
        findings=_with_suggestions(judged, tester),
        realisation=realisation_report(judged.case.realisation),
        difficulty=hard.number,
        demands=hard.demands,
    )


def _passage_report(
    case: PassageCase, said: PassageReport, piece: Piece, tester: EditTester | None
) -> PassageReport:
    notes = sum(i.gesture.size for i in case.passage.items if i.gesture is not None)
    if tester is None or said.verdict is not Verdict.NOT_AS_WRITTEN or notes > _LONGEST_TRIED:
        return said
    from gesturesmith.fixes.passages import with_suggestions

    return with_suggestions(tester, piece.settings, said)


# --- exercises -------------------------------------------------------------------------------------------


def _exercise(practice: Practice) -> ExerciseReport:
    """The variants on a sheet, and those that cannot be played, each with its first reason."""
    exercise = practice.exercise
    return ExerciseReport(
        name=exercise.name,
        title=exercise.title,
        span=exercise.span,
        made=len(practice.kept),
        left_out=practice.left_out,
        kept=tuple((line.label, line.difficulty) for line in practice.kept),
    )
