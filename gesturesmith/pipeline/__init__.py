"""The order of the stages, with one module for each kind of output.

The stages are imported on first use: a run that finds everything in the cache needs none of them.
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
