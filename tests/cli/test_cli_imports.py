"""What a command imports: an editor may call `check` at every pause in typing."""

from __future__ import annotations

import sys

import pytest
import timing
from sampling import sample

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


@pytest.mark.parametrize("options", sample([("--notes",), ()], 2), ids=len)
def test_formats_of_notes_alone_need_no_abjad(options, here, request):
    """What is kept of such a run has no LilyPond text, and the next run, which needs it, is not misled."""
    demo = str(request.config.rootpath / "docs" / "demo" / "fog-signals.gesture")
    made = loaded("engrave", "--as", "musicxml,mid", *options, demo)
    assert {"gesturesmith.backends.musicxml", "gesturesmith.backends.midi"} <= made
    assert "abjad" not in made
    assert "abjad" in loaded("engrave", "--as", "ly", demo)
    (page,) = here.glob("out/*.ly")
    assert "c''2" in page.read_text("utf-8")
    assert "abjad" not in loaded("engrave", "--as", "mxl", demo)


def test_help_loads_no_stage():
    modules = loaded("--help")
    assert {"gesturesmith.pipeline", "gesturesmith.lang", "gesturesmith.techniques", "json"} & modules == set()


def test_what_is_made_already_loads_no_stage(here, request):
    """Nor Abjad, nor the cluster library: a second run only looks things up."""
    demo = str(request.config.rootpath / "docs" / "demo" / "fog-signals.gesture")
    made = loaded("engrave", "--as", "svg", demo)
    assert {"abjad", "gesturesmith.checker"} <= made
    assert "distributed" not in made
    again = loaded("engrave", "--as", "svg", demo)
    rooms = {"abjad", "gesturesmith.lang", "gesturesmith.checker", "gesturesmith.rules", "gesturesmith.sheets"}
    assert rooms & again == set()
