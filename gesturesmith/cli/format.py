"""`gesturesmith format`."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import click

from gesturesmith.cli.bug import ADVICE, apart
from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.status import Status, worst


@click.command(name="format")
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--check", "only_check", is_flag=True, help="Change nothing; exit status 1 if a file would change.")
@click.pass_context
def format_(context: click.Context, files: tuple[str, ...], only_check: bool) -> Status:
    """Put FILE... into canonical form, in place. A file with errors is not touched."""
    colour = bool(context.color)
    said = [apart(path, partial(_one, path, only_check, colour)) for path in dict.fromkeys(files)]
    if None in said:
        complain(ADVICE)
    return worst(*(Status.MACHINE if status is None else status for status in said))


def _one(path: str, only_check: bool, colour: bool) -> Status:
    from gesturesmith.delivery import replace_file
    from gesturesmith.diagnostics import FileReport, Report, render_text
    from gesturesmith.lang import format_text, parse
    from gesturesmith.textfile import UnreadableFile, read

    source = read(path)
    if isinstance(source, UnreadableFile):
        complain(f"{source.name}: {source.message}")
        return Status.INPUT
    _, errors = parse(source)
    if errors:
        report = FileReport(source=source, readable=False, errors=errors)
        say(render_text(Report(files=(report,)), colour=colour).rstrip("\n"))
        complain(f"{source.name} has errors and was not changed")
        return Status.INPUT
    formatted = format_text(source)
    if formatted == source.text:
        return Status.GOOD
    if only_check:
        say(f"{source.name} would change")
        return Status.REFUSED
    if (reason := replace_file(Path(path).resolve(), formatted.encode())) is not None:
        complain(clean(reason.reason))
        return Status.MACHINE if reason.machine else Status.INPUT
    say(f"{source.name} changed")
    return Status.GOOD
