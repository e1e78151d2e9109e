"""Performance notes: the page that explains what the parts use, and the numbers it gives their marks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from gesturesmith.checker import Checked, check_text
from gesturesmith.dependencies import record_dependency, recording_dependencies
from gesturesmith.diagnostics import FileReport
from gesturesmith.kinds import Pitches
from gesturesmith.lang import parse
from gesturesmith.lang.nodes import Paper, Value
from gesturesmith.model.looks import PageLook
from gesturesmith.model.settings import DEFAULT_PAPER
from gesturesmith.pinned import PinnedNumbers
from gesturesmith.pipeline.music import engraved
from gesturesmith.pipeline.naming import delivery_name
from gesturesmith.pipeline.types import CompileResult, NotesOptions, Options, SignUsage
from gesturesmith.source import Source
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from pathlib import Path

    from gesturesmith.backends.lilypond import EngravedMusic
    from gesturesmith.model.piece import Settings
    from gesturesmith.rules.base import Case
    from gesturesmith.score.music import Music
    from gesturesmith.sheets.notes import Front, NotesEntry, NotesPart, Numbers
    from gesturesmith.writers import Item

NOTES = "notes"  # what LilyPond calls a notes page
_TWO_COLUMNS_MM = 160  # narrower paper has room for only one
_TITLES = 3  # pieces named under the title; if there are more, none


@frozen(kw_only=True)
class _FilesRead:
    """The checked and engraved files for a page; `reads` are the profiles they name."""

    reports: tuple[FileReport, ...]
    parts: tuple[NotesPart, ...]
    ways: tuple[SignUsage, ...]
    numbers: Numbers
    pinned: PinnedNumbers
    reads: tuple[Path, ...]


def compile_notes(sources: tuple[Source, ...], options: NotesOptions) -> CompileResult:
    """One notes page for all files together. A file with errors is reported and left out."""
    read = _read(sources, options)
    _note(read.reads)
    names = tuple(name for report in read.reports for name in _names(report))
    items = (notes_item(read.parts, options),) if read.parts else ()
    return CompileResult(reports=read.reports, names=names, items=items, ways=read.ways, pinned=read.pinned)


def papers(sources: Iterable[Source], look: PageLook) -> tuple[tuple[str, str], ...]:
    """The papers that files ask for, in words, each with the name of the first that does."""
    found: dict[str, str] = {}
    for source in sources:
        entry = look.on(parse(source)[0]).get("paper")
        if entry is None or isinstance(entry.value, Paper):  # any other is a mistake, which the run reports
            found.setdefault(_in_words(entry.value if entry is not None else None), source.name)
    return tuple(found.items())


def _in_words(paper: Value | None) -> str:
    if not isinstance(paper, Paper):
        return DEFAULT_PAPER
    if paper.width_mm is None or paper.height_mm is None:
        return paper.name
    return f"{float(paper.width_mm):g} x {float(paper.height_mm):g} mm"


def _names(report: FileReport) -> tuple[str, ...]:
    return (*(g.name for g in report.gestures), *(p.name for p in report.passages))


@lru_cache(maxsize=1)  # bound with every part
def _document(sources: tuple[Source, ...], options: NotesOptions) -> tuple[Item, ...]:
    parts = _read(sources, options).parts
    return (notes_item(parts, options),) if parts else ()


def shared(sources: tuple[Source, ...], options: NotesOptions) -> tuple[Numbers, PinnedNumbers, Item | None]:
    """The numbers that the notes page of these files gives their marks, those to keep, and the page."""
    read = _read(sources, options)
    _note(read.reads)
    return read.numbers, read.pinned, next(iter(_document(sources, options)), None)


def numbering(sources: tuple[Source, ...], options: NotesOptions) -> Numbers:
    """The numbers that the notes page of these files gives the marks in their parts."""
    read = _read(sources, options)
    _note(read.reads)
    return read.numbers


def numbers_of(parts: tuple[NotesPart, ...], pinned: PinnedNumbers) -> tuple[Numbers, PinnedNumbers]:
    """The numbers that the notes page of these parts gives their marks, in any language, and those to keep."""
    from gesturesmith.sheets.notes import choose

    choice = choose(parts, ("en",), pinned)
    return choice.numbers, choice.pinned


def _note(reads: tuple[Path, ...]) -> None:
    """Record again the files read the first time."""
    for path in reads:
        record_dependency(path)


@lru_cache(maxsize=1)  # every part needs the numbers of the page
def _read(sources: tuple[Source, ...], options: NotesOptions) -> _FilesRead:
    reports: list[FileReport] = []
    parts: list[NotesPart] = []
    folders = options.folders or (None,) * len(sources)
    with recording_dependencies() as reads:
        for source, folder in zip(sources, folders, strict=True):
            report, found = _parts_of(source, folder, options)
            reports.append(report)
            parts += found
    numbers, pinned = numbers_of(tuple(parts), options.pinned)
    return _FilesRead(
        reports=tuple(reports),
        parts=tuple(parts),
        ways=tuple(way for part in parts for way in ways_of(part)),
        numbers=numbers,
        pinned=pinned,
        reads=tuple(reads),
    )


def _parts_of(
    source: Source, folder: Path | None, options: NotesOptions
) -> tuple[FileReport, tuple[NotesPart, ...]]:
    """The report on a file, and its music, or that of each part, if it can be read and played."""
    checked = check_text(source, folder=folder, look=options.look, suggestions=False)
    pitches: Pitches = "written" if checked.parts else options.pitches
    wanted = Options(folder=folder, pitches=pitches, draft=options.draft)
    found = []
    for one in checked.parts or (checked,):
        piece = one.reading.piece
        if piece is None or not checked.report.usable:
            continue
        of_file = checked.reading.shared or piece.settings
        settings = replace(piece.settings, wording=of_file.wording)
        engravings = engraved(one, one.report, settings, wanted, None)
        name = source.name if one.part is None else f"{source.name}, {one.part.title}"
        part = part_of(source.name, name, one, settings, (made.music for made in engravings))
        found += [part] if part.gestures or part.played else []
    return checked.report, tuple(found)


def part_of(source: str, name: str, checked: Checked, settings: Settings, musics: Iterable[Music]) -> NotesPart:
    """The music of a file, or of one of its parts, with its cases; `name`: of the file or part."""
    from gesturesmith.sheets.notes import NotesPart

    made = tuple(musics)
    gestures = tuple((checked.cases[m.name], m) for m in made if m.kind == "gesture")
    passages = tuple(m for m in made if m.kind == "passage")
    known = {repr(case.gesture.points) for case, _ in gestures} if passages else set()
    played: dict[str, tuple[Case, Music]] = {}
    for music in passages:
        for case in checked.passage_cases[music.name].cases:
            if case is not None and (form := repr(case.gesture.points)) not in known and form not in played:
                played[form] = (case, _picture(case, settings, music.pitches))
    return NotesPart(
        name=name,
        source=source,
        settings=settings,
        gestures=gestures,
        played=tuple(played.values()),
        passages=passages,
        unread=tuple(title for _, title in checked.report.unread),
    )


def notes_item(parts: tuple[NotesPart, ...], options: NotesOptions) -> Item:
    """The notes page of these parts, as an item to deliver; its pictures are nothing without their texts, which no
    format of notes alone has."""
    from gesturesmith.sheets import document, notes
    from gesturesmith.writers import Item

    languages = _languages(parts)
    choice = notes.choose(parts, languages, options.pinned)
    entries = tuple(entry for section in choice.sections for entry in section.entries)
    pictures = tuple(_of_entry(entry, languages, options.pitches) for entry in entries)
    front = _front(parts, options)
    name = options.stem
    if options.name is not None:
        name = f"{delivery_name(options.name, parts[0].settings, options.stem)}-notes"
    book = notes.book(choice, pictures, parts, front, languages, output=NOTES)
    return Item(
        output=NOTES,
        kind="page",
        place=options.place / name,
        name=name,
        title=front.title(languages),
        author=front.composer,
        excerpts=tuple(picture.music.name for picture in pictures),
        book=book,
        document=document((book,)),
    )


def _languages(parts: tuple[NotesPart, ...]) -> tuple[str, ...]:
    return parts[0].settings.wording


def _of_entry(entry: NotesEntry, languages: tuple[str, ...], pitches: Pitches) -> EngravedMusic:
    from gesturesmith.backends import lilypond

    music = entry.music or _picture(entry.case, replace(entry.settings, wording=languages), pitches)
    return lilypond.engraved(music)


def _picture(case: Case, settings: Settings, pitches: Pitches) -> Music:
    from gesturesmith.score import gesture_score

    return gesture_score(case, settings, pitches=pitches)


def _front(parts: tuple[NotesPart, ...], options: NotesOptions) -> Front:
    from gesturesmith.sheets.notes import Front

    def of_all(said: Iterator[str | None]) -> str:
        """The value common to all parts, or ""."""
        found = set(said)
        return (found.pop() or "") if len(found) == 1 else ""

    languages = _languages(parts)
    titles = tuple(dict.fromkeys(p.settings.title for p in parts if p.settings.title))
    return Front(
        settings=parts[0].settings,
        subtitle=", ".join(titles) if len(titles) <= _TITLES else "",
        instrument=of_all(p.settings.part_name(languages) for p in parts),
        composer=of_all(p.settings.composer for p in parts),
        columns=options.columns if parts[0].settings.paper_mm[0] >= _TWO_COLUMNS_MM else 1,
        version=options.version,
    )


# --- what the files do differently ---------------------------------------------------------------------------


def ways_of(part: NotesPart) -> Iterator[SignUsage]:
    """How a file uses signs that another file may use differently: the forms of accidentals, its own texts and
    heads for a single technique, the texts of a gesture of some name."""
    from gesturesmith.sheets.notes import quarter_tones, techniques_of

    if quarter_tones(part):
        yield SignUsage(file=part.name, sign="quarter-tone accidentals", way=part.settings.accidentals)
    words: dict[str, dict[str, None]] = {}
    heads: dict[str, dict[str, None]] = {}
    for case, _ in part.gestures:
        gesture = case.gesture
        if gesture.footnote is not None:
            yield SignUsage(file=part.name, sign=f"the gesture {gesture.name}", way=f"“{gesture.footnote}”")
        found = techniques_of(case)
        if len(found) == 1:
            said = f"“{gesture.footnote}”" if gesture.footnote is not None else "the standard wording"
            words.setdefault(found[0].key, {})[said] = None
            heads.setdefault(found[0].key, {})[f"noteheads {gesture.notehead}"] = None
    for table in (words, heads):
        for key, said_here in table.items():
            yield SignUsage(file=part.name, sign=key, way=", ".join(said_here))
