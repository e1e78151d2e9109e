"""A scheduler and two workers of one thread each, in separate processes; ended by closing standard input.

Prints the scheduler's address and the process ids of the workers on one line.
"""

from __future__ import annotations

import sys


def main() -> None:
    from distributed import LocalCluster

    with LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as cluster:
        print(cluster.scheduler_address, *(w.pid for w in cluster.workers.values()), flush=True)
        sys.stdin.read()


if __name__ == "__main__":
    main()
