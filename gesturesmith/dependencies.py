"""Which files are read beside the text that is compiled, such as profiles: what is made of them is made anew
when they change. Whoever opens such a file notes it here; nobody has to hand its name through every stage."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

_recording: ContextVar[list[Path] | None] = ContextVar("recording", default=None)


def record_dependency(path: Path) -> None:
    """A file is about to be read. Harmless where nobody asks."""
    recorded = _recording.get()
    if recorded is not None and path not in recorded:
        recorded.append(path)


@contextmanager
def recording_dependencies() -> Iterator[list[Path]]:
    """The files that are noted inside the `with`, each once, in the order of their first reading.

    One `with` may stand inside another, which then has them as well.
    """
    paths: list[Path] = []
    token = _recording.set(paths)
    try:
        yield paths
    finally:
        _recording.reset(token)
        for path in paths:
            record_dependency(path)
