"""What is said to people: where it goes, whether in colour, and what may not reach a terminal."""

from __future__ import annotations

import os
import sys
from typing import TextIO

from gesturesmith.source import clean as clean  # what the commands say passes through it


def open_streams() -> None:
    """Streams that whoever started us has closed lead nowhere: else the next file opened would take their place."""
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # the lowest number that is free
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115  # as long as the run


def wants_colour(stream: TextIO) -> bool:
    """Colour on a terminal only; NO_COLOR takes it away, FORCE_COLOR gives it anywhere (no-color.org)."""
    if os.environ.get("NO_COLOR"):
        return False
    if os.environ.get("FORCE_COLOR", "0") not in ("", "0"):
        return True
    return is_terminal(stream)


def say(text: str) -> None:
    """To standard output, with a line's end."""
    _write(sys.stdout, text)


def complain(text: str) -> None:
    """To standard error, with a line's end. Where that cannot be written nobody is told, and the status stays."""
    try:
        _write(sys.stderr, clean(text))
    except OSError:
        stop_writing(sys.stderr)


def say_bytes(data: bytes) -> None:
    """Data for programs: as it is, whatever the terminal's encoding."""
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
    """Whoever read this has gone (`| head`): the rest goes nowhere, and the work and its status stay true."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, stream.fileno())
    os.close(nowhere)


def is_terminal(stream: TextIO) -> bool:
    """Whether somebody looks at it, on something that can be written over."""
    try:
        return stream.isatty() and os.environ.get("TERM") != "dumb"
    except ValueError:  # closed by whoever started us
        return False
