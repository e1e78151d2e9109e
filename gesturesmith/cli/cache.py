"""`gesturesmith cache`."""

from __future__ import annotations

import click

from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status


@click.command()
@click.option("--show", is_flag=True, help="Show its folder and size (the default).")
@click.option("--clear", is_flag=True, help="Empty it.")
def cache(show: bool, clear: bool) -> Status:
    """Show or empty the cache of earlier results, which saves work when little has changed."""
    from gesturesmith.cache import open_store

    store = open_store()
    if store.folder is None:
        complain(store.problem or "no folder for the cache: set GESTURESMITH_CACHE to one")
        return Status.INPUT
    if clear:
        try:
            gone = store.clear()
        except OSError as error:
            complain(f"{store.folder}: cannot be cleared ({error.strerror})")
            return Status.INPUT
        say(f"{gone} {'result' if gone == 1 else 'results'} removed")
    if show or not clear:
        usage = store.usage()
        size, most = usage.size / 1e6, usage.most / 1e6
        say(f"{clean(str(usage.folder))}: {usage.entries} results, {size:.1f} MB of at most {most:.0f} MB")
    return Status.GOOD
