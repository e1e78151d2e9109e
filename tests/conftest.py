"""Gestures from text to music through the pipeline, for all folders of tests."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from sampling import WHOLE, count

from gesturesmith.checker import check_text
from gesturesmith.lilypond import sandbox
from gesturesmith.source import Source

# Helper modules report differences in assertions, as tests do.
pytest.register_assert_rewrite("timing", *(p.name for p in Path(__file__).parent.iterdir() if p.is_dir()))

# A busy machine may pause for longer than any example takes, or than generating one should.
settings.register_profile(
    "gesturesmith", deadline=None, suppress_health_check=[HealthCheck.too_slow], max_examples=count(20, 100)
)
settings.load_profile("gesturesmith")

HEAD = "instrument: horn\npitches: written\n"

# The files that take longest come first, so that no process works on one of these when the others are done.
LONG = (
    "reading/test_pages_are_read.py",
    "batch/test_cluster.py",
    "lilypond/test_sandbox.py",
    "sheets/test_charts.py",
    "sheets/test_exercises.py",
    "test_handbook.py",
    "test_docs.py",
    "golden/test_gallery.py",
    "security/test_injection.py",
    "cli/test_cli_sheet.py",
    "cli/test_cli_engrave.py",
    "cli/test_cli_console.py",
    "golden/test_stencils.py",
    "golden/test_stencils_alone.py",
    "security/test_same.py",
    "words/test_every_word.py",
    "test_wheel.py",
    "pipeline/test_gesture_cache.py",
)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """The long files first, each whole, the others as they come; and without what only `make test-all` runs."""
    if not WHOLE:
        config.hook.pytest_deselected(items=[item for item in items if item.get_closest_marker("whole")])
        items[:] = [item for item in items if not item.get_closest_marker("whole")]
    tests = Path(__file__).parent
    places = {tests / name: number for number, name in enumerate(LONG)}
    items.sort(key=lambda item: places.get(item.path, len(LONG)))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """List what was not tested at the end, by reason: a machine without bubblewrap tests no sandbox."""
    by_reason: dict[str, list[str]] = {}
    for report in terminalreporter.stats.get("skipped", []):
        reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else str(report.longrepr)
        by_reason.setdefault(reason.removeprefix("Skipped: "), []).append(report.nodeid)
    if by_reason:
        terminalreporter.section(f"not tested: {sum(map(len, by_reason.values()))}")
    for reason, names in sorted(by_reason.items()):
        terminalreporter.line(f"{len(names)}: {reason}")
        for name in sorted(names):
            terminalreporter.line(f"    {name}")


@pytest.fixture(scope="session", autouse=True)
def own_cache(tmp_path_factory) -> Iterator[Path]:
    """A separate cache for the tests: they neither use the user's cache nor leave anything in it."""
    folder = tmp_path_factory.mktemp("cache")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("GESTURESMITH_CACHE", str(folder))
        yield folder


@pytest.fixture(scope="session", autouse=True)
def kept_bytecode(tmp_path_factory) -> Iterator[None]:
    """If Python is told not to write bytecode, each program the tests start would compile ours again, which takes
    longer than a check: so all processes of a run write it to one place outside the tree."""
    with pytest.MonkeyPatch.context() as patch:
        if os.environ.get("PYTHONDONTWRITEBYTECODE"):
            patch.delenv("PYTHONDONTWRITEBYTECODE")
            own = tmp_path_factory.getbasetemp()
            run = own.parent if os.environ.get("PYTEST_XDIST_WORKER") else own
            patch.setenv("PYTHONPYCACHEPREFIX", str(run / "bytecode"))
        yield


@pytest.fixture(scope="session", autouse=True)
def compiled_scheme() -> Iterator[None]:
    """For tests that start a LilyPond of Debian's by themselves, as we do it."""
    program = shutil.which("lilypond")
    with pytest.MonkeyPatch.context() as patch:
        for name, value in (sandbox.compiled_scheme(Path(program)) if program else {}).items():
            patch.setenv(name, value)
        yield


@pytest.fixture(scope="session")
def engraved() -> Callable[..., dict]:
    """A function from a file's text to the engraving of every gesture and passage, by name, with the settings under
    "".

    Text without an instrument is for the horn, in written pitches. Findings are ignored.
    """

    def make(text: str, *, pitches: str = "written") -> dict:
        from gesturesmith.backends import lilypond
        from gesturesmith.score import gesture_score, passage_score

        source = Source("test", text if "instrument:" in text else HEAD + text)
        checked = check_text(source)
        assert not checked.report.errors, checked.report.errors
        piece = checked.reading.piece
        made = {n: gesture_score(c, piece.settings, pitches=pitches) for n, c in checked.cases.items()}
        for name, case in checked.passage_cases.items():
            made[name] = passage_score(case, piece.settings, pitches=pitches)
        return {**{name: lilypond.engraved(music) for name, music in made.items()}, "": piece.settings}

    return make
