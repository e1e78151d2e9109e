"""`watch`: what is made when, and that it ends."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import click
import pytest
from cli.conftest import GOOD, HIGH
from timing import Patience, ended

from gesturesmith.cli.engrave import engrave
from gesturesmith.cli.input_files import InputFiles
from gesturesmith.cli.watch import POLL_S, REST_S, follow, watch

CHANGED = GOOD.replace("G4", "A4")


class Watched:
    """A watched folder. Each step is done as soon as nothing is left to do; the last ends the watch.

    made    what was made: the files, and whether with pages
    unread  the messages about files that could not be read
    """

    def __init__(self, *steps: Callable[[], None], uses: tuple[Path, ...] = ()) -> None:
        self._steps = list(steps)
        self._uses = uses
        self._waits = 0
        self.made: list[tuple[tuple[str, ...], bool]] = []
        self.unread: list[str] = []

    def make(self, found: InputFiles, pages: bool) -> tuple[SimpleNamespace, ...]:
        self.made.append((tuple(source.name for _, source in found.read), pages))
        self.unread += [one.message for one in found.unread]
        self._waits = 0
        sources = [source for _, source in found.read]
        return tuple(SimpleNamespace(build=SimpleNamespace(sources=(s,)), reads=self._uses) for s in sources)

    def wait(self, seconds: float) -> None:
        self._waits += 1
        if self._waits > 2 * REST_S / POLL_S:
            self._waits = 0
            if not self._steps:
                raise KeyboardInterrupt
            self._steps.pop(0)()

    def follow(self, *named: str, pages: bool = True) -> Watched:
        with pytest.raises(KeyboardInterrupt):
            follow(named, self.make, pages=pages, wait=self.wait)
        return self


def test_all_is_made_first_and_then_what_changes_snippets_before_pages(here):
    (here / "a.gesture").write_text(GOOD)
    (here / "b.gesture").write_text(GOOD)
    watched = Watched(lambda: (here / "b.gesture").write_text(CHANGED)).follow("a.gesture", "b.gesture")
    both, one = ("a.gesture", "b.gesture"), ("b.gesture",)
    assert watched.made == [(both, False), (both, True), (one, False), (one, True)]


def test_without_pages_only_snippets_are_made(here):
    (here / "a.gesture").write_text(GOOD)
    assert Watched().follow("a.gesture", pages=False).made == [(("a.gesture",), False)]


def test_a_file_that_is_replaced_or_new_in_a_folder_is_made(here):
    folder = here / "piece"
    folder.mkdir()
    (folder / "a.gesture").write_text(GOOD)

    def replaced() -> None:
        (folder / "saved").write_text(GOOD)
        (folder / "saved").replace(folder / "a.gesture")

    watched = Watched(replaced, lambda: (folder / "b.gesture").write_text(GOOD)).follow("piece", pages=False)
    a, b = os.path.join("piece", "a.gesture"), os.path.join("piece", "b.gesture")
    assert watched.made == [((a,), False), ((a,), False), ((b,), False)]


def test_a_file_is_made_again_when_its_profile_changes(here):
    (here / "a.gesture").write_text(GOOD)
    profile = here / "mine.toml"
    watched = Watched(lambda: profile.write_text("x"), uses=(profile,)).follow("a.gesture", pages=False)
    assert len(watched.made) == 2


def test_a_file_that_goes_is_told_once_and_made_when_it_is_back(here):
    place = here / "a.gesture"
    place.write_text(GOOD)
    (here / "b.gesture").write_text(GOOD)
    steps = (place.unlink, lambda: (here / "b.gesture").write_text(CHANGED), lambda: place.write_text(GOOD))
    watched = Watched(*steps).follow("a.gesture", "b.gesture", pages=False)
    assert [files for files, _ in watched.made] == [("a.gesture", "b.gesture"), (), ("b.gesture",), ("a.gesture",)]
    assert len(watched.unread) == 1


def test_what_is_still_being_written_is_waited_for(here):
    place = here / "a.gesture"
    place.write_text(GOOD)
    watched = Watched()
    wait, slow = watched.wait, iter((HIGH, CHANGED))

    def writing(seconds: float) -> None:
        wait(seconds)
        text = next(slow, None)
        if text is not None:
            place.write_text(text)

    watched.wait = writing  # type: ignore[method-assign]
    assert watched.follow("a.gesture", pages=False).made == [(("a.gesture",), False)]


def test_it_has_the_options_of_engrave_that_it_can_use(here, run):
    """It goes on, so there is no list of all that it made, and nothing for one name or for notes."""

    def options(command: click.Command) -> dict[str, str | None]:
        return {option: p.help for p in command.params if isinstance(p, click.Option) for option in p.opts}

    own = options(watch)
    assert own.items() <= options(engrave).items()
    assert own.keys() >= {
        "--as",
        "--output",
        "--pitches",
        "--snippets",
        "--cues",
        "--draft",
        "--wording",
        "--paper",
    }
    assert not own.keys() & {"--manifest", "--only", "--notes", "--one-document"}
    assert "--manifest" not in run("watch", "--help").out
    (here / "a.gesture").write_text(GOOD)
    assert "unknown option --manifest" in run("watch", "a.gesture", "--manifest", "m.json").err


def test_a_watch_makes_what_is_saved_and_ends_cleanly(here):
    (here / "a.gesture").write_text(GOOD)
    command = [sys.executable, "-c", "import sys; from gesturesmith.cli.main import main; sys.exit(main())"]
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    # A shell's background jobs ignore interrupts, and so would their children.
    more = {"preexec_fn": lambda: signal.signal(signal.SIGINT, signal.SIG_DFL)}
    with subprocess.Popen([*command, "watch", "a.gesture", "--as", "mid"], text=True, **pipes, **more) as process:
        made, patience = here / "out" / "a" / "call.mid", Patience()
        for text in (GOOD, CHANGED):
            before = made.read_bytes() if made.exists() else b""
            (here / "a.gesture").write_text(text)
            while (not made.exists() or made.read_bytes() == before) and patience.left():
                time.sleep(0.02)
            assert made.read_bytes() != before
        process.send_signal(signal.SIGINT)
        out, err = ended(process)
    assert process.returncode == 0
    assert err == ""
    assert "1 gesture: 1 playable" in out  # of the first: the second may have been on its way
