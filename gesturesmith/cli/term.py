"""`gesturesmith term`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from gesturesmith import writers
from gesturesmith.cli import page_command
from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.input_files import InputFiles
from gesturesmith.cli.looks import look_options
from gesturesmith.cli.status import Status, worst
from gesturesmith.model.looks import PageLook

if TYPE_CHECKING:
    from gesturesmith.batch import BuildResult
    from gesturesmith.cli.page_command import OutputOptions


@click.command()
@click.argument("plan", metavar="PLAN")
@page_command.output_options
@click.option("--marks", metavar="FILE", help="The file with the marks, instead of the one beside the output.")
@look_options
@click.pass_context
def term(context: click.Context, plan: str, common: OutputOptions, marks: str | None, look: PageLook) -> Status:
    """Make the sheets of a term of lessons from PLAN, a TOML file: a cover, and a page for each week.

    \b
    lesson_plan = 1
    title = "Autumn term"
    student = "mia.toml"        # a student's profile, or an instrument
    begins = 2026-09-07
    weeks = 12
    pauses = [2026-10-19]       # weeks without a lesson
    level = 1                   # 1, the first year, to 5
    techniques = ["slide-gliss", "flutter-tongue"]

    Each week has something new and, at growing distances and quicker each time, what came before. Writes
    DIR/PLAN.pdf and DIR/PLAN-marks.toml, in which the teacher marks each lesson; made again, the weeks after it
    follow.
    """
    from gesturesmith.batch import Build
    from gesturesmith.exercises import term_file
    from gesturesmith.lilypond import LilyPond, find
    from gesturesmith.model.piece import Settings
    from gesturesmith.model.settings import looked
    from gesturesmith.pipeline.naming import safe
    from gesturesmith.pipeline.term import TermOptions, compile_term, planned_weeks, room

    pages = [name for name in writers.names() if "page" in writers.get(name).kinds]
    if not set(pages) & set(common.formats):
        raise click.UsageError(f"terms have no such format (choose from {', '.join(pages)})", context)
    path = Path(plan)
    found, errors = term_file.read_plan(path)
    for error in errors:
        complain(f"{clean(plan)}: {clean(error.message)}")
    if found is None:
        return Status.INPUT
    name = safe(path.stem) or "term"
    place = Path(marks) if marks is not None else common.output / f"{name}-marks.toml"
    marked, errors = term_file.read_marks(place, len(found.dates))
    for error in errors:
        complain(f"{clean(str(place))}: {clean(error.message)}")
    if errors:
        return Status.INPUT
    options = TermOptions(
        plan=found,
        marks=marked,
        settings=looked(Settings(instrument=found.instrument, pitches="written"), look),
        name=name,
    )
    lilypond = find(common.lilypond, sandbox=common.sandbox)
    if isinstance(lilypond, LilyPond):
        options = room(options, lilypond)
    # Told before a page is made: the file with the marks stays as it is.
    unknown = term_file.unknown_marks(marked, planned_weeks(options))
    for words in unknown:
        complain(f"{clean(str(place))}: {words}")
    if unknown:
        return Status.INPUT
    build = Build(
        name=f"term {name}",
        compile=compile_term,
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
        files=InputFiles(read=(), unread=(), paths=(plan,)),
        report=report,
    )
    if status is Status.MACHINE or place.exists():
        return status
    return worst(status, _write(place, term_file.marks_form(len(found.dates))))


def _write(place: Path, form: str) -> Status:
    """Write the file for the marks."""
    from gesturesmith.delivery import blocked, new_file

    try:
        new_file(place, form.encode())
    except OSError as error:
        reason = blocked(error, clean(str(place)))
        complain(reason.reason)
        return Status.MACHINE if reason.machine else Status.INPUT
    say(f"  {clean(str(place))}  to mark the lessons in")
    return Status.GOOD
