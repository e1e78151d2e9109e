"""Any bad input: one clear message with its place, status 2, nothing half-written."""

from __future__ import annotations

import errno
import os
import threading
import time

import pytest
from cli.conftest import GOOD, HEAD

from gesturesmith import textfile

COMMANDS = [["check"], ["check", "--json"], ["engrave"], ["format"]]
commands = pytest.mark.parametrize("command", COMMANDS, ids=" ".join)

NOT_TEXT = {
    "missing": (None, "no such file"),
    "binary": (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "not a text file (line 3 "),
    "PDF": (b"%PDF-1.7\n%\xe2\xe3\n1 0 obj\n", "not a text file but a PDF"),
    "DOC": (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1\0\0", "a word processor document; save it as plain text"),
    "DOCX": (b"PK\x03\x04\x14\0word/document.xml", "save the text as plain text (UTF-8)"),
    "RTF": (b"{\\rtf1\\ansi instrument: horn\\par}", "(RTF); save it as plain text"),
    "latin-1": ("instrument: horn\ntitle: “é”".encode()[:-6] + b"\xe9", "line 2, column 8 is not UTF-8"),
    "utf-16": ("instrument: horn".encode("utf-16"), "this file is UTF-16"),
    "10 MB": (b"# " + b"x" * 10_000_000, "larger than 2 MB"),
}


@commands
@pytest.mark.parametrize("kind", NOT_TEXT)
def test_what_is_no_text(here, run, command, kind):
    data, message = NOT_TEXT[kind]
    path = here / "a.gesture"
    if data is not None:
        path.write_bytes(data)
    result = run(*command, "a.gesture")
    assert result.status == 2
    assert message in result.out + result.err
    assert "a.gesture" in result.out + result.err
    assert len(result.out + result.err) < 600
    assert [p.name for p in here.iterdir()] == ([] if data is None else ["a.gesture"])
    assert data is None or path.read_bytes() == data


@commands
def test_a_folder(here, run, command):
    (here / "a.gesture").mkdir()
    result = run(*command, "a.gesture")
    assert result.status == 2
    assert "folder" in result.out + result.err


@commands
def test_one_that_never_ends(run, command):
    result = run(*command, "/dev/zero")
    assert result.status == 2
    assert "larger than 2 MB" in result.out + result.err


@commands
def test_a_pipe_that_nobody_writes_into(here, run, command, monkeypatch):
    monkeypatch.setattr(textfile, "_PATIENCE_S", 0.2)
    os.mkfifo(here / "a.gesture")
    result = run(*command, "a.gesture")
    assert result.status == 2
    assert "this is a pipe, and nothing came out of it for 0.2 seconds" in result.out + result.err
    assert (here / "a.gesture").is_fifo()


def test_a_pipe_that_somebody_writes_into(here, run):
    """As from `check <(program)`, with a slow program."""
    os.mkfifo(here / "a.gesture")

    def writes():
        with open("a.gesture", "w") as pipe:
            for text in (GOOD[:20], GOOD[20:]):
                pipe.write(text)
                pipe.flush()
                time.sleep(0.2)

    writer = threading.Thread(target=writes)
    writer.start()
    assert run("check", "a.gesture").status == 0
    writer.join()


@commands
def test_a_link_that_leads_nowhere(here, run, command):
    (here / "a.gesture").symlink_to("gone.gesture")
    result = run(*command, "a.gesture")
    assert result.status == 2
    assert "no such file: it is a link to gone.gesture" in result.out + result.err


@pytest.mark.parametrize("text", ["", "\n", "\ufeff", "# nothing but a remark\n"])
@pytest.mark.parametrize("command", [["check"], ["engrave"]], ids=" ".join)
def test_an_empty_file(here, run, command, text):
    (here / "a.gesture").write_text(text)
    result = run(*command, "a.gesture")
    assert result.status == 2
    assert "instrument" in result.out
    assert not (here / "out").exists()


@pytest.mark.parametrize("line", ["x" * 1_900_000, "  contour: " + "G4 ~~ " * 300_000, '"' * 1_900_000])
@pytest.mark.parametrize("command", [["check"], ["check", "--json"], ["format"]], ids=" ".join)
def test_an_endless_line_is_not_repeated(here, run, command, line):
    (here / "a.gesture").write_text(f"{HEAD}\ngesture a\n{line}\n")
    result = run(*command, "a.gesture")
    assert result.status == 2
    assert 0 < len(result.out + result.err) < 20_000


@pytest.mark.parametrize(
    ("number", "message"),
    [(errno.EACCES, "permission denied"), (errno.EIO, "cannot be read"), (errno.ELOOP, "leads to itself")],
)
def test_what_the_machine_says_of_a_file(run, monkeypatch, number, message):
    def refuse(*_, **__):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(textfile, "open", refuse, raising=False)
    result = run("check", "a.gesture")
    assert result.status == 2
    assert message in result.err


def test_a_name_no_file_can_have(run):
    assert "not a valid file name" in run("check", "a\0b").err
    assert "too long" in run("check", "x" * 5000).err


@pytest.mark.parametrize("name", ["my piece.gesture", 'it\'s "so".gesture', "-x.gesture", "é♯.gesture", "plain"])
def test_unusual_names(here, run, name):
    (here / name).write_text(GOOD)
    assert run("check", "--", name).status == 0
    result = run("engrave", "--as", "ily", "--", name)
    assert result.status == 0
    assert (here / "out" / name.removesuffix(".gesture") / "call.ily").is_file()
    assert run("format", "--check", f"./{name}").status in (0, 1)


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("call", "; did you mean call.gesture"),
        ("Call.gesture", "; did you mean call.gesture"),
        ("cal.gesture", "; did you mean call.gesture"),
        ("Nebel", "; did you mean 'Nebel über Köln.gesture'"),
        ("Nebel u\u0308ber Ko\u0308ln.gesture", "; did you mean 'Nebel über Köln.gesture'"),
        ("parts/cal.gesture", "no such file\n"),
        ("storm.gesture", "no such file\n"),
    ],
)
def test_a_file_that_may_have_been_meant(here, run, typed, near):
    (here / "call.gesture").write_text(GOOD)
    (here / "Nebel über Köln.gesture").write_text(GOOD)
    assert near in run("check", typed).err


def test_a_leading_dash_is_explained(here, run):
    (here / "-x.gesture").write_text(GOOD)
    result = run("check", "-x.gesture")
    assert result.status == 2
    assert "./-x.gesture" in result.err


def test_a_name_cannot_steer_the_terminal(here, run):
    name = "a\x1b[31m\nb.gesture"
    (here / name).write_text(GOOD)
    for command in (["check"], ["check", "--json"], ["engrave", "--as", "ily"], ["format"]):
        result = run(*command, name)
        assert "\x1b" not in result.out + result.err
    assert run("check", "gone\x1b[31m").err.startswith("gone\ufffd[31m")


def test_a_name_that_is_no_text(here, program):
    name = os.fsencode(here) + b"/\xff\xfe.gesture"
    with open(name, "w") as file:
        file.write(GOOD)
    for command in (["check"], ["check", "--json"], ["engrave", "--as", "ily"], ["format", "--check"]):
        done = program(*command, name)
        assert done.returncode in (0, 1)
        assert b"Traceback" not in done.stderr


def test_two_files_for_one_place(here, run):
    for folder in ("one", "two"):
        (here / folder).mkdir()
        (here / folder / "study.gesture").write_text(GOOD)
    result = run("engrave", "--as", "ily", "one/study.gesture", "two/study.gesture")
    assert result.status == 2
    assert "would both be written to study" in result.err
    assert not (here / "out").exists()
    assert run("check", "one/study.gesture", "two/study.gesture").status == 0


def test_one_file_named_twice_is_one_file(here, run):
    (here / "study.gesture").write_text(GOOD)
    result = run("engrave", "--as", "ily", "study.gesture", "./study.gesture")
    assert result.status == 0


def test_an_output_folder_that_cannot_be(here, run):
    (here / "study.gesture").write_text(GOOD)
    (here / "out").write_text("a file")
    result = run("engrave", "--as", "ily", "study.gesture")
    assert result.status == 2
    assert "where its folder should be" in result.err
    assert sorted(p.name for p in here.iterdir()) == ["out", "study.gesture"]


def test_output_onto_an_input(here, run):
    """A gesture file with the name of its own output."""
    (here / "call.ily").write_text(GOOD)
    (here / "study").mkdir()
    (here / "study" / "call.ily").write_text(GOOD)
    (here / "study.gesture").write_text(GOOD)
    result = run("engrave", "--as", "ily", "-o", ".", "study.gesture", "study/call.ily")
    assert result.status == 2
    assert "is one of the input files" in result.err
    assert (here / "study" / "call.ily").read_text() == GOOD


def test_only_what_is_not_there(here, run):
    (here / "study.gesture").write_text(GOOD)
    result = run("engrave", "--as", "ily", "--only", "cal", "study.gesture")
    assert result.status == 2
    assert "no gesture or passage is called cal; did you mean call" in result.err
    assert not (here / "out").exists()
