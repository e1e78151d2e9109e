"""How long something takes, on a machine that has other things to do: processor time, and patience where a clock is
needed because what hangs takes none.

No test looks at a clock but through this (`test_clocks.py`).
"""

from __future__ import annotations

import subprocess
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

TRIES = 3
PATIENCE_S = 120.0  # what any program of the tests ends in by far, on a machine that does nothing else
_SPIN_S = 0.03  # several turns of a scheduler


def within[Found](seconds: float, work: Callable[[], Found]) -> Found:
    """The result of `work`, within a number of seconds of processor time. A stalled machine may count that as work,
    so it is tried up to three times: slow code is slow each time."""
    took: list[float] = []
    while True:
        started = time.process_time()
        found = work()
        took.append(time.process_time() - started)
        if took[-1] < seconds:
            return found
        assert len(took) < TRIES, f"{took} s"


def took[Found](work: Callable[[], Found]) -> tuple[Found, float]:
    """The result of `work`, and the least processor time it took in three tries."""
    tries = []
    for _ in range(TRIES):
        started = time.process_time()
        found = work()
        tries.append(time.process_time() - started)
    return found, min(tries)


def slowness() -> float:
    """How many times longer than on an idle machine a process takes at present; at least 1."""
    clock, processor = time.perf_counter(), time.thread_time()
    while (spent := time.thread_time() - processor) < _SPIN_S:
        pass
    return max(1.0, (time.perf_counter() - clock) / spent)


class Patience:
    """A number of seconds on an idle machine, multiplied by the slowness measured meanwhile on a busy one."""

    def __init__(self, seconds: float = PATIENCE_S) -> None:
        self._seconds = seconds
        self._began = time.monotonic()
        self._slowness = 1.0

    def left(self) -> float:
        """Seconds to wait before asking again; 0 when it is over."""
        passed = time.monotonic() - self._began
        if passed < self._seconds:
            return self._seconds - passed
        self._slowness = max(self._slowness, slowness())
        return max(0.0, min(self._seconds, self._seconds * self._slowness - passed))


def ended(process: subprocess.Popen[Any], seconds: float = PATIENCE_S) -> tuple[Any, Any]:
    """The output of a process, once it has ended; one that hangs is killed, and `TimeoutExpired` is raised."""
    patience = Patience(seconds)
    while True:
        left = patience.left()
        try:
            return process.communicate(timeout=left)
        except subprocess.TimeoutExpired:
            if not left:
                process.kill()
                process.communicate()
                raise


def run(
    command: Sequence[str | bytes | Path], *, seconds: float = PATIENCE_S, **more: Any
) -> subprocess.CompletedProcess[Any]:
    """A program run to its end, with what it wrote; keywords go to `Popen`."""
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    with subprocess.Popen(command, **(pipes | more)) as process:
        out, err = ended(process, seconds)
    return subprocess.CompletedProcess(command, process.returncode, out, err)


def clocked[Found](work: Callable[[], Found]) -> tuple[Found, float]:
    """The result of `work` and how long it took by the clock: for choosing a moment, not for judging it."""
    began = time.monotonic()
    return work(), time.monotonic() - began


def eventually(happens: Callable[[], object], seconds: float = PATIENCE_S) -> bool:
    """Whether it happens in that time."""
    patience = Patience(seconds)
    while not happens():
        if not patience.left():
            return False
        time.sleep(0.02)
    return True
