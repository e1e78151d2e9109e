"""`gesturesmith chart`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from gesturesmith import writers
from gesturesmith.cli import page_command
from gesturesmith.cli.console import clean, complain
from gesturesmith.cli.input_files import InputFiles
from gesturesmith.cli.instrument import instrument_of
from gesturesmith.cli.looks import look_options
from gesturesmith.cli.status import Status
from gesturesmith.model.looks import PageLook

if TYPE_CHECKING:
    from gesturesmith.batch import BuildResult
    from gesturesmith.cli.page_command import OutputOptions


def _kinds(context: click.Context, option: click.Parameter, value: str | None) -> tuple[str, ...]:
    """The charts in a list with commas; which there are, their folder says. Without a list all of them."""
    from gesturesmith.sheets import charts

    there = charts.names()
    if value is None:
        return there
    asked = tuple(dict.fromkeys(w.strip().lower() for w in value.split(",") if w.strip()))
    unknown = [w for w in asked if w not in there]
    if unknown or not asked:
        wrong = f"unknown chart {', '.join(repr(clean(w)) for w in unknown)}" if unknown else "missing chart"
        raise click.BadParameter(f"{wrong} (choose from {', '.join(there)})", context, option)
    return asked


@click.command()
@click.argument("instrument", metavar="INSTRUMENT")
@page_command.output_options
@click.option(
    "--kind", "kinds", callback=_kinds, metavar="KINDS", help="Charts to make, with commas; all by default."
)
@look_options
@click.pass_context
def chart(
    context: click.Context,
    instrument: str,
    common: OutputOptions,
    kinds: tuple[str, ...],
    look: PageLook,
) -> Status:
    """Make charts of INSTRUMENT, which is a name or the path of a profile.

    \b
    fingering      fingerings or slide positions, semitone by semitone
    quarter-tones  fingerings of quarter tones, their errors, and what corrects them
    ladders        the harmonics of every fingering, with their cents
    map            which technique can be played in which register

    Writes DIR/INSTRUMENT-KIND.pdf; as svg or png, one picture each.
    """
    from gesturesmith.batch import Build
    from gesturesmith.model.piece import Settings
    from gesturesmith.model.settings import looked
    from gesturesmith.pipeline.chart import ChartOptions, compile_chart

    there = [name for name in writers.names() if {"page", "picture"} & set(writers.get(name).kinds)]
    if not set(there) & set(common.formats):
        raise click.UsageError(f"charts have no such format (choose from {', '.join(there)})", context)
    found = instrument_of(instrument)
    if isinstance(found, str):
        complain(found)
        return Status.INPUT
    settings = looked(Settings(instrument=found, pitches="written"), look)
    builds = [
        Build(
            name=f"{kind} chart of the {found.name}",
            compile=compile_chart,
            sources=(),
            options=ChartOptions(kinds=(kind,), settings=settings, name=common.name),
            formats=common.formats,
            kinds=("page", "picture"),
        )
        for kind in kinds
    ]

    def report(done: BuildResult) -> Status:
        return Status.GOOD

    files = InputFiles(read=(), unread=(), paths=(instrument,))
    return page_command.run(
        context, common, builds, store=page_command.open_store(common), files=files, report=report
    )
