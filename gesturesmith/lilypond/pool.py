"""A few LilyPonds at a time: some started early, more on demand."""

from __future__ import annotations

import os
import threading
from contextlib import ExitStack, suppress
from types import TracebackType
from typing import Self

from gesturesmith.lilypond.head import (
    COMPILED,
    DocumentHead,
    Keeper,
    compiled_key,
    compiles,
    compiling,
    has_head,
    packed,
    ready_head,
)
from gesturesmith.lilypond.program import LilyPond
from gesturesmith.lilypond.run import Job, RunResult, WaitingProcess, start

_USED = b"used once"


class LilyPondPool:
    """Processes that wait for documents. Use it in a `with`; afterwards none is left running.

    `early`: the formats of each process to start at once. They read the head while they wait. A job whose formats
    no waiting process makes, or whose process is taken, gets a new one, as does one without the head. `keeper`
    keeps the compiled stencils. Several threads may share a pool.
    """

    def __init__(
        self, lilypond: LilyPond, early: tuple[tuple[str, ...], ...] = (), keeper: Keeper | None = None
    ) -> None:
        self.lilypond = lilypond
        self._keeper = keeper if compiles(lilypond) else None
        self._head: DocumentHead | None = None
        self._lock = threading.Lock()
        self._closed = False
        self._stack = ExitStack()
        self._waiting: list[tuple[tuple[str, ...], WaitingProcess]] = []
        self._living: list[WaitingProcess] = []
        try:
            for formats in early:
                self._prepare(formats)
        except BaseException:
            self._stack.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """End every LilyPond at once, even those that threads are waiting for; no more are started."""
        with self._lock:
            self._closed = True
            self._stack.close()
            for waiting in self._living:
                waiting.cancel()

    def ready(self, formats: tuple[str, ...]) -> None:
        """Have a process wait for the next job of these formats, unless one does."""
        with self._lock:
            if self._closed or any(f == formats and waiting.waits for f, waiting in self._waiting):
                return
            self._waiting = [pair for pair in self._waiting if pair[1].waits]
            self._prepare(formats)

    def _prepare(self, formats: tuple[str, ...]) -> None:
        one = self._stack.enter_context(start(self.lilypond, formats, head=self._ready_head()))
        self._waiting.append((formats, one))

    def compile(self, *, at_once: bool = False) -> None:
        """Compile the stencils for later processes, of this pool and others, unless that was done or is of no use.

        It costs a second. A first use is only noted, unless it is to be `at_once`: a cache that is never used again
        would not be worth it.
        """
        if self._keeper is None or self._closed:
            return
        key = compiled_key(self.lilypond)
        before = self._keeper.get(key)
        if before is None and not at_once:
            self._keeper.put(key, _USED)
        elif before in (None, _USED):
            head, document = compiling()
            with suppress(OSError), start(self.lilypond, ("svg",), head=head) as waiting:
                waiting.feed(Job(document=document))
                made = waiting.result((os.path.splitext(COMPILED)[1],))
                # Empty if it fails: it would fail again.
                self._keeper.put(key, packed(b"" if made.ended else made.files.get(COMPILED, b"")))

    def _ready_head(self) -> DocumentHead:
        if self._head is None or not self._head.files:
            compiled = self._keeper.get(compiled_key(self.lilypond)) if self._keeper is not None else None
            self._head = ready_head(None if compiled == _USED else compiled)
        return self._head

    def one(self, formats: tuple[str, ...], job: Job) -> RunResult:
        """Run one job."""
        waiting = self._take(formats, reads_head=has_head(job.document))
        try:
            waiting.feed(job)
            return waiting.result()
        finally:
            waiting.cancel()
            with self._lock:
                self._living.remove(waiting)

    def _take(self, formats: tuple[str, ...], *, reads_head: bool) -> WaitingProcess:
        with self._lock:
            if self._closed:
                raise OSError("the pool is closed")
            there = (pair for pair in self._waiting if reads_head and pair[0] == formats and pair[1].waits)
            ready = next(there, None)
            if ready is not None:
                self._waiting.remove(ready)
            head = self._ready_head() if reads_head else None
            waiting = ready[1] if ready is not None else start(self.lilypond, formats, head=head)
            self._living.append(waiting)
            return waiting
