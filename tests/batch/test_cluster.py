"""A cluster of two workers on this machine, one of which is killed in the middle: nothing lost, nothing double."""

from __future__ import annotations

import os
import signal
from dataclasses import replace

import pytest
from batch.conftest import everything, gestures, work

from gesturesmith.batch import run
from gesturesmith.batch.press import Task, press_there
from gesturesmith.cache import Store, fingerprint
from gesturesmith.lilypond import LilyPond, Missing, find

pytestmark = pytest.mark.lilypond

COUNT = 60
MANY = {f"g{chr(97 + n // 26)}{chr(97 + n % 26)}": ("C5, G4", "G4 ~~ C5", "E4 -- G4")[n % 3] for n in range(COUNT)}


@pytest.fixture(scope="module")
def cluster(own_cache):
    """Two workers of one thread each, in processes of their own."""
    from distributed import LocalCluster

    with LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=60
    ) as found:
        yield found


@pytest.fixture
def far(setup, cluster):
    return replace(setup, lilypond=find(), cluster=cluster.scheduler_address)


def test_one_of_two_workers_is_killed_in_the_middle(far, cluster, tmp_path, monkeypatch):
    """Ten files of six gestures; when the first is delivered, a worker goes, with what it makes."""
    monkeypatch.setattr("gesturesmith.batch.crew._MOST", 10)
    names = list(MANY)
    parts = [gestures(**{n: MANY[n] for n in names[k : k + 6]}) for k in range(0, COUNT, 6)]
    works = tuple(work(text, f"part{k}") for k, text in enumerate(parts))
    done = []
    for one in run(works, far):
        if not done:
            busy = next(w.address for w in cluster.scheduler.workers.values() if w.processing)
            os.kill(next(w.pid for w in cluster.workers.values() if w.worker_address == busy), signal.SIGKILL)
        done.append(one)
    assert [d.work.name for d in done] == [w.name for w in works]
    assert all(d.whole for d in done)
    written = [path for d in done for path in d.written]
    assert len(written) == len(set(written)) == 10 + 2 * COUNT
    here = replace(far, cluster=None, output=tmp_path / "here", store=Store(tmp_path / "other"))
    assert all(d.whole for d in run(works, here))
    assert everything(far.output) == everything(here.output)


def test_what_fails_there_is_named_as_well(far, monkeypatch):
    from gesturesmith.engrave import score

    text = score.text

    def broken(plan, name, *more):
        made = text(plan, name, *more)
        return made.replace("d''", r"\once \override NoteHead.stencil = #(lambda (g) (car '())) d''")

    monkeypatch.setattr(score, "text", broken)
    (done,) = run((work(gestures(good="C5", bad="D5", fine="G4"), formats=("svg",)),), far)
    assert [f.gesture for f in done.failures] == ["bad"]
    assert sorted(p.name for p in done.written) == ["fine.svg", "good.svg"]


def test_where_no_cluster_answers(setup, monkeypatch):
    from gesturesmith.batch import executors

    monkeypatch.setattr(executors, "_ANSWER_S", 1)
    with pytest.raises(OSError, match="no cluster answers"):
        list(run((work(gestures(a="C5")),), replace(setup, lilypond=find(), cluster="tcp://127.0.0.1:9")))
    assert not setup.output.exists()


def test_a_worker_that_would_make_other_files_makes_none(monkeypatch):
    own = find()
    assert isinstance(own, LilyPond)
    like = (own.version, own.cairo)
    nothing = Task(formats=("pdf",), books=())
    monkeypatch.setattr("gesturesmith.batch.press._none", lambda task, why: why)
    right = {"program": fingerprint(), "like": like, "sandbox": "auto"}
    assert "another version of Gesturesmith" in press_there(nothing, **right | {"program": "other"})
    assert "another LilyPond (2.25.12, not 2.24.0" in press_there(nothing, **right | {"like": ((2, 24, 0), True)})
    monkeypatch.setattr("gesturesmith.batch.press.find", lambda sandbox: Missing("There is none.\nGet one."))
    assert press_there(nothing, **right) == "a worker of the cluster has no LilyPond: There is none."
