"""Exit statuses, as listed on the language page."""

from __future__ import annotations

from enum import IntEnum


class Status(IntEnum):
    """The exit status of a run."""

    GOOD = 0  # all playable, if with care
    REFUSED = 1  # something is not playable as written (`format --check`: a file would change)
    INPUT = 2  # a file could not be read, the output folder cannot be written, or the command was misused
    MACHINE = 3  # LilyPond, the machine, or we ourselves failed
    INTERRUPTED = 130  # Ctrl-C


_ORDER = (Status.INPUT, Status.MACHINE, Status.REFUSED, Status.GOOD)


def worst(*statuses: Status) -> Status:
    """The one that counts if several apply: input before machine before refused."""
    return min(statuses, key=_ORDER.index, default=Status.GOOD)
