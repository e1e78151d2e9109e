"""The order of the stages: text, tree, gestures, findings and realisation, score, pages, files."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith.check import Checked, check
from gesturesmith.diagnostics import FileReport, Finding, GestureReport, PassageReport, Severity, Verdict
from gesturesmith.lang import parse
from gesturesmith.model.resolve import resolve
from gesturesmith.source import Source
from gesturesmith.values import frozen

if TYPE_CHECKING:  # `check` pays for neither Abjad nor LilyPond, nor for files
    from pathlib import Path

    from gesturesmith.engrave.music import Music
    from gesturesmith.lilypond import Failure, Job, LilyPond, Press, Run
    from gesturesmith.model.piece import Settings
    from gesturesmith.writers import Item, Output

PAGE = "page"  # what LilyPond calls the page of a file
_TOGETHER = 4  # so many pictures are set in the page's own run; more have one of their own, side by side with it
_SECONDS_A_MUSIC = 2.0  # far beyond the 0.02 s that one takes: only what never ends is stopped


@frozen(kw_only=True)
class Options:
    """What is wanted of a file.

    folder      where the file lies: profiles named by a path are sought from there
    stem        the file's name without ending, which its outputs bear
    only_check  stop after the check
    formats     names of writers
    pitches     how the page names pitches: written | sounding
    only        the one gesture or passage wanted; None for all
    draft       engrave what is refused as well, marked as a draft
    """

    folder: Path | None = None
    stem: str = "untitled"
    only_check: bool = False
    formats: tuple[str, ...] = ("pdf",)
    pitches: str = "written"
    only: str | None = None
    draft: bool = False


@frozen(kw_only=True)
class Outcome:
    """What is said of a file, and what there is of it to deliver; `names` are all its gestures and passages."""

    report: FileReport
    names: tuple[str, ...] = ()
    items: tuple[Item, ...] = ()


def compile_text(source: Source, options: Options) -> Outcome:
    """From text to a report and, where it is wanted and can be had, to music that is laid out."""
    tree, syntax = parse(source)
    piece, names = resolve(tree, folder=options.folder)
    if piece is None:
        return Outcome(report=FileReport(source=source, readable=False, errors=(*syntax, *names)))
    checked = check(piece, tree, source, (*syntax, *names))
    report = _narrowed(checked.report, options.only)
    there = tuple(said.name for said in _everything(checked.report))
    if options.only_check or not report.readable:
        return Outcome(report=report, names=there)
    # Abjad enters here, and only here.
    return Outcome(report=report, names=there, items=_laid_out(checked, report, piece.settings, options))


def _everything(report: FileReport) -> tuple[GestureReport | PassageReport, ...]:
    return (*report.gestures, *report.passages)


def _narrowed(report: FileReport, only: str | None) -> FileReport:
    """The report of the one gesture or passage that is asked for; a file with errors is reported whole."""
    if only is None or not report.readable:
        return report
    wanted = only.casefold()
    return FileReport(
        source=report.source,
        readable=True,
        errors=report.errors,
        gestures=tuple(g for g in report.gestures if g.name.casefold() == wanted),
        passages=tuple(p for p in report.passages if p.name.casefold() == wanted),
    )


def _laid_out(checked: Checked, report: FileReport, settings: Settings, options: Options) -> tuple[Item, ...]:
    """The page, unless one thing alone is asked for, and the snippets of all that may be engraved."""
    from gesturesmith import sheets
    from gesturesmith.writers import Item

    musics = tuple(_engraved(checked, report, settings, options))
    if not musics:
        return ()
    author = settings.composer or ""
    items = []
    if options.only is None:
        book = sheets.page.book(musics, settings, output=PAGE, refused=_left_out(report, musics))
        page = Item(
            output=PAGE,
            kind="page",
            place=PurePosixPath(options.stem),
            name=options.stem,
            title=settings.title or "",
            author=author,
            musics=tuple(m.name for m in musics),
            book=book,
            document=sheets.document((book,)),
        )
        items.append(page)
    for number, music in enumerate(musics, start=1):
        items.append(_snippet(music, f"s{number:05d}", settings, options))
    return tuple(items)


def _snippet(music: Music, output: str, settings: Settings, options: Options) -> Item:
    from gesturesmith import sheets
    from gesturesmith.writers import Item

    book = sheets.snippet.book(music, settings, output=output)
    return Item(
        output=output,
        kind="snippet",
        place=PurePosixPath(options.stem, music.name),
        name=music.name,
        title=music.title or "",
        author=settings.composer or "",
        description=music.description,
        musics=(music.name,),
        book=book,
        document=sheets.document((book,)),
        ily=sheets.ily.text(music, settings),
    )


def _left_out(report: FileReport, musics: tuple[Music, ...]) -> tuple[tuple[str, str], ...]:
    """What is not on the page, by title or name, with the first reason."""
    shown = {m.name for m in musics}
    return tuple(
        (said.title or said.name, next((f.text for f in said.findings if f.severity is Severity.REFUSED), ""))
        for said in _everything(report)
        if said.name not in shown
    )


def _engraved(checked: Checked, report: FileReport, settings: Settings, options: Options) -> Iterator[Music]:
    from gesturesmith.engrave import engrave_gesture, engrave_passage

    for said in report.gestures:
        case = checked.cases.get(said.name)
        if case is not None and (options.draft or said.verdict is not Verdict.REFUSED):
            yield engrave_gesture(case, settings, pitches=options.pitches, draft=_draft_lines(said, options))
    for passage in report.passages:
        played = checked.passage_cases.get(passage.name)
        if played is not None and (options.draft or passage.verdict is not Verdict.REFUSED):
            draft = _draft_lines(passage, options)
            yield engrave_passage(played, settings, pitches=options.pitches, draft=draft)


def _draft_lines(said: GestureReport | PassageReport, options: Options) -> tuple[str, ...]:
    """What is printed with a draft: the verdict, then each finding in a line; nothing where it is no draft."""
    if not options.draft:
        return ()
    return (f"{said.verdict.words}", *(_finding_line(f) for f in said.findings))


def _finding_line(finding: Finding) -> str:
    where = f"{finding.where}: " if finding.where else ""
    return f"{where}{finding.text}"


# --- files -----------------------------------------------------------------------------------------------


def engraved_formats(formats: tuple[str, ...], kind: str | None = None) -> tuple[str, ...]:
    """Those of the wanted formats that LilyPond makes (for one kind of item, or at all), sorted."""
    from gesturesmith import writers

    chosen = (writers.get(f) for f in sorted(set(formats)))
    return tuple(w.key for w in chosen if w.engraved and (kind is None or kind in w.kinds))


def early(options: Options, lilypond: LilyPond) -> tuple[tuple[str, ...], ...]:
    """The formats of the LilyPonds that are worth starting before anything is known of the file."""
    from gesturesmith.lilypond import groups

    pages = engraved_formats(options.formats, "page") if options.only is None else ()
    pictures = engraved_formats(options.formats, "snippet")
    return tuple(dict.fromkeys((*groups(lilypond, pages), *groups(lilypond, pictures))))


def make(outcome: Outcome, options: Options, press: Press | None) -> tuple[Output, ...] | Failure:
    """The files of an outcome in all wanted formats. `press` may be None where no format needs LilyPond."""
    from gesturesmith import writers

    made: dict[str, dict[str, bytes]] = {}
    if press is not None:
        engraved = _press(outcome.items, options, press)
        if not isinstance(engraved, dict):
            return engraved
        made = engraved
    outputs: list[Output] = []
    for name in sorted(set(options.formats)):
        writer = writers.get(name)
        if not writer.engraved or press is not None:
            outputs += writer.outputs(outcome.items, made.get(name, {}))
    return tuple(outputs)


@frozen(kw_only=True)
class _Task:
    """Items that one LilyPond makes in the same formats."""

    formats: tuple[str, ...]
    items: tuple[Item, ...]

    @property
    def job(self) -> Job:
        from gesturesmith import sheets
        from gesturesmith.lilypond import Job

        document = sheets.document(tuple(i.book for i in self.items))
        return Job(document=document, timeout_s=60.0 + _SECONDS_A_MUSIC * sum(len(i.musics) for i in self.items))


def _tasks(items: tuple[Item, ...], options: Options, press: Press) -> tuple[_Task, ...]:
    from gesturesmith.lilypond import groups

    by_kind = {
        kind: (engraved_formats(options.formats, kind), tuple(i for i in items if i.kind == kind))
        for kind in ("page", "snippet")
    }
    (pages, page_items), (pictures, snippets) = by_kind["page"], by_kind["snippet"]
    if pages == pictures and page_items and len(snippets) <= _TOGETHER:
        wanted = [(pages, page_items + snippets)]
    else:
        wanted = [(pages, page_items), (pictures, snippets)]
    return tuple(
        _Task(formats=group, items=them)
        for formats, them in wanted
        if them
        for group in groups(press.lilypond, formats)
    )


def _press(items: tuple[Item, ...], options: Options, press: Press) -> dict[str, dict[str, bytes]] | Failure:
    """LilyPond's files by format and output, or what failed."""
    tasks = tuple((task, task.job) for task in _tasks(items, options, press))
    runs = press.run(tuple((task.formats, job) for task, job in tasks))
    made: dict[str, dict[str, bytes]] = {}
    for (task, job), run in zip(tasks, runs, strict=True):
        failed = _failure(task, job, run)
        if failed is not None:
            alone = None if failed.gesture or run.ended in ("full", "stopped") else _isolated(items, press)
            return alone or failed
        for kind in task.formats:
            made.setdefault(kind, {}).update((i.output, run.file(i.output, kind) or b"") for i in task.items)
    return made


def _failure(task: _Task, job: Job, run: Run) -> Failure | None:
    from gesturesmith.lilypond import failure

    lacking = [i for i in task.items if any(not run.file(i.output, kind) for kind in task.formats)]
    # A page shows many: that it is missing does not tell which of them it was.
    missing = tuple(i.musics[0] if len(i.musics) == 1 else "" for i in lacking[:1])
    return failure(job.document, run.messages, run.ended, missing)


def _isolated(items: tuple[Item, ...], press: Press) -> Failure | None:
    """The first gesture or passage that fails by itself as well: each alone, in a run of its own."""
    from gesturesmith.lilypond import Failure, Job, failure

    for item in (i for i in items if i.kind == "snippet"):
        job = Job(document=item.document)
        (run,) = press.run(((("pdf",), job),))
        alone = failure(job.document, run.messages, run.ended)
        if alone is not None:
            return Failure(gesture=item.name, summary=alone.summary)
    return None
