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
from gesturesmith.lilypond.warm import LostLilyPond, WarmLilyPond, stays

_USED = b"used once"
_MOST_LOST = 5  # of those that stay: then none is tried any more


class LilyPondPool:
    """LilyPonds, some started early. Use it in a `with`; afterwards none is left running.

    `early`: the formats of each process to start at once. They read the head while they wait. A job whose formats
    no waiting process makes, or whose process is taken, gets a new one, as does one without the head. After
    `ready` one stays for all jobs, where it can (`warm`). `keeper` keeps the compiled stencils. Several threads may
    share a pool.
    """

    def __init__(
        self, lilypond: LilyPond, early: tuple[tuple[str, ...], ...] = (), keeper: Keeper | None = None
    ) -> None:
        self.lilypond = lilypond
        self._keeper = keeper if compiles(lilypond) else None
        self._head: DocumentHead | None = None
        self._lost = 0
        self._lock = threading.Lock()
        self._closed = False
        self._stack = ExitStack()
        self._waiting: list[tuple[tuple[str, ...], WaitingProcess]] = []
        self._living: list[WaitingProcess] = []
        self._warm: dict[tuple[str, ...], WarmLilyPond] = {}
        self._turn = threading.Lock()  # of those that want the newest
        self._newest: tuple[int, WarmLilyPond | WaitingProcess | None] = (0, None)
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
            for warm in self._warm.values():
                warm.close()
            for waiting in self._living:
                waiting.cancel()

    @property
    def stays(self) -> bool:
        """Whether the LilyPond that is ready stays for further jobs, which then cost little."""
        return stays(self.lilypond) and self._lost < _MOST_LOST

    def ready(self, formats: tuple[str, ...]) -> None:
        """Have a LilyPond that is ready for jobs of these formats: one that stays, or one that waits for the next.

        Returns at once; it takes half a second to be ready, and a job waits for it.
        """
        with self._lock:
            if self._closed:
                return
            if self.stays:
                warm = self._warm.get(formats)
                if warm is None or not warm.lives:
                    self._warm[formats] = WarmLilyPond(self.lilypond, formats, self._ready_head())
            elif not any(f == formats and waiting.waits for f, waiting in self._waiting):
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
        return self._run(formats, job)

    def newest(self, formats: tuple[str, ...], job: Job) -> RunResult | None:
        """Run one job and give up the one before it, if it is still at work; None if this one was given up."""
        with self._lock:
            number, before = self._newest
            number += 1
            self._newest = (number, None)
        if isinstance(before, WarmLilyPond):
            before.give_up()
        elif before is not None:
            before.cancel()
        with self._turn:
            if self._newest[0] != number:
                return None
            try:
                result = self._run(formats, job, number)
            except (OSError, ValueError):
                if self._newest[0] == number and not self._closed:
                    raise
                return None
            return result if self._newest[0] == number else None

    def _run(self, formats: tuple[str, ...], job: Job, number: int = 0) -> RunResult:
        reads_head = has_head(job.document)
        while (warm := self._engaged(formats, number) if reads_head else None) is not None:
            try:
                return warm.run(job)
            except LostLilyPond:
                self._lost += 1
        waiting = self._take(formats, number, reads_head=reads_head)
        try:
            waiting.feed(job)
            return waiting.result()
        finally:
            waiting.cancel()
            with self._lock:
                self._living.remove(waiting)

    def _engaged(self, formats: tuple[str, ...], number: int) -> WarmLilyPond | None:
        """The LilyPond that stays for these formats, if it has time; it is taken."""
        with self._lock:
            warm = self._warm.get(formats)
            if warm is None or not warm.engage():
                return None
            self._is_newest(number, warm)
            return warm

    def _is_newest(self, number: int, works: WarmLilyPond | WaitingProcess) -> None:
        if number and number == self._newest[0]:
            self._newest = (number, works)

    def _take(self, formats: tuple[str, ...], number: int, *, reads_head: bool) -> WaitingProcess:
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
            self._is_newest(number, waiting)
            return waiting
