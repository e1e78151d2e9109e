"""The sandbox alone, without escaping: hostile Scheme is passed to LilyPond unchanged.

Outside, the same Scheme must do its harm (otherwise these tests would prove nothing); inside it must not.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import socket
import tempfile
import threading
import time
import tracemalloc
from dataclasses import replace
from pathlib import Path

import pytest
import timing
from sampling import sample, whole
from security.scheme import FORKS, MANY, NESTED, PROCESS, READS, SECRET, WRITES, both_ways, left, needs_bwrap

from gesturesmith.lilypond import Job, LilyPond, MissingLilyPond, find, output_files, start
from gesturesmith.lilypond import run as running
from gesturesmith.lilypond import sandbox as box

pytestmark = pytest.mark.lilypond

PAGE = '\\version "2.24.0"\n{scheme}\n\\book {{ \\bookOutputName "page" \\markup "{text}" }}\n'


@pytest.fixture(scope="session")
def boxed() -> LilyPond:
    found = find(sandbox="always")
    assert isinstance(found, LilyPond)
    return found


@pytest.fixture(scope="session")
def free() -> LilyPond:
    found = find(sandbox="never")
    assert isinstance(found, LilyPond)
    return found


@pytest.fixture
def home(tmp_path_factory, monkeypatch):
    """A home with a secret, not below the temporary folder of the runs."""
    folder = tmp_path_factory.mktemp("home")
    (folder / "secret.txt").write_text(SECRET)
    monkeypatch.setenv("HOME", str(folder))
    return folder


def run(lilypond, scheme, *, seconds=30.0, text="x", formats=("pdf",)):
    with start(lilypond, formats) as waiting:
        waiting.feed(Job(document=PAGE.format(scheme=scheme, text=text), timeout_s=seconds))
        return waiting.result()


def said(result):
    return " ".join(m.text for m in result.messages)


# The Guile of the wheel has no sockets of its own.
CALLS = "#(system \"bash -c 'echo -n hello > /dev/tcp/127.0.0.1/{port}'\")"


@needs_bwrap
def test_a_home_is_not_read(home, free, boxed):
    reads = READS.format(path=home / "secret.txt")
    assert SECRET in said(run(free, reads))
    inside = run(boxed, reads)
    assert inside.ended == "failed"
    assert SECRET not in said(inside)


@needs_bwrap
@pytest.mark.parametrize("scheme", [WRITES, PROCESS, FORKS], ids=["writes", "process", "forks"])
def test_nothing_is_written_outside(tmp_path, free, boxed, scheme):
    target = tmp_path / "mark"
    run(free, scheme.format(path=target))
    assert target.exists(), "outside it does its harm"
    other = tmp_path / "other"
    run(boxed, scheme.format(path=other))
    assert not other.exists()
    assert not list(Path("/tmp").glob("other"))


@needs_bwrap
@pytest.mark.parametrize("way", ["", "ps"])
def test_nothing_is_written_into_memory(boxed, way):
    """Where no limit applies; the working folder is the only place, as the last line shows."""
    wrote = (
        '#(for-each (lambda (path) (catch #t (lambda () (with-output-to-file (string-append path "mark") '
        '(lambda () (display 1))) (ly:warning "wrote ~a" path)) (lambda e #f))) '
        '(list "/tmp/" "/dev/" "/dev/shm/" "/" "/tmp/.cache/" (string-append (getcwd) "/")))'
    )
    with start(boxed, ("pdf",), backend=way) as waiting:
        waiting.feed(Job(document=PAGE.format(scheme=wrote, text="x")))
        result = waiting.result()
    assert result.ended == ""
    assert result.file("page", "pdf")
    (only,) = [m.text for m in result.messages if m.text.startswith("wrote")]
    assert only.endswith("/work/")


@needs_bwrap
@pytest.mark.skipif(box.process_filter() is None, reason="no filter for this processor")
def test_no_process_begins_with_cairo(boxed):
    """Recorded in the working folder, where a process that started could write."""
    if not boxed.cairo:
        pytest.skip("no cairo backend: Ghostscript must be able to start")
    process = (
        '#(begin (system "echo begun > seen") '
        '(catch #t (lambda () (if (= 0 (primitive-fork)) (primitive-exit 0)) (ly:warning "forked")) '
        '(lambda e (ly:warning "not forked"))) (ly:warning "seen: ~a" (file-exists? "seen")))'
    )
    text = said(run(boxed, process))
    assert "not forked" in text
    assert "seen: #f" in text


@needs_bwrap
def test_no_network(free, boxed):
    heard = []
    with socket.create_server(("127.0.0.1", 0)) as server:

        def listen():
            while True:
                try:
                    connection, _ = server.accept()
                except OSError:
                    return
                with connection:
                    heard.append(connection.recv(16))

        listener = threading.Thread(target=listen, daemon=True)
        listener.start()
        calls = CALLS.format(port=server.getsockname()[1])
        run(free, calls)
        assert timing.eventually(lambda: heard == [b"hello"]), "outside it does its harm"
        run(
            replace(boxed, cairo=False), calls
        )  # without cairo a process may begin, so that it is the network that fails
        # Who calls later is heard later.
        with socket.create_connection(server.getsockname()) as ours:
            ours.sendall(b"over")
        assert timing.eventually(lambda: b"over" in heard)
        assert heard == [b"hello", b"over"]
        server.shutdown(socket.SHUT_RDWR)


@needs_bwrap
def test_the_environment_tells_nothing(monkeypatch, boxed):
    monkeypatch.setenv("GESTURESMITH_TEST_SECRET", SECRET)
    assert SECRET not in said(run(boxed, '#(ly:warning "~a" (environ))'))


def test_the_environment_tells_little_outside_as_well(monkeypatch, free):
    monkeypatch.setenv("GESTURESMITH_TEST_SECRET", SECRET)
    assert SECRET not in said(run(free, '#(ly:warning "~a" (environ))'))


@both_ways
def test_what_never_ends_is_ended(way):
    lilypond = find(sandbox=way)
    patience = timing.Patience(6)
    result = run(lilypond, "#(let loop () (loop))", seconds=1.5)
    assert result.ended == "timeout"
    assert patience.left()


@whole
def test_memory_has_an_end(monkeypatch, free):
    """With a small limit, to keep the test fast; the limit itself is read from inside."""
    monkeypatch.setattr(box, "MEMORY_KB", 500 * 1024)
    greedy = "#(let loop ((all (list))) (loop (cons (make-vector 1000000 0) all)))"
    result = run(free, f'#(ly:warning "limit ~a" (getrlimit (quote as)))\n{greedy}', seconds=60)
    assert result.ended in ("failed", "stopped")


def test_a_flood_is_stopped(monkeypatch, free):
    monkeypatch.setattr(output_files, "FOLDER_BYTES", 8_000_000)
    flood = (
        '#(let loop ((n 0)) (with-output-to-file (format #f "f~a" n) '
        "(lambda () (display (make-string 4000000 #\\x)))) (loop (+ n 1)))"
    )
    result = run(free, flood, seconds=20)
    assert result.ended == "flood"


def test_a_file_has_a_largest_size(monkeypatch, free):
    monkeypatch.setattr(box, "FILE_BLOCKS", 2000)  # 1 or 2 MB
    large = '#(with-output-to-file "large.pdf" (lambda () (display (make-string 40000000 #\\x))))'
    result = run(free, large)
    assert result.ended in ("failed", "stopped")
    assert len(result.files.get("large.pdf", b"")) <= 2_048_000


def test_a_link_is_not_followed(tmp_path, free):
    """It would make us deliver what LilyPond itself may not read."""
    (tmp_path / "secret.pdf").write_text(SECRET)
    result = run(free, f'#(symlink "{tmp_path / "secret.pdf"}" "stolen.pdf")')
    assert "stolen.pdf" not in result.files


def test_the_log_cannot_be_replaced(tmp_path, free):
    (tmp_path / "secret").write_text(f"warning: {SECRET}\n")
    linked = f'#(begin (if (file-exists? "log") (delete-file "log")) (symlink "{tmp_path / "secret"}" "log"))'
    assert SECRET not in said(run(free, linked))


@both_ways
def test_guile_is_told_where_the_compiled_scheme_of_debian_is(monkeypatch, tmp_path, way):
    """A program beside such folders is one of Debian's; the wheel finds its own."""
    monkeypatch.delenv("GUILE_LOAD_COMPILED_PATH", raising=False)
    found = find(sandbox=way)
    assert "GUILE_LOAD_COMPILED_PATH" not in box.environment(found.sandbox, tmp_path, found.path)
    there = tmp_path / "lib" / "x86_64-linux-gnu" / "lilypond" / "2.24.1" / "ccache"
    there.mkdir(parents=True)
    told = box.environment(found.sandbox, tmp_path, tmp_path / "bin" / "lilypond")
    assert told["GUILE_LOAD_COMPILED_PATH"] == str(there)


@needs_bwrap
def test_the_same_files_inside_and_outside(free, boxed):
    made = [run(one, "", text="Fog Signals", formats=("pdf", "svg")).files for one in (free, boxed)]
    assert made[0]["page.svg"] == made[1]["page.svg"]
    assert len(made[0]["page.pdf"]) == len(made[1]["page.pdf"])


def test_a_sandbox_that_is_demanded_and_not_there(monkeypatch):
    monkeypatch.setenv("PATH", "/nowhere")
    found = find(sandbox="always")
    assert isinstance(found, MissingLilyPond)
    assert "bubblewrap" in found.reason
    assert isinstance(find(sandbox="auto"), LilyPond)


@needs_bwrap
def test_a_sandbox_that_does_not_work(tmp_path, monkeypatch):
    """As in containers without namespaces: `auto` runs without a sandbox, `always` reports it."""
    broken = tmp_path / "bwrap"
    broken.write_text("#!/bin/sh\nexit 1\n")
    broken.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setenv("GESTURESMITH_CACHE", str(tmp_path / "cache"))
    assert isinstance(find(sandbox="always"), MissingLilyPond)
    found = find(sandbox="auto")
    assert isinstance(found, LilyPond)
    assert found.sandbox is None


@needs_bwrap
def test_without_a_cache_it_works_as_well(monkeypatch, tmp_path):
    monkeypatch.setenv("GESTURESMITH_CACHE", "/proc/nowhere")
    found = find(sandbox="always")
    assert isinstance(found, LilyPond)
    assert found.sandbox.fonts is None
    assert run(found, "").file("page", "pdf")


@needs_bwrap
def test_what_worked_is_not_tried_again(monkeypatch, tmp_path):
    monkeypatch.setenv("GESTURESMITH_CACHE", str(tmp_path / "cache"))
    first = find(sandbox="always")
    monkeypatch.setattr(box, "_works", lambda *a: pytest.fail("tried again"))
    assert find(sandbox="always") == first
    # ... unless fonts have been installed since.
    mark = next(Path(tmp_path / "cache").rglob("works"))
    os.utime(mark, (1, 1))
    monkeypatch.setattr(box, "_works", lambda *a: False)
    if any(os.path.isdir(f) for f in box._FONTS):
        assert isinstance(find(sandbox="always"), MissingLilyPond)


def test_nothing_stays_behind(monkeypatch, tmp_path, free):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    run(free, "")
    assert list(tmp_path.iterdir()) == []


@needs_bwrap
def test_what_works_no_longer_is_noticed(tmp_path, monkeypatch):
    """The same program and the same cache, now in a container: the cached answer must not decide."""
    wrapped, forbidden = tmp_path / "bin" / "bwrap", tmp_path / "forbidden"
    wrapped.parent.mkdir()
    wrapped.write_text(f'#!/bin/sh\n[ -e "{forbidden}" ] && exit 1\nexec {shutil.which("bwrap")} "$@"\n')
    wrapped.chmod(0o755)
    monkeypatch.setenv("PATH", f"{wrapped.parent}:{os.environ['PATH']}")
    monkeypatch.setenv("GESTURESMITH_CACHE", str(tmp_path / "cache"))
    assert find(sandbox="auto").sandbox is not None
    forbidden.touch()
    assert find(sandbox="auto").sandbox is None
    assert isinstance(find(sandbox="always"), MissingLilyPond)


# --- one that is killed -----------------------------------------------------------------------------------------


@pytest.fixture
def killed(monkeypatch, tmp_path):
    """A folder for the runs alone; what is left of them at the end is found, and ended."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    yield tmp_path
    try:
        assert timing.eventually(lambda: not left(tmp_path), seconds=2), "nothing is left running"
    finally:
        for number in left(tmp_path):
            with contextlib.suppress(OSError):
                os.kill(int(number), signal.SIGKILL)


@needs_bwrap
def test_killed_at_any_moment_after_its_start(boxed, killed):
    """bubblewrap takes some 12 ms to set itself up."""
    for number in range(60):
        with start(boxed, ("pdf",)):
            time.sleep(number * 0.0002)


@needs_bwrap
def test_killing_its_group_is_enough(monkeypatch, boxed, killed):
    """Without what binds bubblewrap's processes to each other, which is not there from the beginning; and for one
    that has left the group."""
    inside = box.inside
    monkeypatch.setattr(running, "inside", lambda *a, **k: [w for w in inside(*a, **k) if w != "--die-with-parent"])
    begun = f"#(system \"setsid sh -c 'sleep 60; : {killed}'\")"
    with start(boxed, ("pdf",), backend="ps") as waiting:
        waiting.feed(Job(document=PAGE.format(scheme=begun, text="x")))
        assert timing.eventually(lambda: len(left(killed)) >= 4)  # bubblewrap's two, LilyPond's shell and its own


@needs_bwrap
def test_one_that_gives_no_answer_is_killed(monkeypatch, boxed, killed):
    """As LilyPond is tried in the sandbox."""
    monkeypatch.setattr(box, "_ANSWER_S", 0.1)
    assert box._run(boxed.sandbox, ["/bin/sleep", "60"], boxed.path) is None


# --- what is left behind, with the first wall removed: the parent reads it with bounds -------------------------


@pytest.fixture
def few(monkeypatch, tmp_path):
    """Temporary folders in a place of their own, and bounds so small that the tests are quick."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "temp"))
    (tmp_path / "temp").mkdir()
    yield tmp_path / "temp"
    assert list((tmp_path / "temp").iterdir()) == [], "nothing stays behind"


@whole
@both_ways
def test_folders_in_one_another_without_end(few, way):
    """Paths of 3,000 parts are too long for the system, and as many calls too deep for Python."""
    result = run(find(sandbox=way), NESTED)
    assert (result.ended, result.files) == ("flood", {})


@both_ways
def test_more_files_than_any_music_makes(monkeypatch, few, way):
    monkeypatch.setattr(output_files, "MAX_ENTRIES", 2000)
    result = run(find(sandbox=way), MANY)
    assert (result.ended, result.files) == ("flood", {})


@whole
@both_ways
def test_a_log_without_end(monkeypatch, few, way):
    """Only the ends of a log are read, and a run that never stops is ended."""
    monkeypatch.setattr(running, "LOG_BYTES", 4_000_000)
    floods = '#(let loop () (ly:warning "~a" (make-string 1000 #\\x)) (loop))'
    tracemalloc.start()
    result = run(find(sandbox=way), floods)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert result.ended == "flood"
    assert 0 < len(result.messages) <= 1000
    assert most < 20_000_000


GONE = '#(begin (chdir "..") (rename-file "work" "other"))'
LINKED = '#(begin (chdir "..") (rename-file "work" "other") (symlink "{path}" "work"))'


@pytest.mark.parametrize("scheme", [GONE, LINKED], ids=["gone", "linked"])
def test_a_working_folder_that_is_exchanged(tmp_path, few, free, scheme):
    """Possible without a sandbox: nothing is read from the link's target, and nothing is removed there."""
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "secret.pdf").write_text(SECRET)
    result = run(free, scheme.format(path=tmp_path / "own"))
    assert SECRET.encode() not in result.files.values()
    assert (tmp_path / "own" / "secret.pdf").exists()


def test_a_folder_of_a_run_that_is_taken_away(few, free):
    result = run(free, f'#(system "rm -rf {few}/*")')
    assert result.files == {}


def test_a_pipe_or_a_folder_with_the_name_of_a_page(few, free):
    result = run(free, '#(begin (mkdir "a.pdf") (system "mkfifo b.pdf"))')
    assert set(result.files) == {"page.pdf"}


@needs_bwrap
@pytest.mark.parametrize("part", sample(["sandbox", "*", "*/fonts"], 3))
def test_fonts_that_others_can_put_there_are_not_used(monkeypatch, tmp_path, part):
    monkeypatch.setenv("GESTURESMITH_CACHE", str(tmp_path / "cache"))
    assert find(sandbox="always").sandbox.fonts is not None
    place = tmp_path / "cache" / "sandbox"
    (place if part == "sandbox" else next(place.glob(part))).chmod(0o777)
    assert find(sandbox="always").sandbox.fonts is None
