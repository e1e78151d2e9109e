"""Terminals, pipes and interruptions."""

from __future__ import annotations

import os
import pty
import shlex
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
import timing
from cli.conftest import DEMO, GOOD, REFUSED_DEMO
from sampling import sample


def on_a_terminal(stream: str, *arguments: str, **environment: str) -> bytes:
    """The output of a program whose standard output or error is a terminal."""
    ours, theirs = pty.openpty()
    other = {"stdout", "stderr"} - {stream}
    streams = {stream: theirs, other.pop(): subprocess.DEVNULL}
    kept = {k: v for k, v in os.environ.items() if k not in ("NO_COLOR", "FORCE_COLOR")}
    process = subprocess.Popen(
        [sys.executable, "-m", "gesturesmith.cli.main", *arguments],
        env={**kept, "TERM": "xterm", **environment},
        **streams,
    )
    os.close(theirs)
    written = b""
    try:
        while data := os.read(ours, 65536):
            written += data
    except OSError:  # on Linux: the other end of the terminal is closed
        pass
    finally:
        os.close(ours)
        timing.ended(process)
    return written


@pytest.mark.usefixtures("here")
class TestColour:
    arguments = ("check", str(REFUSED_DEMO))

    def test_on_a_terminal(self):
        assert b"\x1b[" in on_a_terminal("stdout", *self.arguments)

    def test_not_when_told_so(self):
        assert b"\x1b[" not in on_a_terminal("stdout", *self.arguments, NO_COLOR="1")
        assert b"\x1b[" not in on_a_terminal("stdout", *self.arguments, TERM="dumb")

    def test_not_into_a_pipe(self, program):
        assert b"\x1b[" not in program(*self.arguments).stdout

    def test_into_a_pipe_when_told_so(self, program):
        assert b"\x1b[" in program(*self.arguments, env={"FORCE_COLOR": "1"}).stdout
        assert b"\x1b[" not in program(*self.arguments, env={"FORCE_COLOR": "1", "NO_COLOR": "1"}).stdout
        assert b"\x1b[" not in program("check", "--json", str(DEMO), env={"FORCE_COLOR": "1"}).stdout


def test_progress_is_shown_on_a_terminal_and_goes_away(here):
    (here / "a.gesture").write_text(GOOD)
    shown = on_a_terminal("stderr", "engrave", "--as", "ily", "a.gesture")
    assert b"a.gesture: checking" in shown
    assert shown.endswith(b"\r\x1b[K")


def test_no_progress_in_a_log(here, program):
    (here / "a.gesture").write_text(GOOD)
    assert program("engrave", "--as", "ily", "a.gesture").stderr == b""


@pytest.mark.parametrize(
    "arguments", [("check", str(DEMO)), ("check", "--json", str(DEMO)), ("list", "techniques")]
)
def test_a_reader_that_goes_away(program, arguments):
    """As with `| head`: the work is done, its status is kept, and there is no message."""
    reading, writing = os.pipe()
    os.close(reading)
    done = program(*arguments, stdout=writing)
    os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")


def test_help_into_a_pipe_nobody_reads(program):
    reading, writing = os.pipe()
    os.close(reading)
    done = program("--help", stdout=writing)
    os.close(writing)
    assert done.stderr == b""


@pytest.mark.parametrize("arguments", [("check", str(DEMO)), ("check", "--json", str(DEMO)), ("--help",)])
def test_a_full_disk(program, arguments):
    with open("/dev/full", "wb") as full:
        done = program(*arguments, stdout=full)
    assert done.returncode == 3
    assert done.stderr.strip() == b"gesturesmith: the disk is full"


@pytest.mark.parametrize("closed", sample([">&-", "2>/dev/full", "<&- >&- 2>&-", "2>&-"], 2))
@pytest.mark.parametrize(
    ("arguments", "status"),
    [("check call", 0), ("check --json call", 0), ("check none", 2), ("--help", 0), ("x", 2)],
)
def test_streams_that_are_closed_or_full_of_errors(here, closed, arguments, status):
    """The work and its status are the same, and no file is opened in place of a stream."""
    Path("call").write_text(GOOD)
    command = f"{shlex.quote(sys.executable)} -m gesturesmith.cli.main {arguments} {closed}"
    done = timing.run(["/bin/sh", "-c", command])
    assert done.returncode == status
    assert b"Traceback" not in done.stdout + done.stderr


@pytest.mark.lilypond
def test_pages_for_whom_nobody_listens(here):
    Path("call").write_text(GOOD)
    command = f"{shlex.quote(sys.executable)} -m gesturesmith.cli.main engrave call <&- >&- 2>&-"
    assert timing.run(["/bin/sh", "-c", command]).returncode == 0
    assert Path("out/call.pdf").read_bytes().startswith(b"%PDF-")


def test_a_terminal_that_knows_little(program):
    done = program("check", str(REFUSED_DEMO), env={"PYTHONIOENCODING": "ascii"})
    assert (done.returncode, done.stderr) == (1, b"")
    done = program("check", "--json", str(DEMO), env={"PYTHONIOENCODING": "ascii"})
    assert "Fog Signals" not in done.stderr.decode()
    assert done.stdout.decode("utf-8").startswith("{")


def command_line(process: Path) -> bytes:
    try:
        return (process / "cmdline").read_bytes()
    except OSError:  # it has ended
        return b""


@pytest.mark.parametrize(
    ("sent", "status"), sample([(signal.SIGINT, 130), (signal.SIGTERM, 143), (signal.SIGHUP, 129)], 3)
)
@pytest.mark.parametrize("impatient", [False, True])
def test_interrupted(here, sent, status, impatient):
    """A LilyPond that never ends is ended and its folder removed, even if the signal is repeated."""
    (here / "a.gesture").write_text(GOOD)
    (here / "temp").mkdir()
    slow = here / "lilypond"
    seconds = f"60.{os.getpid()}{sent}{impatient:d}"  # identifies it among all processes
    slow.write_text(
        '#!/bin/sh\nif [ "$1" = --version ]; then echo "GNU LilyPond 2.24.0"; exit; fi\n'
        f"cat > fed\necho > ready\nexec sleep {seconds}\n"
    )
    slow.chmod(0o755)
    process = subprocess.Popen(
        [
            sys.executable,
            "-m",
            "gesturesmith.cli.main",
            "engrave",
            "--sandbox",
            "never",
            "--lilypond",
            str(slow),
            "a.gesture",
        ],
        env={**os.environ, "TMPDIR": str(here / "temp")},
        # A shell's background jobs ignore interrupts, and so would their children.
        preexec_fn=lambda: [signal.signal(one, signal.SIG_DFL) for one in (signal.SIGINT, signal.SIGHUP)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert timing.eventually(lambda: list((here / "temp").glob("*/work/ready")))
    process.send_signal(sent)
    while impatient and process.poll() is None:
        time.sleep(0.005)
        process.send_signal(signal.SIGINT)
    out, err = timing.ended(process)
    # Python restores its own handler just before it ends.
    assert process.returncode in ((status, -signal.SIGINT) if impatient else (status,))
    assert b"Traceback" not in out + err
    assert not [p for p in Path("/proc").glob("[0-9]*") if seconds.encode() in command_line(p)]
    assert list((here / "temp").iterdir()) == []
    assert not (here / "out").exists()
