"""`gesturesmith suggest`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from gesturesmith.cli.bug import ADVICE, apart
from gesturesmith.cli.check import status_of
from gesturesmith.cli.console import clean, complain, say, say_bytes
from gesturesmith.cli.input_files import InputFile, find_files
from gesturesmith.cli.json_schema import schema_option
from gesturesmith.cli.profiles import folder_of, profiles_option
from gesturesmith.cli.status import Status, worst
from gesturesmith.source import folded
from gesturesmith.textfile import UnreadableFile, read
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from gesturesmith.diagnostics import FileReport
    from gesturesmith.fixes.apply import AppliedFixes
    from gesturesmith.source import Source

type _Said = tuple[Status, FileReport]


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--only", metavar="NAME", help="Only this gesture.")
@click.option("--apply", "make", is_flag=True, help="Write a copy in which what is refused is fixed.")
@click.option("-o", "--output", metavar="PLACE", help="Name or folder of the copy; FILE-suggested by default.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON, like `check --json`.")
@schema_option("report")
@profiles_option
@click.pass_context
def suggest(
    context: click.Context,
    files: tuple[str, ...],
    only: str | None,
    make: bool,
    output: str | None,
    as_json: bool,
    profiles: Path | None,
) -> Status:
    """Show what would work instead of what is refused, as lines to paste.

    Each suggestion has itself been checked. --apply writes a copy with the first one for every refused gesture,
    checks the copy and reports the result. FILE itself is never changed.
    """
    found = find_files(files)
    if output is not None and not make:
        raise click.UsageError("-o names the copy that --apply writes: add --apply", context)
    if output is not None and len(found) > 1 and not Path(output).is_dir():
        raise click.UsageError("with several files, -o must be an existing folder", context)
    desk = SuggestRun(only=only, output=output, as_json=as_json, colour=bool(context.color), profiles=profiles)
    work = desk.apply if make else desk.show
    tried = [
        desk.unread(one) if isinstance(one, UnreadableFile) else apart(one.path, partial(desk.one, one, work))
        for one in found
    ]
    said = [one for one in tried if one is not None]
    if as_json:
        from gesturesmith.diagnostics import Report, render_json

        say_bytes(render_json(Report(files=tuple(report for _, report in said))).encode())
    if len(said) < len(tried):
        complain(ADVICE)
    return worst(*(status for status, _ in said), *([Status.MACHINE] if len(said) < len(tried) else []))


def _checked(source: Source, folder: Path, only: str | None) -> FileReport:
    from gesturesmith.pipeline import Options, compile_text

    return compile_text(source, Options(folder=folder, only_check=True, suggest=only)).report


@frozen(kw_only=True)
class SuggestRun:
    """The settings common to all files of a run."""

    only: str | None
    output: str | None
    as_json: bool
    colour: bool
    profiles: Path | None

    def unread(self, one: UnreadableFile) -> _Said:
        if not self.as_json:
            complain(f"{one.name}: {one.message}")
        return Status.INPUT, one.report

    def one(self, given: InputFile, work: Callable[[FileReport, Path], _Said]) -> _Said:
        """One file, if it can be read without an error."""
        source = read(given.path)
        if isinstance(source, UnreadableFile):
            return self.unread(source)
        path = Path(given.path)
        report = _checked(source, folder_of(given.path, self.profiles), self.only)
        if not report.readable:
            if not self.as_json:
                from gesturesmith.diagnostics import Report, render_text

                errors = replace(report, gestures=(), passages=(), exercises=())
                say(render_text(Report(files=(errors,)), colour=self.colour).rstrip("\n"))
                complain(f"{source.name} has errors: fix these first")
            return Status.INPUT, report
        missing = self._missing(report)
        if missing is not None:
            complain(f"{source.name}: {missing}")
            return Status.INPUT, report
        return work(report, path)

    def _missing(self, report: FileReport) -> str | None:
        """A message if `--only` names nothing."""
        names = tuple(g.name for g in report.gestures)
        if self.only is None or folded(self.only) in map(folded, names):
            return None
        import difflib

        near = difflib.get_close_matches(folded(self.only), names, n=3)
        hint = (
            f"; did you mean {' or '.join(near)}?"
            if near
            else f"; the file has {', '.join(names)}"
            if names
            else ""
        )
        return f"no gesture is called {clean(self.only)}{hint}"

    def show(self, report: FileReport, path: Path) -> _Said:
        """All suggestions for a file."""
        if self.only is not None:
            wanted = tuple(g for g in report.gestures if folded(g.name) == folded(self.only))
            report = replace(report, gestures=wanted, passages=(), exercises=())
        if not self.as_json:
            from gesturesmith.diagnostics.offers import render_suggestions

            say(render_suggestions(report).rstrip("\n"))
            if report.refused and any(f.suggestions for g in report.gestures for f in g.findings):
                say("  to write a copy with the first of each: gesturesmith suggest --apply")
        return status_of(report), report

    def apply(self, report: FileReport, path: Path) -> _Said:
        """Write a copy of a file with the first suggestion for each refused gesture."""
        from gesturesmith.cli.copying import copy_place, copy_text, objection, write_copy
        from gesturesmith.fixes.apply import apply_fixes

        folder = folder_of(str(path), self.profiles)
        done = apply_fixes(report, lambda text: _checked(text, folder, self.only), self.only or "")
        if not done.made:
            why = "no fix found" if report.refused else "nothing is refused"
            self._say(f"{report.source.name}: {why}; no copy was written")
            return status_of(report), report
        place = copy_place(path, self.output)
        text = copy_text("\n".join(done.source.lines), path.name)
        copied = replace(done.source, name=clean(str(place)), text=text)
        copy = _checked(copied, folder_of(str(place), self.profiles), self.only)
        problem = objection(place, path) or _unreadable(copy)
        if problem is not None:
            complain(problem)
            return Status.INPUT, copy
        failed = write_copy(place, text, path)
        if failed is not None:
            complain(failed[0])
            return Status.MACHINE if failed[1] else Status.INPUT, copy
        self._tell(done, copy)
        return status_of(copy), copy

    def _tell(self, done: AppliedFixes, copy: FileReport) -> None:
        from gesturesmith.diagnostics import Report, render_text

        for name, suggestion in done.made:
            changed = ", changes the music" if suggestion.changes_music else ""
            self._say(f"{name}: {clean(suggestion.in_words)}")
            self._say(f"  {suggestion.verdict.words}{changed}")
        brief = replace(
            copy,
            gestures=tuple(replace(g, findings=()) for g in copy.gestures),
            passages=tuple(replace(p, findings=()) for p in copy.passages),
        )
        self._say(f"wrote {copy.source.name}")
        self._say(render_text(Report(files=(brief,)), colour=self.colour).rstrip("\n"))

    def _say(self, text: str) -> None:
        if not self.as_json:
            say(text)


def _unreadable(copy: FileReport) -> str | None:
    """Explain that a copy in another folder does not find the instrument beside the original."""
    if copy.readable:
        return None
    return f"{copy.source.name} cannot be read there ({copy.errors[0].message}); choose another place with -o"
