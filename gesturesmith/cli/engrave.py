"""`gesturesmith engrave`."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any

import click

from gesturesmith.cli import notes as noting
from gesturesmith.cli import page_command
from gesturesmith.cli.console import clean, complain
from gesturesmith.cli.input_files import read_all
from gesturesmith.cli.looks import look_options, tell_untranslated
from gesturesmith.cli.profiles import folder_of
from gesturesmith.cli.status import Status
from gesturesmith.kinds import Pitches
from gesturesmith.model.looks import PageLook
from gesturesmith.source import folded

if TYPE_CHECKING:
    from gesturesmith.batch import Build, BuildResult
    from gesturesmith.cache import Store
    from gesturesmith.cli.input_files import InputFile
    from gesturesmith.cli.page_command import OutputOptions
    from gesturesmith.pipeline import CompileResult, Options
    from gesturesmith.pipeline.types import SignUsage
    from gesturesmith.source import Source
    from gesturesmith.writers import Item


_MUSIC = (
    click.option(
        "--pitches",
        type=click.Choice(["written", "sounding"]),
        default="written",
        show_default=True,
        help="Written pitches for a part, sounding ones for a concert score.",
    ),
    click.option("--snippets", is_flag=True, help="Only the snippets, no page."),
    click.option(
        "--cues", is_flag=True, help="Parts of a file with several get cues before entries after long rests."
    ),
    click.option("--draft", is_flag=True, help="Also engrave what is refused, marked DRAFT, with the findings."),
)


def music_options[**P](command: Callable[P, Status]) -> Callable[..., Status]:
    """Give a command the options that say what is engraved, and those of looks."""
    called = look_options(command)
    for option in reversed(_MUSIC):
        called = option(called)
    return called


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@page_command.output_options
@music_options
@click.option("--only", metavar="NAME", help="Only this gesture or passage, as a snippet.")
@click.option(
    "--notes", is_flag=True, help="Also make performance notes, and number the marks to match (see notes)."
)
@click.option("--one-document", is_flag=True, help="With --notes: one notes document for all files.")
@noting.layout_options
@click.pass_context
def engrave(
    context: click.Context,
    files: tuple[str, ...],
    common: OutputOptions,
    pitches: Pitches,
    only: str | None,
    snippets: bool,
    notes: bool,
    one_document: bool,
    layout: dict[str, Any],
    look: PageLook,
    cues: bool,
    draft: bool,
) -> Status:
    """Check FILE... and engrave what can be played. A folder stands for all its files.

    Writes DIR/FILE.pdf, the page of a file, and DIR/FILE/NAME.pdf (.svg, .png, .ily) for each gesture and
    passage; for a folder FILE, in the same subfolders. Unchanged files are left as they are.

    ily, ly, musicxml and mxl need no LilyPond. MusicXML has the same music for score programs; what it has no place
    for is told once.
    """
    from gesturesmith.pipeline.types import NotesOptions, Options

    options = Options(
        formats=common.formats,
        name=common.name,
        pitches=pitches,
        only=only,
        draft=draft,
        pages=not snippets,
        cues=cues,
        look=look,
    )
    noting.only_with_notes(context, notes)
    store = page_command.open_store(common)
    found = read_all(files)
    document: list[Build] = []
    wanted = NotesOptions(pitches=pitches, draft=draft, look=look, **layout)
    if notes and one_document:
        noting.one_paper(found, look)
    if notes and one_document and found.read:
        document.append(noting.document(found.read, common, wanted))
        options = replace(options, together=identity(document[0]))
    elif notes:
        options = replace(options, notes=wanted)
    builds = list(document)
    builds += [build_of(one, source, options, common, store, document) for one, source in found.read]
    ways: list[SignUsage] = []
    report = partial(_report, only=only, colour=bool(context.color), ways=ways)
    status = page_command.run(context, common, builds, store=store, files=found, report=report)
    noting.tell_differences(ways)
    tell_untranslated((source, look) for _, source in found.read)
    return status


def identity(document: Build) -> str:
    """What identifies the notes that give the marks of several files their numbers."""
    from gesturesmith.cache import digest

    return digest(*(source.text for source in document.sources), repr(document.options))


def build_of(
    file: InputFile,
    source: Source,
    options: Options,
    common: OutputOptions,
    store: Store,
    document: Sequence[Build] = (),
) -> Build:
    """The build of a file. `document`: the build of notes common to all files, if there is one."""
    from gesturesmith.batch import Build

    options = replace(options, folder=folder_of(file.path, common.profiles), stem=file.stem, place=file.place)
    pages = options.pages and options.only is None
    kinds = (("page",) if pages else ()) + (("snippet",) if options.pictures else ())
    return Build(
        name=source.name,
        compile=partial(_compiled, store=store, document=document),
        sources=(source,),
        options=options,
        formats=options.formats,
        kinds=kinds,
    )


def _compiled(
    sources: tuple[Source, ...], options: Options, store: Store, document: Sequence[Build]
) -> CompileResult:
    from gesturesmith.pipeline import compile_file  # not needed if everything is in the cache
    from gesturesmith.pipeline.binding import bound

    page: Item | None = None
    if not document:
        made = compile_file(sources, options, store)
    elif options.bind:
        from gesturesmith.pipeline.notes import shared

        numbers, pinned, page = shared(document[0].sources, document[0].options)
        made = replace(compile_file(sources, options, store, numbers), pinned=pinned)
    else:
        from gesturesmith.pipeline.notes import numbering

        made = compile_file(sources, options, store, numbering(document[0].sources, document[0].options))
    return bound(made, page) if options.bind else made


def _report(done: BuildResult, *, only: str | None, colour: bool, ways: list[SignUsage]) -> Status:
    from gesturesmith.cli.summary import reported

    ways += done.ways
    if done.build.name == noting.ONE_DOCUMENT:
        return Status.GOOD  # its files are separate builds
    (report,) = done.reports
    if only is not None and report.readable and not (report.gestures or report.passages):
        complain(f"{report.source.name}: {_no_such(only, done.names)}")
        return Status.INPUT
    return reported(report, colour=colour)


def _no_such(only: str, names: tuple[str, ...]) -> str:
    import difflib

    near = difflib.get_close_matches(folded(only), names, n=3)
    hint = f"; did you mean {' or '.join(near)}?" if near else f"; the file has {', '.join(names)}" if names else ""
    return f"no gesture or passage is called {clean(only)}{hint}"
