"""The order of the stages, one module for each thing that can be made of files.

The stages are imported when they are first asked for: a run that finds everything made already needs none of them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from gesturesmith.pipeline.types import CompileResult, Options

if TYPE_CHECKING:
    from gesturesmith.pipeline.text import compile_file, compile_text

__all__ = ["CompileResult", "Options", "compile_file", "compile_text"]


def __getattr__(name: str) -> Any:
    if name not in ("compile_file", "compile_text"):
        raise AttributeError(name)
    from gesturesmith.pipeline import text

    return getattr(text, name)
