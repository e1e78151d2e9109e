"""Runs: their results, how they end, and what they leave behind."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path
from types import SimpleNamespace

import pytest
import timing
from sampling import sample, whole

from gesturesmith import paths
from gesturesmith.lilypond import Job, LilyPondPool, failure, groups, start
from gesturesmith.lilypond import head as reading
from gesturesmith.lilypond import pool as pooling
from gesturesmith.lilypond import run as running
from gesturesmith.lilypond.head import head
from gesturesmith.lilypond.program import LilyPond

pytestmark = pytest.mark.lilypond

HEAD = '\\version "2.24.0"\n'
GOOD = '% gesture good\n\\book {{ \\bookOutputName "{name}" \\score {{ {{ c1 }} }} }}\n'
# Dies during engraving: no message has a place in the document.
DYING = (
    "% gesture dying\n"
    '\\book {{ \\bookOutputName "{name}" \\score '
    "{{ {{ \\override NoteHead.stencil = #(lambda (g) (car (list))) c1 }} }} }}\n"
)
WRONG = '% gesture wrong\n\\book {{ \\bookOutputName "{name}" \\score {{ {{ c1 \\nonsense }} }} }}\n'


@pytest.fixture
def private_temp(tmp_path, monkeypatch):
    """Temporary folders go here, so that leftovers are noticed."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


def test_one_run_gives_page_and_picture_in_all_formats(run):
    assert run.ended == ""
    assert run.messages == ()
    assert run.file("page", "pdf").startswith(b"%PDF-")
    assert run.file("s0001", "pdf").startswith(b"%PDF-")
    assert run.file("s0001", "svg").startswith(b"<?xml")
    assert run.file("s0001", "png").startswith(b"\x89PNG")
    assert run.file("s0002", "png") is None


def test_a_picture_is_cropped(run):
    """A page is 595 points wide, a single note far less."""
    width = float(run.file("s0001", "svg").split(b'width="')[1].split(b"pt")[0])
    assert width < 200


def test_what_was_made_before_an_error_and_who_made_it(wheel):
    """Two failing documents, each identified as well as possible."""
    wrong = HEAD + GOOD.format(name="a") + WRONG.format(name="b")
    dying = HEAD + GOOD.format(name="a") + DYING.format(name="b")
    with LilyPondPool(wheel, (("pdf",),)) as pool:
        first, second = (pool.one(("pdf",), Job(document=text)) for text in (wrong, dying))
    assert first.ended == second.ended == "failed"
    by_place = failure(wrong, first.messages, first.ended)
    assert by_place.gesture == "wrong"
    assert "unknown command: `\\nonsense'" in by_place.summary
    assert second.file("a", "pdf")
    assert second.file("b", "pdf") is None
    by_lack = failure(dying, second.messages, second.ended, ("dying",))
    assert by_lack.gesture == "dying"
    assert "In procedure car" in by_lack.summary


def test_what_never_ends_is_stopped(wheel, private_temp):
    patience = timing.Patience(5)
    with start(wheel, ("pdf",)) as waiting:
        waiting.feed(Job(document="#(let loop () (loop))", timeout_s=0.5))
        ended = waiting.result()
    assert ended.ended == "timeout"
    assert patience.left()
    assert failure("", ended.messages, ended.ended, ("slow",)).gesture == "slow"
    assert list(private_temp.iterdir()) == []


def test_nothing_is_left_of_one_that_was_not_needed(wheel, private_temp):
    with LilyPondPool(wheel, (("pdf",), ("svg",))) as pool:
        processes = [w._process for _, w in pool._waiting]
        assert len(list(private_temp.iterdir())) == 2
        assert all(p.poll() is None for p in processes)
    assert all(p.poll() is not None for p in processes)
    assert list(private_temp.iterdir()) == []


def test_one_killed_from_outside_is_a_failure(wheel):
    with start(wheel, ("pdf",)) as waiting:
        os.kill(waiting._process.pid, 9)
        waiting._process.wait()
        waiting.feed(Job(document=HEAD + GOOD.format(name="a") * 10_000))
        ended = waiting.result()
    assert ended.ended == "stopped"
    assert "was killed" in failure("", ended.messages, ended.ended).summary


def test_it_works_in_a_folder_of_its_own(wheel, private_temp, monkeypatch):
    """Nothing is written to the current folder."""
    here = private_temp / "here"
    here.mkdir()
    monkeypatch.chdir(here)
    with start(wheel, ("pdf",)) as waiting:
        waiting.feed(Job(document=HEAD + GOOD.format(name="a")))
        assert waiting.result().file("a", "pdf")
    assert list(here.iterdir()) == []


def test_without_cairo_svg_has_a_run_of_its_own(wheel):
    plain = LilyPond(path=wheel.path, version=(2, 24, 1), cairo=False)
    assert groups(plain, ("pdf", "png", "svg")) == (("pdf", "png"), ("svg",))
    assert groups(wheel, ("pdf", "png", "svg")) == (("pdf", "png", "svg"),)
    assert groups(plain, ("svg",)) == (("svg",),)
    assert groups(plain, ()) == groups(wheel, ()) == ()


def test_without_cairo_the_same_files_are_made(wheel, document):
    plain = LilyPond(path=wheel.path, version=(2, 24, 1), cairo=False)
    with LilyPondPool(plain) as pool:
        runs = [pool.one(g, Job(document=document)) for g in groups(plain, ("pdf", "png", "svg"))]
    assert [r.ended for r in runs] == ["", ""]
    assert runs[0].file("page", "pdf").startswith(b"%PDF-")
    assert runs[0].file("s0001", "pdf").startswith(b"%PDF-")
    assert runs[0].file("s0001", "png").startswith(b"\x89PNG")
    assert b"<svg" in runs[1].file("s0001", "svg")


def test_a_program_that_cannot_be_started_leaves_no_folder(private_temp):
    gone = LilyPond(path=Path("/nowhere/lilypond"), version=(2, 25, 12), cairo=True)
    with pytest.raises(FileNotFoundError):
        start(gone, ("pdf",))
    assert list(private_temp.iterdir()) == []


def test_no_room_for_its_files(wheel, monkeypatch):
    """LilyPond's messages do not help then: its log has no room either."""
    monkeypatch.setattr("shutil.disk_usage", lambda _: SimpleNamespace(total=1, used=1, free=0))
    with LilyPondPool(wheel) as pool:
        good, bad = (pool.one(("pdf",), Job(document=HEAD + text.format(name="a"))) for text in (GOOD, DYING))
    assert good.ended == ""
    assert bad.ended == "full"
    failed = failure("", bad.messages, bad.ended, ("dying",))
    assert (failed.gesture, failed.summary) == (None, "the disk for temporary files is full")


def test_one_is_kept_ready_and_replaced_if_it_died(wheel, document, monkeypatch):
    """Where none can stay."""
    monkeypatch.setattr(pooling, "stays", lambda _: False)
    with LilyPondPool(wheel) as pool:
        document = head() + document.removeprefix(HEAD)
        pool.ready(("pdf",))
        pool.ready(("pdf",))
        ((_, waiting),) = pool._waiting
        waiting._process.kill()
        waiting._process.wait()
        assert pool.one(("pdf",), Job(document=document)).file("page", "pdf")
        pool.ready(("pdf",))
        assert [(formats, one.waits) for formats, one in pool._waiting] == [(("pdf",), True)]
        assert pool.one(("pdf",), Job(document=document)).file("page", "pdf")
        assert pool._waiting == []


@pytest.mark.parametrize("name", sample(["a%db", "a\\b", "雾 ü"], 3))
@pytest.mark.parametrize("backend", ["", "ps"])
def test_a_temporary_folder_with_a_strange_name_is_passed_over(
    tmp_path, monkeypatch, wheel, document, name, backend
):
    """It is passed over: `%` fails in Abjad's settings, letters beyond ASCII where LilyPond calls Ghostscript."""
    (tmp_path / name).mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / name))
    assert paths.temporary() == "/tmp"
    with start(wheel, ("pdf",), backend=backend) as waiting:
        waiting.feed(Job(document=document))
        assert waiting.result().file("page", "pdf")
    assert not list((tmp_path / name).iterdir())


@whole
@pytest.mark.parametrize("name", ["plain folder", "%"])
def test_abjad_is_imported_whatever_the_temporary_folder_is_called(tmp_path, name):
    (tmp_path / name).mkdir()
    environment = {**os.environ, "TMPDIR": str(tmp_path / name)}
    told = timing.run(
        [sys.executable, "-c", "from gesturesmith.backends.lilypond._abjad import abjad"],
        env=environment, text=True
    )  # fmt: skip
    assert (told.returncode, told.stdout, told.stderr) == (0, "", "")


def test_the_head_is_read_while_waiting(wheel, monkeypatch):
    """Before there is a document, and not again with it."""
    own = f'{HEAD}#(ly:warning "the head is read")\n\\language "english"\n'
    monkeypatch.setattr(reading, "head", lambda: own)
    with start(wheel, ("pdf",), head=reading.ready_head(None)) as waiting:
        assert timing.eventually(lambda: "the head is read" in running.said(waiting._log))
        waiting.feed(Job(document=own + GOOD.format(name="a") + WRONG.format(name="b")))
        result = waiting.result()
    assert [m.text for m in result.messages].count("the head is read") == 1
    assert result.file("a", "pdf")
    unknown = next(m for m in result.messages if m.level == "error")
    assert unknown.line == own.count("\n") + 4, "lines are counted as if the head were still there"


def test_a_document_without_the_head_gets_a_process_that_has_not_read_it(wheel, document):
    with LilyPondPool(wheel, (("pdf",),)) as pool:
        assert pool.one(("pdf",), Job(document=document)).file("page", "pdf")
        assert len(pool._waiting) == 1, "the one that has read it waits on"
        assert pool.one(("pdf",), Job(document=head() + GOOD.format(name="a"))).file("a", "pdf")
        assert pool._waiting == []
    with start(wheel, ("pdf",), head=reading.ready_head(None)) as waiting, pytest.raises(ValueError, match="head"):
        waiting.feed(Job(document=document))
