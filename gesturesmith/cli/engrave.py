"""`gesturesmith engrave`."""

from __future__ import annotations

from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from gesturesmith import writers
from gesturesmith.cli.check import status_of
from gesturesmith.cli.console import Progress, clean, complain, say
from gesturesmith.cli.status import Status, worst
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from gesturesmith.diagnostics import GestureReport, PassageReport
    from gesturesmith.lilypond import Failure, LilyPond, Missing
    from gesturesmith.pipeline import Options, Outcome
    from gesturesmith.source import Source
    from gesturesmith.writers import Output


def _formats(context: click.Context, option: click.Parameter, value: str) -> tuple[str, ...]:
    """The formats in a list with commas; which there are, the folder of writers says."""
    asked = tuple(dict.fromkeys(w.strip().lower() for w in value.split(",") if w.strip()))
    known = writers.names()
    unknown = [w for w in asked if w not in known]
    if unknown or not asked:
        wrong = f"there is no format {', '.join(map(clean, unknown))}" if unknown else "no format is named"
        raise click.BadParameter(f"{wrong}; there are {', '.join(known)}", context, option)
    return asked


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("-o", "--output", default="out", metavar="DIR", show_default=True, help="Folder for what is made.")
@click.option(
    "--as",
    "formats",
    callback=_formats,
    default="pdf",
    show_default=True,
    metavar="FORMATS",
    help=f"What to make, with commas: {', '.join(writers.names())}.",
)
@click.option(
    "--pitches",
    type=click.Choice(["written", "sounding"]),
    default="written",
    show_default=True,
    help="A part with the pitches the player reads, or a score with those that sound.",
)
@click.option("--only", metavar="NAME", help="Only this gesture or passage, as a snippet.")
@click.option("--draft", is_flag=True, help="Engrave what is refused as well, marked DRAFT, with the findings.")
@click.option("--lilypond", "lilypond_path", metavar="PATH", help="The LilyPond to use.")
@click.pass_context
def engrave(
    context: click.Context,
    files: tuple[str, ...],
    output: str,
    formats: tuple[str, ...],
    pitches: str,
    only: str | None,
    draft: bool,
    lilypond_path: str | None,
) -> Status:
    """Check FILE... and engrave what can be played.

    Writes DIR/FILE.pdf, the page of a file, and DIR/FILE/NAME.pdf (.svg, .png, .ily) for each gesture and
    passage.
    """
    from gesturesmith.pipeline import Options

    paths = tuple(dict.fromkeys(files))
    clash = _same_place(paths)
    if clash is not None:
        complain(clash)
        return Status.INPUT
    options = Options(formats=formats, pitches=pitches, only=only, draft=draft)
    shop = _Shop(
        paths=tuple(Path(p) for p in paths),
        output=Path(output),
        lilypond_path=Path(lilypond_path) if lilypond_path is not None else None,
        colour=bool(context.color),
        progress=Progress(),
    )
    return worst(*[shop.one(path, options) for path in paths])


def _same_place(paths: tuple[str, ...]) -> str | None:
    """A message where two different files would be written to one place."""
    places: dict[str, str] = {}
    for path in paths:
        first = places.setdefault(stem_of(path).casefold(), path)
        if first != path and not _same_file(first, path):
            return (
                f"{first} and {path} would both be written to {stem_of(path)}: "
                "engrave them one after the other, into different folders (-o)"
            )
    return None


def _same_file(one: str, other: str) -> bool:
    try:
        return Path(one).samefile(other)
    except (OSError, ValueError):
        return False


def stem_of(path: str) -> str:
    """The name a file's outputs bear: without `.gesture`, and without what cannot be printed."""
    name = Path(path).name
    return clean(name.removesuffix(".gesture") or name).replace("\n", "\ufffd")


@frozen(kw_only=True)
class _Shop:
    """What all files of a run share."""

    paths: tuple[Path, ...]
    output: Path
    lilypond_path: Path | None
    colour: bool
    progress: Progress

    def one(self, path: str, options: Options) -> Status:
        """Engrave one file, and say what was made or why not."""
        from gesturesmith.cli.reading import Unread, read

        source = read(path)
        if isinstance(source, Unread):
            complain(f"{source.name}: {source.message}")
            return Status.INPUT
        options = replace(options, folder=Path(path).parent, stem=stem_of(path))
        self.progress(f"{source.name}: engraving ...")
        try:
            with ExitStack() as stack:
                return self._engrave(source, options, stack)
        finally:
            self.progress.done()

    def _engrave(self, source: Source, options: Options, stack: ExitStack) -> Status:
        from gesturesmith.lilypond import Missing, Press
        from gesturesmith.pipeline import compile_text, early, make

        found = self._lilypond(options)
        # It starts while the file is checked and Abjad imported, and waits for its document.
        press = None if isinstance(found, Missing) else stack.enter_context(Press(found, early(options, found)))
        outcome = compile_text(source, options)
        self.progress.done()
        status = _report(outcome, options, self.colour)
        if not outcome.items:
            return status
        if isinstance(found, Missing) and found.reason:
            complain(found.reason)
            status = worst(status, Status.MACHINE)
        made = make(outcome, options, press)
        if not isinstance(made, tuple):
            complain(f"{source.name}: {_broken(made)}")
            return worst(status, Status.MACHINE)
        return worst(status, self._deliver(made))

    def _lilypond(self, options: Options) -> LilyPond | Missing:
        """The LilyPond, or why there is none: without a reason where no format needs it."""
        from gesturesmith.lilypond import Missing, find
        from gesturesmith.pipeline import engraved_formats

        return find(self.lilypond_path) if engraved_formats(options.formats) else Missing("")

    def _deliver(self, outputs: tuple[Output, ...]) -> Status:
        from gesturesmith.delivery import Blocked, deliver

        written = deliver(outputs, self.output, inputs=self.paths)
        if isinstance(written, Blocked):
            complain(written.reason)
            return Status.MACHINE if written.machine else Status.INPUT
        for line in _made(self.output, written):
            say(clean(line))
        return Status.GOOD


def _report(outcome: Outcome, options: Options, colour: bool) -> Status:
    """What is wrong with a file or refused, in full; of what can be played, how much there is."""
    from gesturesmith.diagnostics import Report, Verdict, render_text

    report = outcome.report
    everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
    if options.only is not None and report.readable and not everything:
        complain(f"{report.source.name}: {_no_such(options.only, outcome.names)}")
        return Status.INPUT
    if report.readable:
        brief = replace(
            report,
            gestures=tuple(g if g.verdict is Verdict.REFUSED else replace(g, findings=()) for g in report.gestures),
            passages=tuple(p if p.verdict is Verdict.REFUSED else replace(p, findings=()) for p in report.passages),
        )
        say(render_text(Report(files=(brief,)), colour=colour).rstrip("\n"))
        if any(r.verdict is Verdict.CAUTION for r in everything):
            say("  what to take care of: gesturesmith check")
    else:
        say(render_text(Report(files=(report,)), colour=colour).rstrip("\n"))
        complain(f"{report.source.name} has errors; nothing was engraved")
    return status_of(report)


def _no_such(only: str, names: tuple[str, ...]) -> str:
    import difflib

    near = difflib.get_close_matches(only.casefold(), names, n=3)
    hint = f"; near it: {', '.join(near)}" if near else f"; there are {', '.join(names)}" if names else ""
    return f"there is no gesture or passage called {clean(only)}{hint}"


def _broken(failure: Failure) -> str:
    whose = f'"{failure.gesture}" could not be engraved' if failure.gesture else "it could not be engraved"
    return f"{whose}, and nothing was written: {failure.summary}"


def _made(folder: Path, written: tuple[Path, ...]) -> list[str]:
    """The pages by name, the snippets counted by folder and format."""
    lines = [f"  {path}" for path in written if path.parent == folder]
    groups: dict[Path, dict[str, int]] = {}
    for path in written:
        if path.parent != folder:
            kinds = groups.setdefault(path.parent, {})
            kinds[path.suffix[1:]] = kinds.get(path.suffix[1:], 0) + 1
    for place, kinds in groups.items():
        lines.append(f"  {place}/  " + ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items())))
    return lines
