"""Finds LilyPond: by an option, an environment variable, the wheel or PATH, in this order."""

from __future__ import annotations

import importlib.util
import mmap
import os
import re
import shutil
import subprocess
from dataclasses import replace
from functools import cache
from pathlib import Path

from gesturesmith.kinds import SandboxMode
from gesturesmith.lilypond.sandbox import Sandbox, find_sandbox
from gesturesmith.values import frozen

ENVIRONMENT = "GESTURESMITH_LILYPOND"
OLDEST = (2, 24, 0)  # the stencils use features of 2.24
_ANSWER_S = 20  # a program that has not printed its version by then never will
_VERSION = re.compile(rb"GNU LilyPond (\d+)\.(\d+)\.(\d+)")
_WAYS = (
    "Two ways to get it:\n"
    "  pip install lilypond==2.25.12     (Linux and macOS on x86-64, Windows)\n"
    "  a LilyPond 2.24 or newer from lilypond.org or your system's packages, on PATH or named by\n"
    f"  --lilypond FILE or the environment variable {ENVIRONMENT}"
)


@frozen(kw_only=True)
class LilyPond:
    """A usable LilyPond. `cairo`: it writes PDF, SVG and PNG in one run. `sandbox`: what it runs in."""

    path: Path
    version: tuple[int, int, int]
    cairo: bool
    sandbox: Sandbox | None = None


@frozen
class MissingLilyPond:
    """No usable LilyPond; `reason` is for people and says how to get one."""

    reason: str


def find(option: Path | None = None, *, sandbox: SandboxMode = "auto") -> LilyPond | MissingLilyPond:
    """The LilyPond to use; "auto", "always" or "never" in a sandbox.

    A place that was named is used or reported, never skipped.
    """
    found = _find(option)
    if isinstance(found, MissingLilyPond):
        return found
    where = find_sandbox(sandbox, found.path)
    if isinstance(where, str):
        return MissingLilyPond(f"--sandbox always, but no sandbox works: {where}.")
    return replace(found, sandbox=where)


def _find(option: Path | None) -> LilyPond | MissingLilyPond:
    named = [(option, "--lilypond")] if option is not None else []
    if not named and os.environ.get(ENVIRONMENT):
        named = [(Path(os.environ[ENVIRONMENT]), ENVIRONMENT)]
    if named:
        path, by = named[0]
        return _judged(path, f"{path}, named by {by},")
    wheel = _of_the_wheel()
    if wheel is not None and isinstance(found := _judged(wheel, "the LilyPond of the wheel"), LilyPond):
        return found
    on_path = shutil.which("lilypond")
    if on_path is not None:
        return _judged(Path(on_path), f"{on_path}, found on PATH,")
    return MissingLilyPond(f"Engraving needs LilyPond, and none was found.\n{_WAYS}")


def _judged(path: Path, whose: str) -> LilyPond | MissingLilyPond:
    if path.is_dir():
        return MissingLilyPond(f"{whose} is a folder; name the lilypond program itself.\n{_WAYS}")
    if not path.exists():
        return MissingLilyPond(f"{whose} does not exist.\n{_WAYS}")
    version = _version(path)
    if version is None:
        return MissingLilyPond(f"{whose} does not run or is not LilyPond.\n{_WAYS}")
    if version < OLDEST:
        has = ".".join(map(str, version))
        return MissingLilyPond(f"{whose} is LilyPond {has}; 2.24 or newer is needed.\n{_WAYS}")
    return LilyPond(path=path, version=version, cairo=_has_cairo(path))


def _of_the_wheel() -> Path | None:
    if importlib.util.find_spec("lilypond") is None:
        return None
    import lilypond

    path = Path(lilypond.executable())  # type: ignore[no-untyped-call]
    return path if path.exists() else None


@cache
def _version(path: Path) -> tuple[int, int, int] | None:
    """The version a program prints; None if it is not LilyPond or cannot be run."""
    try:
        answer = subprocess.run(
            [path.absolute(), "--version"],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=_ANSWER_S,
            check=False,
        ).stdout
    except (OSError, subprocess.TimeoutExpired):
        return None
    match = _VERSION.search(answer)
    return (int(match[1]), int(match[2]), int(match[3])) if match else None


@cache
def _has_cairo(path: Path) -> bool:
    """Whether the cairo backend is built in: its symbols show it in 20 ms, without starting LilyPond."""
    if path == _of_the_wheel():
        return True
    try:
        with path.resolve().open("rb") as file, mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as data:
            return data.find(b"cairo_svg_surface_create") >= 0
    except (OSError, ValueError):
        return False
