"""Reports our own bugs. With many files, a bug only affects the file that meets it."""

from __future__ import annotations

import os
from collections.abc import Callable

import click

from gesturesmith.cli.console import clean, complain

_TRACEBACK = "GESTURESMITH_TRACEBACK"
ADVICE = (
    "Please report it (SECURITY.md says how where it could hurt somebody), with the file, the command, what\n"
    f"gesturesmith --version --verbose prints, and what the command prints with {_TRACEBACK}=1."
)


def words(error: Exception, name: str = "gesturesmith") -> str:
    """What happened and where; with a full traceback if the environment asks for it."""
    import traceback

    if os.environ.get(_TRACEBACK):
        return f"{name}:\n{''.join(traceback.format_exception(error)).rstrip()}"
    inner = traceback.extract_tb(error.__traceback__)[-1:]
    place = f" in {os.path.basename(inner[0].filename)}, line {inner[0].lineno}" if inner else ""
    return (
        f"{name}: this is a bug in Gesturesmith, not in your file; nothing is left half written.\n"
        f"  {type(error).__name__}{place}"
    )


def apart[Found](name: str, work: Callable[[], Found]) -> Found | None:
    """The result of `work` for the file called `name`; None after reporting a bug of ours, so that the other files
    continue. Failures of the machine and misuse of the command are left to the caller."""
    try:
        return work()
    except (OSError, click.ClickException, click.exceptions.Exit):
        raise
    except Exception as error:
        complain(words(error, clean(name)))
        return None
