"""Exercise sheets: the playable lines, engraved with preparations and rests."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from functools import cache
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith.checker import check_text
from gesturesmith.exercises.preparation import barred, preparation, rest_s, warm_up
from gesturesmith.model.looks import AS_WRITTEN, PageLook
from gesturesmith.pipeline.naming import delivery_name, file_name
from gesturesmith.pipeline.types import CompileResult
from gesturesmith.rules.base import PassageCase
from gesturesmith.source import Source
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from pathlib import Path

    from gesturesmith.backends.lilypond import EngravedMusic
    from gesturesmith.diagnostics import ExerciseReport
    from gesturesmith.exercises.variants import Practice
    from gesturesmith.lilypond import LilyPond, LilyPondPool
    from gesturesmith.model.piece import Settings
    from gesturesmith.score.music import Music
    from gesturesmith.sheets.exercises import ExerciseLine, Sheet
    from gesturesmith.writers import Item

# The initial estimate of lines on a page, which LilyPond then corrects: millimetres for everything but the lines,
# and staff heights per line.
_AROUND_MM = 100.0
_STAFFS_PER_LINE = 5.6


_TRIED = ("svg",)  # in whatever format pages are counted


@frozen(kw_only=True)
class SheetOptions:
    """The sheets to make of a file.

    folder    the folder of the file: paths of profiles are relative to it
    stem      the file's name without ending
    place     the folder of its outputs, below the output folder
    name      a pattern for the outputs' folder instead of the stem (see `naming`)
    look      replaces settings of the page
    lilypond  used to count the lines that fit a page; None if there is none
    """

    folder: Path | None = None
    stem: str = "untitled"
    place: PurePosixPath = PurePosixPath()
    name: str | None = None
    look: PageLook = AS_WRITTEN
    lilypond: LilyPond | None = None


def compile_sheet(sources: tuple[Source, ...], options: SheetOptions) -> CompileResult:
    """From the text of one file to a report and a sheet for each `exercises` block that has a playable line."""
    (source,) = sources
    checked = check_text(source, folder=options.folder, look=options.look, suggestions=False)
    parts = checked.parts or (checked,)
    there = tuple(dict.fromkeys(name for part in parts for name in part.practices))
    if not checked.report.usable:
        return CompileResult(reports=(checked.report,), names=there)
    items: dict[tuple[str, str], Item] = {}
    counted = any(one.exercise.keep == "one page" for part in parts for one in part.practices.values() if one.kept)
    with trying(options.lilypond if counted else None) as pool:
        for number, part in enumerate(parts):
            piece = part.reading.piece
            name_of_part = checked.reading.parts[number].name if checked.parts else ""
            for count, (name, practice) in enumerate(part.practices.items(), start=1):
                if piece is not None and practice.kept:
                    output = f"e{count:05d}" if not name_of_part else f"part{number:03d}e{count:05d}"
                    items[name_of_part, name] = _item(practice, piece.settings, output, options, pool, name_of_part)
    made = tuple(
        _made(e, items.get((e.part.name if e.part is not None else "", e.name))) for e in checked.report.exercises
    )
    report = replace(checked.report, exercises=made)
    return CompileResult(reports=(report,), names=there, items=tuple(items.values()))


def _made(exercise: ExerciseReport, item: Item | None) -> ExerciseReport:
    """With how many lines its sheet has."""
    return replace(exercise, made=len(item.excerpts)) if item is not None else exercise


def _item(
    practice: Practice,
    settings: Settings,
    output: str,
    options: SheetOptions,
    pool: LilyPondPool | None,
    part: str,
) -> Item:
    from gesturesmith.sheets.exercises import Sheet

    exercise = practice.exercise
    settings = replace(settings, fingerings=exercise.fingerings or settings.fingerings)
    before = plain_music(warm_up(settings.instrument), settings)

    @cache  # each once, however many fit the page in the end
    def engraved(number: int) -> ExerciseLine:
        case = next(line.case for line in practice.playable if line.number == number)
        return line(barred((case,), exercise.meter, exercise.times), settings, prepared=True)

    def sheet(count: int) -> Sheet:
        return Sheet(
            title=exercise.title or exercise.name,
            subtitle=settings.title or "",
            instruction=exercise.instruction or "",
            warm_up=before,
            lines=tuple(engraved(kept.number) for kept in practice.at_most(count)),
            several=exercise.keep != "one page",
        )

    count = len(practice.kept)
    if exercise.keep == "one page":
        count = fitting(sheet, count, settings, pool)
    stem = delivery_name(options.name, settings, options.stem) if options.name else file_name(options.stem)
    folder = options.place / stem / file_name(part) if part else options.place / stem
    return item(sheet(count), settings, folder / file_name(exercise.name), output)


def line(passage: PassageCase, settings: Settings, *, prepared: bool = False) -> ExerciseLine:
    """A line of a sheet, engraved; `prepared`: after the plain notes of its gesture."""
    from gesturesmith.backends import lilypond
    from gesturesmith.score import passage_score
    from gesturesmith.sheets.exercises import ExerciseLine, signs_in

    music = passage_score(passage, settings)
    first = next(case for case in passage.cases if case is not None)
    return ExerciseLine(
        engraving=lilypond.engraved(music),
        tempo=music.tempo,
        preparation=preparation(first) if prepared else None,
        rest_s=rest_s(passage),
        signs=signs_in(first, music, settings),
    )


def plain_music(passage: PassageCase | None, settings: Settings) -> EngravedMusic | None:
    """A warm-up or cool-down, engraved, if there is one."""
    from gesturesmith.backends import lilypond
    from gesturesmith.score import passage_score

    return lilypond.engraved(passage_score(passage, settings)) if passage is not None else None


def item(sheet: Sheet, settings: Settings, place: PurePosixPath, output: str) -> Item:
    """A sheet as an item to deliver."""
    from gesturesmith.score.staves import alone
    from gesturesmith.sheets import document, exercises
    from gesturesmith.writers import Item

    book = exercises.book(sheet, settings, output=output)
    return Item(
        output=output,
        kind="page",
        place=place,
        name=place.name,
        title=sheet.title,
        author=settings.composer or "",
        excerpts=tuple(line.engraving.music.name for line in sheet.lines),
        systems=tuple(alone(music, settings) for music in numbered(line.engraving.music for line in sheet.lines)),
        book=book,
        document=document((book,)),
    )


def numbered(lines: Iterable[Music]) -> Iterator[Music]:
    """The lines of a sheet with their numbers on it for titles: their names are only ours."""
    return (replace(music, title=f"{number}.") for number, music in enumerate(lines, start=1))


def fitting(sheet: Callable[[int], Sheet], most: int, settings: Settings, pool: LilyPondPool | None) -> int:
    """The number of lines, from 1 to `most`, that fill one page: LilyPond tries sheets with more or fewer lines."""
    free = float(settings.paper_mm[1]) - _AROUND_MM
    count = min(most, max(1, int(free / (_STAFFS_PER_LINE * float(settings.staff_mm)))))
    if pool is None:
        return count
    known: dict[int, bool] = {}

    def fits(lines: int) -> bool:
        """With a neighbour where each try starts a LilyPond, which takes longer than a second page."""
        if lines not in known:
            near = lines - 1 if lines + 1 in known else lines + 1
            some = {lines, near} if 1 <= near <= most and not pool.stays else {lines}
            known.update(_on_one_page({n: sheet(n) for n in sorted(some)}, settings, pool))
        return known[lines]

    if not fits(count):
        while count > 1:
            count -= 1
            if fits(count):
                break
        return count
    while count < most and fits(count + 1):
        count += 1
    return count


def _on_one_page(sheets: Mapping[int, Sheet], settings: Settings, pool: LilyPondPool) -> dict[int, bool]:
    """Which of some sheets, by their number of lines, fit on one page."""
    from gesturesmith.lilypond import Job
    from gesturesmith.sheets import document, exercises

    books = tuple(exercises.book(sheet, settings, output=f"tried{n}") for n, sheet in sheets.items())
    run = pool.one(_TRIED, Job(document=document(books)))
    # Several pages become several numbered files. Failures here are reported when the sheet is made.
    found = {n: f"tried{n}.svg" in run.files for n in sheets}
    if any("over-full" in message.text for message in run.messages):  # of the fuller one
        found[max(found)] = False
    return found


@contextmanager
def trying(lilypond: LilyPond | None) -> Iterator[LilyPondPool | None]:
    """LilyPonds that try how much fits a page; None without LilyPond. The first is ready soon."""
    if lilypond is None:
        yield None
        return
    from gesturesmith.lilypond import LilyPondPool

    with LilyPondPool(lilypond) as pool:
        pool.ready(_TRIED)
        yield pool
