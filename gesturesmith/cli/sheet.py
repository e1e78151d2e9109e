"""`gesturesmith sheet`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import click

from gesturesmith import writers
from gesturesmith.cli import page_command
from gesturesmith.cli.check import status_of
from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.input_files import InputFile, InputFiles, read_all
from gesturesmith.cli.instrument import instrument_of
from gesturesmith.cli.looks import look_options
from gesturesmith.cli.profiles import folder_of
from gesturesmith.cli.status import Status
from gesturesmith.model.looks import PageLook

if TYPE_CHECKING:
    from gesturesmith.batch import Build, BuildResult
    from gesturesmith.cli.page_command import OutputOptions
    from gesturesmith.diagnostics import FileReport
    from gesturesmith.lilypond import LilyPond
    from gesturesmith.pipeline.graded import GradedOptions
    from gesturesmith.source import Source

_LEVELS = re.compile(r"([1-5])(?:\s*\.\.\s*([1-5]))?\Z")


def _levels(context: click.Context, option: click.Parameter, value: str) -> tuple[int, ...]:
    """`3`, `1..5`, `1,3`."""
    found: set[int] = set()
    for part in value.split(","):
        match = _LEVELS.match(part.strip())
        if match is None or int(match[2] or match[1]) < int(match[1]):
            raise click.BadParameter(
                f"{clean(value)} is not a level; give 1 to 5, or a range such as 1..5", context, option
            )
        found.update(range(int(match[1]), int(match[2] or match[1]) + 1))
    return tuple(sorted(found))


@click.command()
@click.argument("files", nargs=-1, metavar="[FILE...]")
@page_command.output_options
@click.option("--technique", metavar="NAME", help="Sheets for one technique, without a file.")
@click.option("--instrument", metavar="NAME", help="Instrument of --technique: a name, or a profile's path.")
@click.option(
    "--level",
    "levels",
    callback=_levels,
    default="1..5",
    show_default=True,
    metavar="LEVELS",
    help="Level or levels of --technique: 1 is a first-year student, 5 a professional.",
)
@click.option(
    "--seed",
    type=click.IntRange(0, 999_999),
    default=0,
    show_default=True,
    metavar="N",
    help="Another number gives other lines for --technique, the same number the same.",
)
@look_options
@click.pass_context
def sheet(
    context: click.Context,
    files: tuple[str, ...],
    common: OutputOptions,
    technique: str | None,
    instrument: str | None,
    levels: tuple[int, ...],
    seed: int,
    look: PageLook,
) -> Status:
    """Make exercise sheets from the `exercises` blocks of FILE..., or for one technique.

    \b
    gesturesmith sheet week-one.gesture
    gesturesmith sheet --technique half-valve --instrument horn --level 1..5

    Writes DIR/FILE/NAME.pdf for each block; in a folder, files without one are skipped. Variants that cannot
    be played are left out, and listed with the reason.
    """
    pages = [name for name in writers.names() if "page" in writers.get(name).kinds]
    if not set(pages) & set(common.formats):
        raise click.UsageError(f"sheets have no such format (choose from {', '.join(pages)})", context)
    if technique is None and instrument is None:
        if not files:
            raise click.UsageError("give a file, or --technique and --instrument", context)
        return _of_files(context, files, common, look)
    if files or technique is None or instrument is None:
        wrong = (
            "a file has its own instrument; leave out --technique and --instrument"
            if files
            else "give both --technique and --instrument"
        )
        raise click.UsageError(wrong, context)
    return _of_technique(context, common, technique, instrument, levels, seed, look)


def _lilypond(common: OutputOptions) -> LilyPond | None:
    """The LilyPond that counts lines on a page; a missing one is reported when needed."""
    from gesturesmith.lilypond import LilyPond, find

    found = find(common.lilypond, sandbox=common.sandbox)
    return found if isinstance(found, LilyPond) else None


def _of_files(context: click.Context, files: tuple[str, ...], common: OutputOptions, look: PageLook) -> Status:
    store = page_command.open_store(common)
    found = read_all(files)
    builds = [sheet_build(one, source, common, look) for one, source in found.read]
    named = {source.name for one, source in found.read if one.named}

    def report(done: BuildResult) -> Status:
        (said,) = done.reports
        if said.readable and not said.exercises and said.source.name not in named:
            return Status.GOOD  # most files of a folder have none: not an error
        return _report(said, colour=bool(context.color))

    return page_command.run(context, common, builds, store=store, files=found, report=report)


def sheet_build(one: InputFile, source: Source, common: OutputOptions, look: PageLook) -> Build:
    """The build of the exercise sheets of a file."""
    from gesturesmith.batch import Build
    from gesturesmith.pipeline.sheet import SheetOptions, compile_sheet

    options = SheetOptions(
        folder=folder_of(one.path, common.profiles),
        stem=one.stem,
        place=one.place,
        name=common.name,
        look=look,
        lilypond=_lilypond(common),
    )
    return Build(
        name=source.name,
        compile=compile_sheet,
        sources=(source,),
        options=options,
        formats=common.formats,
        kinds=("page",),
    )


def _report(report: FileReport, *, colour: bool) -> Status:
    """Report a file's errors in full; of its exercises, the number of lines and every one left out."""
    from gesturesmith.diagnostics import Report, render_text

    name = clean(report.source.name)
    if not report.readable:
        say(render_text(Report(files=(report,)), colour=colour).rstrip("\n"))
        made = report.usable and any(e.made for e in report.exercises)
        complain(f"{name} has errors; {'no sheet was made where they are' if made else 'no sheet was made'}")
        return status_of(report)
    if not report.exercises:
        complain(f"{name}: no `exercises` block")
        return Status.INPUT
    for exercise in report.exercises:
        left = f", {len(exercise.left_out)} left out" if exercise.left_out else ""
        say(f"{name}: exercises {clean(exercise.name)}: {exercise.made} made{left}")
        for label, reason in exercise.left_out:
            say(clean(f"    {label}: {reason}"))
    return Status.GOOD if any(exercise.made for exercise in report.exercises) else Status.REFUSED


def _of_technique(
    context: click.Context,
    common: OutputOptions,
    technique: str,
    instrument: str,
    levels: tuple[int, ...],
    seed: int,
    look: PageLook,
) -> Status:
    from gesturesmith import techniques
    from gesturesmith.batch import Build
    from gesturesmith.exercises.probes import lacking
    from gesturesmith.model.piece import Settings
    from gesturesmith.model.settings import looked
    from gesturesmith.pipeline.graded import GradedOptions, compile_graded

    if technique not in techniques.names():
        complain(_no_such("technique", technique, techniques.names()))
        return Status.INPUT
    found = instrument_of(instrument)
    if isinstance(found, str):
        complain(found)
        return Status.INPUT
    why = lacking(techniques.get(technique), found)
    if why:
        complain(f"{why}: there is nothing to practise")
        return Status.REFUSED
    settings = looked(Settings(instrument=found, pitches="written"), look)
    options = GradedOptions(
        technique=technique,
        settings=settings,
        levels=levels,
        seed=seed,
        name=common.name,
        lilypond=_lilypond(common),
    )
    build = Build(
        name=f"{technique} on the {found.name}",
        compile=compile_graded,
        sources=(),
        options=options,
        formats=common.formats,
        kinds=("page",),
    )

    def report(done: BuildResult) -> Status:
        return _missing_levels(done, options)

    return page_command.run(
        context,
        common,
        [build],
        store=page_command.open_store(common),
        files=InputFiles(read=(), unread=(), paths=(instrument,)),
        report=report,
    )


def _missing_levels(done: BuildResult, options: GradedOptions) -> Status:
    from gesturesmith.pipeline.graded import sheet_name

    missing = [level for level in options.levels if sheet_name(options, level) not in done.names]
    if missing:
        complain(f"{done.build.name}: {_too_little(options, missing)}")
    return Status.GOOD if len(missing) < len(options.levels) else Status.REFUSED


def _too_little(options: GradedOptions, missing: list[int]) -> str:
    """Why there is no sheet for some levels, with the obstacle on the easiest note."""
    from gesturesmith import techniques
    from gesturesmith.exercises.probes import easiest

    levels = ", ".join(map(str, missing))
    found = easiest(techniques.get(options.technique), options.settings.instrument)
    why = f"; on {found.note.name}: {found.reason}" if found.reason else ""
    return f"too few lines are playable without care for a sheet of level {levels}{why}"


def _no_such(what: str, name: str, names: tuple[str, ...]) -> str:
    import difflib

    near = difflib.get_close_matches(name, names, n=3)
    hint = f"did you mean {' or '.join(near)}?" if near else f"see gesturesmith list {what}s"
    return f"unknown {what} '{clean(name)}'; {hint}"
