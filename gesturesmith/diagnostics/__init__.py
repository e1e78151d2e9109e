"""Findings and errors as values, and their rendering for people and programs."""

from gesturesmith.diagnostics.as_json import render_json
from gesturesmith.diagnostics.text import render_text
from gesturesmith.diagnostics.types import (
    Demand,
    Edit,
    ExerciseReport,
    FileReport,
    Finding,
    GestureReport,
    Number,
    PassageReport,
    ReadError,
    Report,
    Severity,
    Suggestion,
    Verdict,
)

__all__ = [
    "Demand",
    "Edit",
    "ExerciseReport",
    "FileReport",
    "Finding",
    "GestureReport",
    "Number",
    "PassageReport",
    "ReadError",
    "Report",
    "Severity",
    "Suggestion",
    "Verdict",
    "render_json",
    "render_text",
]
