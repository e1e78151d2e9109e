"""The common part of commands that make pages: their options, the run, and its messages."""

from __future__ import annotations

import functools
import importlib.util
import os
from collections.abc import Callable, Sequence
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any

import click

from gesturesmith import writers
from gesturesmith.cli.console import clean, complain, quietly, say
from gesturesmith.cli.profiles import profiles_option
from gesturesmith.cli.progress import Progress
from gesturesmith.cli.status import Status, worst
from gesturesmith.kinds import SandboxMode
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from gesturesmith.batch import BatchSetup, Build, BuildResult
    from gesturesmith.cache import Store
    from gesturesmith.cli.input_files import InputFiles
    from gesturesmith.lilypond import LilyPond, LilyPondPool, MissingLilyPond


@frozen(kw_only=True)
class OutputOptions:
    """The options of every command that makes pages."""

    output: Path
    formats: tuple[str, ...]
    name: str | None
    jobs: int
    cached: bool
    force: bool
    manifest: Path | None
    lilypond: Path | None
    sandbox: SandboxMode
    cluster: str | None
    profiles: Path | None
    quiet: bool = False


def cores() -> int:
    """How many processors this program may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _formats(context: click.Context, option: click.Parameter, value: str) -> tuple[str, ...]:
    """The formats in a comma-separated list, checked against the folder of writers."""
    asked = tuple(dict.fromkeys(w.strip().lower() for w in value.split(",") if w.strip()))
    known = writers.names()
    unknown = [w for w in asked if w not in known]
    if unknown or not asked:
        wrong = f"unknown format {', '.join(repr(clean(w)) for w in unknown)}" if unknown else "missing format"
        raise click.BadParameter(f"{wrong} (choose from {', '.join(known)})", context, option)
    return asked


def _name(context: click.Context, option: click.Parameter, value: str | None) -> str | None:
    """A pattern for names, with known fields only."""
    if value is None:
        return None
    from gesturesmith.pipeline.naming import FIELDS, unknown_fields

    unknown = unknown_fields(value)
    if unknown:
        there = ", ".join(f"{{{field}}}" for field in FIELDS)
        raise click.BadParameter(f"unknown field {clean(unknown[0])} (choose from {there})", context, option)
    return value


def _cluster(context: click.Context, option: click.Parameter, value: str | None) -> str | None:
    """The address of a cluster; an error without Dask."""
    if value is not None and importlib.util.find_spec("distributed") is None:
        raise click.BadParameter("this needs Dask: pip install 'gesturesmith[cluster]'", context, option)
    return value


def _path(context: click.Context, option: click.Parameter, value: str | None) -> Path | None:
    return Path(value) if value is not None else None


_WHAT = (
    click.option("-o", "--output", default="out", metavar="DIR", show_default=True, help="Output folder."),
    click.option(
        "--as",
        "formats",
        callback=_formats,
        default="pdf",
        show_default=True,
        metavar="FORMATS",
        help="Formats to make, separated by commas. "
        + " ".join(f"{name}: {writers.get(name).about}." for name in writers.names()),
    ),
    click.option(
        "--name",
        callback=_name,
        metavar="PATTERN",
        help="Pattern for the names of outputs, such as {composer}-{title}-{part}, instead of the file's name.",
    ),
)
_MANIFEST = click.option(
    "--manifest",
    callback=_path,
    metavar="FILE",
    help="Write a list of all outputs with their sources, findings and hashes.",
)
_HOW = (
    click.option(
        "--jobs",
        type=click.IntRange(1, 256),
        metavar="N",
        help="How many LilyPonds run at a time; one per core by default.",
    ),
    click.option(
        "--force",
        is_flag=True,
        help="Also overwrite files that Gesturesmith did not make, or that were edited since.",
    ),
    click.option("--no-cache", is_flag=True, help="Make everything again, and store nothing for the next run."),
    _MANIFEST,
    click.option("--lilypond", callback=_path, metavar="PATH", help="The LilyPond to use."),
    click.option(
        "--sandbox",
        type=click.Choice(["auto", "always", "never"]),
        default="auto",
        show_default=True,
        help="Run LilyPond inside bubblewrap: if it is installed, always, or never.",
    ),
    click.option(
        "--cluster",
        callback=_cluster,
        metavar="ADDRESS",
        help="Run LilyPond on a Dask cluster in a trusted network, such as tcp://host:8786.",
    ),
    click.option("-q", "--quiet", is_flag=True, help="Print only what is wrong, and the total."),
    profiles_option,
)


def output_options[**P](command: Callable[P, Status]) -> Callable[..., Status]:
    """Give a command the options of `OutputOptions`, as one argument `common`."""
    return _given(command, lists=True)


def watching_options[**P](command: Callable[P, Status]) -> Callable[..., Status]:
    """The same without `--manifest`: a command that goes on has no list of all it made."""
    return _given(command, lists=False)


def _given[**P](command: Callable[P, Status], *, lists: bool) -> Callable[..., Status]:
    @functools.wraps(command)
    def called(
        *arguments: Any,
        output: str,
        formats: tuple[str, ...],
        name: str | None,
        jobs: int | None,
        force: bool,
        no_cache: bool,
        manifest: Path | None = None,
        lilypond: Path | None,
        sandbox: SandboxMode,
        cluster: str | None,
        profiles: Path | None,
        quiet: bool,
        **more: Any,
    ) -> Status:
        more["common"] = OutputOptions(
            output=Path(output),
            formats=formats,
            name=name,
            jobs=jobs or cores(),
            cached=not no_cache,
            force=force,
            manifest=manifest,
            lilypond=lilypond,
            sandbox=sandbox,
            cluster=cluster,
            profiles=profiles,
            quiet=quiet,
        )
        return command(*arguments, **more)

    for option in reversed((*_WHAT, *(option for option in _HOW if lists or option is not _MANIFEST))):
        called = option(called)
    return called


def run_options[**P](command: Callable[P, Status]) -> Callable[..., Status]:
    """Give a command those options of `OutputOptions` that say how a run is made, not what it makes."""

    @functools.wraps(command)
    def called(*arguments: Any, **more: Any) -> Status:
        jobs, no_cache = more.pop("jobs"), more.pop("no_cache")
        how = {name: more.pop(name) for name in ("force", "manifest", "lilypond", "sandbox", "cluster", "profiles")}
        more["common"] = OutputOptions(
            output=Path(),
            formats=(),
            name=None,
            jobs=jobs or cores(),
            cached=not no_cache,
            quiet=more.pop("quiet"),
            **how,
        )
        return command(*arguments, **more)

    for option in reversed(_HOW):
        called = option(called)
    return called


def open_store(common: OutputOptions) -> Store:
    """The cache, unless it is switched off."""
    from gesturesmith import cache

    return cache.open_store() if common.cached else cache.null_store()


def run(
    context: click.Context,
    common: OutputOptions,
    builds: Sequence[Build],
    *,
    store: Store,
    files: InputFiles,
    report: Callable[[BuildResult], Status] | None = None,
    lilypond: LilyPond | MissingLilyPond | None = None,
    pool: LilyPondPool | None = None,
) -> Status:
    """Make all builds and report on each, with a summary if there are several; the exit status.

    files      all input files: none is overwritten, and unreadable ones are reported
    report     reports the findings of a build and gives their status; by default it reports what is refused
    lilypond   if it was found already; `pool`: LilyPonds that outlive the run
    """
    from contextlib import closing

    from gesturesmith import batch
    from gesturesmith.cli import bug
    from gesturesmith.cli.summary import BatchSummary, delivered, lost, reported

    if common.manifest is not None and (why := _impossible(common, files)):
        complain(f"the manifest cannot be written: {why}")
        return Status.INPUT
    progress = Progress()
    setup = _setup(common, store, files, progress, lilypond or find_lilypond(common), pool)
    statuses = [Status.INPUT for _ in files.unread]
    for one in files.unread:
        complain(f"{one.name}: {one.message}")
    tally = BatchSummary(tuple(one.name for one in files.unread))
    finished = []
    try:
        with closing(batch.run(tuple(builds), setup)) as doing, quietly(common.quiet):
            for done in doing:
                progress.done()
                finished.append(done)
                if done.bug is not None:
                    complain(bug.words(done.bug, clean(done.build.name)))
                    statuses.append(Status.MACHINE)
                    tally.add(done, Status.MACHINE)
                    continue
                if report is not None:
                    said = report(done)
                else:
                    said = worst(*(reported(one, colour=bool(context.color)) for one in done.reports))
                statuses += [said, delivered(done, common.output)]
                tally.add(done, said)
    except KeyboardInterrupt:
        progress.done()
        whole = f"{len(finished)} of {len(builds)} done, and what they made is whole"
        say(f"{tally.words}\ninterrupted: {whole}; the next run makes the rest")
        raise
    finally:
        progress.done()
    if tally.several:
        say(tally.words)
    for line in lost(finished):
        say(line)
    if any(done.lacking for done in finished):
        complain(setup.lilypond.reason)  # type: ignore[union-attr]  # otherwise nothing would be lacking
    if any(done.bug is not None for done in finished):
        complain(bug.ADVICE)
    if store.problem:
        complain(f"the cache cannot be written: {clean(store.problem)}")
    if common.manifest is not None:
        statuses.append(_write_manifest(common.manifest, common, setup, finished, files))
    return worst(*statuses)


def _impossible(common: OutputOptions, files: InputFiles) -> str:
    """Why the manifest can never be written, said before any work; "" if it can. What stands there may be one of
    the profiles that the files name: it is looked at after they are read."""
    from gesturesmith.delivery import objection

    assert common.manifest is not None
    inputs = tuple(Path(path) for path in files.paths)
    return clean(objection(common.manifest, inputs=inputs, force=True) or "")


def _setup(
    common: OutputOptions,
    store: Store,
    files: InputFiles,
    progress: Progress,
    lilypond: LilyPond | MissingLilyPond,
    pool: LilyPondPool | None,
) -> BatchSetup:
    from gesturesmith import batch

    return batch.BatchSetup(
        output=common.output,
        inputs=tuple(Path(path) for path in files.paths),
        lilypond=lilypond,
        store=store,
        jobs=common.jobs,
        force=common.force,
        cluster=common.cluster,
        sandbox=common.sandbox,
        pool=pool,
        tell=progress,
    )


def find_lilypond(common: OutputOptions) -> LilyPond | MissingLilyPond:
    """The LilyPond, or why there is none; without a reason if no format needs it."""
    from gesturesmith.lilypond import MissingLilyPond, find

    needed = any(writers.get(name).engraved for name in common.formats)
    return find(common.lilypond, sandbox=common.sandbox) if needed else MissingLilyPond("")


def _write_manifest(
    place: Path, common: OutputOptions, setup: BatchSetup, finished: Sequence[BuildResult], files: InputFiles
) -> Status:
    from gesturesmith.batch import manifest_json
    from gesturesmith.delivery import Blocked, deliver
    from gesturesmith.writers import Output

    data = manifest_json(finished, tuple((one.name, one.message) for one in files.unread))
    made = (common.output / made.place for one in finished for made in one.outputs)
    if any(path.exists() and place.exists() and path.samefile(place) for path in made):
        complain(f"{place} is one of the outputs; choose another name for the manifest")
        return Status.INPUT
    inputs = (*setup.inputs, *(path for one in finished for path in one.reads))
    output = Output(place=PurePosixPath(place.name), data=data)
    written = deliver([output], place.parent, inputs=inputs, force=common.force)
    if isinstance(written, Blocked):
        complain(written.reason)
        return Status.MACHINE if written.machine else Status.INPUT
    return Status.GOOD
