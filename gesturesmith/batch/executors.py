"""Where LilyPond runs: on this machine, with threads that wait for it, or on an existing cluster."""

from __future__ import annotations

import errno
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from functools import partial
from typing import TYPE_CHECKING

from gesturesmith.batch.types import BatchSetup
from gesturesmith.cache import fingerprint
from gesturesmith.kinds import SandboxMode
from gesturesmith.lilypond import LilyPond, LilyPondPool

if TYPE_CHECKING:
    from gesturesmith.batch.workers import WorkerPool

_ANSWER_S = 10  # after this a scheduler counts as absent
_AGAIN = 3  # how often a document is retried on another worker after one was lost


def worker_pool(
    setup: BatchSetup, lilypond: LilyPond, early: tuple[tuple[str, ...], ...]
) -> AbstractContextManager[WorkerPool]:
    """The worker pool that the setup asks for. LilyPonds for the formats in `early` may start at once.

    OSError if a cluster cannot be reached.
    """
    if setup.cluster is not None:
        return _cluster(setup.cluster, lilypond, setup.sandbox)
    return _local(setup.pool or LilyPondPool(lilypond, early, setup.store), setup.jobs, keep=setup.pool is not None)


@contextmanager
def _local(shared: LilyPondPool, jobs: int, *, keep: bool) -> Iterator[WorkerPool]:
    """Threads on this machine. `keep`: the LilyPonds are the caller's, who ends them."""
    with nullcontext() if keep else shared:
        # LilyPond is already starting, and takes longer than these imports.
        from concurrent.futures import ThreadPoolExecutor

        from gesturesmith.batch.render import render
        from gesturesmith.batch.workers import WorkerPool

        executor = ThreadPoolExecutor(max_workers=jobs, thread_name_prefix="lilypond")
        try:
            yield WorkerPool(executor, partial(render, runner=shared.one), jobs)
            if not keep:
                shared.compile()
        finally:
            # Results not collected by now are not wanted: the LilyPonds end, and then the threads. These are not
            # joined: if a run is interrupted while a lock is held, they might wait for it for ever.
            if not keep:
                shared.close()
            executor.shutdown(wait=False, cancel_futures=True)


@contextmanager
def _cluster(address: str, lilypond: LilyPond, sandbox: SandboxMode) -> Iterator[WorkerPool]:
    """The workers of a Dask cluster; each of their threads runs a LilyPond on its own machine."""
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
            yield WorkerPool(executor, wanted, sum(client.nthreads().values()), remote=True)
        finally:
            executor.shutdown(wait=False)
