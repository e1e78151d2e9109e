"""Which files are read beside the text that is compiled, such as profiles: what is made of them is made anew
when they change. Whoever opens such a file notes it here; nobody has to hand its name through every stage."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

_noting: ContextVar[list[Path] | None] = ContextVar("noting", default=None)


def note(path: Path) -> None:
    """A file is about to be read. Harmless where nobody asks."""
    noted = _noting.get()
    if noted is not None and path not in noted:
        noted.append(path)


@contextmanager
def noted() -> Iterator[list[Path]]:
    """The files that are noted inside the `with`, each once, in the order of their first reading.

    One `with` may stand inside another, which then has them as well.
    """
    paths: list[Path] = []
    token = _noting.set(paths)
    try:
        yield paths
    finally:
        _noting.reset(token)
        for path in paths:
            note(path)
