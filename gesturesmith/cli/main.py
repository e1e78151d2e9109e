"""The entry point: runs the command and turns whatever happens into a message and an exit status."""

from __future__ import annotations

import contextlib
import errno
import gc
import io
import os
import signal
import sys
from collections.abc import Sequence
from typing import NoReturn

from gesturesmith.cli.status import Status

# Signals that end a run: from the keyboard, from another program, and when the terminal is closed.
_TELL = tuple(getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name))
_PATIENCE_S = 2.0  # for threads whose LilyPond has been ended
_NO_DOCSTRINGS = (
    "gesturesmith: Python runs without docstrings (PYTHONOPTIMIZE=2, or -OO), and rules and commands are\n"
    "explained in theirs. Unset PYTHONOPTIMIZE, or set it to 1."
)
# Imports and frozen trees leave no cycles to collect, and collections cost a short run 5 %.
_ALLOCATIONS = 100_000


def main(arguments: Sequence[str] | None = None) -> int:
    """Run Gesturesmith with the given arguments, or those of the process; returns the exit status."""
    gc.set_threshold(_ALLOCATIONS)
    # A run that is told to end cleans up too: it leaves no process and no folder behind. Signals ignored by `nohup`
    # or a shell stay ignored.
    before = {number: signal.getsignal(number) for number in _TELL}
    for number, handler in before.items():
        if handler is not signal.SIG_IGN:
            signal.signal(number, _leave)
    try:
        from gesturesmith.cli.console import open_streams

        open_streams()
        for stream in (sys.stdout, sys.stderr):
            if isinstance(stream, io.TextIOWrapper):
                stream.reconfigure(errors="replace")
        status = int(_run(list(sys.argv[1:] if arguments is None else arguments)))
    except KeyboardInterrupt:
        with contextlib.suppress(OSError):
            sys.stderr.write("\ninterrupted\n")
        return _alone(int(Status.INTERRUPTED))
    except SystemExit as told:
        return _alone(int(told.code or 0))
    for number, handler in before.items():
        signal.signal(number, handler)
    return status


def _leave(number: int, frame: object) -> NoReturn:
    """Begin to end. This must not be interrupted: it is short, and leaves nothing behind."""
    for other in _TELL:
        signal.signal(other, _deaf)
    if number == signal.SIGINT:
        raise KeyboardInterrupt
    raise SystemExit(128 + number)


def _deaf(number: int, frame: object) -> None:
    """Do nothing. Ignoring the signal instead would make Python complain about one that arrives in between."""


def _alone(status: int) -> int:
    """The status, once no thread is left. A thread may wait for ever for a lock held when we were stopped."""
    import threading

    others = [t for t in threading.enumerate() if t is not threading.current_thread() and not t.daemon]
    for thread in others:
        thread.join(_PATIENCE_S)
    if any(thread.is_alive() for thread in others):
        for stream in (sys.stdout, sys.stderr):
            with contextlib.suppress(OSError, ValueError):
                stream.flush()
        os._exit(status)
    return status


def _run(arguments: list[str]) -> int:
    import click

    from gesturesmith.cli.console import complain, stop_writing, wants_colour

    if sys.flags.optimize > 1:
        complain(_NO_DOCSTRINGS)
        return Status.INPUT
    from gesturesmith.cli.group import cli

    try:
        try:
            with cli.make_context("gesturesmith", arguments, color=wants_colour(sys.stdout)) as context:
                status = cli.invoke(context)
        except click.exceptions.Exit as leaving:
            status = leaving.exit_code
        except click.UsageError as error:
            complain(_usage(error, arguments))
            status = Status.INPUT
        except click.ClickException as error:
            complain(f"gesturesmith: {error.format_message()}")
            status = Status.INPUT
        sys.stdout.flush()
    except BrokenPipeError:
        stop_writing(sys.stdout)
        status = Status.GOOD
    except OSError as error:
        complain(f"gesturesmith: {_machine(error)}")
        _give_up(sys.stdout)
        # An impossible file name is the user's mistake, not a failure of the machine.
        status = Status.INPUT if error.errno == errno.ENAMETOOLONG else Status.MACHINE
    except Exception as error:  # a bug of ours; Python's own exit status would mean "not as written"
        from gesturesmith.cli import bug

        complain(f"{bug.words(error)}\n{bug.ADVICE}")
        _give_up(sys.stdout)
        status = Status.MACHINE
    return status if isinstance(status, int) else Status.GOOD


def _usage(error: object, arguments: list[str]) -> str:
    """A misused command: what is wrong, and where to read about its use."""
    import click

    assert isinstance(error, click.UsageError)
    command = error.ctx.command_path if error.ctx else "gesturesmith"
    said = _no_such_option(error) if isinstance(error, click.NoSuchOption) else error.format_message()
    text = f"gesturesmith: {said}\n"
    files = [a for a in arguments if a.startswith("-") and a.endswith(".gesture")]
    if isinstance(error, click.NoSuchOption) and files:
        text += f"Write a file name that begins with a dash with its folder: ./{files[0]}\n"
    if isinstance(error, click.exceptions.NoArgsIsHelpError):
        return error.format_message()
    return f"{text}See {command} --help"


def _no_such_option(error: object) -> str:
    """An unknown option, and those that may have been meant."""
    import difflib

    import click

    assert isinstance(error, click.NoSuchOption)
    command = error.ctx.command if error.ctx else None
    options = [o for p in command.params for o in p.opts if p.param_type_name == "option"] if command else []
    near = difflib.get_close_matches(error.option_name, [*options, "--help"], n=2)
    there = sorted(o for o in options if o.startswith("--"))
    hint = f"did you mean {' or '.join(near)}?" if near else f"choose from {', '.join([*there, '--help'])}"
    return f"unknown option {error.option_name}; {hint}"


def _machine(error: OSError) -> str:
    place = f"{error.filename}: " if isinstance(error.filename, str) else ""
    reason = os.strerror(error.errno) if error.errno else "the machine failed"
    return f"{place}{'the disk is full' if error.errno == errno.ENOSPC else reason}"


def _give_up(stream: object) -> None:
    """Discard what could not be written: the interpreter must not try again at exit."""
    from gesturesmith.cli.console import stop_writing

    if isinstance(stream, io.TextIOBase):
        with contextlib.suppress(OSError, ValueError):
            stop_writing(stream)  # type: ignore[arg-type]


if __name__ == "__main__":
    sys.exit(main())
