"""A few LilyPonds at a time: those that were started early, and more when they are asked for."""

from __future__ import annotations

from contextlib import ExitStack
from types import TracebackType
from typing import Self

from gesturesmith.lilypond.program import LilyPond
from gesturesmith.lilypond.run import Job, Run, Waiting, start


class Press:
    """Processes that wait for documents; used with `with`, after which none is left running.

    `early`: the formats of each process to start at once. A task whose formats no waiting process makes, or
    whose process is taken, gets one of its own.
    """

    def __init__(self, lilypond: LilyPond, early: tuple[tuple[str, ...], ...] = ()) -> None:
        self.lilypond = lilypond
        self._stack = ExitStack()
        self._waiting: list[tuple[tuple[str, ...], Waiting]] = []
        try:
            for formats in early:
                self._waiting.append((formats, self._stack.enter_context(start(lilypond, formats))))
        except BaseException:
            self._stack.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._stack.close()

    def run(self, tasks: tuple[tuple[tuple[str, ...], Job], ...]) -> tuple[Run, ...]:
        """The runs of all tasks (formats, job), which work side by side; results in the tasks' order."""
        taken = []
        for formats, job in tasks:
            waiting = self._take(formats)
            waiting.feed(job)
            taken.append(waiting)
        return tuple(waiting.result() for waiting in taken)

    def _take(self, formats: tuple[str, ...]) -> Waiting:
        for place, (made, waiting) in enumerate(self._waiting):
            if made == formats:
                del self._waiting[place]
                return waiting
        return self._stack.enter_context(start(self.lilypond, formats))
