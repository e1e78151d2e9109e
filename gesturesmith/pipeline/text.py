"""One file: text, tree, gestures, findings and realisation, score, page and snippets."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from gesturesmith.checker import Checked, check
from gesturesmith.dependencies import recording_dependencies
from gesturesmith.diagnostics import FileReport, GestureReport, PassageReport, Severity
from gesturesmith.lang import parse
from gesturesmith.model.parts import has_parts
from gesturesmith.model.reading import Reading, read_tree
from gesturesmith.pinned import NOTHING_PINNED, PinnedNumbers
from gesturesmith.pipeline.music import engraved, in_order
from gesturesmith.pipeline.naming import delivery_name, file_name
from gesturesmith.pipeline.picture import snippet
from gesturesmith.pipeline.sketch import SKETCH, sketches
from gesturesmith.pipeline.types import CompileResult, Options, SignUsage
from gesturesmith.source import Source, folded

if TYPE_CHECKING:  # `check` needs neither Abjad nor LilyPond, nor files
    from gesturesmith.backends.lilypond import EngravedMusic
    from gesturesmith.cache import Store
    from gesturesmith.model.piece import Settings
    from gesturesmith.pipeline.gesture_cache import GestureCache
    from gesturesmith.score.music import Music
    from gesturesmith.sheets.notes import Numbers
    from gesturesmith.writers import Item

PAGE = "page"  # LilyPond's name for the page of a file


def compile_text(
    source: Source, options: Options, store: Store | None = None, numbers: Numbers | None = None
) -> CompileResult:
    """From text to a report and, if wanted and possible, to pages and snippets.

    `store` caches gestures and passages: those it has are neither checked nor engraved again. `numbers` are those
    of a notes page of several files, if there is one.
    """
    with recording_dependencies() as reads:
        sketched = SKETCH in options.formats
        reading, kept, fewer = _read(source, options, store, whole=numbers is not None or sketched)
        checked = check(reading, only=options.suggest)
        everything = kept.whole(checked.report) if kept is not None and fewer else checked.report
        report = _narrowed(everything, options.only)
        there = tuple(said.name for said in _everything(everything))
        if options.only_check or not report.usable or (reading.piece is None and not reading.parts):
            return CompileResult(reports=(report,), names=there)
        if reading.piece is None:
            from gesturesmith.pipeline import parts

            made, uses, kept_numbers = parts.compiled(checked, options, store, reads, numbers)
            if sketched:
                made = (*made, *sketches(checked, options.only, options.place / file_name(options.stem)))
            return CompileResult(
                reports=(report,), names=tuple(dict.fromkeys(there)), items=made, ways=uses, pinned=kept_numbers
            )
        settings = reading.piece.settings
        # Abjad is imported here, and only here, if a format needs LilyPond text.
        engravings = tuple(engraved(checked, report, settings, options, kept, reads))
        items: tuple[Item, ...] = ()
        ways: tuple[SignUsage, ...] = ()
        pinned = NOTHING_PINNED
        if options.notes is not None or numbers is not None:
            engravings, items, ways, pinned = _numbered(checked, engravings, settings, options, numbers)
        laid_out = _laid_out(report, engravings, settings, options)
        if sketched:
            folder = options.place / _stem(settings, options)
            items = (*items, *sketches(checked, options.only, folder))
        return CompileResult(reports=(report,), names=there, items=(*laid_out, *items), ways=ways, pinned=pinned)


def _read(
    source: Source, options: Options, store: Store | None, *, whole: bool
) -> tuple[Reading, GestureCache | None, bool]:
    """The checked file; its gesture cache, if used; whether cached gestures were skipped."""
    tree, errors = parse(source)
    tree = options.look.on(tree)
    kept = None
    left = tree
    if store is not None and not options.only_check and not errors and not has_parts(tree):
        from gesturesmith.pipeline.gesture_cache import GestureCache

        kept = GestureCache(store, source, tree, options)
        # Notes need all gestures, and a single one is checked quickly.
        left = kept.rest if options.only is None and options.notes is None and not whole else tree
    reading = read_tree(source, tree, errors, folder=options.folder, blocks=left)
    if reading.errors and left is not tree:
        left = tree  # mistakes are reported for the whole file
        reading = read_tree(source, tree, errors, folder=options.folder)
    return reading, kept, left is not tree


def _numbered(
    checked: Checked,
    engravings: tuple[EngravedMusic, ...],
    settings: Settings,
    options: Options,
    numbers: Numbers | None,
) -> tuple[tuple[EngravedMusic, ...], tuple[Item, ...], tuple[SignUsage, ...], PinnedNumbers]:
    """The music with the numbers of a notes page, that page if it is the file's own, the file's sign usage, and the
    numbers of its page."""
    from gesturesmith.pipeline import notes

    # A single gesture keeps the numbers it has among all.
    everything = engravings
    if options.only is not None:
        everything = tuple(engraved(checked, checked.report, settings, options, None))
    name, pinned = checked.report.source.name, NOTHING_PINNED
    part = notes.part_of(name, name, checked, settings, (one.music for one in everything))
    items: tuple[Item, ...] = ()
    if options.notes is not None and everything:
        place = replace(options.notes, place=options.place, stem=f"{options.stem}-notes", name=options.name)
        numbers, pinned = notes.numbers_of((part,), place.pinned)
        items = (notes.notes_item((part,), place),) if options.reads_ly else ()
    numbered = tuple(numbers.on(one) for one in engravings) if numbers else engravings
    return numbered, items, tuple(notes.ways_of(part)), pinned


def compile_file(
    sources: tuple[Source, ...], options: Options, store: Store | None = None, numbers: Numbers | None = None
) -> CompileResult:
    """`compile_text` for a batch, with its single source."""
    (source,) = sources
    return compile_text(source, options, store, numbers)


def _everything(report: FileReport) -> tuple[GestureReport | PassageReport, ...]:
    return (*report.gestures, *report.passages)


def _narrowed(report: FileReport, only: str | None) -> FileReport:
    """The report on the one gesture or passage asked for, with all errors of the file."""
    if only is None or not report.usable:
        return report
    wanted = folded(only)
    return replace(
        report,
        exercises=(),
        gestures=tuple(g for g in report.gestures if folded(g.name) == wanted),
        passages=tuple(p for p in report.passages if folded(p.name) == wanted),
        unread=tuple(u for u in report.unread if folded(u[0]) == wanted),
    )


def _laid_out(
    report: FileReport, engravings: tuple[EngravedMusic, ...], settings: Settings, options: Options
) -> tuple[Item, ...]:
    """The page, unless only pictures or a single item are wanted, and the snippets of everything engraved."""
    from gesturesmith.pipeline.naming import delivery_name, file_name
    from gesturesmith.score.staves import alone
    from gesturesmith.sheets import document, page
    from gesturesmith.writers import Item

    if not engravings:
        return ()
    musics = tuple(engraving.music for engraving in engravings)
    stem = (
        delivery_name(options.name, settings, options.stem) if options.name is not None else file_name(options.stem)
    )
    items = []
    if options.only is None and options.pages:
        elsewhere = options.notes is not None or bool(options.together)
        on_page = tuple(one for (one,) in in_order([(one,) for one in engravings], options))
        book = page.book(
            on_page,
            settings,
            output=PAGE,
            refused=_left_out(report, musics),
            unread=tuple(title for _, title in report.unread),
            notes_page=elsewhere,
        )
        item = Item(
            output=PAGE,
            kind="page",
            place=options.place / stem,
            name=options.stem,
            title=settings.title or "",
            author=settings.composer or "",
            excerpts=tuple(m.name for m in musics),
            systems=tuple(alone(one.music, settings) for one in on_page),
            book=book,
            document=document((book,)),
        )
        items.append(item)
    for number, engraving in enumerate(engravings if options.pictures else (), start=1):
        items.append(snippet(engraving, f"s{number:05d}", settings, options.place / stem))
    return tuple(items)


def _stem(settings: Settings, options: Options) -> str:
    """The name of the page, and of the folder of the pictures."""
    if options.name is not None:
        return delivery_name(options.name, settings, options.stem)
    return file_name(options.stem)


def _left_out(report: FileReport, musics: tuple[Music, ...]) -> tuple[tuple[str, str], ...]:
    """What is missing from the page, by title or name, with the first reason."""
    shown = {m.name for m in musics} | {name for name, _ in report.unread}
    return tuple(
        (said.title or said.name, next((f.text for f in said.findings if f.severity is Severity.REFUSED), ""))
        for said in _everything(report)
        if said.name not in shown
    )
