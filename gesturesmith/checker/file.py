"""Judges a whole file: its gestures, passages and exercises, with the report on each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from gesturesmith.diagnostics import (
    ExerciseReport,
    FileReport,
    Finding,
    GestureReport,
    PartName,
    PassageReport,
    Verdict,
)
from gesturesmith.difficulty.score import difficulty
from gesturesmith.exercises.variants import Practice, lines
from gesturesmith.instruments.base import Instrument
from gesturesmith.judge.gesture import Judged, in_file_order, judge, verdict_of
from gesturesmith.judge.passage import passage_report
from gesturesmith.model.looks import AS_WRITTEN, PageLook
from gesturesmith.model.piece import Piece
from gesturesmith.model.reading import Reading, read
from gesturesmith.realise.gesture import realisation_report
from gesturesmith.rules.base import Case, PassageCase
from gesturesmith.source import Source, folded
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from pathlib import Path

    from gesturesmith.fixes.tester import EditTester


type Wanted = Callable[[], bool]

_LONGEST_TRIED = 1000  # notes of a passage that is judged again for every edit


@frozen(kw_only=True)
class Checked:
    """The report on a file, and what is engraved from it, by block name.

    parts   the results for the parts of a file, in order; of a file with parts only these and the report are filled
    part    the part it is of; None for a whole file
    players   for a part read by two players, the passages as each plays them, by name
    """

    reading: Reading
    report: FileReport
    cases: Mapping[str, Case]
    passage_cases: Mapping[str, PassageCase]
    practices: Mapping[str, Practice]
    parts: tuple[Checked, ...] = ()
    part: PartName | None = None
    players: tuple[dict[str, PassageCase], ...] = ()


def check_text(
    source: Source,
    *,
    folder: Path | None = None,
    instrument: Instrument | None = None,
    look: PageLook = AS_WRITTEN,
    suggestions: bool = True,
    only: str | None = None,
) -> Checked:
    """Parse, resolve and judge a text: `check` applied to the result of `read`, whose arguments it takes.

    >>> text = "instrument: horn\\npitches: written\\ngesture a\\n  contour: G4, C5"
    >>> check_text(Source("a", text)).report.gestures[0].verdict
    <Verdict.PLAYABLE: 'playable'>
    """
    reading = read(source, folder=folder, instrument=instrument, look=look)
    return check(reading, suggestions=suggestions, only=only)


def check(
    reading: Reading, *, suggestions: bool = True, only: str | None = None, wanted: Wanted = lambda: True
) -> Checked:
    """Judge everything in a file. `suggestions`: whether to try fixes; `only`: for this gesture alone.

    `wanted` is asked before each trial of a fix: once it says no, none is tried any more, and what is left is
    `untried`; suggestions found before are those of a check to the end.
    """
    if reading.parts:
        return _with_parts(reading, suggestions, only, wanted)
    if reading.piece is None:
        return _nothing(reading)
    seen = _judged_file(reading, reading.piece)
    tester = _tester(seen, wanted=wanted) if suggestions and seen.faulty else None
    return _reported(seen, tester, only)


@frozen(kw_only=True)
class _JudgedFile:
    """A whole file judged, before any fixes are tried."""

    reading: Reading
    piece: Piece
    judged: dict[str, Judged]
    passages: tuple[tuple[PassageCase, PassageReport], ...]
    players: tuple[dict[str, PassageCase], ...] = ()

    @property
    def faulty(self) -> bool:
        """Whether there is anything to fix."""
        return any(j.findings for j in self.judged.values()) or any(said.findings for _, said in self.passages)


def _nothing(reading: Reading) -> Checked:
    report = FileReport(source=reading.source, readable=False, errors=reading.errors)
    return Checked(reading=reading, report=report, cases={}, passage_cases={}, practices={})


def _judged_file(reading: Reading, piece: Piece, players: tuple[Reading, ...] = ()) -> _JudgedFile:
    """`players`: two who read the lines of a part; what each plays is judged separately."""
    judged = {g.name: judge(g) for g in piece.gestures}
    own = {g.name: g for g in piece.gestures}
    passages = tuple(passage_report(p, own, judged) for p in piece.passages)
    apart = tuple(
        {p.name: passage_report(p, own, judged) for p in one.piece.passages}
        for one in players
        if one.piece is not None
    )
    if apart:
        passages = tuple(
            (case, _of_both(said, tuple(one[said.name][1] for one in apart))) for case, said in passages
        )
    by_player = tuple({name: case for name, (case, _) in one.items()} for one in apart)
    return _JudgedFile(reading=reading, piece=piece, judged=judged, passages=passages, players=by_player)


def _of_both(said: PassageReport, apart: tuple[PassageReport, ...]) -> PassageReport:
    """The report on a line that two players read: once for what both have, else for the one who has it."""
    first, second = (one.findings for one in apart)
    both = [f for f in first if f in second]
    only = [
        replace(f, where=f"{who} player, {f.where}" if f.where else f"{who} player")
        for who, found in (("first", first), ("second", second))
        for f in found
        if f not in both
    ]
    findings = in_file_order((*both, *only))
    hardest = max(apart, key=lambda one: one.difficulty or 0)
    return replace(
        said,
        findings=findings,
        verdict=verdict_of(findings),
        difficulty=hardest.difficulty,
        demands=hardest.demands,
    )


def _reported(seen: _JudgedFile, tester: EditTester | None, only: str | None) -> Checked:
    """The report on a file, with suggestions."""
    reading, piece, judged, passages = seen.reading, seen.piece, seen.judged, seen.passages
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


def _with_parts(reading: Reading, suggestions: bool, only: str | None, wanted: Wanted) -> Checked:
    """Each part judged separately, and the joint report, in file order and order of parts."""
    seen = tuple(
        _judged_file(p.reading, p.reading.piece, p.players) if p.reading.piece is not None else None
        for p in reading.parts
    )
    testers: list[EditTester | None] = [None] * len(seen)
    if suggestions and any(one is not None and one.faulty for one in seen):
        names = tuple(part.name for part in reading.parts)
        for number, one in enumerate(seen):
            others = (*names[:number], *names[number + 1 :])
            testers[number] = _tester(one, (names[number], *others), wanted) if one is not None else None
        there = tuple(tester for tester in testers if tester is not None)
        for own in there:
            own.others = tuple(other for other in there if other is not own)
    parts = []
    for part, one, tester in zip(reading.parts, seen, testers, strict=True):
        made = _reported(one, tester, only) if one is not None else _nothing(part.reading)
        name = PartName(part.name, part.title)
        players = one.players if one is not None else ()
        parts.append(replace(made, report=_of_part(made.report, name), part=name, players=players))
    reports = tuple(part.report for part in parts)
    report = FileReport(
        source=reading.source,
        readable=not reading.errors,
        errors=tuple(sorted(reading.errors, key=lambda e: (e.span.line, e.span.column, e.code))),
        gestures=tuple(sorted((g for r in reports for g in r.gestures), key=lambda g: g.span.line)),
        passages=tuple(sorted((p for r in reports for p in r.passages), key=lambda p: p.span.line)),
        exercises=tuple(sorted((e for r in reports for e in r.exercises), key=lambda e: e.span.line)),
        unread=tuple(dict.fromkeys(one for r in reports for one in r.unread)),
        untried=tuple(dict.fromkeys(name for r in reports for name in r.untried)),
    )
    return Checked(reading=reading, report=report, cases={}, passage_cases={}, practices={}, parts=tuple(parts))


def _of_part(report: FileReport, part: PartName) -> FileReport:
    return replace(
        report,
        gestures=tuple(replace(g, part=part) for g in report.gestures),
        passages=tuple(replace(p, part=part) for p in report.passages),
        exercises=tuple(replace(e, part=part) for e in report.exercises),
    )


def _unread(piece: Piece, reading: Reading) -> tuple[tuple[str, str], ...]:
    """The gestures and passages that contain a mistake, or play one that does, by name and title."""
    wrong = piece.unread | {e.gesture.casefold() for e in reading.errors if e.gesture is not None}
    blocks = (b for b in reading.tree.blocks if b.kind != "exercises" and b.name.text.casefold() in wrong)
    return tuple(dict.fromkeys((b.name.text, b.title.text if b.title is not None else b.name.text) for b in blocks))


def _tester(seen: _JudgedFile, parts: tuple[str, ...] = (), wanted: Wanted = lambda: True) -> EditTester:
    """`parts`: the names of all parts, of which this is the first."""
    from gesturesmith.fixes.tester import EditTester  # a file without faults does not pay for it

    reading = seen.reading
    return EditTester(
        reading.tree, seen.piece.settings, reading.source.lines, seen.judged, parts, seen.piece.gestures, wanted
    )


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
