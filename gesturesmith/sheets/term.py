"""The pages of a term of lessons: a cover with what is new in which week, and a page a week."""

from __future__ import annotations

from gesturesmith.lytext import LyText, code, joined, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.sheets import _score
from gesturesmith.sheets._head import PageHeader, opening
from gesturesmith.sheets.exercises import Sheet, body
from gesturesmith.values import frozen
from gesturesmith.wording import said


@frozen(kw_only=True)
class TermRow:
    """A week on the cover.

    week    its number, "" without a lesson
    date    its first day, as 2026-09-21
    new     what is new, or that there is no lesson
    tempi   from the slowest to the fastest, "" for none
    """

    week: str
    date: str
    new: str
    tempi: str


@frozen(kw_only=True)
class TermPages:
    """What a term's pages say.

    title, student   as printed; student: name and instrument
    notes    sentences on the cover
    rows     one for each week; weeks: the page of each week with a lesson, and its first day
    """

    title: str
    student: str
    notes: tuple[str, ...]
    rows: tuple[TermRow, ...]
    weeks: tuple[tuple[Sheet, str], ...]


def book(term: TermPages, settings: Settings, *, output: str) -> LyText:
    """A `\\book` called `output` (a name we choose)."""
    start = opening(PageHeader(title="", left=""), output, "gsTermPaper", settings)
    pages = [_cover(term, settings)]
    pages += [_page(sheet, date, term, settings) for sheet, date in term.weeks]
    return joined((start, *pages, code("}\n")))


def week_book(term: TermPages, number: int, settings: Settings, *, output: str) -> LyText:
    """The page of one week alone, to see whether it fits; `number` counts from 0."""
    start = opening(PageHeader(title="", left=""), output, "gsTermPaper", settings)
    sheet, date = term.weeks[number]
    return joined((start, _page(sheet, date, term, settings), code("}\n")))


def _cover(term: TermPages, settings: Settings) -> LyText:
    words = [said(f"term-{key}", settings.wording) for key in ("week", "date", "new", "tempi")]
    head = " ".join(quoted(word) for word in words)
    rows = [
        f"\\markup \\gs-term-row {' '.join(map(quoted, (row.week, row.date, row.new, row.tempi)))}"
        for row in term.rows
    ]
    notes = [f"\\markup \\gs-instruction {quoted(note)}" for note in term.notes]
    inside = "\n".join([*notes, "\\markup \\vspace #1.5", f"\\markup \\bold \\gs-term-row {head}", *rows])
    return _part(term.title, "", term.student, "", inside, settings)


def _page(sheet: Sheet, date: str, term: TermPages, settings: Settings) -> LyText:
    return _part(sheet.title, sheet.subtitle, term.student, date, body(sheet, settings), settings)


def _part(title: str, subtitle: str, left: str, right: str, inside: str, settings: Settings) -> LyText:
    fields = {"title": title, "subtitle": subtitle, "instrument": left, "composer": right}
    lines = "\n".join(_score.field(name, value) for name, value in fields.items() if value)
    return code(f"\\bookpart {{\n\\header {{\n{lines}\n}}\n{inside}\n}}\n")
