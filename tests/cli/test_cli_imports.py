"""What a command imports: an editor may call `check` at every pause in typing."""

from __future__ import annotations

import sys

import pytest
import timing

PROBE = """
import sys
from gesturesmith.cli.main import main
status = main(sys.argv[1:])
print("", *sorted(sys.modules), sep="\\n")
"""


def loaded(*arguments: str) -> set[str]:
    """The modules loaded at the end of a command."""
    done = timing.run([sys.executable, "-c", PROBE, *arguments], text=True)
    assert done.returncode == 0, done.stderr
    return set(done.stdout.split("\n"))


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["check", "DEMO"], ["check", "--json", "DEMO"]])
def test_no_engraving_without_need(arguments, request):
    demo = str(request.config.rootpath / "docs" / "demo" / "fog-signals.gesture")
    modules = loaded(*(demo if a == "DEMO" else a for a in arguments))
    assert "gesturesmith.cli.main" in modules
    rooms = {"abjad", "gesturesmith.score", "gesturesmith.sheets", "gesturesmith.lilypond", "subprocess"}
    assert rooms & modules == set()


def test_help_loads_no_stage():
    modules = loaded("--help")
    assert {"gesturesmith.pipeline", "gesturesmith.lang", "gesturesmith.techniques", "json"} & modules == set()


def test_what_is_made_already_loads_no_stage(tmp_path, monkeypatch, request):
    """Nor Abjad, nor the cluster library: a second run only looks things up."""
    demo = str(request.config.rootpath / "docs" / "demo" / "fog-signals.gesture")
    monkeypatch.chdir(tmp_path)
    made = loaded("engrave", "--as", "svg", demo)
    assert {"abjad", "gesturesmith.checker"} <= made
    assert "distributed" not in made
    again = loaded("engrave", "--as", "svg", demo)
    rooms = {"abjad", "gesturesmith.lang", "gesturesmith.checker", "gesturesmith.rules", "gesturesmith.sheets"}
    assert rooms & again == set()
