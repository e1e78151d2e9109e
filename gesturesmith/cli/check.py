"""`gesturesmith check`."""

from __future__ import annotations

from collections import Counter
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from gesturesmith.cli.bug import ADVICE, apart
from gesturesmith.cli.console import complain, say, say_bytes
from gesturesmith.cli.json_schema import schema_option
from gesturesmith.cli.profiles import folder_of, profiles_option
from gesturesmith.cli.status import Status, worst

if TYPE_CHECKING:
    from gesturesmith.diagnostics import FileReport


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--json", "as_json", is_flag=True, help="Print the result as one JSON object.")
@schema_option("report")
@profiles_option
@click.pass_context
def check(context: click.Context, files: tuple[str, ...], as_json: bool, profiles: Path | None) -> Status:
    """Check whether, and how, each gesture of FILE... can be played. A folder stands for all its files."""
    from gesturesmith.cli.input_files import InputFile, find_files
    from gesturesmith.cli.progress import Progress
    from gesturesmith.diagnostics import Report, render_json, render_text
    from gesturesmith.pipeline import Options, compile_text
    from gesturesmith.textfile import UnreadableFile, read

    reports, spoken = [], []
    faults = 0
    progress = Progress()
    found = find_files(files)
    for number, one in enumerate(found):
        source = one if isinstance(one, UnreadableFile) else read(one.path)
        if isinstance(source, UnreadableFile):
            if not as_json:
                complain(f"{source.name}: {source.message}")
            reports.append(source.report)
        elif isinstance(one, InputFile):
            progress(f"{source.name}: checking", number, len(found))
            options = Options(folder=folder_of(one.path, profiles), only_check=True)
            outcome = apart(source.name, partial(compile_text, source, options))
            if outcome is None:
                faults += 1
            else:
                spoken.append(outcome.report)
                reports.append(outcome.report)
    progress.done()
    if as_json:
        say_bytes(render_json(Report(files=tuple(reports))).encode())
    elif spoken:
        say(render_text(Report(files=tuple(spoken)), colour=bool(context.color)).rstrip("\n"))
    if len(reports) + faults > 1 and not as_json:
        say(_in_all(reports, faults))
    if faults:
        complain(ADVICE)
    return worst(*(status_of(r) for r in reports), *([Status.MACHINE] if faults else []))


def _in_all(reports: list[FileReport], faults: int) -> str:
    """`total: 30 playable, 6 not as written, 4 with errors`, and those that met a bug of ours, if any."""
    count = Counter(status_of(report) for report in reports)
    words = {Status.GOOD: "playable", Status.REFUSED: "not as written", Status.INPUT: "with errors"}
    said = [f"{count[status]} {word}" for status, word in words.items()]
    return f"total: {', '.join([*said, *([f'{faults} not checked'] if faults else [])])}"


def status_of(report: FileReport) -> Status:
    """The exit status for a file's report."""
    if not report.readable:
        return Status.INPUT
    return Status.REFUSED if report.refused else Status.GOOD
