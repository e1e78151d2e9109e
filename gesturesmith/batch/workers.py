"""The workers that run LilyPond: books are collected into documents and handed out, and their files collected."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Executor, Future, wait

from gesturesmith.batch.render import Book, RenderResult, RenderTask, renamed, weight
from gesturesmith.lilypond import Failure
from gesturesmith.lytext import LyText

_MAX_WEIGHT = 50  # gestures in a document: starting LilyPond costs as much as about fifteen of them
_MIN_WEIGHT = 8  # fewer are not divided: a second LilyPond would take longer to start than to work
_POLL_S = 0.2
_MAX_REASON = 200  # characters of a cluster's message

Tell = Callable[[float, float], None]


class WorkerPool:
    """Gives documents to an executor (any of `concurrent.futures`), and the files of each book to the caller.

    executor  runs the documents
    work      renders a `RenderTask`; the executor must be able to call it wherever its workers are
    jobs      the number of workers
    remote    whether they are on other machines and may be lost
    """

    def __init__(
        self, executor: Executor, work: Callable[[RenderTask], RenderResult], jobs: int, *, remote: bool = False
    ) -> None:
        self._remote = remote
        self._executor = executor
        self._work = work
        self._jobs = max(1, jobs)
        self._gathered: dict[tuple[str, ...], list[Book]] = {}
        self._where: dict[str, Future[RenderResult]] = {}
        self._books = 0
        self._whole = 0
        self._finished: list[int] = []  # appended to by other threads

    def add(self, formats: tuple[str, ...], ly: LyText, excerpts: tuple[str, ...]) -> str:
        """Order a book in some formats; returns the name under which to ask for the result."""
        self._books += 1
        output = f"b{self._books:06d}"
        gathered = self._gathered.setdefault(formats, [])
        gathered.append(Book(output=output, ly=renamed(ly, output), excerpts=excerpts))
        if weight(tuple(gathered)) >= _MAX_WEIGHT:
            self._hand_out(formats, tuple(gathered))
            gathered.clear()
        return output

    def all_added(self) -> None:
        """Call when no more books come: the rest is divided among the workers."""
        left = {formats: books for formats, books in self._gathered.items() if books}
        whole = sum(weight(tuple(books)) for books in left.values())
        share = whole if whole <= _MIN_WEIGHT else min(_MAX_WEIGHT, -(-whole // self._jobs))
        for formats, books in left.items():
            part: list[Book] = []
            for book in books:
                if part and weight((*part, book)) > share:
                    self._hand_out(formats, tuple(part))
                    part = []
                part.append(book)
            self._hand_out(formats, tuple(part))
        self._gathered.clear()

    def result(self, output: str, tell: Tell) -> dict[str, bytes] | Failure:
        """The files of a book by format, or why there are none. Blocks until they are there."""
        future = self._where.pop(output)
        while not future.done():
            wait([future], timeout=_POLL_S)
            tell(*self.progress())
        if self._remote and (future.cancelled() or future.exception() is not None):
            return Failure(gesture=None, summary=f"lost by the cluster ({_reason(future)})")
        rendered = future.result()
        tell(*self.progress())
        failed = rendered.failed.get(output)
        return failed if failed is not None else rendered.files[output]

    def progress(self) -> tuple[int, int]:
        """How much is done and how much there is in all, in gestures."""
        return sum(self._finished), self._whole

    def _hand_out(self, formats: tuple[str, ...], books: tuple[Book, ...]) -> None:
        heavy = weight(books)
        self._whole += heavy
        future = self._executor.submit(self._work, RenderTask(formats=formats, books=books))
        future.add_done_callback(lambda _: self._finished.append(heavy))
        for book in books:
            self._where[book.output] = future


def _reason(future: Future[RenderResult]) -> str:
    said = "cancelled" if future.cancelled() else str(future.exception())
    return (said.splitlines() or ["unknown reason"])[0][:_MAX_REASON]
