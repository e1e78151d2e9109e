"""Gesturesmith: brass gestures from a short text, checked and engraved.

`import gesturesmith` is a library; the names below are all of it that is public. What each does is said where it
is made, in `gesturesmith.api`, and told as a whole in docs/library.md. A name is imported when it is first used.
"""

from __future__ import annotations

from gesturesmith.version import __version__

TYPE_CHECKING = False  # as `typing` has it, which takes as long to import as all the rest
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


if not TYPE_CHECKING:  # for a type checker there is nothing but the names above

    def __getattr__(name: str) -> Any:
        if name not in __all__:
            raise AttributeError(f"module 'gesturesmith' has no attribute {name!r}")
        from importlib import import_module

        return getattr(import_module("gesturesmith.api"), name)


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
