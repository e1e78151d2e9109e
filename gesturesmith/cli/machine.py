"""What `--version --verbose` prints about the machine: the software used, and the sandbox."""

from __future__ import annotations

import platform
from importlib import metadata


def lines() -> tuple[str, ...]:
    """One line for each thing that a bug report should include."""
    from gesturesmith.lilypond import MissingLilyPond, find

    python = f"Python {platform.python_version()}, {platform.system()} {platform.machine()}"
    libraries = ", ".join(f"{name} {metadata.version(name)}" for name in ("abjad", "click"))
    found = find()
    if isinstance(found, MissingLilyPond):
        return python, libraries, f"LilyPond: {found.reason.splitlines()[0]}"
    version = ".".join(map(str, found.version))
    lilypond = f"LilyPond {version}{' with cairo' if found.cairo else ''}: {found.path}"
    walls = found.sandbox.words if found.sandbox else "none; limits of time, memory and size only"
    return python, libraries, lilypond, f"sandbox: {walls}"
