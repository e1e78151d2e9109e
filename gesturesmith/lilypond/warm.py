"""A LilyPond that stays: it has read the templates once, and engraves each document in a fork of itself.

A picture costs it a tenth of what it costs one that begins anew, and its memory does not grow. Each fork has the
limits of any other run, and takes the system call filter upon itself before it reads its document; it cannot reach
the one it came from, nor the next (`templates/warm.ly`).
"""

from __future__ import annotations

import contextlib
import fcntl
import math
import os
import select
import signal
import sys
import threading
import time
import weakref
from pathlib import Path
from types import TracebackType
from typing import Self

from gesturesmith import paths
from gesturesmith.kinds import Ended
from gesturesmith.lilypond.head import DocumentHead, headless
from gesturesmith.lilypond.log import read_log
from gesturesmith.lilypond.output_files import collect, floods, remove
from gesturesmith.lilypond.program import LilyPond
from gesturesmith.lilypond.run import (
    ENDINGS,
    POLL_S,
    ROOM_BYTES,
    Job,
    LaunchedRun,
    RunResult,
    free_bytes,
    launch,
    said,
)
from gesturesmith.lilypond.sandbox import CPU_S, LOG_BYTES, end_group, process_filter

_BODY = "body.ly"
_READY_S = 60.0  # longer than any start: after that it is not used
_GRACE_S = 2.0  # for a fork to end by its own alarm
_ALARM = f"signal {int(getattr(signal, 'SIGALRM', 0))}"
_KILLED = f"signal {int(getattr(signal, 'SIGKILL', 0))}"


def server() -> Path:
    """What LilyPond runs to stay."""
    return paths.templates() / "warm.ly"


def stays(lilypond: LilyPond) -> bool:
    """Whether a LilyPond can stay: on Linux, with cairo, and where forks can be kept from each other."""
    return sys.platform == "linux" and lilypond.cairo and process_filter(alone=True) is not None


class LostLilyPond(Exception):  # noqa: N818  # what happened, not an error of ours
    """It does not answer, and has been ended: another must make the picture."""


class WarmLilyPond:
    """A LilyPond that stays, for some formats. Use it in a `with`: whatever happens, it is ended and its files
    removed. One job at a time."""

    def __init__(self, lilypond: LilyPond, formats: tuple[str, ...], head: DocumentHead) -> None:
        forbidding = process_filter(alone=True)
        assert forbidding is not None  # it `stays`
        self.formats = formats
        # The filter is for the forks: this one could not make any.
        self._run = launch(
            lilypond,
            formats,
            backend="cairo",
            head=head,
            call_filter=None,
            document=str(server()),
            files=(("filter", forbidding),),
            answers=True,
        )
        # It is emptied between two jobs: what is written then begins anew.
        fcntl.fcntl(self._run.log.fileno(), fcntl.F_SETFL, os.O_APPEND)
        self._folder = self._run.root / "work"
        self._own: set[str] | None = None  # what its folder holds between two jobs; None until it is ready
        self._buffer = b""
        self._working = False
        self._given_up = False
        self._lock = threading.Lock()
        self._over = False
        weakref.finalize(self, _forget, self._run)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    @property
    def lives(self) -> bool:
        """Whether it is there, at work or not."""
        return not self._over and self._run.process.poll() is None

    def engage(self) -> bool:
        """Take it for a job; False if it is at work, or no longer there."""
        with self._lock:
            if self._working or not self.lives:
                return False
            self._working = True
            self._given_up = False
            return True

    def run(self, job: Job) -> RunResult:
        """The result of a job, after `engage`. `LostLilyPond` if there is none and another may give one."""
        try:
            return self._result(job)
        except (OSError, ValueError) as error:  # its pipe is closed: it was ended, by itself or by us
            self.close()
            raise LostLilyPond from error
        finally:
            self._working = False

    def give_up(self) -> None:
        """End the fork that is at work, or is about to be; its result is "stopped"."""
        with self._lock:
            if self._working and not self._over:
                self._given_up = True
                with contextlib.suppress(OSError, ValueError):
                    self._write(b"\n")

    def close(self) -> None:
        """End it and its forks, and remove its folder; does nothing if already done."""
        with self._lock:
            if self._over:
                return
            self._over = True
            _end(self._run)

    @property
    def _out(self) -> int:
        assert self._run.process.stdout is not None
        return self._run.process.stdout.fileno()

    def _write(self, data: bytes) -> None:
        assert self._run.process.stdin is not None
        self._run.process.stdin.write(data)
        self._run.process.stdin.flush()

    def _result(self, job: Job) -> RunResult:
        if self._own is None:
            if self._line(time.monotonic() + _READY_S) != "ready":
                raise OSError("it did not start")
            self._own = set(os.listdir(self._folder))
        # Nobody can prepare a folder whose name nobody can guess.
        folder = self._folder / os.urandom(12).hex()
        folder.mkdir()
        (folder / _BODY).write_text(headless(job.document), "utf-8")
        os.ftruncate(self._run.log.fileno(), 0)
        seconds = min(CPU_S, max(1, math.ceil(job.timeout_s)))
        with self._lock:
            if self._given_up:
                remove(folder)
                return RunResult(files={}, messages=(), ended="stopped")
            self._write(f"{folder}\t{seconds}\n".encode())
        due = time.monotonic() + seconds
        how = self._line(due + _GRACE_S, watched=True)
        messages = read_log(said(self._run.log))
        ended = self._ended(how, late=time.monotonic() > due)
        if ended == "" and self._floods():
            ended = "flood"
        files = collect(folder, ENDINGS) if ended != "flood" else {}
        remove(folder)
        if how in ("flood", "timeout") or set(os.listdir(self._folder)) != self._own:
            self.close()  # with the fork that did not end; or one has left something where the next would find it
        return RunResult(files=files, messages=messages, ended=ended)

    def _ended(self, how: str, *, late: bool) -> Ended:
        if how == "flood":
            return "flood"
        # A fork that has switched its alarm off is killed by its limit of processor time, a second later.
        if how in ("timeout", _ALARM) or (how == _KILLED and late):
            return "timeout"
        if how == "ok":
            return ""
        if free_bytes(self._run.root) < ROOM_BYTES:
            return "full"
        return "failed" if how == "failed" else "stopped"

    def _line(self, deadline: float, *, watched: bool = False) -> str:
        """What it says next; "timeout" or "flood" if it must be ended. OSError if it has ended."""
        look = select.poll()
        look.register(self._out, select.POLLIN)
        while b"\n" not in self._buffer:
            left = deadline - time.monotonic()
            if left <= 0:
                return "timeout"
            if not look.poll(1000 * min(left, POLL_S)):
                if watched and self._floods():
                    return "flood"
                continue
            more = os.read(self._out, 4096)
            if not more:
                raise OSError("it has ended")
            self._buffer += more
        line, _, self._buffer = self._buffer.partition(b"\n")
        return line.decode("ascii", "replace")

    def _floods(self) -> bool:
        return os.fstat(self._run.log.fileno()).st_size > LOG_BYTES or floods(self._folder)


def _end(run: LaunchedRun) -> None:
    end_group(run.process)
    run.process.wait()
    # The other pipe is closed with the process: a thread may still read from it.
    if run.process.stdin is not None:
        with contextlib.suppress(OSError):
            run.process.stdin.close()
    run.log.close()
    remove(run.root)


def _forget(run: LaunchedRun) -> None:
    if run.process.returncode is None:
        _end(run)
