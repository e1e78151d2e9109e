"""A term of lessons as one document: a cover, and one page a week."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith import techniques
from gesturesmith.exercises import frame, levels
from gesturesmith.exercises.preparation import barred
from gesturesmith.exercises.term import PlannedLine, TermPlan, Week, weeks
from gesturesmith.pipeline.sheet import line, plain_music
from gesturesmith.pipeline.types import CompileResult
from gesturesmith.source import Source
from gesturesmith.values import frozen
from gesturesmith.wording import said, technique_title, together

if TYPE_CHECKING:
    from gesturesmith.lilypond import LilyPond
    from gesturesmith.model.piece import Settings
    from gesturesmith.sheets.exercises import ExerciseLine, Sheet
    from gesturesmith.sheets.term import TermPages, TermRow
    from gesturesmith.writers import Item

_MOST, _LEAST = 5, 2  # lines a week
_A_LINE_MINUTES = 12  # of practice a week, our own judgement: a week of an hour has five lines


@frozen(kw_only=True)
class TermOptions:
    """The term to make.

    plan      the teacher's
    marks     for each week the numbers of the lines to come again
    settings  instrument, wording and paper
    name      of the output, without ending
    fewer     how many lines there is room for on the pages of some weeks, by their number (`room`)
    """

    plan: TermPlan
    marks: Mapping[int, tuple[int, ...]]
    settings: Settings
    name: str
    fewer: Mapping[int, int] = field(default_factory=dict)


def compile_term(sources: tuple[Source, ...], options: TermOptions) -> CompileResult:
    """The cover and a page for each week. Reads no source."""
    pages = _pages(options, planned_weeks(options))
    return CompileResult(reports=(), names=(options.name,), items=(_item(pages, options),))


def planned_weeks(options: TermOptions) -> tuple[Week, ...]:
    """The weeks, each with as many lines as the student's minutes and its page have room for."""
    return weeks(options.plan, options.marks, most_lines(options.plan), options.fewer)


def room(options: TermOptions, lilypond: LilyPond) -> TermOptions:
    """With no more lines in a week than fit on its page."""
    # A week with fewer lines leaves more for the next: each is tried again until all fit.
    pages = _pages(options, planned_weeks(options))
    while full := _full(pages, options, lilypond):
        fewer = {n: max(_LEAST, len(pages.weeks[n - 1][0].lines) - 1) for n in full}
        if all(fewer[n] == len(pages.weeks[n - 1][0].lines) for n in full):
            break
        options = replace(options, fewer={**options.fewer, **fewer})
        pages = _pages(options, planned_weeks(options))
    return options


def most_lines(plan: TermPlan) -> int:
    """How many lines the minutes of a week are enough for."""
    student = plan.instrument.student
    if student is None or student.minutes is None:
        return _MOST
    return min(_MOST, max(_LEAST, student.minutes // _A_LINE_MINUTES))


def _pages(options: TermOptions, planned: tuple[Week, ...]) -> TermPages:
    from gesturesmith.sheets.term import TermPages

    plan, settings = options.plan, options.settings
    student = plan.instrument.student
    part = settings.part_name(settings.wording)
    notes = [said("term-how", settings.wording)]
    if student is not None and student.minutes is not None:
        notes.append(said("term-minutes", settings.wording).replace("{minutes}", str(student.minutes)))
    if student is not None and student.braces:
        notes.append(said("term-braces", settings.wording))
    return TermPages(
        title=plan.title or said("term", settings.wording),
        student=f"{student.name}, {part}" if student is not None and student.name else part,
        notes=tuple(notes),
        rows=_rows(plan, planned, settings),
        weeks=tuple((_sheet(week, options), week.date.isoformat()) for week in planned),
    )


def _rows(plan: TermPlan, planned: tuple[Week, ...], settings: Settings) -> tuple[TermRow, ...]:
    from gesturesmith.sheets.term import TermRow

    free = said("term-no-lesson", settings.wording)
    rows = {day: TermRow(week="", date=day.isoformat(), new=free, tempi="") for day in plan.pauses}
    known: set[str] = set()
    for week in planned:
        keys = dict.fromkeys(one.technique for one in week.new)
        new = [_title(key, settings) for key in keys if key not in known]
        more = [_title(key, settings) for key in keys if key in known]
        told = ", ".join(new) or (
            said("term-more", settings.wording).replace("{techniques}", ", ".join(more))
            if more
            else said("term-revision", settings.wording)
        )
        known |= keys.keys()
        tempi = [tempo for one in week.lines for tempo in one.tempi]
        rows[week.date] = TermRow(
            week=str(week.number),
            date=week.date.isoformat(),
            new=told,
            tempi=f"{min(tempi)}–{max(tempi)}" if tempi else "",
        )
    return tuple(rows[day] for day in sorted(rows))


def _title(key: str, settings: Settings) -> str:
    return together(technique_title(techniques.get(key), language) for language in settings.wording)


def _sheet(week: Week, options: TermOptions) -> Sheet:
    from gesturesmith.sheets.exercises import Sheet

    plan, settings = options.plan, options.settings
    level = levels.numbered()[plan.level - 1]
    keys = dict.fromkeys(one.technique for one in (*week.new, *week.lines))
    practised = [techniques.get(key) for key in keys]
    after = next((done for t in practised if (done := frame.after(t, plan.instrument, level)) is not None), None)
    return Sheet(
        title=said("term-title", settings.wording).replace("{week}", str(week.number)),
        subtitle=", ".join(dict.fromkeys(_title(one.technique, settings) for one in week.new))
        or said("term-revision", settings.wording),
        warm_up=plain_music(frame.before(practised[0], plan.instrument, level), settings) if practised else None,
        lines=tuple(_line(one, week, level.times, settings) for one in week.lines),
        cool_down=plain_music(after, settings),
        full=True,
    )


def _line(one: PlannedLine, week: Week, times: int, settings: Settings) -> ExerciseLine:
    if techniques.get(one.technique).bell_hand:
        settings = replace(settings, fingerings="all")
    asked = one.line.asked
    passage = barred((one.at(one.tempi[0]),), asked.shape.meter, times, key=asked.key)
    key = "new-line" if one.since == week.number else "again" if one.again else "from"
    aim = said(f"term-{key}", settings.wording).replace("{week}", str(one.since))
    return replace(line(passage, settings), aim=aim, tempi=one.tempi)


def _item(pages: TermPages, options: TermOptions) -> Item:
    from gesturesmith.score.staves import alone
    from gesturesmith.sheets import document, term
    from gesturesmith.writers import Item

    book = term.book(pages, options.settings, output="term")
    musics = [one.engraving.music for sheet, _ in pages.weeks for one in sheet.lines]
    return Item(
        output="term",
        kind="page",
        place=PurePosixPath(options.name),
        name=options.name,
        title=pages.title,
        author="",
        excerpts=tuple(music.name for music in musics),
        systems=tuple(alone(music, options.settings) for music in musics),
        book=book,
        document=document((book,)),
    )


def _full(pages: TermPages, options: TermOptions, lilypond: LilyPond) -> tuple[int, ...]:
    """The numbers of the weeks that do not fit on a page, from 1."""
    from gesturesmith.lilypond import Job, start
    from gesturesmith.sheets import document, term

    count = range(1, len(pages.weeks) + 1)
    books = tuple(term.week_book(pages, n - 1, options.settings, output=f"week{n}") for n in count)
    with start(lilypond, ("svg",)) as waiting:
        waiting.feed(Job(document=document(books)))
        run = waiting.result()
    return tuple(n for n in count if f"week{n}.svg" not in run.files)
