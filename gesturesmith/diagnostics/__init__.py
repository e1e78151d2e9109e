"""Findings and errors as values, and their rendering for people and programs."""

from gesturesmith.diagnostics.as_json import json_text, part_of, render_json
from gesturesmith.diagnostics.text import render_text
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
    "PartName",
    "PassageReport",
    "PointReport",
    "ReadError",
    "RealisationReport",
    "Report",
    "Severity",
    "Suggestion",
    "Verdict",
    "json_text",
    "part_of",
    "render_json",
    "render_text",
]
