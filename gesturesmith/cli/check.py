"""`gesturesmith check`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from gesturesmith.cli.console import complain, say, say_bytes
from gesturesmith.cli.status import Status, worst

if TYPE_CHECKING:
    from gesturesmith.diagnostics import FileReport


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--json", "as_json", is_flag=True, help="Print the result for programs, as one JSON object.")
@click.pass_context
def check(context: click.Context, files: tuple[str, ...], as_json: bool) -> Status:
    """Say whether, and how, each gesture of FILE... can be played."""
    from gesturesmith.cli.reading import Unread, read
    from gesturesmith.diagnostics import Report, render_json, render_text
    from gesturesmith.pipeline import Options, compile_text

    reports, spoken = [], []
    for path in dict.fromkeys(files):
        source = read(path)
        if isinstance(source, Unread):
            if not as_json:
                complain(f"{source.name}: {source.message}")
            reports.append(source.report)
        else:
            options = Options(folder=Path(path).parent, only_check=True)
            spoken.append(compile_text(source, options).report)
            reports.append(spoken[-1])
    if as_json:
        say_bytes(render_json(Report(files=tuple(reports))).encode())
    elif spoken:
        say(render_text(Report(files=tuple(spoken)), colour=bool(context.color)).rstrip("\n"))
    return worst(*(status_of(r) for r in reports))


def status_of(report: FileReport) -> Status:
    """What a file's report means for the exit status."""
    if not report.readable:
        return Status.INPUT
    return Status.REFUSED if report.refused else Status.GOOD
