"""Running LilyPond: started early, fed through its standard input, in a private folder of its own.

LilyPond takes about as long to start as Abjad takes to be imported. So it is started first and waits for its
document; where nothing is to be engraved after all it is ended.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import subprocess
import tempfile
import time
from pathlib import Path
from types import TracebackType
from typing import Self

from gesturesmith import paths
from gesturesmith.lilypond.log import Message, read_log
from gesturesmith.lilypond.program import LilyPond
from gesturesmith.values import frozen

PNG_DPI = 192  # twice the CSS pixel of 96 a inch: sharp on the screens people have
_OWN_SESSION = os.name == "posix"
_ROOM_BYTES = 65_536  # with less left on the disk, a failed run has failed for want of room


@frozen(kw_only=True)
class Job:
    """One document and how long it may take, in seconds of wall clock."""

    document: str
    timeout_s: float = 60.0


@frozen(kw_only=True)
class Run:
    """What a run gave.

    files      by name: `page.pdf`, `s001.cropped.svg`
    messages   errors and warnings in the order they were made
    ended      "" well, "failed", "timeout", "stopped" (killed from outside), "full" (no room for its files)
    """

    files: dict[str, bytes]
    messages: tuple[Message, ...]
    ended: str

    @property
    def warnings(self) -> tuple[Message, ...]:
        return tuple(m for m in self.messages if m.level not in ("error", "fatal error"))

    def file(self, output: str, kind: str) -> bytes | None:
        """What was made for `\\bookOutputName "output"` in a format; pages go before cropped pictures."""
        return self.files.get(f"{output}.{kind}", self.files.get(f"{output}.cropped.{kind}"))


def groups(lilypond: LilyPond, formats: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """The formats that one run can make together: all with cairo, else SVG apart from PDF and PNG."""
    if lilypond.cairo or not formats:
        return (formats,) if formats else ()
    svg = tuple(f for f in formats if f == "svg")
    rest = tuple(f for f in formats if f != "svg")
    return tuple(g for g in (rest, svg) if g)


def start(lilypond: LilyPond, formats: tuple[str, ...], *, backend: str = "") -> Waiting:
    """Start LilyPond waiting on its standard input. `formats`: one of `groups`.

    `backend` asks for one by name ("svg", "ps"); left out, it is cairo where there is one. OSError where the
    machine cannot start it.
    """
    backend = backend or ("cairo" if lilypond.cairo else "svg" if formats == ("svg",) else "ps")
    folder = Path(tempfile.mkdtemp(prefix="gesturesmith-"))
    command = [
        str(lilypond.path.absolute()),
        f"-I{paths.templates()}",
        f"-dbackend={backend}",
        "-dno-point-and-click",
        f"-dresolution={PNG_DPI}",
        "--loglevel=WARNING",
        *(f"--{f}" for f in formats),
        "-",
    ]
    try:
        with (folder / "log").open("wb") as log:
            process = subprocess.Popen(
                command,
                cwd=folder,
                env=_environment(),
                stdin=subprocess.PIPE,
                stdout=subprocess.DEVNULL,
                stderr=log,
                start_new_session=_OWN_SESSION,
            )
    except BaseException:
        shutil.rmtree(folder, ignore_errors=True)
        raise
    return Waiting(process, folder)


class Waiting:
    """A LilyPond that waits for its document. Used with `with`: whatever happens, it is ended and tidied away."""

    def __init__(self, process: subprocess.Popen[bytes], folder: Path) -> None:
        self._process = process
        self._folder = folder
        self._deadline = 0.0

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.cancel()

    def feed(self, job: Job) -> None:
        """Give it its document. It works on from here by itself: several can be fed before any is waited for."""
        assert self._process.stdin is not None
        self._deadline = time.monotonic() + job.timeout_s
        # A LilyPond that has died already is found out by its status, when it is waited for.
        with contextlib.suppress(BrokenPipeError):
            self._process.stdin.write(job.document.encode())
        with contextlib.suppress(BrokenPipeError):
            self._process.stdin.close()

    def result(self) -> Run:
        """What it made of its document, once it has ended or its time is over."""
        ended = ""
        try:
            status = self._process.wait(timeout=max(0.0, self._deadline - time.monotonic()))
            ended = "stopped" if status < 0 else "failed" if status else ""
            if status and shutil.disk_usage(self._folder).free < _ROOM_BYTES:
                ended = "full"
        except subprocess.TimeoutExpired:
            ended = "timeout"
            self._kill()
        log = (self._folder / "log").read_bytes().decode(errors="replace")
        files = {
            path.name: path.read_bytes()
            for path in sorted(self._folder.iterdir())
            if path.suffix in (".pdf", ".svg", ".png") and path.is_file()
        }
        self.cancel()
        return Run(files=files, messages=read_log(log), ended=ended)

    def cancel(self) -> None:
        """End it and remove its folder; harmless when that was done before."""
        self._kill()
        shutil.rmtree(self._folder, ignore_errors=True)

    def _kill(self) -> None:
        if self._process.poll() is None:
            if _OWN_SESSION:
                with contextlib.suppress(ProcessLookupError):
                    os.killpg(self._process.pid, signal.SIGKILL)
            else:
                self._process.kill()
            self._process.wait()
        if self._process.stdin is not None:
            with contextlib.suppress(BrokenPipeError):
                self._process.stdin.close()


def _environment() -> dict[str, str]:
    """The user's environment, but for what would change the files made or the messages, which are read by us."""
    return {**os.environ, "LC_ALL": "C", "LANGUAGE": "en", "TZ": "UTC"}
