"""Runs LilyPond: started early, fed through standard input, in a private folder.

LilyPond takes about as long to start as Abjad takes to import. So it is started first and waits for its document;
if there is nothing to engrave after all, it is ended.
"""

from __future__ import annotations

import contextlib
import errno
import os
import select
import shutil
import subprocess
import tempfile
import threading
import time
import weakref
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import TracebackType
from typing import IO, Self

from gesturesmith import paths
from gesturesmith.kinds import Backend, Ended
from gesturesmith.lilypond.head import DocumentHead, has_head, headless
from gesturesmith.lilypond.log import Message, read_log
from gesturesmith.lilypond.output_files import collect, floods, remove
from gesturesmith.lilypond.program import LilyPond
from gesturesmith.lilypond.sandbox import (
    LOG_BYTES,
    OWN_SESSION,
    end_group,
    environment,
    inside,
    limited,
    process_filter,
)
from gesturesmith.values import frozen

PNG_DPI = 192  # twice the 96 CSS pixels per inch: sharp on current screens
_HEAD = "head.ily"
ENDINGS = (".pdf", ".svg", ".png")
POLL_S = 0.5  # how often the size of the output is checked
_READ_BYTES = 512 * 1024  # from the beginning and the end of a log: thousands of messages
ROOM_BYTES = 65_536  # with less left on the disk, a failed run counts as out of space


@frozen(kw_only=True)
class Job:
    """One document, and how long it may take, in seconds of wall clock."""

    document: str
    timeout_s: float = 60.0


@frozen(kw_only=True)
class RunResult:
    """The result of a run.

    files      by name: `page.pdf`, `s001.cropped.svg`
    messages   errors and warnings, in order
    ended      "" well, "failed", "timeout", "stopped" (killed from outside), "full" (no room for its
               files), "flood" (more output than any music needs)
    """

    files: Mapping[str, bytes]
    messages: tuple[Message, ...]
    ended: Ended

    @property
    def warnings(self) -> tuple[Message, ...]:
        return tuple(m for m in self.messages if m.level not in ("error", "fatal error"))

    def file(self, output: str, kind: str) -> bytes | None:
        """The output for `\\bookOutputName "output"` in a format; a page takes precedence over a cropped
        picture."""
        return self.files.get(f"{output}.{kind}", self.files.get(f"{output}.cropped.{kind}"))


def groups(lilypond: LilyPond, formats: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """The formats that one run can make together: all with cairo, otherwise SVG separately from PDF and PNG."""
    if lilypond.cairo or not formats:
        return (formats,) if formats else ()
    svg = tuple(f for f in formats if f == "svg")
    rest = tuple(f for f in formats if f != "svg")
    return tuple(g for g in (rest, svg) if g)


def start(
    lilypond: LilyPond, formats: tuple[str, ...], *, backend: Backend = "", head: DocumentHead | None = None
) -> WaitingProcess:
    """Start a LilyPond that waits on standard input. `formats`: one of `groups`.

    `backend` selects one by name ("svg", "ps"); the default is cairo if built in. `head`: what it reads while it
    waits, instead of the head with which its document must begin. OSError if the machine cannot start it.
    """
    backend = backend or ("cairo" if lilypond.cairo else "svg" if formats == ("svg",) else "ps")
    filtered = process_filter() if lilypond.sandbox is not None and backend == "cairo" else None
    run = launch(lilypond, formats, backend=backend, head=head, call_filter=filtered)
    return WaitingProcess(run.process, run.root, run.log, reads_head=head is not None)


@frozen(kw_only=True)
class LaunchedRun:
    """A LilyPond that was started, the folder that is removed with it, in which `work` is its own, and its log."""

    process: subprocess.Popen[bytes]
    root: Path
    log: IO[bytes]


def launch(
    lilypond: LilyPond,
    formats: tuple[str, ...],
    *,
    backend: Backend,
    head: DocumentHead | None,
    call_filter: bytes | None,
    document: str = "-",
    files: tuple[tuple[str, bytes], ...] = (),
    answers: bool = False,
) -> LaunchedRun:
    """Start a LilyPond in a folder of its own, within its limits and the sandbox.

    call_filter   the system call filter it gets from the sandbox
    document      what it reads
    files         files in its folder
    answers       its standard output is a pipe; else nobody sees it
    """
    if not os.access(lilypond.path, os.X_OK):
        # The shell in between would report it in its own words.
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(lilypond.path))
    command = [
        str(lilypond.path.absolute()),
        f"-I{paths.templates()}",
        f"-dbackend={backend}",
        "-dno-point-and-click",
        f"-dresolution={PNG_DPI}",
        "--loglevel=WARNING",
        *([f"-dinclude-settings={_HEAD}"] if head is not None else []),
        *(f"--{f}" for f in formats),
        document,
    ]
    box = lilypond.sandbox
    root = Path(tempfile.mkdtemp(prefix="gesturesmith-", dir=paths.temporary()))
    try:
        folder = root / "work"
        folder.mkdir()
        if head is not None:
            files = (*files, *head.files, (_HEAD, head.text.encode()))
        for name, data in files:
            (folder / name).write_bytes(data)
        # The log file has no name, so that nothing can replace it.
        log = tempfile.TemporaryFile(buffering=0, dir=root)  # noqa: SIM115  # as long as the run
        with _readable(call_filter) as filter_fd:
            if box is not None:
                command = inside(box, command, folder, lilypond.path, filter_fd=filter_fd)
            process = subprocess.Popen(
                limited(command),
                cwd=folder,
                env=environment(box, folder, lilypond.path),
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE if answers else subprocess.DEVNULL,
                stderr=log,
                start_new_session=OWN_SESSION,
                pass_fds=() if filter_fd is None else (filter_fd,),
            )
    except BaseException:
        remove(root)
        raise
    return LaunchedRun(process=process, root=root, log=log)


@contextlib.contextmanager
def _readable(data: bytes | None) -> Iterator[int | None]:
    """A file descriptor from which a child process can read the data; None for None."""
    if data is None:
        yield None
        return
    with tempfile.TemporaryFile(buffering=0) as file:
        file.write(data)
        file.seek(0)
        yield file.fileno()


class WaitingProcess:
    """A LilyPond that waits for its document. Use it in a `with`: whatever happens, it is ended and its files
    removed."""

    def __init__(
        self, process: subprocess.Popen[bytes], root: Path, log: IO[bytes], *, reads_head: bool = False
    ) -> None:
        self.reads_head = reads_head
        self._process = process
        self._root = root
        self._log = log
        self._folder = root / "work"
        self._deadline = 0.0
        self._writer: threading.Thread | None = None
        self._over = False
        # For one interrupted before it was used in a `with`.
        weakref.finalize(self, remove, root)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.cancel()

    @property
    def waits(self) -> bool:
        """Whether it is still there, without a document."""
        return not self._over and self._writer is None and self._process.poll() is None

    def feed(self, job: Job) -> None:
        """Give it its document. It then works by itself: several can be fed before waiting for any."""
        document = job.document
        if self.reads_head:
            if not has_head(document):
                raise ValueError("the document does not begin with the head that LilyPond has read")
            document = headless(document)
        self._deadline = time.monotonic() + job.timeout_s
        # In a thread, since writing to a pipe that nobody reads any more would block for ever.
        writer = threading.Thread(target=self._write, args=(document.encode(),), daemon=True)
        writer.start()  # first: another thread may end this at any time, and only waits for started threads
        self._writer = writer

    def _write(self, document: bytes) -> None:
        assert self._process.stdin is not None
        # A LilyPond that has already died is noticed by its status, when waited for.
        # The pipe of one that was ended is closed (ValueError).
        with contextlib.suppress(OSError, ValueError):
            self._process.stdin.write(document)
        with contextlib.suppress(OSError):
            self._process.stdin.close()

    def result(self, endings: tuple[str, ...] = ENDINGS) -> RunResult:
        """The result, once it has ended or its time is up, with its files of these endings."""
        ended = self._ended()
        self._end()
        messages = read_log(said(self._log))
        if ended == "" and self._floods():
            ended = "flood"
        files = collect(self._folder, endings) if ended != "flood" else {}
        self.cancel()
        return RunResult(files=files, messages=messages, ended=ended)

    def _floods(self) -> bool:
        return os.fstat(self._log.fileno()).st_size > LOG_BYTES or floods(self._folder)

    def _ended(self) -> Ended:
        """How it ended, once it has; "timeout" or "flood" if it must be ended."""
        while (left := self._deadline - time.monotonic()) > 0:
            status = _waited(self._process, min(left, POLL_S))
            if status is None:
                if self._floods():
                    return "flood"
                continue
            # A shell or bubblewrap in between reports a signal as its number above 128.
            if status and free_bytes(self._root) < ROOM_BYTES:
                return "full"
            return "stopped" if status < 0 or status > 128 else "failed" if status else ""
        return "timeout"

    def cancel(self) -> None:
        """End it and remove its folder; does nothing if already done."""
        self._end()
        self._log.close()
        remove(self._root)

    def _end(self) -> None:
        """End it and all its child processes: one that died may leave a process that holds our pipe."""
        if self._over:  # its number may belong to another process by now
            return
        self._over = True
        end_group(self._process)
        self._process.wait()
        if self._writer is not None:
            self._writer.join()
        elif self._process.stdin is not None:
            with contextlib.suppress(BrokenPipeError):
                self._process.stdin.close()


def _waited(process: subprocess.Popen[bytes], seconds: float) -> int | None:
    """The status of a process, or None if it has not ended after this many seconds.

    `Popen.wait` with a timeout polls, and may be up to 50 ms late. Linux can notify at once.
    """
    try:
        ended = os.pidfd_open(process.pid)
    except (AttributeError, OSError):
        try:
            return process.wait(timeout=seconds)
        except subprocess.TimeoutExpired:
            return None
    try:
        look = select.poll()
        look.register(ended, select.POLLIN)
        look.poll(seconds * 1000)
    finally:
        os.close(ended)
    return process.poll()


def said(log: IO[bytes]) -> str:
    """The beginning and end of a log: all of it, unless it is flooded."""
    size = os.fstat(log.fileno()).st_size
    log.seek(0)
    begins = log.read(_READ_BYTES)
    log.seek(max(len(begins), size - _READ_BYTES))
    return (begins + log.read(_READ_BYTES)).decode(errors="replace")


def free_bytes(folder: Path) -> int:
    try:
        return shutil.disk_usage(folder).free
    except OSError:  # code run without a sandbox may have removed the folder
        return ROOM_BYTES
