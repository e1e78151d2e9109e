"""A cluster of two workers on this machine, one of which is killed in the middle: nothing lost, nothing double.

All in other processes: the cluster library leaves threads behind that would disturb other tests.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
import timing
from batch.conftest import everything, gestures
from sampling import whole

from gesturesmith.batch.render import RenderTask, render_on_worker
from gesturesmith.cache import fingerprint
from gesturesmith.lilypond import LilyPond, MissingLilyPond, find

pytestmark = pytest.mark.lilypond

FILES, EACH = 12, 5
LINES = ("C5, G4", "G4 ~~ C5", "E4 -- G4")


@pytest.fixture
def cluster(own_cache) -> Iterator[tuple[str, list[int]]]:
    """The address of the scheduler, and the process ids of the two workers."""
    script = Path(__file__).with_name("cluster.py")
    with subprocess.Popen(
        [sys.executable, script],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    ) as process:
        address, *workers = process.stdout.readline().split()
        yield address, [int(pid) for pid in workers]
        timing.ended(process)


def engrave(folder: Path, output: str, *more: str) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "gesturesmith.cli.main", "engrave", "--as", "pdf", "--no-cache", "parts"]
    return subprocess.Popen(
        [*command, "-o", output, *more], cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


@whole
def test_one_of_two_workers_is_killed_in_the_middle(cluster, tmp_path):
    """When the first file is delivered, a worker is killed, with its current and finished work."""
    address, workers = cluster
    (tmp_path / "parts").mkdir()
    for part in range(FILES):
        some = {f"g{chr(97 + n)}": LINES[(part + n) % 3] for n in range(EACH)}
        (tmp_path / "parts" / f"part{part}.gesture").write_text(gestures(**some))
    far = engrave(tmp_path, "far", "--cluster", address)
    assert timing.eventually(lambda: list((tmp_path / "far").glob("*.pdf")) or far.poll() is not None)
    assert far.poll() is None  # it is in the middle
    os.kill(workers[0], signal.SIGKILL)
    out, err = timing.ended(far)
    assert (far.returncode, err) == (0, "")
    assert f"\ntotal: {FILES} made, 0 unchanged, 0 refused, 0 failed" in out
    here = engrave(tmp_path, "here")
    timing.ended(here)
    assert here.returncode == 0
    assert len(everything(tmp_path / "far")) == FILES * (1 + EACH)
    assert everything(tmp_path / "far") == everything(tmp_path / "here")


def test_a_worker_that_would_make_other_files_makes_none(monkeypatch):
    own = find()
    assert isinstance(own, LilyPond)
    like = (own.version, own.cairo)
    nothing = RenderTask(formats=("pdf",), books=())
    monkeypatch.setattr("gesturesmith.batch.render._none", lambda task, why: why)
    right = {"program": fingerprint(), "like": like, "sandbox": "auto"}
    assert "a different version of Gesturesmith" in render_on_worker(nothing, **right | {"program": "other"})
    assert "a different LilyPond (2.25.12, not 2.24.0" in render_on_worker(
        nothing, **right | {"like": ((2, 24, 0), True)}
    )
    monkeypatch.setattr(
        "gesturesmith.batch.render.find", lambda sandbox: MissingLilyPond("There is none.\nGet one.")
    )
    assert render_on_worker(nothing, **right) == "a cluster worker has no LilyPond: There is none."
