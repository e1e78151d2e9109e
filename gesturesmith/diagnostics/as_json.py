"""A report for programs, as in `schemas/report.json`."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from gesturesmith.diagnostics.types import (
    Demand,
    Edit,
    ExerciseReport,
    FileReport,
    Finding,
    GestureReport,
    Number,
    PartName,
    PassageReport,
    PointReport,
    ReadError,
    RealisationReport,
    Report,
    ScoreFinding,
    ScorePartReport,
    ScoreReport,
    Severity,
    Suggestion,
)
from gesturesmith.version import __version__

SCHEMA = 2


def render_json(report: Report) -> str:
    """The report as one JSON object, keys in a fixed order, ending in a newline."""
    scores = {"scores": [_score(s) for s in report.scores]} if report.scores else {}
    return json_text(
        {"schema": SCHEMA, "tool": __version__, "files": [report_object(f) for f in report.files], **scores}
    )


def json_text(value: object) -> str:
    """A value as JSON, ending in a newline. Unprintable characters are escaped: they could control a terminal."""
    import json  # only here: a check for people does not need it

    text = json.dumps(value, ensure_ascii=False, indent=2) + "\n"
    odd: dict[str, str | int | None] = {
        sign: json.dumps(sign)[1:-1] for sign in set(text) if not sign.isprintable() and sign != "\n"
    }
    return text.translate(str.maketrans(odd)) if odd else text


def report_object(report: FileReport) -> dict[str, Any]:
    """The report on one file, as in `files` of the schema."""
    return {
        "file": report.source.name,
        "readable": report.readable,
        "errors": [_error(e) for e in report.errors],
        "unread": [name for name, _ in report.unread],
        "gestures": [_said(g) for g in report.gestures],
        "passages": [_said(p) for p in report.passages],
        "exercises": [_exercise(e) for e in report.exercises],
        "untried": list(report.untried),
    }


def _score(report: ScoreReport) -> dict[str, Any]:
    return {
        "file": report.file,
        "title": report.title,
        "readable": report.readable,
        "errors": [_error(e) for e in report.errors],
        "bars": report.bars,
        "tempo_assumed": _plain(report.tempo) if report.tempo is not None else None,
        "parts": [_score_part(p) for p in report.parts],
        "others": list(report.others),
        "left_out": [{"sign": sign, "count": count} for sign, count in report.left_out],
    }


def _score_part(part: ScorePartReport) -> dict[str, Any]:
    return {
        "part": part.part,
        "player": part.player or None,
        "instrument": part.instrument,
        "why": part.why,
        "written": part.written,
        "notes": part.notes,
        "verdict": part.verdict.value,
        "findings": [_score_finding(f) for f in part.findings],
    }


def _score_finding(finding: ScoreFinding) -> dict[str, Any]:
    return {
        "code": finding.code,
        "rule": finding.rule,
        "severity": finding.severity.value,
        "message": finding.text,
        "numbers": [_number(n) for n in finding.numbers],
        "evidence": {"kind": finding.evidence.kind.value, "source": finding.evidence.source},
        "places": [
            {"bar": p.bar, "beat": str(p.beat), "note": p.note, "until_bar": p.until_bar or None}
            for p in finding.places
        ],
    }


def _error(error: ReadError) -> dict[str, Any]:
    return {
        "code": error.code,
        "rule": error.rule,
        "line": error.span.line,
        "column": error.span.column,
        "end_column": error.span.end_column,
        "message": error.message,
        "nearest": list(error.nearest),
    }


def _said(said: GestureReport | PassageReport) -> dict[str, Any]:
    gesture = said if isinstance(said, GestureReport) else None
    return {
        "name": said.name,
        **part_of(said.part),
        "title": said.title,
        "line": said.span.line,
        "verdict": said.verdict.value,
        "difficulty": said.difficulty,
        "demands": [_demand(d) for d in said.demands],
        "realisation": _realisation(gesture.realisation) if gesture and gesture.realisation else None,
        "findings": [_finding(f) for f in said.findings],
    }


def part_of(part: PartName | None) -> dict[str, Any]:
    """Only for files with parts."""
    return {"part": part.name} if part is not None else {}


def _realisation(played: RealisationReport) -> dict[str, Any]:
    """The realisation as JSON, without empty keys."""
    found = {
        "technique": list(played.techniques),
        "points": [_point(p) for p in played.points],
        "tube": played.tube,
        "partials": list(played.partials),
        "starts_cents": played.starts_cents,
        "lands_cents": played.lands_cents,
        "pattern": list(played.pattern),
        "breaks": list(played.breaks),
        "fallback": played.fallback,
        "tonguing": played.tonguing,
    }
    return {
        key: value for key, value in found.items() if key in ("technique", "points") or value not in (None, "", [])
    }


def _point(point: PointReport) -> dict[str, Any]:
    found: dict[str, Any] = {"at": str(point.at)}
    if point.valves is not None:
        found |= {"side": point.side, "valves": point.valves, "partial": point.partial, "cents": point.cents}
    found |= {"correction": point.correction} if point.correction else {}
    found |= {"trill": point.trill} if point.trill else {}
    return found


def _demand(demand: Demand) -> dict[str, Any]:
    return {
        "name": demand.name,
        "value": _value(demand.value),
        "comfortable": [_value(edge) for edge in demand.comfortable],
        "unit": demand.unit,
        "share": _plain(demand.share),
    }


def _value(value: float | str | None) -> float | int | str | None:
    return _plain(value) if isinstance(value, float | int) else value


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "code": finding.code,
        "rule": finding.rule,
        "severity": (finding.severity or Severity.CAUTION).value,
        "line": finding.span.line,
        "column": finding.span.column,
        "end_column": finding.span.end_column,
        "where": finding.where,
        "message": finding.text,
        "hint": finding.hint,
        "numbers": [_number(n) for n in finding.numbers],
        "evidence": {"kind": finding.evidence.kind.value, "source": finding.evidence.source},
        "suggestions": [_suggestion(s) for s in finding.suggestions],
    }


def _number(number: Number) -> dict[str, Any]:
    return {
        "name": number.name,
        "value": _plain(number.value),
        "limit": None if number.limit is None else _plain(number.limit),
        "unit": number.unit,
    }


def _plain(value: Fraction | float | int) -> float | int:
    """A JSON number: an integer if it is whole, else rounded to hundredths."""
    rounded = round(float(value), 2)
    return int(rounded) if rounded == int(rounded) else rounded


def _suggestion(suggestion: Suggestion) -> dict[str, Any]:
    return {
        "edits": [_edit(e) for e in suggestion.edits],
        "verdict": suggestion.verdict.value,
        "changes_music": suggestion.changes_music,
    }


def _edit(edit: Edit) -> dict[str, Any]:
    return {"line": edit.line, "old": edit.old, "new": edit.new}


def _exercise(report: ExerciseReport) -> dict[str, Any]:
    return {
        "name": report.name,
        **part_of(report.part),
        "line": report.span.line,
        "made": report.made,
        "kept": [{"variant": label, "difficulty": difficulty} for label, difficulty in report.kept],
        "left_out": [{"variant": label, "reason": reason} for label, reason in report.left_out],
    }
