"""Documents of many books: how they are divided, halved and named."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
from batch.conftest import FakeLilyPond, gestures
from sampling import whole

from gesturesmith.batch.render import Book, RenderResult, RenderTask, renamed, render, weight
from gesturesmith.batch.workers import WorkerPool
from gesturesmith.lilypond import Failure, LilyPondPool, RunResult, find
from gesturesmith.lytext import code
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source


def book(number: int, inside: str = "", excerpts: tuple[str, ...] | None = None) -> Book:
    output = f"b{number}"
    ly = code(f'\\book {{\n\\bookOutputName "{output}"\n{inside}\n}}\n')
    return Book(output=output, ly=ly, excerpts=(f"g{number}",) if excerpts is None else excerpts)


def task(*inside: str) -> RenderTask:
    return RenderTask(formats=("pdf",), books=tuple(book(n, text) for n, text in enumerate(inside)))


@pytest.mark.parametrize("bad", [(0,), (7,), (3, 4), (0, 15), tuple(range(16)), ()])
def test_halved_until_each_that_fails_stands_alone(bad):
    lilypond = FakeLilyPond()
    lilypond.bad = "BAD"
    done = render(task(*("BAD" if n in bad else "good" for n in range(16))), lilypond)
    assert set(done.failed) == {f"b{n}" for n in bad}
    assert set(done.files) == {f"b{n}" for n in range(16)} - set(done.failed)
    assert [done.failed[f"b{n}"].gesture for n in bad] == [f"g{n}" for n in bad]
    if len(bad) == 1:
        assert len(lilypond.runs) == 9  # 16, and twice a half of it at each of four levels


def test_one_that_was_killed_once_is_tried_again_in_halves():
    """As on a machine short of memory."""
    inner, runs = FakeLilyPond(), []

    def once(formats, job):
        runs.append(job)
        return RunResult(files={}, messages=(), ended="stopped") if len(runs) == 1 else inner(formats, job)

    done = render(task("one", "two"), once)
    assert done.failed == {}
    assert len(runs) == 3


def test_a_full_disk_is_not_tried_again():
    runs = []

    def full(formats, job):
        runs.append(job)
        return RunResult(files={}, messages=(), ended="full")

    done = render(task("one", "two", "three"), full)
    assert len(runs) == 1
    assert {f.summary for f in done.failed.values()} == {"the disk for temporary files is full"}
    assert len(done.failed) == 3


def test_a_program_that_cannot_be_started():
    def nothing(formats, job):
        raise PermissionError(13, "Permission denied")

    done = render(task("one", "two"), nothing)
    assert set(done.failed) == {"b0", "b1"}
    assert done.failed["b0"].summary == "LilyPond could not be started (Permission denied)"


def test_time_is_given_by_what_there_is_to_do():
    assert task("a").job.timeout_s < task(*"abcdef").job.timeout_s
    page = RenderTask(formats=("pdf",), books=(book(1, excerpts=tuple("abcdefgh")),))
    assert weight(page.books) == 8
    assert weight((book(1, excerpts=()),)) == 1


def divided(books: list[int], jobs: int) -> list[list[int]]:
    """The weights of the books in each document."""
    tasks = []

    def work(one: RenderTask) -> RenderResult:
        tasks.append(one)
        return RenderResult(files={b.output: {"pdf": b.output.encode()} for b in one.books}, failed={})

    with ThreadPoolExecutor(1) as executor:
        pool = WorkerPool(executor, work, jobs)
        outputs = [pool.add(("pdf",), book(n).ly, tuple("x" * w)) for n, w in enumerate(books)]
        pool.all_added()
        said = [(0, 0)]
        for output in outputs:
            assert pool.result(output, lambda *p: said.append(p)) == {"pdf": output.encode()}
    assert said[-1] == (sum(books), sum(books))
    return [[weight((b,)) for b in one.books] for one in tasks]


def test_how_books_are_divided():
    assert divided([1, 1], 2) == [[1, 1]]  # few are not worth a second LilyPond
    assert divided([12] + 12 * [1], 2) == [[12], 12 * [1]]  # a page beside its pictures
    assert divided(20 * [1], 2) == [10 * [1], 10 * [1]]
    assert [sum(d) for d in divided(120 * [1], 2)] == [50, 50, 10, 10]
    assert divided([300, 1], 2) == [[300], [1]]
    assert [sum(d) for d in divided(49 * [1], 1)] == [49]
    assert divided([], 2) == []


def test_books_get_names_of_their_own():
    assert '\\bookOutputName "other"' in renamed(book(1).ly, "other")
    assert '"b1"' not in renamed(book(1).ly, "other")
    quoted = code('\\markup "\\\\bookOutputName \\"b1\\""')
    assert renamed(quoted, "other") == quoted


@pytest.mark.lilypond
def test_a_book_is_the_same_bytes_whatever_stands_beside_it():
    """Cached files of one run are combined with files of another."""
    from gesturesmith import writers

    text = gestures(call="G4 ~~ C5", answer="C5, G4", more="E4 -- G4") + '  footnote: "Do it"\n'
    items = compile_text(Source("a", text), Options()).items
    lilypond = find()
    formats = ("pdf", "png", "svg")

    def made(*chosen) -> dict[str, bytes]:
        books = tuple(Book(output=i.output, ly=i.book, excerpts=i.excerpts) for i in chosen)
        with LilyPondPool(lilypond) as running:
            done = render(RenderTask(formats=formats, books=books), running.one)
        assert done.failed == {}
        return {
            f"{i.name}.{kind}": writers.get(kind).finish(i, done.files[i.output][kind])
            for i in chosen
            for kind in formats
            if kind != "svg" or i.kind == "snippet"
        }

    together = made(*items)
    assert len(together) == 11
    for some in (items[:1], items[2:3], tuple(reversed(items))):
        for name, data in made(*some).items():
            assert data == together[name], name


@whole
@pytest.mark.lilypond
def test_what_kills_lilypond_is_found_among_many():
    """Scheme that fails during page layout reports no place in the document."""
    killing = r"\score { { \once \override NoteHead.stencil = #(lambda (g) (car '())) d''1 } }"
    inside = [killing if n == 5 else r"\score { { c'1 } }" for n in range(8)]
    with LilyPondPool(find()) as running:
        done = render(task(*inside), running.one)
    assert {output: why.gesture for output, why in done.failed.items()} == {"b5": "g5"}
    assert isinstance(done.failed["b5"], Failure)
    assert all(files["pdf"].startswith(b"%PDF") for files in done.files.values())
