"""Runs the command: in this process if possible, as a separate program if it matters."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest
import timing

from gesturesmith.cli.main import main

DEMO = Path(__file__).parents[2] / "docs" / "demo" / "fog-signals.gesture"
REFUSED_DEMO = DEMO.with_name("not-as-written.gesture")

HEAD = "instrument: horn\npitches: written\n"
# One gesture that is playable, one beyond any horn, one line that cannot be read.
GOOD = f"{HEAD}\ngesture call\n  contour: G4, C5\n"
HIGH = f"{HEAD}\ngesture call\n  contour: G4, C5\n\ngesture beyond\n  contour: G6\n"
WRONG = f"{HEAD}\ngesture call\n  conture: G4\n"


class Result(NamedTuple):
    status: int
    out: str
    err: str


@pytest.fixture
def here(tmp_path, monkeypatch, own_cache) -> Path:
    """An empty working folder, with colour turned off by the environment and an empty cache."""
    shutil.rmtree(own_cache / "results", ignore_errors=True)
    monkeypatch.chdir(tmp_path)
    for name in ("NO_COLOR", "FORCE_COLOR", "GESTURESMITH_LILYPOND"):
        monkeypatch.delenv(name, raising=False)
    return tmp_path


@pytest.fixture
def run(here, capsys) -> Callable[..., Result]:
    """The command in this process."""

    def call(*arguments: str | Path) -> Result:
        status = main([str(a) for a in arguments])
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return Result(status, out, err)

    return call


@pytest.fixture
def program(here) -> Callable[..., subprocess.CompletedProcess[bytes]]:
    """The command as a program; keywords go to `subprocess.run`, `env` adds to the environment."""

    def call(*arguments: str | bytes, env: dict[str, str] | None = None, **more):
        more = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE} | more
        command = [sys.executable, "-m", "gesturesmith.cli.main", *arguments]
        return timing.run(command, env={**os.environ, **(env or {})}, **more)

    return call
