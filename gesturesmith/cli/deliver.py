"""`gesturesmith deliver`."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

import click

from gesturesmith.cli import notes as noting
from gesturesmith.cli import page_command
from gesturesmith.cli.console import clean, complain, say
from gesturesmith.cli.engrave import build_of, identity
from gesturesmith.cli.input_files import InputFile, InputFiles, read_all
from gesturesmith.cli.looks import tell_untranslated
from gesturesmith.cli.status import Status, worst
from gesturesmith.source import Source
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from gesturesmith.batch import Build, BuildResult
    from gesturesmith.cache import Store
    from gesturesmith.cli.page_command import OutputOptions
    from gesturesmith.diagnostics import FileReport
    from gesturesmith.dispatch.file import DeliveryFile, Work
    from gesturesmith.dispatch.record import DeliveryRecord
    from gesturesmith.model.looks import PageLook
    from gesturesmith.pinned import PinnedNumbers

CHANGES = "changes.txt"


@frozen(kw_only=True)
class _WorkFiles:
    """A work with its files as they were read, named relative to the delivery file."""

    work: Work
    found: InputFiles


@click.command()
@click.argument("file", metavar="FILE.toml")
@click.option("-o", "--output", metavar="DIR", help="Output folder, instead of the one the file names.")
@click.option("--set-aside", is_flag=True, help="Move files that nothing makes any more to DIR/stale.")
@page_command.run_options
@click.pass_context
def deliver(
    context: click.Context, file: str, output: str | None, set_aside: bool, common: OutputOptions
) -> Status:
    """Make everything that a delivery file asks for: works and parts, on every paper, in every language.

    \b
    delivery = 1
    papers = ["a4", "letter"]
    languages = ["de", "en, fr"]
    version = "Second proof"
    [[works]]
    files = ["salt-road"]

    Notes and music are bound together for printing on both sides. What was delivered is written to
    FILE.delivered.toml: numbers of notes stay as they are there, what changed since is listed in DIR/changes.txt,
    and files that nothing makes any more are named.
    """
    from gesturesmith.dispatch import file as delivery_file
    from gesturesmith.dispatch import record as recording

    asked = delivery_file.load(file)
    if isinstance(asked, tuple):
        for line in asked:
            complain(f"{clean(file)}: {line}")
        return Status.INPUT
    place = recording.place_of(Path(file))
    before = recording.load(place)
    if isinstance(before, str):
        complain(f"{clean(str(place))}: {before}")
        return Status.INPUT
    works = tuple(_read(work, Path(file).parent) for work in asked.works)
    wrong = tuple(_mistakes(works))
    if wrong:
        for line in wrong:
            complain(f"{clean(file)}: {line}")
        return Status.INPUT
    common = replace(common, output=Path(output) if output else _folder(file, asked), formats=_formats(asked))
    return _Delivery(context, common, asked, works, before, place, set_aside).made()


def _folder(file: str, asked: DeliveryFile) -> Path:
    if asked.output:
        return Path(file).parent / asked.output
    return Path("out") / Path(file).name.removesuffix(".toml")


def _formats(asked: DeliveryFile) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for work in asked.works for name in work.formats))


def _read(work: Work, folder: Path) -> _WorkFiles:
    """The files of a work. Their names do not depend on where the command is run, since the record has them."""
    found = read_all(str(folder / name) for name in work.files)
    named = tuple((one, Source(_below(source.name, folder), source.text)) for one, source in found.read)
    return _WorkFiles(work=work, found=replace(found, read=named))


def _below(name: str, folder: Path) -> str:
    return clean(os.path.relpath(name, folder).replace(os.sep, "/"))


def _mistakes(works: tuple[_WorkFiles, ...]) -> Iterator[str]:
    """What is wrong with the works themselves, found before any work is done."""
    from gesturesmith.lang import parse
    from gesturesmith.pipeline.notes import papers

    for one in works:
        work = one.work
        title = f"{work.name}: " if work.name else ""
        missing = [unread for unread in one.found.unread if unread.code in ("GS190", "GS191", "GS192")]
        yield from (f"{title}{clean(unread.name)}: {unread.message}" for unread in missing)
        there = {b.name.text for _, source in one.found.read for b in parse(source)[0].blocks if b.kind == "part"}
        for part in work.parts:
            if part not in (*there, "score"):
                known = ", ".join(sorted(there)) or "none"
                yield f"{title}no file has a part {clean(part)}; there are {known}, and score"
        if work.notes == "one" and not work.papers:
            for _, look in work.looks:
                found = papers((source for _, source in one.found.read), look)
                if len(found) > 1:
                    told = ", ".join(f"{clean(name)} {paper}" for paper, name in found)
                    yield f'{title}one notes page has one paper, not several ({told}): add papers = ["a4"]'


class _Delivery:
    """One run of a delivery."""

    def __init__(
        self,
        context: click.Context,
        common: OutputOptions,
        asked: DeliveryFile,
        works: tuple[_WorkFiles, ...],
        before: DeliveryRecord,
        place: Path,
        set_aside: bool,
    ) -> None:
        self._context, self._common, self._asked, self._works = context, common, asked, works
        self._before, self._place, self._set_aside = before, place, set_aside
        self._store: Store = page_command.open_store(common)
        self._finished: list[BuildResult] = []
        self._numbers: dict[int, str] = {}  # the pinned numbers of each build, by its identity
        self._told: set[str] = set()
        self._whole = False

    def made(self) -> Status:
        """Make it, and say what is different; the exit status."""
        from gesturesmith.dispatch.changes import changes, state_of

        music = {source.name: state_of(source) for one in self._works for _, source in one.found.read}
        self._before = self._before.renamed(changes(self._before.music, music))
        record = self._before.next(self._asked.label, music)
        builds = tuple(build for one in self._works for build in self._builds(one))
        paths = tuple(path for one in self._works for path in one.found.paths)
        files = InputFiles(
            read=tuple(pair for one in self._works for pair in one.found.read),
            unread=tuple(unread for one in self._works for unread in one.found.unread),
            paths=(*paths, str(self._place)),
        )
        try:
            status = page_command.run(
                self._context, self._common, builds, store=self._store, files=files, report=self._report
            )
            self._whole = True
        finally:
            # What was delivered before an interruption has its numbers too.
            kept = self._kept(record)
            blocked = self._write(kept)
        noting.tell_differences(way for done in self._finished for way in done.ways)
        looks = ((one, look) for one in self._works for _, look in one.work.looks)
        tell_untranslated((source, look) for one, look in looks for _, source in one.found.read)
        return worst(status, blocked, self._ended(kept))

    # --- what is made ------------------------------------------------------------------------------------------

    def _builds(self, one: _WorkFiles) -> Iterator[Build]:
        work = one.work
        for below, look in work.looks:
            folder = below / work.name if len(self._works) > 1 else below
            shown = ", ".join(text for text in (look.paper if len(work.papers) > 1 else "", look.wording) if text)
            moved = tuple((replace(file, place=folder / file.place), source) for file, source in one.found.read)
            for build in self._in_look(work, moved, look, folder):
                name = f"{build.name} ({shown})" if shown else build.name
                named = replace(build, name=name)
                self._numbers[id(named)] = self._numbers.pop(id(build))
                yield named

    def _in_look(
        self, work: Work, read: tuple[tuple[InputFile, Source], ...], look: PageLook, folder: PurePosixPath
    ) -> Iterator[Build]:
        """The builds of a work on one paper and in one language."""
        from gesturesmith.cli.sheet import sheet_build
        from gesturesmith.pipeline.types import NotesOptions, Options

        common = replace(self._common, formats=work.formats, name=work.pattern)
        together = work.binding == "together" and work.notes != "none"
        notes = NotesOptions(
            columns=work.columns,
            look=look,
            version=noting.version_of(work.version, work.date),
            pitches=work.pitches,
            draft=work.draft,
        )
        options = Options(
            formats=work.formats,
            name=work.pattern,
            pitches=work.pitches,
            draft=work.draft,
            look=look,
            cues=work.cues,
            pictures=work.pictures,
            parts=work.parts,
            bind=together,
        )
        document: tuple[Build, ...] = ()
        if work.notes == "one" and read:
            of = work.name or self._asked.title or "all"
            page = noting.document(read, common, replace(notes, pinned=self._pinned(of), place=folder))
            document = (page,)
            options = replace(options, together=identity(page))
            apart = tuple(name for name in work.formats if not together or name != "pdf")
            if apart:
                page = replace(page, formats=apart)
                self._numbers[id(page)] = of
                yield page
        for file, source in read:
            own = options
            of = source.name if work.notes == "each" else (work.name or self._asked.title or "all")
            if work.notes == "each":
                own = replace(options, notes=replace(notes, pinned=self._pinned(of)))
            build = build_of(file, source, own, common, self._store, document)
            self._numbers[id(build)] = of
            yield build
            if work.exercises:
                sheet = sheet_build(file, source, common, look)
                self._numbers[id(sheet)] = ""
                yield sheet

    def _pinned(self, of: str) -> PinnedNumbers:
        from gesturesmith.dispatch.record import NOTHING_PINNED

        return self._before.numbers.get(of, NOTHING_PINNED)

    def _report(self, done: BuildResult) -> Status:
        """Report on a file once, not for every paper and language."""
        from gesturesmith.cli.check import status_of
        from gesturesmith.cli.summary import reported

        self._finished.append(done)
        statuses = []
        for report in done.reports:
            new = report.source.name not in self._told
            self._told.add(report.source.name)
            colour = bool(self._context.color)
            statuses.append(reported(report, colour=colour) if new else status_of(report))
        return worst(*statuses)

    # --- what is kept and said -----------------------------------------------------------------------------------

    def _kept(self, record: DeliveryRecord) -> DeliveryRecord:
        """The record with the numbers and files of what was made."""
        from gesturesmith.dispatch.record import merged

        numbers = dict(record.numbers)
        files = dict(record.files)
        for done in self._finished:
            of = self._numbers.get(id(done.build), "")
            if of and (done.pinned.techniques or done.pinned.gestures):
                numbers[of] = merged(numbers.get(of, done.pinned), done.pinned)
            source = done.build.sources[0].name if len(done.build.sources) == 1 else ""
            files |= {str(made.place): source for made in done.outputs}
        there = {place: source for place, source in files.items() if (self._common.output / place).is_file()}
        return replace(record, numbers=numbers, files=there)

    def _write(self, record: DeliveryRecord) -> Status:
        from gesturesmith.delivery import Blocked
        from gesturesmith.delivery import deliver as put
        from gesturesmith.dispatch.record import text_of
        from gesturesmith.writers import Output

        output = Output(place=PurePosixPath(self._place.name), data=text_of(record).encode())
        # It was read as a record, or was not there: it may be replaced even if somebody merged it by hand.
        written = put([output], self._place.parent, inputs=(), force=True)
        if isinstance(written, Blocked):
            complain(written.reason)
            return Status.MACHINE if written.machine else Status.INPUT
        return Status.GOOD

    def _ended(self, record: DeliveryRecord) -> Status:
        """Say what changed since the last delivery, and what is stale."""
        from gesturesmith.dispatch import stale

        status = self._list_changes(record)
        made = {str(output.place) for done in self._finished for output in done.outputs}
        reports: dict[str, FileReport] = {r.source.name: r for done in self._finished for r in done.reports}
        found = stale.stale(record.files, made, self._common.output, reports)
        if not found:
            return status
        if not self._set_aside:
            say(f"stale, from earlier deliveries ({len(found)}; --set-aside moves them to {stale.ASIDE}):")
            for one in found:
                say(clean(f"  {self._common.output / one.place}: {one.why}"))
            return status
        moved, left = stale.put_aside(found, self._common.output)
        for place in moved:
            say(clean(f"  moved to {stale.ASIDE}: {place}"))
        for place in left:
            complain(f"{self._common.output / place} was edited since it was made, and was left where it is")
        remaining = {place: source for place, source in record.files.items() if place not in moved}
        return worst(status, self._write(replace(record, files=remaining)))

    def _list_changes(self, record: DeliveryRecord) -> Status:
        """Write the list of changes for the cover mail, and say where it is."""
        from gesturesmith.delivery import Blocked
        from gesturesmith.delivery import deliver as put
        from gesturesmith.writers import Output
        from gesturesmith.writers.base import text_with_checksum

        lines = tuple(self._changed(record))
        if record.before is None:
            return Status.GOOD
        text = "\n".join(lines) + "\n"
        output = Output(place=PurePosixPath(CHANGES), data=text_with_checksum("#", text))
        written = put([output], self._common.output, inputs=(), force=self._common.force)
        if isinstance(written, Blocked):
            complain(written.reason)
            return Status.MACHINE if written.machine else Status.INPUT
        say("\n".join(clean(line) for line in lines))
        return Status.GOOD

    def _changed(self, record: DeliveryRecord) -> Iterator[str]:
        from gesturesmith.dispatch.changes import changes

        before = record.before or {}
        this = " ".join(text for text in (self._asked.title, f"({record.label})" if record.label else "") if text)
        yield this or "This delivery"
        yield f"changes since {record.since or 'the last delivery'}:"
        found = changes(before, record.music)
        for one in found:
            yield from (f"  {line}" for line in one.lines)
        unchanged = len({*record.music}) - sum(not one.is_gone for one in found)
        yield f"  unchanged: {unchanged} {'file' if unchanged == 1 else 'files'}"
        yield from self._new_notes(record)

    def _new_notes(self, record: DeliveryRecord) -> Iterator[str]:
        """The entries of notes pages that were not in the delivery before."""
        for of, last in sorted(record.last.items()):
            pinned = record.numbers[of]
            new = sorted((number, name) for name, number in (*pinned.techniques, *pinned.gestures) if number > last)
            if new:
                yield f"  new notes in {of}: {', '.join(f'{number} {name}' for number, name in new)}"
