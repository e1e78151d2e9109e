"""The delivery file: which works and parts are made, on which papers, in which languages, how, and where."""

from __future__ import annotations

import difflib
from dataclasses import replace
from pathlib import PurePosixPath
from typing import Literal, get_args

from gesturesmith import writers
from gesturesmith.instruments.profile.file import ProfileError, parse
from gesturesmith.instruments.profile.values import Table
from gesturesmith.kinds import Pitches
from gesturesmith.model.looks import PageLook
from gesturesmith.pipeline.naming import FIELDS, safe, unknown_fields
from gesturesmith.source import folded
from gesturesmith.textfile import UnreadableFile, read_bytes
from gesturesmith.values import frozen

MARK = "delivery"
NotesKind = Literal["each", "one", "none"]
PrintKind = Literal["together", "apart"]
_MOST = 100  # works, files of a work, papers, languages
_MOST_LOOKS = 12  # papers or languages of one work
# Keys that may stand at the top for all works, or in a work for that alone.
_SHARED = (
    "papers", "languages", "formats", "name", "notes", "print", "columns", "version", "date", "pitches", "pictures",
    "exercises", "cues", "draft",
)  # fmt: skip
_TOP = (MARK, "title", "output", "works", *_SHARED)
_OF_WORK = ("work", "files", "parts", *_SHARED)


@frozen(kw_only=True)
class Work:
    """One work of a delivery.

    name       by which its numbers are kept, and the folder of its pages if there are several works
    files      files and folders, relative to the delivery file
    parts      of files with several parts, the parts wanted, "score" for the score; () for all
    papers, languages   as in settings `paper` and `wording`; () for what each file says
    formats    names of writers
    pattern    a pattern for the names of outputs, None for the files' own
    notes      a notes page for each file, one document for all, or none
    binding    notes and music as one PDF, or apart
    columns    1 | 2, of notes pages
    version, date   at the foot of notes pages
    pitches    written | sounding
    pictures   a picture of each gesture and passage too
    exercises  sheets of the `exercises` blocks too
    cues, draft   as for `engrave`
    """

    name: str
    files: tuple[str, ...]
    parts: tuple[str, ...] = ()
    papers: tuple[str, ...] = ()
    languages: tuple[str, ...] = ()
    formats: tuple[str, ...] = ("pdf",)
    pattern: str | None = None
    notes: NotesKind = "each"
    binding: PrintKind = "together"
    columns: int = 2
    version: str = ""
    date: str = ""
    pitches: Pitches = "written"
    pictures: bool = False
    exercises: bool = False
    cues: bool = False
    draft: bool = False

    @property
    def looks(self) -> tuple[tuple[PurePosixPath, PageLook], ...]:
        """What its pages look like, each with the folder of those pages: `a4/de`, without a level of which there is
        only one."""
        found = []
        for paper in self.papers or ("",):
            for language in self.languages or ("",):
                levels = [safe(paper)] if len(self.papers) > 1 else []
                levels += [language.replace(", ", "-")] if len(self.languages) > 1 else []
                found.append((PurePosixPath(*levels), PageLook(wording=language, paper=paper)))
        return tuple(found)


@frozen(kw_only=True)
class DeliveryFile:
    """A delivery: its title, the output folder relative to its file ("" for the usual one), and its works."""

    title: str
    output: str
    works: tuple[Work, ...]

    @property
    def label(self) -> str:
        """Version and date in words; "" if the file has neither."""
        first = self.works[0]
        return ", ".join(text for text in (first.version, first.date) if text)


def load(path: str) -> DeliveryFile | tuple[str, ...]:
    """The delivery described by a file, or everything that is wrong with it, each with its line."""
    data = read_bytes(path)
    if isinstance(data, UnreadableFile):
        return (data.message,)
    parsed = parse(data, MARK, "not a delivery file: one begins")
    if isinstance(parsed, ProfileError):
        return (parsed.message,)
    values, lines = parsed
    errors: list[ProfileError] = []
    top = Table(values, (), lines, errors)
    top.known(_TOP)
    top.whole(MARK, None, 1, 1)
    title, output = top.text("title", ""), top.text("output", "")
    plain = _shared(top, Work(name="", files=()))
    tables = top.tables("works")
    if not tables and isinstance(values.get("works", []), list):
        top.error("works", "this is missing", "[[works]] with files = [...], once for each work")
    works = tuple(_work(table, plain, len(tables) > 1) for table in tables[:_MOST])
    seen: dict[str, str] = {}
    for table, work in zip(tables, works, strict=False):
        if work.name and (other := seen.get(folded(work.name))) is not None:
            table.error("work", f"another work is called {other} too", "a name for each work")
        seen[folded(work.name)] = work.name
    if errors:
        return tuple(e.message for e in sorted(errors, key=lambda e: (e.line, e.key)))
    return DeliveryFile(title=title, output=output, works=works)


def _work(table: Table, plain: Work, several: bool) -> Work:
    table.known(_OF_WORK)
    files = _texts(table, "files", (), _MOST)
    if "files" not in table.values:
        table.error("files", "this is missing", 'files and folders, such as ["horn.gesture", "brass"]')
    name = table.text("work", "")
    if several and not name and "work" not in table.values:
        table.error("work", "this is missing", 'a name for each of several works, such as work = "low-cloud"')
    if name != safe(name):
        table.error("work", "this is the name of a folder too", f'letters, digits, - and _, such as "{safe(name)}"')
    work = _shared(table, replace(plain, name=name, files=files))
    return replace(work, parts=_texts(table, "parts", (), _MOST))


def _shared(table: Table, plain: Work) -> Work:
    """The keys that may stand at the top or in a work; a work's own replace those at the top."""
    work = replace(
        plain,
        papers=_looks(table, "papers", "paper", plain.papers),
        languages=_looks(table, "languages", "wording", plain.languages),
        formats=_formats(table, plain.formats),
        pattern=_pattern(table, plain.pattern),
        notes=table.one_of("notes", plain.notes, get_args(NotesKind)),
        binding=table.one_of("print", plain.binding, get_args(PrintKind)),
        columns=table.whole("columns", plain.columns, 1, 2),
        version=table.text("version", plain.version),
        date=_date(table, plain.date),
        pitches=table.one_of("pitches", plain.pitches, get_args(Pitches)),
        pictures=table.flag("pictures", plain.pictures),
        exercises=table.flag("exercises", plain.exercises),
        cues=table.flag("cues", plain.cues),
        draft=table.flag("draft", plain.draft),
    )
    if "print" in table.values and work.binding == "together" and "pdf" not in work.formats:
        table.error("print", "only PDFs are bound together", 'formats with "pdf", or print = "apart"')
    return work


def _date(table: Table, default: str) -> str:
    """A text, or a date as TOML has it, which is printed as it stands."""
    value = table.values.get("date", default)
    return str(value) if hasattr(value, "isoformat") else table.text("date", default)


def _texts(table: Table, key: str, default: tuple[str, ...], most: int) -> tuple[str, ...]:
    """A list of texts that are not empty."""
    value = table.values.get(key, list(default))
    right = isinstance(value, list) and 0 < len(value) <= most
    if key in table.values and not right:
        table.error(key, "this is a list of texts", f'one to {most} of them, such as ["a", "b"]')
        return default
    found = [v for v in value if isinstance(v, str) and v.strip() and v.isprintable()]
    if len(found) != len(value):
        table.error(key, "each of these is a text in quotes", "printable texts that are not empty")
    if len({*found}) != len(found):
        table.error(key, "something stands here twice", "each once")
    return tuple(found)


def _looks(table: Table, key: str, setting: str, default: tuple[str, ...]) -> tuple[str, ...]:
    """Values of a setting of gesture files."""
    if key not in table.values:
        return default
    found = tuple(", ".join(part.strip() for part in one.split(",")) for one in _texts(table, key, (), _MOST_LOOKS))
    for one in found:
        if problem := PageLook(**{setting: one}).problem(setting):
            table.error(key, problem)
    return found


def _formats(table: Table, default: tuple[str, ...]) -> tuple[str, ...]:
    found = _texts(table, "formats", default, len(writers.names()))
    for one in found:
        if one not in writers.names():
            near = difflib.get_close_matches(one, writers.names(), 2) or writers.names()
            table.error("formats", f"unknown format {one}", ", ".join(near))
    return found


def _pattern(table: Table, default: str | None) -> str | None:
    """A pattern for names, with known fields only."""
    if "name" not in table.values:
        return default
    pattern = table.text("name", "")
    for field in unknown_fields(pattern)[:1]:
        table.error("name", f"unknown field {field}", ", ".join(f"{{{one}}}" for one in FIELDS))
    return pattern or default
