"""Where LilyPond runs: threads of this machine, which wait for it."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import AbstractContextManager, contextmanager
from functools import partial

from gesturesmith.batch.crew import Crew
from gesturesmith.batch.press import press
from gesturesmith.batch.types import Setup
from gesturesmith.lilypond import LilyPond, Press


def crew(setup: Setup, lilypond: LilyPond, early: tuple[tuple[str, ...], ...]) -> AbstractContextManager[Crew]:
    """The crew that a run has asked for. The formats in `early` may be made ready at once."""
    return _local(lilypond, early, setup.jobs)


@contextmanager
def _local(lilypond: LilyPond, early: tuple[tuple[str, ...], ...], jobs: int) -> Iterator[Crew]:
    """Threads of this machine. The formats in `early` have a LilyPond each that starts at once and waits."""
    executor = ThreadPoolExecutor(max_workers=jobs, thread_name_prefix="press")
    with Press(lilypond, early) as shared:
        try:
            yield Crew(executor, partial(press, runner=shared.one), jobs)
        finally:
            # Nobody waits for what is not collected by now: its LilyPonds end, and then its threads.
            shared.close()
            executor.shutdown(wait=True, cancel_futures=True)
