"""Files read besides the compiled text, such as profiles: results that depend on them are remade when they change.
Code that opens such a file records it here, so that no stage has to pass its name on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

_recording: ContextVar[list[Path] | None] = ContextVar("recording", default=None)


def record_dependency(path: Path) -> None:
    """Record that a file is about to be read. Does nothing outside `recording_dependencies`."""
    recorded = _recording.get()
    if recorded is not None and path not in recorded:
        recorded.append(path)


@contextmanager
def recording_dependencies() -> Iterator[list[Path]]:
    """The files recorded inside the `with`, each once, in the order of first reading.

    A `with` may be inside another, which then gets them too.
    """
    paths: list[Path] = []
    token = _recording.set(paths)
    try:
        yield paths
    finally:
        _recording.reset(token)
        for path in paths:
            record_dependency(path)
