"""Which LilyPond is used, and the message if none is usable."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from gesturesmith.lilypond import ENVIRONMENT, LilyPond, MissingLilyPond, find

BOTH_WAYS = ("pip install lilypond==", "on PATH")


def program(path: Path, says: str) -> Path:
    """A program that answers `--version` with a line."""
    path.write_text(f"#!/bin/sh\necho '{says}'\n")
    path.chmod(path.stat().st_mode | stat.S_IXUSR)
    return path


@pytest.fixture(autouse=True)
def plain_environment(monkeypatch):
    monkeypatch.delenv(ENVIRONMENT, raising=False)


@pytest.fixture
def no_wheel(monkeypatch):
    monkeypatch.setattr("gesturesmith.lilypond.program._of_the_wheel", lambda: None)


def test_the_order_is_option_environment_wheel_path(tmp_path, monkeypatch):
    names = ("option", "environment", "wheel", "path")
    for number, name in enumerate(names):
        (tmp_path / name).mkdir()
        program(tmp_path / name / "lilypond", f"GNU LilyPond 2.{30 + number}.0")
    option, environment, wheel, _ = (tmp_path / name / "lilypond" for name in names)
    monkeypatch.setenv("PATH", f"{tmp_path / 'path'}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.setenv(ENVIRONMENT, str(environment))
    monkeypatch.setattr("gesturesmith.lilypond.program._of_the_wheel", lambda: wheel)
    found = [find(option), find()]
    monkeypatch.delenv(ENVIRONMENT)
    found.append(find())
    monkeypatch.setattr("gesturesmith.lilypond.program._of_the_wheel", lambda: None)
    found.append(find())
    assert [f.version for f in found] == [(2, 30, 0), (2, 31, 0), (2, 32, 0), (2, 33, 0)]
    assert [f.cairo for f in found] == [False, False, True, False]


def test_the_wheel_has_cairo(monkeypatch):
    found = find()
    assert isinstance(found, LilyPond)
    assert found.version >= (2, 24, 0)
    assert found.cairo


def test_cairo_is_read_from_the_program_where_it_is_not_the_wheels(monkeypatch):
    wheel = find()
    monkeypatch.setattr("gesturesmith.lilypond.program._of_the_wheel", lambda: None)
    from gesturesmith.lilypond.program import _has_cairo

    assert _has_cairo.__wrapped__(wheel.path)


@pytest.mark.parametrize("version", ["2.22.2", "2.23.82", "1.9.0"])
def test_an_old_one_is_refused_with_both_ways(tmp_path, version):
    found = find(program(tmp_path / "lilypond", f"GNU LilyPond {version}"))
    assert isinstance(found, MissingLilyPond)
    assert f"LilyPond {version}" in found.reason
    assert "2.24 or newer is needed" in found.reason
    assert all(way in found.reason for way in BOTH_WAYS)


@pytest.mark.parametrize("version", ["2.24.0", "2.25.12", "3.0.0"])
def test_a_new_one_will_do(tmp_path, version):
    assert isinstance(find(program(tmp_path / "lilypond", f"GNU LilyPond {version} (running Guile 3.0)")), LilyPond)


def test_a_named_place_is_never_passed_over(tmp_path, monkeypatch):
    """The wheel would do, but a place was named explicitly."""
    found = find(tmp_path / "nowhere")
    assert isinstance(found, MissingLilyPond)
    assert "nowhere, named by --lilypond, does not exist" in found.reason
    monkeypatch.setenv(ENVIRONMENT, str(tmp_path))
    found = find()
    assert isinstance(found, MissingLilyPond)
    assert "a folder" in found.reason


def test_something_else_is_not_taken_for_lilypond(tmp_path):
    other = program(tmp_path / "other", "a program of another kind 2.25.12")
    dead = tmp_path / "dead"
    dead.write_text("no program at all")
    for path in (other, dead):
        found = find(path)
        assert isinstance(found, MissingLilyPond)
        assert "does not run or is not LilyPond" in found.reason


@pytest.mark.usefixtures("no_wheel")
def test_none_at_all(tmp_path, monkeypatch):
    monkeypatch.setenv("PATH", str(tmp_path))
    found = find()
    assert isinstance(found, MissingLilyPond)
    assert all(way in found.reason for way in BOTH_WAYS)
    assert ENVIRONMENT in found.reason
