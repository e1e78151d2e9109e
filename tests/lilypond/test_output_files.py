"""LilyPond's output in unreadable folders: nothing can hide in them, and none of it stays.

Root can read every folder, so a process of the user `nobody` does all this.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest

from gesturesmith.lilypond import output_files

# The child calls the system alone, and ends there.
pytestmark = pytest.mark.filterwarnings("ignore:.*use of fork:DeprecationWarning")

NOBODY = 65534
SHUT = (0o000, 0o100, 0o200, 0o300, 0o400, 0o500, 0o600)


@pytest.fixture
def place():
    """A folder of `nobody` in the system's temporary folder: those of pytest are only for their owner."""
    folder = Path(tempfile.mkdtemp(prefix="gesturesmith-shut-"))
    if os.geteuid() == 0:
        os.chown(folder, NOBODY, NOBODY)
    yield folder
    shutil.rmtree(folder, ignore_errors=True)


def as_nobody(work: Callable[[], bool]) -> bool:
    """The output of `work`, run by a process without privileges."""
    if os.geteuid() != 0:
        return work()
    child = os.fork()
    if child == 0:
        status = 2
        try:
            os.setgroups([])
            os.setgid(NOBODY)
            os.setuid(NOBODY)
            status = 0 if work() else 1
        finally:
            os._exit(status)
    status = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert status in (0, 1), "the work came to no end"
    return status == 0


def made(place: Path, mode: int) -> Path:
    """A working folder with unreadable folders: alone, beside files, and nested."""
    root = place / "run"
    for name in ("empty", "full", "deep/er/deepest", "work/in"):
        (root / name).mkdir(parents=True)
        (root / name / "page.pdf").write_text("x")
    (root / "empty" / "page.pdf").unlink()
    (root / "full" / "link").symlink_to(place)
    for name in ("empty", "full", "deep/er/deepest", "deep/er", "deep", "work/in"):
        (root / name).chmod(mode)
    return root


def is_shut(folder: Path) -> bool:
    """Whether somebody without rights of their own can do nothing, or not all, in it."""
    return not os.access(folder, os.R_OK | os.W_OK | os.X_OK)


@pytest.mark.parametrize("mode", SHUT, ids=oct)
def test_shut_folders_are_taken_away(place, mode):
    def work():
        root = made(place, mode)
        shut = is_shut(root / "full") and is_shut(root / "deep")
        output_files.remove(root)
        return shut and list(place.iterdir()) == []

    assert as_nobody(work)


@pytest.mark.parametrize("mode", SHUT, ids=oct)
def test_a_working_folder_that_is_shut_itself_is_taken_away(place, mode):
    def work():
        root = made(place, 0o700)
        (root / "work").chmod(mode)
        root.chmod(mode)
        output_files.remove(root)
        return list(place.iterdir()) == []

    assert as_nobody(work)


def test_what_a_link_leads_to_is_left_as_it_is(place):
    def work():
        kept = place / "kept"
        kept.mkdir(0o500)
        root = made(place, 0)
        (root / "in").symlink_to(kept)
        output_files.remove(root)
        there = kept.stat().st_mode & 0o777 == 0o500
        root.symlink_to(kept)
        output_files.remove(root)
        return there and root.is_symlink() and kept.stat().st_mode & 0o777 == 0o500

    assert as_nobody(work)


@pytest.mark.parametrize("mode", [0o000, 0o300, 0o600], ids=oct)
def test_nothing_is_hidden_in_a_folder_that_is_shut(place, mode):
    """A folder that can be written but not listed (0300) could fill the disk uncounted."""

    def work():
        root = made(place, 0o700)
        before = output_files.floods(root)
        (root / "full").chmod(mode)
        return not before and output_files.floods(root)

    assert as_nobody(work)


def test_folders_too_deep_in_one_another_are_a_flood(tmp_path):
    """LilyPond makes none; sixteen are allowed."""
    deepest = tmp_path.joinpath(*["f"] * 16)
    deepest.mkdir(parents=True)
    assert not output_files.floods(tmp_path)
    (deepest / "f").mkdir()
    assert output_files.floods(tmp_path)


def test_folders_that_come_and_go_are_no_flood(place, monkeypatch):
    def work():
        root = made(place, 0o700)
        gone = output_files.Path

        def taken_meanwhile(path):
            output_files.remove(root / "full")
            return gone(path)

        monkeypatch.setattr(output_files, "Path", taken_meanwhile)
        return not output_files.floods(root)

    assert as_nobody(work)
