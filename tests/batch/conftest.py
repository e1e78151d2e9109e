"""A worker pool whose LilyPond is a function, to test batches without waiting for a real one."""

from __future__ import annotations

import re
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from functools import partial
from pathlib import Path

import pytest

from gesturesmith.batch import BatchSetup, Build, BuildResult, executors, run
from gesturesmith.batch.render import render
from gesturesmith.batch.workers import WorkerPool
from gesturesmith.cache import Store, digest
from gesturesmith.lilypond import Job, LilyPond, RunResult
from gesturesmith.pipeline import Options, compile_file
from gesturesmith.source import Source

HEAD = "instrument: horn\npitches: written\n"
_OUTPUT = re.compile(r'^\\bookOutputName "([a-z0-9]+)"$', re.MULTILINE)


def gestures(**contours: str) -> str:
    """The text of a file with these gestures, each a line of pitches."""
    return HEAD + "".join(f"\ngesture {name}\n  contour: {line}\n" for name, line in contours.items())


class FakeLilyPond:
    """Stands in for LilyPond: its files are a hash of its input. Music with `bad` in it makes it fail."""

    def __init__(self) -> None:
        self.runs: list[tuple[str, ...]] = []
        self.bad = "\x00"

    def __call__(self, formats: tuple[str, ...], job: Job) -> RunResult:
        _, *parts = _OUTPUT.split(job.document)
        # From its name to the end of its last line: anything after that belongs to the next book.
        inside = (text[: text.find("\n}\n") + 3] for text in parts[1::2])
        books = dict(zip(parts[::2], inside, strict=True))
        self.runs.append(tuple(books))
        if self.bad in job.document:
            return RunResult(files={}, messages=(), ended="failed")
        files = {
            f"{name}.{kind}": _file(kind, digest(kind, text)).encode()
            for name, text in books.items()
            for kind in formats
        }
        return RunResult(files=files, messages=(), ended="")

    @property
    def books(self) -> int:
        return sum(map(len, self.runs))


def _file(kind: str, inside: str) -> str:
    """The smallest complete file."""
    if kind == "pdf":
        start = f"%PDF-1.4\n% {inside}\n"
        return f"{start}xref\nstartxref\n{len(start)}\n%%EOF\n"
    return f'<svg id="a">{inside}</svg>'


@pytest.fixture
def fake(monkeypatch) -> FakeLilyPond:
    """The LilyPond of all batches of a test."""
    one = FakeLilyPond()

    @contextmanager
    def worker_pool(setup: BatchSetup, lilypond: LilyPond, early: tuple[tuple[str, ...], ...]):
        with ThreadPoolExecutor(setup.jobs) as executor:
            yield WorkerPool(executor, partial(render, runner=one), setup.jobs)

    monkeypatch.setattr(executors, "worker_pool", worker_pool)
    return one


@pytest.fixture
def lilypond(tmp_path) -> LilyPond:
    """A program that exists but is never run."""
    (tmp_path / "lilypond").write_text("a program")
    return LilyPond(path=tmp_path / "lilypond", version=(2, 25, 12), cairo=True)


@pytest.fixture
def setup(tmp_path, lilypond) -> BatchSetup:
    return BatchSetup(
        output=tmp_path / "out", inputs=(), lilypond=lilypond, store=Store(tmp_path / "cache"), jobs=2
    )


def work(text: str, name: str = "study", **options) -> Build:
    formats = options.pop("formats", ("pdf", "svg"))
    store = options.pop("store", None)
    return Build(
        name=f"{name}.gesture",
        compile=partial(compile_file, store=store),
        sources=(Source(f"{name}.gesture", text),),
        options=Options(stem=name, formats=formats, **options),
        formats=formats,
    )


@pytest.fixture
def make(setup, fake) -> Callable[..., list[BuildResult]]:
    """Run builds with the fake, each time with a new store over the same folder, as new runs would."""

    def call(*works: Build, **changed) -> list[BuildResult]:
        from dataclasses import replace

        fake.runs.clear()
        here = replace(setup, **{"store": Store(setup.store.folder), **changed})
        return list(run(works, here))

    return call


def everything(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}
