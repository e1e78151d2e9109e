"""Output for people: where it goes, whether in colour, and what must not reach a terminal."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TextIO

from gesturesmith.source import clean as clean  # everything the commands print passes through it


def open_streams() -> None:
    """Point closed standard streams at the null device: otherwise the next opened file would take their place."""
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # takes the lowest free number
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115  # as long as the run


def wants_colour(stream: TextIO) -> bool:
    """Colour only on a terminal; NO_COLOR turns it off, FORCE_COLOR turns it on everywhere (no-color.org)."""
    if os.environ.get("NO_COLOR"):
        return False
    if os.environ.get("FORCE_COLOR", "0") not in ("", "0"):
        return True
    return is_terminal(stream)


_quiet = ContextVar("quiet", default=False)


@contextmanager
def quietly(quiet: bool) -> Iterator[None]:
    """Inside the `with`, `say` prints nothing if `quiet`."""
    token = _quiet.set(quiet)
    try:
        yield
    finally:
        _quiet.reset(token)


def say(text: str) -> None:
    """Print to standard output, with a newline."""
    if not _quiet.get():
        _write(sys.stdout, text)


def complain(text: str) -> None:
    """Print to standard error, with a newline. If that fails, the exit status is unchanged."""
    try:
        _write(sys.stderr, clean(text))
    except OSError:
        stop_writing(sys.stderr)


def say_bytes(data: bytes) -> None:
    """Write data for programs unchanged, whatever the terminal's encoding."""
    try:
        sys.stdout.flush()
        sys.stdout.buffer.write(data)
        sys.stdout.flush()
    except BrokenPipeError:
        stop_writing(sys.stdout)


def _write(stream: TextIO, text: str) -> None:
    try:
        stream.write(text + "\n")
        stream.flush()
    except BrokenPipeError:
        stop_writing(stream)


def stop_writing(stream: TextIO) -> None:
    """The reader has gone (`| head`): discard the rest, and keep the work and its exit status."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, stream.fileno())
    os.close(nowhere)


def is_terminal(stream: TextIO) -> bool:
    """Whether it is a terminal, whose lines can be overwritten."""
    try:
        return stream.isatty() and os.environ.get("TERM") != "dumb"
    except ValueError:  # closed by our parent process
        return False
