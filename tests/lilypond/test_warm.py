"""A LilyPond that stays: its pictures are those of one that begins anew, and whatever one fork does ends that fork.

The hostile Scheme is that of `security/scheme.py`, passed unchanged.
"""

from __future__ import annotations

import os
import tempfile
import threading
from pathlib import Path

import pytest
import timing
from security.scheme import FORKS, MANY, NESTED, PROCESS, READS, SECRET, WRITES, both_ways, left, needs_bwrap

from gesturesmith import writers
from gesturesmith.lilypond import Job, LilyPondPool, failure, find, output_files, start
from gesturesmith.lilypond import sandbox as box
from gesturesmith.lilypond import warm as warming
from gesturesmith.lilypond.head import head, ready_head
from gesturesmith.lilypond.pool import _MOST_LOST
from gesturesmith.lilypond.warm import WarmLilyPond, stays
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

pytestmark = [
    pytest.mark.lilypond,
    pytest.mark.skipif(not stays(find(sandbox="never")), reason="LilyPond cannot stay here: no Linux or no cairo"),
]

FORMATS = ("pdf", "svg")
TEXT = """instrument: horn
pitches: written

gesture a
  technique: half-valve
  band: G4..F5
  contour: xG4 ~~ xD5@2 ~~ xB4@3 ~~ xF5@4
  lasts: 4 beats
  dynamics: p < f@3 > p

gesture b
  contour: C4, E4, G4
  dynamics: ff
"""


@pytest.fixture(scope="module")
def items():
    return compile_text(Source("a.gesture", TEXT), Options(formats=FORMATS, pages=False)).items


@pytest.fixture(scope="module")
def pools():
    """A pool for each way, whose LilyPond stays, started once."""
    made: dict[str, LilyPondPool] = {}

    def pool(way: str) -> LilyPondPool:
        if way not in made:
            made[way] = LilyPondPool(find(sandbox=way))
        made[way].ready(FORMATS)
        return made[way]

    yield pool
    for one in made.values():
        one.close()


def number_of(pool):
    return pool._warm[FORMATS]._run.process.pid


def finished(items, run):
    return [writers.get(kind).finish(item, run.file(item.output, kind)) for item in items for kind in FORMATS]


def run(pool, scheme, *, seconds=30.0, lives=True):
    """What comes of some Scheme before a picture; and that the LilyPond that stays is still the same one."""
    pool.ready(FORMATS)
    warm = pool._warm[FORMATS]
    text = f'{scheme}\n\\book {{ \\bookOutputName "page" \\markup "x" }}\n'
    result = pool.one(FORMATS, Job(document=head() + text, timeout_s=seconds))
    assert pool._warm[FORMATS] is warm, "it was not another that answered"
    assert pool._lost == 0
    assert lives is None or warm.lives == lives
    return result


def said(result):
    return " ".join(m.text for m in result.messages)


@both_ways
def test_the_same_pictures_as_one_that_begins_anew(pools, items, way):
    """One after another, and both in one document, to the byte."""
    pool = pools(way)
    documents = [head() + item.book for item in items] + [head() + "".join(item.book for item in items)]
    for some, document in zip(([items[0]], [items[1]], items), documents, strict=True):
        with start(find(sandbox=way), FORMATS) as anew:
            anew.feed(Job(document=document))
            cold = anew.result()
        for _ in range(2):
            run = pool.one(FORMATS, Job(document=document))
            assert (run.ended, run.messages) == ("", ())
            assert finished(some, run) == finished(some, cold)
    assert pool._lost == 0


WRONG = [
    ("\\nosuch { c }", "failed", "unknown command"),
    ('#(error "boom")', "failed", "Guile signaled an error"),
    ("\\book { \\score { { \\override NoteHead.stencil = #(lambda (g) (car (list))) c1 } } }", "failed", "car"),
    ("#(exit 3)", "failed", "quit"),
    ("\\book { \\score { { c4 ", "failed", "end of input"),
    # A crash, by writing where there is nothing.
    ("#(bytevector-u8-set! (pointer->bytevector (make-pointer 8) 8) 0 1)", "stopped", ""),
    ("#(begin (close-fdes 1) (close-fdes 0))", "", ""),
    ('#(begin (display "ok\\nok\\n") (force-output))', "", ""),
    ("#(begin (set! gs:filter #f) (set! gs:engrave #f))", "", ""),
    ("#(kill (getppid) SIGKILL)", "failed", "not permitted"),
    ("#(kill -1 SIGKILL)", "failed", "not permitted"),
    ("#(setrlimit 'cpu 1 1)", "", ""),  # its own
]


@both_ways
@pytest.mark.parametrize(("text", "ended", "word"), WRONG)
def test_what_goes_wrong_ends_that_one_only(pools, way, text, ended, word):
    pool = pools(way)
    found = run(pool, text)
    assert found.ended == ended
    assert word in said(found)
    assert run(pool, "").file("page", "svg")


def test_the_place_of_a_mistake_is_told(pools):
    document = head() + "% gesture good\n\n% gesture wrong\n\\nonsense\n"
    found = pools("never").one(FORMATS, Job(document=document))
    assert failure(document, found.messages, found.ended).gesture == "wrong"


@both_ways
def test_what_never_ends_is_ended(pools, way):
    """By its own alarm; if it has switched that off, by its processor time, or with the one it comes from where it
    gets so little that this takes longer."""
    pool = pools(way)
    assert run(pool, "#(let loop () (loop))", seconds=1).ended == "timeout"
    assert run(pool, "").file("page", "svg")
    assert run(pool, "#(begin (alarm 0) (let loop () (loop)))", seconds=1, lives=None).ended == "timeout"
    assert run(pool, "").file("page", "svg")
    sleeps = "#(begin (alarm 0) (let loop () (usleep 100000) (loop)))"
    assert run(pool, sleeps, seconds=1, lives=False).ended == "timeout"
    assert run(pool, "").file("page", "svg")


@needs_bwrap
def test_a_home_is_not_read(tmp_path_factory, monkeypatch, pools):
    home = tmp_path_factory.mktemp("home")
    (home / "secret.txt").write_text(SECRET)
    monkeypatch.setenv("HOME", str(home))
    reads = READS.format(path=home / "secret.txt")
    assert SECRET in said(run(pools("never"), reads)), "outside it does its harm"
    assert SECRET not in said(run(pools("always"), reads))


@needs_bwrap
@pytest.mark.parametrize("scheme", [WRITES, PROCESS, FORKS], ids=["writes", "process", "forks"])
def test_nothing_is_written_outside(tmp_path, pools, scheme):
    run(pools("always"), scheme.format(path=tmp_path / "mark"))
    assert not (tmp_path / "mark").exists()


@both_ways
def test_no_process_begins(pools, way):
    """Recorded in the working folder, where a process that started could write."""
    process = (
        '#(begin (system "echo begun > seen") '
        '(catch #t (lambda () (if (= 0 (primitive-fork)) (primitive-exit 0)) (ly:warning "forked")) '
        '(lambda e (ly:warning "not forked"))) (ly:warning "seen: ~a" (file-exists? "seen")))'
    )
    text = said(run(pools(way), process))
    assert "not forked" in text
    assert "seen: #f" in text


@needs_bwrap
def test_no_fork_looks_into_where_it_comes_from(pools):
    """Whose pipes and memory it would reach by these; what belongs to itself it may open."""
    opens = (
        '#(for-each (lambda (path) (catch #t (lambda () (open-file path "r") (ly:warning "opened ~a" path)) '
        '(lambda e (ly:warning "not ~a" path)))) (list (format #f "/proc/~a/mem" (getppid)) '
        '(format #f "/proc/~a/fd/1" (getppid)) "body.ly"))'
    )
    text = said(run(pools("always"), opens))
    assert text.count("not /proc") == 2
    assert "opened body.ly" in text


@both_ways
def test_no_limits_of_others_are_set(pools, way):
    """prlimit64 on the one it comes from (302 on x86-64, 261 on ARM), which would end it."""
    sets = (
        "#(use-modules (system foreign))\n"
        '#(ly:warning "gave ~a" ((pointer->procedure int (dynamic-func "prlimit" (dynamic-link)) '
        "(list int int '* '*)) (getppid) 0 (bytevector->pointer (make-bytevector 16 0)) %null-pointer))"
    )
    assert "gave -1" in said(run(pools(way), f"#(use-modules (rnrs bytevectors))\n{sets}"))


def test_its_limits_are_those_of_every_run(pools):
    limits = "#(ly:warning \"~a ~a ~a\" (getrlimit 'cpu) (getrlimit 'as) (getrlimit 'core))"
    pool = pools("never")
    warm = said(run(pool, limits, seconds=20))
    with start(find(sandbox="never"), FORMATS) as anew:
        anew.feed(Job(document=f'\\version "2.24.0"\n{limits}\n\\book {{ \\markup "x" }}'))
        cold = said(anew.result())
    assert cold.replace(str(box.CPU_S), "20") == warm


@pytest.mark.parametrize(
    ("scheme", "way"), [(MANY, "never"), pytest.param(NESTED, "always", marks=needs_bwrap)], ids=["many", "nested"]
)
def test_more_than_music_needs(monkeypatch, pools, way, scheme):
    monkeypatch.setattr(output_files, "MAX_ENTRIES", 2000)
    pool = pools(way)
    result = run(pool, scheme, lives=None)
    assert (result.ended, result.files) == ("flood", {})
    assert run(pool, "").file("page", "svg")


def test_a_log_without_end(monkeypatch, pools):
    monkeypatch.setattr(warming, "LOG_BYTES", 4_000_000)
    pool = pools("never")
    floods = '#(let loop () (ly:warning "~a" (make-string 1000 #\\x)) (loop))'
    assert run(pool, floods, lives=False).ended == "flood"
    assert said(run(pool, "")) == "", "what one said is not the next one's"


def test_what_one_leaves_behind_the_next_does_not_find(pools, items):
    """A file beside its folder ends the one that stays, and goes with it."""
    pool = pools("never")
    place = pool._warm[FORMATS]._folder
    result = run(pool, '#(with-output-to-file "../page.svg" (lambda () (display 1)))', lives=False)
    assert result.file("page", "svg").startswith(b"<?xml")
    assert not place.exists()


def test_a_link_is_not_followed(tmp_path, pools):
    (tmp_path / "secret.svg").write_text(SECRET)
    result = run(pools("never"), f'#(symlink "{tmp_path / "secret.svg"}" "stolen.svg")')
    assert "stolen.svg" not in result.files


@both_ways
def test_the_newest_wish_ends_the_one_before(pools, items, way):
    """While it works, and before it has begun to."""
    pool = pools(way)
    found = []
    endless = Job(document=head() + "#(let loop () (loop))\n", timeout_s=60)
    threads = [threading.Thread(target=lambda: found.append(pool.newest(FORMATS, endless))) for _ in range(2)]
    pid = number_of(pool)
    patience = timing.Patience(20)
    for thread in threads:
        thread.start()
        assert timing.eventually(lambda: pool._newest[1] is not None)
    run = pool.newest(FORMATS, Job(document=head() + items[0].book))
    for thread in threads:
        thread.join(timing.PATIENCE_S)
    assert patience.left()
    assert found == [None, None]
    assert run.file(items[0].output, "svg")
    pool.ready(FORMATS)
    assert number_of(pool) == pid


def test_one_that_was_killed_is_replaced(pools, items):
    """The job that finds it dead is done by another; after that one stays again."""
    pool = LilyPondPool(find(sandbox="never"))
    job = Job(document=head() + items[0].book)
    with pool:
        pool.ready(FORMATS)
        assert pool.one(FORMATS, job).files
        pool._warm[FORMATS]._run.process.kill()
        pool._warm[FORMATS]._run.process.wait()
        assert pool.one(FORMATS, job).files
        before = pool._warm[FORMATS]
        pool.ready(FORMATS)
        assert pool._warm[FORMATS] is not before
        assert pool.one(FORMATS, job).files
        assert pool._warm[FORMATS].lives


def test_where_it_cannot_start_one_waits_for_each_job(monkeypatch, tmp_path, items):
    """As on a system without these calls."""
    server = tmp_path / "warm.ly"
    server.write_text('#(error "not here")\n')
    monkeypatch.setattr(warming, "server", lambda: server)
    with LilyPondPool(find(sandbox="never")) as pool:
        for _ in range(_MOST_LOST):
            pool.ready(FORMATS)
            with pytest.raises(warming.LostLilyPond):
                pool._engaged(FORMATS, 0).run(Job(document=head()))
            pool._lost += 1
        pool.ready(FORMATS)
        assert [(formats, one.waits) for formats, one in pool._waiting] == [(FORMATS, True)]
        assert pool.one(FORMATS, Job(document=head() + items[0].book)).files


def test_nothing_is_left_of_it(monkeypatch, tmp_path, items):
    """Neither a process nor a folder, at whatever moment it is ended."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    for way in ("always", "never") if Path("/usr/bin/bwrap").exists() else ("never",):
        with LilyPondPool(find(sandbox=way)) as pool:
            pool.ready(FORMATS)
            endless = Job(document=head() + "#(let loop () (loop))\n")
            thread = threading.Thread(target=pool.newest, args=(FORMATS, endless))
            thread.start()
            assert timing.eventually(lambda pool=pool: pool._newest[1] is not None)
        thread.join(timing.PATIENCE_S)
        with WarmLilyPond(find(sandbox=way), FORMATS, ready_head(None)):
            pass
    assert timing.eventually(lambda: not left(tmp_path))
    assert os.listdir(tmp_path) == []


def private_mb(pid: int) -> float:
    rows = (row.split(":") for row in Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines() if "kB" in row)
    return int(dict(rows)["Private_Dirty"].split()[0]) / 1024


def test_its_memory_does_not_grow(pools, items):
    pool = pools("never")
    job = Job(document=head() + items[0].book)
    sizes = []
    for number in range(24):
        assert pool.one(FORMATS, job).files
        if number >= 3:
            sizes.append(private_mb(number_of(pool)))
    assert sizes[-1] - sizes[0] < 0.5
