"""Whatever stops a run, every file is complete, either old or new, and the next run finishes the work.

Runs are killed at random moments (`make soak`: many) and at each step that touches a file; the disk is full at each
of them; files cannot grow beyond some size; the run is told to end.
"""

from __future__ import annotations

import errno
import hashlib
import itertools
import json
import os
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
import timing
from sampling import SOAK, count

from gesturesmith.cli.main import main
from gesturesmith.writers.base import is_ours

pytestmark = pytest.mark.lilypond

KILLS = count(3, 6, 100)
FORMATS = "pdf,svg,png,ily,ly"
PART = re.compile(r"\..*\.part")
FILE = """instrument: horn
pitches: written
title: "{version} {number}"
gesture call "{version}"
  contour: C4, {note}
"""
BEGINNINGS = {".pdf": b"%PDF-", ".svg": b"<", ".png": b"\x89PNG", ".ly": b"% ", ".ily": b"% ", ".json": b"{"}
ENDINGS = {
    ".pdf": b"]\n",
    ".svg": b"</svg>\n",
    ".png": b"IEND\xaeB`\x82",
    ".json": b"}\n",
}


def command(version: str, out: Path | str = "out", *more: str) -> list[str]:
    return ["engrave", "-o", str(out), "--as", FORMATS, "--manifest", f"{out}/manifest.json", *more, version]


def program(*arguments: str, **more) -> subprocess.Popen[bytes]:
    devnull = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    return subprocess.Popen([sys.executable, "-m", "gesturesmith.cli.main", *arguments], **(devnull | more))


def status_of(process: subprocess.Popen[bytes]) -> int:
    timing.ended(process)
    return process.returncode


def hashes(folder: Path) -> dict[str, str]:
    """SHA-256 of every file by its place."""
    return {
        str(p.relative_to(folder)): hashlib.sha256(p.read_bytes()).hexdigest()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }


def check_whole(folder: Path, *versions: dict[str, str]) -> None:
    """Each file is that of one of the versions, or hidden beside its place. A manifest may report failures."""
    for place, found in hashes(folder).items():
        if place == "manifest.json" and found not in [v.get(place) for v in versions]:
            assert any("failed" in source for source in json.loads((folder / place).read_bytes())["sources"])
        elif not PART.fullmatch(Path(place).name):
            assert found in [v.get(place) for v in versions], place


@pytest.fixture(scope="module")
def scene(tmp_path_factory):
    """A folder with two versions of six files; the outputs of each, by place and hash, and the time taken."""
    folder = tmp_path_factory.mktemp("killed")
    (folder / "temp").mkdir()
    for version, note in (("old", "G4"), ("new", "E4")):
        (folder / version).mkdir()
        for number in range(6):
            text = FILE.format(version=version, number=number, note=note)
            (folder / version / f"study{number}.gesture").write_text(text)
    made, took = {}, {}
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        patch.setenv("GESTURESMITH_CACHE", str(folder / "cache"))
        patch.setenv("TMPDIR", str(folder / "temp"))
        for version in ("old", "new"):
            status, took["--force"] = timing.clocked(lambda: status_of(program(*command(version))))  # noqa: B023
            assert status == 0
            made[version] = hashes(folder / "out")
        status, took[""] = timing.clocked(lambda: status_of(program(*command("old"))))
        assert status == 0
        took["--no-cache"] = took["--force"]
        yield folder, made, took


def test_what_is_made_is_whole(scene):
    folder, made, _ = scene
    assert set(made["old"]) == set(made["new"])
    # A page and a snippet as PDF and LilyPond, SVG, PNG, music to include and its stencils; and the manifest.
    assert len(made["old"]) == 6 * 8 + 1
    assert all(made["old"][place] != made["new"][place] for place in made["old"] if "gesturesmith.ily" not in place)
    for path in (p for p in (folder / "out").rglob("*") if p.is_file()):
        data = path.read_bytes()
        assert data.startswith(BEGINNINGS[path.suffix]), path
        assert data.endswith(ENDINGS.get(path.suffix, b"\n")), path
        assert is_ours(data), path


@pytest.mark.parametrize("sent", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT], ids=["kill", "term", "int"])
def test_stopped_at_any_moment(scene, sent):
    """With LilyPond at work, and with everything cached, when most of the time is spent writing."""
    _, made, took = scene
    out = Path("out")
    for number in range(KILLS if sent == signal.SIGKILL else KILLS // 3):
        before, after = ("old", "new") if hashes(out) == made["old"] else ("new", "old")
        how = "--no-cache" if number % 2 else ""
        process = program(*command(after, out, *([how] if how else [])))
        time.sleep(random.Random(number).uniform(0.1, 1.0) * took[how])
        process.send_signal(sent)
        assert status_of(process) in (0, -sent, 128 + sent)
        check_whole(out, made[before], made[after])
        assert status_of(program(*command(after))) == 0
        assert hashes(out) == made[after]


# --- at each step -------------------------------------------------------------------------------------------


def kill() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def fill() -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


# Python's audit events (docs.python.org/3/library/audit_events.html); of `open`, those that write.
STEPS = ("os.rename", "os.link", "os.remove", "os.mkdir", "open")
NO_MORE_STEPS = 100


def broken(arguments, at=-1, how=kill, largest=resource.RLIM_INFINITY) -> int:
    """The status of a command whose step number `at` fails, with a limit on file size; `NO_MORE_STEPS` if there
    were fewer steps. Runs in a forked process with all modules loaded."""
    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    status = 99
    try:
        sys.stdout = sys.stderr = open(os.devnull, "w")  # noqa: SIM115
        steps = itertools.count()

        def step(event, values):
            writes = event != "open" or (isinstance(values[0], str) and values[2] & os.O_ACCMODE != os.O_RDONLY)
            if event in STEPS and writes and next(steps) == at:
                how()

        sys.addaudithook(step)
        resource.setrlimit(resource.RLIMIT_FSIZE, (largest, resource.RLIM_INFINITY))
        if how is kill:  # by the size as well: in the middle of writing
            signal.signal(signal.SIGXFSZ, signal.SIG_DFL)
        status = main(arguments)
        if at >= 0 and next(steps) <= at:
            status = NO_MORE_STEPS
    finally:
        os._exit(status)


COMMANDS = {
    "engrave": ["engrave", "--as", "ily,ly", "--manifest", "manifest.json", "a.gesture", "b.gesture"],
    "suggest": ["suggest", "--apply", "a.gesture", "b.gesture"],
    "format": ["format", "a.gesture", "b.gesture"],
    "new": ["new", "fresh"],
}
APART = {"engrave": 1 if SOAK else 7}  # steps skipped between those that fail


@pytest.fixture
def small(tmp_path, monkeypatch):
    """A folder with two unformatted, partly refused files, and another one to work in."""
    monkeypatch.setenv("GESTURESMITH_CACHE", str(tmp_path / "cache"))
    (tmp_path / "start").mkdir()
    (tmp_path / "work").mkdir()
    text = FILE.format(version="new", number=1, note="E4") + "gesture beyond\n  contour:   G6\n"
    for name in ("a", "b"):
        (tmp_path / "start" / f"{name}.gesture").write_text(text)
    monkeypatch.chdir(tmp_path / "work")
    return tmp_path


def begin_again(folder):
    os.chdir(folder)
    for name in ("work", "cache"):
        shutil.rmtree(name, ignore_errors=True)
    shutil.copytree("start", "work")
    os.chdir("work")


def completed(name) -> int:
    """`new` does not overwrite what it wrote before it was killed."""
    return main(COMMANDS[name]) if name != "new" or not Path("fresh.gesture").exists() else main(["new", "other"])


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("how", [kill, fill])
def test_broken_at_each_step(small, name, how):
    begin_again(small)
    assert completed(name) in (0, 1)  # one gesture is refused
    begun, complete = hashes(small / "start"), hashes(Path())
    assert begun != complete
    for at in itertools.count(step=APART.get(name, 1)):
        begin_again(small)
        status = broken(COMMANDS[name], at, how)
        check_whole(Path(), begun, complete)
        if status == NO_MORE_STEPS:
            assert at > 2
            return
        assert status == -signal.SIGKILL if how is kill else status in (0, 1, 3), at
        assert completed(name) in (0, 1)
        Path("other.gesture").unlink(missing_ok=True)
        assert hashes(Path()) == complete, at


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("how", [kill, fill])
@pytest.mark.parametrize("largest", [0, 1, 150, 1000, 4096])
def test_a_file_that_cannot_be_written_whole(small, name, how, largest):
    """The machine stops the write, or us, in the middle."""
    begin_again(small)
    completed(name)
    begun, complete = hashes(small / "start"), hashes(Path())
    fits = all(p.stat().st_size <= largest for p in Path().iterdir() if p.is_file())
    begin_again(small)
    status = broken(COMMANDS[name], how=how, largest=largest)
    check_whole(Path(), begun, complete)
    if how is fill:
        assert not [p for p in hashes(Path()) if p.endswith(".part")]
    if fits and name != "engrave":
        assert status in (0, 1)
    else:
        assert status == (3 if how is fill else -signal.SIGXFSZ)
    completed(name)
    Path("other.gesture").unlink(missing_ok=True)
    assert hashes(Path()) == complete


@pytest.mark.skipif(shutil.which("bwrap") is None, reason="bubblewrap, which makes small disks, is not installed")
@pytest.mark.parametrize("room", [20_000, 600_000])
def test_a_small_disk(scene, room):
    """Not enough for one file, or for some of them: the outputs of a file are complete or absent."""
    folder, made, _ = scene
    arguments = [sys.executable, "-m", "gesturesmith.cli.main", *command("new", "disk/out", "--sandbox", "never")]
    (folder / "disk").mkdir(exist_ok=True)
    (folder / "found").mkdir()
    seen = timing.run(
        ["bwrap", "--dev-bind", "/", "/", "--size", str(room), "--tmpfs", str(folder / "disk"), "--",
         "sh", "-c", '"$@"; status=$?; cp -r disk/. found; exit $status', "sh", *arguments], text=True
    )  # fmt: skip
    assert seen.returncode == 3
    assert "the disk is full" in seen.stderr
    there = hashes(folder / "found" / "out")
    shutil.rmtree(folder / "found")
    there.pop("manifest.json", None)  # reports the failures
    assert all(found == made["new"][place] for place, found in there.items())
    assert (room < 300_000) == (not there)


# --- what is never overwritten ------------------------------------------------------------------------------


@pytest.mark.parametrize("how", ["same", "hard", "soft"])
@pytest.mark.parametrize("which", ["a.gesture", "own.toml", "b.gesture"])
def test_no_input_is_written_over(small, how, which, capsys):
    """Not under its own name, nor through a link at an output's place; not even by force."""
    begin_again(small)
    Path("own.toml").write_text('instrument_profile = 1\nbased_on = "horn"\n# Made by Gesturesmith\n')
    for name in ("a.gesture", "b.gesture"):
        path = Path(name)
        path.write_text(path.read_text().replace("horn", '"own.toml"') + "# Made by Gesturesmith\n")
    before = hashes(Path())
    place = Path(which)
    if how != "same":
        Path("out").mkdir()
        place = Path("out", "a.ly")
        place.hardlink_to(which) if how == "hard" else place.symlink_to(Path("..", which))
    for force in ([], ["--force"]):
        capsys.readouterr()
        main(["engrave", "--as", "ly", "--manifest", str(place), "a.gesture", "b.gesture", *force])
        assert {name: hashes(Path())[name] for name in before} == before
        assert "is one of the input files" in capsys.readouterr().err


def test_a_manifest_is_not_written_over_a_page(small, capsys):
    begin_again(small)
    main(["engrave", "--as", "ly", "--manifest", "out/a.ly", "a.gesture", "--force"])
    assert "is one of the outputs" in capsys.readouterr().err
    assert Path("out/a.ly").read_text().startswith("% Made by")
