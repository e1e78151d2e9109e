"""`gesturesmith watch`: what is saved is engraved at once."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterable
from contextlib import ExitStack
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

import click

from gesturesmith import writers
from gesturesmith.cli import page_command
from gesturesmith.cli.console import say
from gesturesmith.cli.engrave import build_of, music_options
from gesturesmith.cli.input_files import InputFile, InputFiles, find_files, read_all
from gesturesmith.cli.status import Status
from gesturesmith.kinds import Pitches
from gesturesmith.model.looks import PageLook
from gesturesmith.textfile import UnreadableFile

if TYPE_CHECKING:
    from gesturesmith.batch import BuildResult
    from gesturesmith.cli.page_command import OutputOptions
    from gesturesmith.lilypond import LilyPondPool

POLL_S = 0.05  # how often the files are looked at: 2 ms for some hundred
REST_S = 1.0  # without another change, before the pages are made

# What tells whether a file has changed; None if it is not there.
type _State = tuple[int, int, int] | None


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@page_command.watching_options
@music_options
@click.pass_context
def watch(
    context: click.Context,
    files: tuple[str, ...],
    common: OutputOptions,
    pitches: Pitches,
    snippets: bool,
    look: PageLook,
    cues: bool,
    draft: bool,
) -> Status:
    """Engrave FILE... whenever one is saved, until Ctrl-C. A folder stands for all its files, new ones too.

    What changed is made first, as snippets; the pages follow when nothing has been saved for a second. Profiles
    that a file uses are watched as well.
    """
    from gesturesmith.lilypond import LilyPond, LilyPondPool
    from gesturesmith.pipeline.types import Options

    options = Options(formats=common.formats, name=common.name, pitches=pitches, draft=draft, cues=cues, look=look)
    lilypond = page_command.find_lilypond(common)
    pages = not snippets and any("page" in writers.get(name).kinds for name in common.formats)
    with ExitStack() as stack:
        pool = None
        if isinstance(lilypond, LilyPond) and common.cluster is None:
            pool = stack.enter_context(LilyPondPool(lilypond, keeper=page_command.open_store(common)))

        def make(found: InputFiles, pages: bool) -> tuple[BuildResult, ...]:
            made: list[BuildResult] = []
            store = page_command.open_store(common)
            here = replace(options, pages=pages)
            builds = [build_of(one, source, here, common, store) for one, source in found.read]
            report = partial(_reported, made=made, quietly=pages, colour=bool(context.color))
            page_command.run(
                context, common, builds, store=store, files=found, report=report, lilypond=lilypond, pool=pool
            )
            if pool is not None:
                pool.compile(at_once=True)
                _prepare(pool, common.formats)
            return tuple(made)

        say("watching; Ctrl-C ends it")
        try:
            follow(files, make, pages=pages)
        except KeyboardInterrupt:
            say("")  # after the ^C of the terminal
    return Status.GOOD


def follow(
    named: tuple[str, ...],
    make: Callable[[InputFiles, bool], tuple[BuildResult, ...]],
    *,
    pages: bool,
    wait: Callable[[float], None] = time.sleep,
) -> None:
    """Make what the named files hold, and again what changes, until interrupted.

    make    makes files: their snippets, or with True their pages too
    pages   whether pages are wanted at all
    wait    waits for some seconds
    """
    seen: dict[str, _State] = {}
    uses: dict[str, set[str]] = {}  # the other files that each was made from
    told: set[UnreadableFile] = set()
    due: set[str] = set()  # files whose pages are to be made
    rested = 0.0
    while True:
        paths = _paths(named)
        now = {path: _state(path) for path in {*paths, *(used for some in uses.values() for used in some)}}
        changed = {path for path, state in now.items() if path not in seen or state != seen[path]}
        if changed:
            wait(POLL_S)  # some editors save in two steps
            if any(_state(path) != state for path, state in now.items()):
                continue
            seen, rested = now, 0.0
            again = {path for path in paths if path in changed or changed & uses.get(path, set())}
            found = read_all(named)
            some = _only(found, again, told)
            told = set(found.unread)
            for done in make(some, False) if some.read or some.unread else ():
                reads = {str(path) for path in done.reads}
                uses |= {source.name: reads for source in done.build.sources}
                seen |= {path: _state(path) for path in reads - set(seen)}
            due |= again
        elif pages and due and rested >= REST_S:
            make(_only(read_all(named), due, told), True)
            due = set()
        else:
            wait(POLL_S)
            rested += POLL_S


def _paths(named: Iterable[str]) -> tuple[str, ...]:
    return tuple(one.path for one in find_files(named) if isinstance(one, InputFile))


def _state(path: str) -> _State:
    try:
        found = os.stat(path)
    except (OSError, ValueError):
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


def _only(found: InputFiles, wanted: set[str], told: set[UnreadableFile]) -> InputFiles:
    """The files of these paths, and what cannot be read and was not told before."""
    return replace(
        found,
        read=tuple((one, source) for one, source in found.read if one.path in wanted),
        unread=tuple(one for one in found.unread if one not in told),
    )


def _reported(done: BuildResult, *, made: list[BuildResult], quietly: bool, colour: bool) -> Status:
    from gesturesmith.cli.summary import reported

    made.append(done)
    return Status.GOOD if quietly else reported(done.reports[0], colour=colour)


def _prepare(pool: LilyPondPool, formats: tuple[str, ...]) -> None:
    """Have LilyPonds ready for the next change."""
    from gesturesmith.lilypond import groups

    for some in groups(pool.lilypond, tuple(name for name in sorted(formats) if writers.get(name).engraved)):
        pool.ready(some)
