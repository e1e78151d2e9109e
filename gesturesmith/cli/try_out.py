"""`gesturesmith try-out`."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from gesturesmith import writers
from gesturesmith.cli import page_command
from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.input_files import InputFiles, read_all
from gesturesmith.cli.instrument import instrument_of
from gesturesmith.cli.looks import look_options
from gesturesmith.cli.profiles import folder_of
from gesturesmith.cli.status import Status, worst
from gesturesmith.model.looks import PageLook

if TYPE_CHECKING:
    from gesturesmith.batch import BuildResult
    from gesturesmith.cli.page_command import OutputOptions


@click.command("try-out")
@click.argument("instrument", metavar="INSTRUMENT")
@click.argument("files", nargs=-1, metavar="[FILE...]")
@page_command.output_options
@click.option(
    "--questions",
    type=click.IntRange(1, 20),
    default=5,
    show_default=True,
    metavar="N",
    help="How many limits to ask about.",
)
@look_options
@click.pass_context
def try_out(
    context: click.Context,
    instrument: str,
    files: tuple[str, ...],
    common: OutputOptions,
    questions: int,
    look: PageLook,
) -> Status:
    """Make a sheet on which a player of INSTRUMENT tries out limits of the checker.

    INSTRUMENT is a name of `gesturesmith list instruments`, or the path of a profile.

    Each limit has a few gestures on both sides of it, with boxes to tick: fine, with care, no. It asks first about
    limits that are only our own judgement and decided most in FILE...

    Writes DIR/INSTRUMENT-try-out.pdf and, beside it, INSTRUMENT-try-out.toml to type the answers into;
    `gesturesmith answers` makes a profile of them.
    """
    from gesturesmith import instruments
    from gesturesmith.batch import Build
    from gesturesmith.checker import check_text
    from gesturesmith.exercises import answers, tryout
    from gesturesmith.model.piece import Settings
    from gesturesmith.model.settings import looked
    from gesturesmith.pipeline.tryout import TryOutOptions, compile_try_out, sheet_name, title

    pages = [name for name in writers.names() if "page" in writers.get(name).kinds]
    if not set(pages) & set(common.formats):
        raise click.UsageError(f"try-out sheets have no such format (choose from {', '.join(pages)})", context)
    found = instrument_of(instrument)
    if isinstance(found, str):
        complain(found)
        return Status.INPUT
    read = read_all(files)
    reports = [
        check_text(source, folder=folder_of(one.path, common.profiles), suggestions=False).report
        for one, source in read.read
    ]
    asked = tryout.chosen(found, tryout.decided(reports, found), questions)
    settings = looked(Settings(instrument=found, pitches="written"), look)
    options = TryOutOptions(questions=asked, settings=settings, name=common.name)
    build = Build(
        name=f"try-out sheet of the {found.name}",
        compile=compile_try_out,
        sources=(),
        options=options,
        formats=common.formats,
        kinds=("page",),
    )

    def report(done: BuildResult) -> Status:
        return Status.GOOD

    status = page_command.run(
        context,
        common,
        [build],
        store=page_command.open_store(common),
        files=InputFiles(read=(), unread=read.unread, paths=(instrument, *files)),
        report=report,
    )
    if status is Status.MACHINE:
        return status
    shipped = instrument in instruments.names()
    named = found.key if shipped else Path(os.path.relpath(instrument, common.output)).as_posix()
    form = answers.form(named, [(title(question, settings.wording), question) for question in asked])
    return worst(status, _write(common.output / f"{sheet_name(options)}.toml", form))


def _write(place: Path, form: str) -> Status:
    """Write the file for the answers; one that is there is never changed."""
    from gesturesmith.delivery import blocked, new_file

    shown = clean(str(place))
    try:
        new_file(place, form.encode())
    except FileExistsError:
        if place.is_file() and place.read_bytes() == form.encode():
            return Status.GOOD
        complain(f"{shown} already exists and was not changed; with another -o there is a new one")
        return Status.GOOD
    except OSError as error:
        reason = blocked(error, shown)
        complain(reason.reason)
        return Status.MACHINE if reason.machine else Status.INPUT
    say(f"  {shown}  to type the answers into")
    return Status.GOOD
