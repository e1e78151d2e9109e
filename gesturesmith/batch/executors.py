"""Where LilyPond runs: threads of this machine, which wait for it, or a cluster that is there already."""

from __future__ import annotations

import errno
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from functools import partial
from typing import TYPE_CHECKING

from gesturesmith.batch.types import BatchSetup
from gesturesmith.cache import fingerprint
from gesturesmith.lilypond import LilyPond, LilyPondPool

if TYPE_CHECKING:
    from gesturesmith.batch.workers import WorkerPool

_ANSWER_S = 10  # a scheduler that has not answered by then is not there
_AGAIN = 3  # so often a document may be begun anew, each time on another worker, after one was lost


def worker_pool(
    setup: BatchSetup, lilypond: LilyPond, early: tuple[tuple[str, ...], ...]
) -> AbstractContextManager[WorkerPool]:
    """The worker pool that a run has asked for. The formats in `early` may be made ready at once.

    OSError where a cluster cannot be reached.
    """
    if setup.cluster is not None:
        return _cluster(setup.cluster, lilypond, setup.sandbox)
    return _local(lilypond, early, setup.jobs)


@contextmanager
def _local(lilypond: LilyPond, early: tuple[tuple[str, ...], ...], jobs: int) -> Iterator[WorkerPool]:
    """Threads of this machine. The formats in `early` have a LilyPond each that starts at once and waits."""
    with LilyPondPool(lilypond, early) as shared:
        # LilyPond is on its way by now, and takes longer than these.
        from concurrent.futures import ThreadPoolExecutor

        from gesturesmith.batch.render import render
        from gesturesmith.batch.workers import WorkerPool

        executor = ThreadPoolExecutor(max_workers=jobs, thread_name_prefix="lilypond")
        try:
            yield WorkerPool(executor, partial(render, runner=shared.one), jobs)
        finally:
            # Nobody waits for what is not collected by now: its LilyPonds end, and then its threads. They are not
            # waited for: where a run is interrupted in the middle of a lock they might wait for that for ever.
            shared.close()
            executor.shutdown(wait=False, cancel_futures=True)


@contextmanager
def _cluster(address: str, lilypond: LilyPond, sandbox: str) -> Iterator[WorkerPool]:
    """The workers of a Dask cluster, of which every thread runs a LilyPond of its own machine."""
    from distributed import Client

    from gesturesmith.batch.render import render_on_worker
    from gesturesmith.batch.workers import WorkerPool

    try:
        client = Client(address, timeout=_ANSWER_S, set_as_default=False)
    except (OSError, ValueError) as error:
        raise OSError(errno.EHOSTUNREACH, "no cluster answers", address) from error
    with client:
        like = (lilypond.version, lilypond.cairo)
        wanted = partial(render_on_worker, program=fingerprint(), like=like, sandbox=sandbox)
        executor = client.get_executor(pure=False, retries=_AGAIN)
        try:
            yield WorkerPool(executor, wanted, sum(client.nthreads().values()), far=True)
        finally:
            executor.shutdown(wait=False)
