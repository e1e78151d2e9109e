"""Books to files: a few dozen per LilyPond run, split in half if it fails until the faulty one is alone."""

from __future__ import annotations

import re
from collections.abc import Callable

from gesturesmith import sheets
from gesturesmith.cache import fingerprint
from gesturesmith.kinds import SandboxMode
from gesturesmith.lilypond import Failure, Job, LilyPondPool, MissingLilyPond, RunResult, failure, find
from gesturesmith.lytext import LyText, code
from gesturesmith.values import frozen

_BASE_S = 60.0
_SECONDS_PER_EXCERPT = 2.0  # far more than the 0.02 s that one takes: stops only what never ends
_OUTPUT = re.compile(r'^\\bookOutputName "[a-z0-9]+"$', re.MULTILINE)

Runner = Callable[[tuple[str, ...], Job], RunResult]


@frozen(kw_only=True)
class Book:
    """A book of a document: `output`, unique in the run, and the gestures and passages on it."""

    output: str
    ly: LyText
    excerpts: tuple[str, ...]


@frozen(kw_only=True)
class RenderTask:
    """Books that one LilyPond run makes, all in the same formats."""

    formats: tuple[str, ...]
    books: tuple[Book, ...]

    @property
    def job(self) -> Job:
        document = sheets.document(tuple(book.ly for book in self.books))
        return Job(document=document, timeout_s=_BASE_S + _SECONDS_PER_EXCERPT * weight(self.books))


@frozen(kw_only=True)
class RenderResult:
    """LilyPond's files by output and format, and failures by output."""

    files: dict[str, dict[str, bytes]]
    failed: dict[str, Failure]


def weight(books: tuple[Book, ...]) -> int:
    """How much work the books are, in gestures."""
    return sum(max(1, len(book.excerpts)) for book in books)


def renamed(ly: LyText, output: str) -> LyText:
    """The book with another output name."""
    return code(_OUTPUT.sub(lambda _: f'\\bookOutputName "{output}"', ly))


def render(task: RenderTask, runner: Runner) -> RenderResult:
    """Make the books of a task, in as many runs as needed."""
    try:
        job = task.job
        run = runner(task.formats, job)
    except OSError as error:
        return _none(task, f"LilyPond could not be started ({error.strerror or error})")
    failed = _failure(task, job, run)
    if failed is None:
        return RenderResult(files={book.output: _files(task, book, run) for book in task.books}, failed={})
    if len(task.books) == 1 or run.ended == "full":
        return RenderResult(files={}, failed={book.output: failed for book in task.books})
    middle = len(task.books) // 2
    halves = [
        render(RenderTask(formats=task.formats, books=some), runner)
        for some in (task.books[:middle], task.books[middle:])
    ]
    return RenderResult(
        files={output: files for half in halves for output, files in half.files.items()},
        failed={output: why for half in halves for output, why in half.failed.items()},
    )


def render_on_worker(
    task: RenderTask, *, program: str, like: tuple[tuple[int, ...], bool], sandbox: SandboxMode
) -> RenderResult:
    """`render` on a cluster worker, with the worker's own LilyPond.

    A worker whose program, templates, Python or LilyPond differ might make other files, so it makes none. `like`:
    the expected LilyPond version, and whether it has cairo.
    """
    found = find(sandbox=sandbox)
    if isinstance(found, MissingLilyPond):
        return _none(task, f"a cluster worker has no LilyPond: {found.reason.splitlines()[0]}")
    if (found.version, found.cairo) != like:
        has, wanted = (".".join(map(str, one)) for one in (found.version, like[0]))
        return _none(task, f"a cluster worker has a different LilyPond ({has}, not {wanted}, or without cairo)")
    if fingerprint() != program:
        return _none(task, "a cluster worker has a different version of Gesturesmith or Python")
    with LilyPondPool(found) as own:
        return render(task, own.one)


def _none(task: RenderTask, why: str) -> RenderResult:
    return RenderResult(files={}, failed={b.output: Failure(gesture=None, summary=why) for b in task.books})


def _files(task: RenderTask, book: Book, run: RunResult) -> dict[str, bytes]:
    return {kind: run.file(book.output, kind) or b"" for kind in task.formats}


def _failure(task: RenderTask, job: Job, run: RunResult) -> Failure | None:
    lacking = [b for b in task.books if any(not run.file(b.output, kind) for kind in task.formats)]
    # A page shows many gestures: a missing one does not say which of them failed.
    missing = tuple(b.excerpts[0] if len(b.excerpts) == 1 else "" for b in lacking[:1])
    return failure(job.document, run.messages, run.ended, missing)
