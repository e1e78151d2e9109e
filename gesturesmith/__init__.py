"""Gesturesmith: brass gestures from a short text, checked and engraved.

`import gesturesmith` is a library; the names below are its whole public interface. Each is documented where it is
defined, in `gesturesmith.api`; docs/library.md gives an overview. Names are imported on first use.
"""

from __future__ import annotations

from gesturesmith.version import __version__

TYPE_CHECKING = False  # as in `typing`, which takes as long to import as everything else
if TYPE_CHECKING:
    from typing import Any

    from gesturesmith.api import (
        Demand,
        Edit,
        Engraving,
        ExerciseReport,
        Failure,
        FileReport,
        Finding,
        GestureReport,
        LilyPondNotFound,
        Number,
        Output,
        PartName,
        PassageReport,
        PointReport,
        ReadError,
        Reading,
        RealisationReport,
        Rendering,
        Severity,
        Snippet,
        Source,
        Span,
        Suggestion,
        Verdict,
        check,
        engrave,
        read,
        render,
        schema,
        suggest,
        to_json,
        to_text,
    )

__all__ = [
    "Demand",
    "Edit",
    "Engraving",
    "ExerciseReport",
    "Failure",
    "FileReport",
    "Finding",
    "GestureReport",
    "LilyPondNotFound",
    "Number",
    "Output",
    "PartName",
    "PassageReport",
    "PointReport",
    "ReadError",
    "Reading",
    "RealisationReport",
    "Rendering",
    "Severity",
    "Snippet",
    "Source",
    "Span",
    "Suggestion",
    "Verdict",
    "__version__",
    "check",
    "engrave",
    "read",
    "render",
    "schema",
    "suggest",
    "to_json",
    "to_text",
]


if not TYPE_CHECKING:  # type checkers see only the names above

    def __getattr__(name: str) -> Any:
        if name not in __all__:
            raise AttributeError(f"module 'gesturesmith' has no attribute {name!r}")
        from importlib import import_module

        return getattr(import_module("gesturesmith.api"), name)


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
