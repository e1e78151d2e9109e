"""`write`: which files it takes, what it says, and that the key of its page is in no command line."""

from __future__ import annotations

import importlib.util
import stat
import webbrowser
from pathlib import Path

import pytest
from cli.conftest import GOOD

from gesturesmith.cli import write as command
from gesturesmith.live import server


@pytest.fixture
def started(monkeypatch, tmp_path) -> list[object]:
    """The server is not run: what it would serve is put here."""
    found: list[object] = []

    def serve(page, listening, tell) -> None:
        found.extend(document.path for document in page._documents.values())
        tell(lambda: None)
        page.close()
        listening.close()
        raise KeyboardInterrupt

    monkeypatch.setenv("GESTURESMITH_STATE", str(tmp_path / "state"))
    monkeypatch.setattr(server, "serve", serve)
    return found


def test_files_new_ones_and_folders_are_opened(here, run, started):
    (here / "piece").mkdir()
    (here / "piece" / "b.gesture").write_text(GOOD)
    (here / "a.gesture").write_text(GOOD)
    done = run("write", "a.gesture", "piece", "new", "./a.gesture", "--no-browser")
    assert done.status == 0
    assert started == [here / "a.gesture", here / "piece" / "b.gesture", here / "new.gesture"]
    assert not (here / "new.gesture").exists()  # the first save makes it
    assert "address: http://127.0.0.1:" in done.out


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("a.gesture", b"%PDF-1.7", "a PDF"),
        ("a.gesture", b"\xff\xfea\0", "UTF-16"),
        ("none/a.gesture", None, "no such folder: none"),
    ],
)
def test_what_cannot_be_written_is_said(here, run, started, name, data, said):
    if data is not None:
        Path(name).write_bytes(data)
    done = run("write", name, "--no-browser")
    assert done.status == 2
    assert said in done.err
    assert started == []


def test_without_what_it_needs_it_says_how_to_get_it(here, run, monkeypatch):
    find = importlib.util.find_spec
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None if name == "starlette" else find(name))
    done = run("write", "a.gesture")
    assert done.status == 2
    assert done.err == "the page needs starlette: pip install 'gesturesmith[write]'\n"


def test_the_browser_is_given_a_file_that_only_its_owner_reads_instead_of_the_key(here, run, started, monkeypatch):
    """Every user of a machine can read the command lines of all programs."""
    given: list[str] = []

    def opened(address: str) -> bool:
        place = Path(address.removeprefix("file://"))
        given.extend((address, place.read_text(), oct(stat.S_IMODE(place.stat().st_mode))))
        given.append(oct(stat.S_IMODE(place.parent.stat().st_mode)))
        return True

    monkeypatch.setattr(webbrowser, "open", opened)
    monkeypatch.setenv("DISPLAY", ":0")
    done = run("write", "a.gesture")
    address, text, mode, folder = given
    key = done.out.split("/#")[1].split()[0]
    assert len(key) > 40
    assert key not in address
    assert "url=http://127.0.0.1:" in text
    assert f"/#{key}" in text
    assert (mode, folder) == ("0o600", "0o700")
    assert not Path(address.removeprefix("file://")).exists()  # it ends with the program


def test_without_a_screen_only_the_address_is_said(here, run, started, monkeypatch):
    monkeypatch.setattr(webbrowser, "open", lambda address: pytest.fail("a browser in the terminal"))
    monkeypatch.setattr(command.sys, "platform", "linux")
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    assert "open this address" in run("write", "a.gesture").out
