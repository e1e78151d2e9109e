"""A gesture file can only make us read profiles beside it, and no message reveals the content of another file."""

from __future__ import annotations

import os

import pytest
from timing import within

from gesturesmith.cli.main import main

FILE = 'instrument: "{name}"\npitches: written\ngesture beacon\n  contour: C5\n'
OWN = 'instrument_profile = 1\nbased_on = "{base}"\n'
SECRET = "the password is a rising fourth"


@pytest.fixture
def folder(tmp_path):
    """`piece/` with a profile below it; beside `piece/` a profile, a secret, and a library of profiles."""
    for place in ("piece/parts", "library"):
        (tmp_path / place).mkdir(parents=True)
    for place in ("piece/own.toml", "piece/parts/own.toml", "outside.toml", "library/shared.toml"):
        (tmp_path / place).write_text(OWN.format(base="horn"))
    (tmp_path / "secret.txt").write_text(SECRET)
    (tmp_path / "piece" / "linked.toml").symlink_to(tmp_path / "outside.toml")
    (tmp_path / "piece" / "through.toml").write_text(OWN.format(base="../outside.toml"))
    return tmp_path


def check(folder, name, *options):
    path = folder / "piece" / "study.gesture"
    path.write_text(FILE.format(name=name))
    return main(["check", str(path), *options])


@pytest.mark.parametrize("name", ["own.toml", "./own.toml", "parts/own.toml", "parts/../own.toml"])
def test_in_the_files_own_folder_and_below(folder, name, capsys):
    assert check(folder, name) == 0


@pytest.mark.parametrize("name", ["../outside.toml", "linked.toml", "through.toml"])
def test_nowhere_else(folder, name, capsys):
    assert check(folder, name.format(folder)) == 2
    said = capsys.readouterr()
    assert "outside the folder" in said.out + said.err
    assert "--profiles" in said.out + said.err


def test_not_by_a_whole_path(folder, capsys):
    """The message is cut after such a long name."""
    assert check(folder, f"{folder}/outside.toml") == 2
    assert check(folder, f"{folder}/piece/own.toml") == 0


def test_a_folder_of_profiles_that_is_named(folder, capsys):
    assert check(folder, "shared.toml", "--profiles", str(folder / "library")) == 0
    assert check(folder, "own.toml", "--profiles", str(folder / "library")) == 2
    assert check(folder, "shared.toml", "--profiles", str(folder / "nowhere")) == 2


@pytest.mark.parametrize(
    "name", ["secret.txt", "../secret.txt", "{}/secret.txt", "/etc/passwd", "/dev/zero", "/proc/self/environ"]
)
@pytest.mark.parametrize("library", [False, True])
def test_no_message_quotes_a_file_that_is_no_profile(folder, name, library, capsys, monkeypatch):
    monkeypatch.setenv("GESTURESMITH_TEST_SECRET", SECRET)
    (folder / "piece" / "secret.txt").write_text(SECRET)
    options = ["--profiles", "/"] if library else []
    assert check(folder, name.format(folder), *options) == 2
    said = capsys.readouterr()
    assert SECRET not in said.out + said.err
    assert "root:" not in said.out + said.err


def test_a_pipe_is_not_waited_for(folder, capsys):
    os.mkfifo(folder / "piece" / "pipe.toml")
    assert check(folder, "pipe.toml") == 2
    assert "not a regular file" in capsys.readouterr().out


# Valid or nearly valid TOML that would keep a careless reader busy for minutes or make it crash.
GREEDY = {
    "a heading that is none": 'x = """\n[' + " " * 200_000 + '\n"""\n',
    "a key that is none": 'x = """\n' + "a" * 200_000 + '\n"""\n',
    "a key of many parts": "a." * 60_000 + "a = 1\n",
    "a quoted key of many parts": '"a" . ' * 30_000 + "a = 1\n",
    "a table in tables": "x = " + "[" * 100_000 + "]" * 100_000,
    "nothing but lines": "\n" * 250_000 + "=",
    "many unknown keys": "".join(f"k{n} = 1\n" for n in range(20_000)),
    "many sides": "[[sides]]\n" * 20_000,
    "many registers": "[[registers]]\n" * 15_000,
    "a long number": "positions = " + "9" * 200_000,
    "a long number of letters": "positions = 0x" + "f" * 200_000,
}


@pytest.mark.parametrize("kind", GREEDY)
def test_a_profile_is_read_at_once_or_refused(folder, kind, capsys):
    (folder / "piece" / "greedy.toml").write_text(OWN.format(base="horn") + GREEDY[kind])
    assert within(5, lambda: check(folder, "greedy.toml")) == 2
    assert len(capsys.readouterr().out) < 100_000


def test_links_in_a_circle(folder, capsys):
    (folder / "piece" / "circle.toml").symlink_to("circle.toml")
    (folder / "piece" / "on-it.toml").write_text(OWN.format(base="circle.toml"))
    for name in ("circle.toml", "on-it.toml"):
        assert check(folder, name) == 2
        assert "cannot be opened" in capsys.readouterr().out


def test_a_profile_of_256_kb_is_read_and_no_larger(folder, capsys):
    path = folder / "piece" / "large.toml"
    text = OWN.format(base="horn")
    path.write_text(text + "#" * (256 * 1024 - len(text)))
    assert check(folder, "large.toml") == 0
    path.write_text(text + "#" * (256 * 1024 - len(text) + 1))
    assert check(folder, "large.toml") == 2
