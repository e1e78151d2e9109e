"""`gesturesmith notes`."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import click
from click.core import ParameterSource

from gesturesmith import writers
from gesturesmith.cli import page_command
from gesturesmith.cli.console import clean, say
from gesturesmith.cli.input_files import InputFile, InputFiles, read_all
from gesturesmith.cli.looks import look_options, tell_untranslated
from gesturesmith.cli.profiles import folder_of
from gesturesmith.cli.status import Status, worst
from gesturesmith.model.looks import PageLook

if TYPE_CHECKING:
    from gesturesmith.batch import Build, BuildResult
    from gesturesmith.cli.page_command import OutputOptions
    from gesturesmith.pipeline.types import CompileResult, NotesOptions, SignUsage
    from gesturesmith.source import Source

ONE_DOCUMENT = "performance-notes"


_OPTIONS = (
    click.option(
        "--columns", type=click.IntRange(1, 2), default=2, show_default=True, help="Columns of a notes page."
    ),
    click.option("--version-line", metavar="TEXT", help="A version line for the foot of each notes page."),
    click.option("--date", metavar="TEXT", help="A date, printed after the version."),
)


def layout_options[**P](command: Callable[P, Status]) -> Callable[..., Status]:
    """Give a command the options of notes pages, in `layout`: columns, and version and date as one line."""

    @functools.wraps(command)
    def called(*arguments: Any, columns: int, version_line: str | None, date: str | None, **more: Any) -> Status:
        more["layout"] = {"columns": columns, "version": version_of(version_line, date)}
        return command(*arguments, **more)

    for option in reversed(_OPTIONS):
        called = option(called)
    return called


def only_with_notes(context: click.Context, notes: bool) -> None:
    """A usage error if options of notes pages are given where none is made."""
    given = ("one_document", "columns", "version_line", "date")
    told = [name for name in given if context.get_parameter_source(name) is ParameterSource.COMMANDLINE]
    if told and not notes:
        raise click.UsageError(f"--{told[0].replace('_', '-')} is about notes pages: add --notes", context)


def version_of(version: str | None, date: str | None) -> str:
    """The line at the foot of notes pages."""
    return ", ".join(text for text in (version, date) if text)


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@page_command.output_options
@click.option("--one-document", is_flag=True, help="One document for all files instead of one for each.")
@layout_options
@look_options
@click.pass_context
def notes(
    context: click.Context,
    files: tuple[str, ...],
    common: OutputOptions,
    one_document: bool,
    layout: dict[str, Any],
    look: PageLook,
) -> Status:
    """Make performance notes for FILE...: every sign and technique once, with a picture and what to do.

    Writes DIR/FILE-notes.pdf for each file, or DIR/performance-notes.pdf for all of them together. A folder
    stands for all the files in it. `gesturesmith engrave --notes` numbers the parts as these pages do.
    """
    from gesturesmith.pipeline.types import NotesOptions

    there = [name for name in writers.names() if "page" in (one := writers.get(name)).kinds and not one.scored]
    no_pages = [name for name in common.formats if name not in there]
    if no_pages:
        raise click.UsageError(
            f"notes cannot be made as {', '.join(no_pages)} (choose from {', '.join(there)}): "
            "what its signs mean is text"
        )
    found = read_all(files)
    wanted = NotesOptions(name=common.name, look=look, **layout)
    if one_document:
        one_paper(found, look)
        builds = [document(found.read, common, wanted)] if found.read else []
    else:
        builds = [_of_file(one, source, common, wanted) for one, source in found.read]
    ways: list[SignUsage] = []
    report = functools.partial(_report, colour=bool(context.color), ways=ways)
    status = page_command.run(
        context, common, builds, store=page_command.open_store(common), files=found, report=report
    )
    tell_differences(ways)
    tell_untranslated((source, look) for _, source in found.read)
    return status


def _of_file(one: InputFile, source: Source, common: OutputOptions, wanted: NotesOptions) -> Build:
    return _build(((one, source),), replace(wanted, place=one.place, stem=f"{one.stem}-notes"), common)


def document(read: tuple[tuple[InputFile, Source], ...], common: OutputOptions, wanted: NotesOptions) -> Build:
    """The notes of all files as one document."""
    return _build(read, replace(wanted, stem=ONE_DOCUMENT, name=common.name), common)


def one_paper(found: InputFiles, look: PageLook) -> None:
    """A usage error if the files of one document ask for different papers."""
    from gesturesmith.pipeline.notes import papers

    there = papers(tuple(source for _, source in found.read), look)
    if len(there) > 1:
        told = ", ".join(f"{clean(name)} {'has ' if not n else ''}{paper}" for n, (paper, name) in enumerate(there))
        raise click.UsageError(f"one document has one paper: {told}; choose one with --paper")


def _build(read: tuple[tuple[InputFile, Source], ...], wanted: NotesOptions, common: OutputOptions) -> Build:
    from gesturesmith.batch import Build

    return Build(
        name=read[0][1].name if wanted.stem != ONE_DOCUMENT else ONE_DOCUMENT,
        compile=_compiled,
        sources=tuple(source for _, source in read),
        options=replace(wanted, folders=tuple(folder_of(one.path, common.profiles) for one, _ in read)),
        formats=common.formats,
        kinds=("page",),
    )


def _compiled(sources: tuple[Source, ...], options: NotesOptions) -> CompileResult:
    from gesturesmith.pipeline.notes import compile_notes  # not needed if everything is in the cache

    return compile_notes(sources, options)


def _report(done: BuildResult, *, colour: bool, ways: list[SignUsage]) -> Status:
    from gesturesmith.cli.summary import reported

    ways += done.ways
    return worst(*(reported(report, colour=colour) for report in done.reports))


def tell_differences(ways: Iterable[SignUsage]) -> None:
    """Report signs that the files of a run use differently."""
    from gesturesmith.pipeline.differences import differences

    found = differences(ways)
    if found:
        say("these signs are used in different ways:")
    for line in found:
        say(clean(f"  {line}"))
