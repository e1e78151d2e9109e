"""A file for several instruments: the score, the parts, and pictures of their content."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith.checker import Checked
from gesturesmith.diagnostics import FileReport, PassageReport, Severity, Verdict
from gesturesmith.model.reading import PartReading
from gesturesmith.pinned import NOTHING_PINNED, PinnedNumbers
from gesturesmith.pipeline.music import engraved, in_order
from gesturesmith.pipeline.naming import delivery_name, file_name, safe
from gesturesmith.pipeline.picture import snippet
from gesturesmith.pipeline.types import Options, SignUsage
from gesturesmith.source import folded
from gesturesmith.values import frozen
from gesturesmith.wording import said

if TYPE_CHECKING:
    from pathlib import Path

    from gesturesmith.backends.lilypond import EngravedMusic
    from gesturesmith.cache import Store
    from gesturesmith.lytext import LyText
    from gesturesmith.model.piece import Settings
    from gesturesmith.pipeline.gesture_cache import GestureCache
    from gesturesmith.score.music import CueNotes, Music
    from gesturesmith.sheets.notes import NotesPart, Numbers
    from gesturesmith.sheets.score import ScoreStaff, System
    from gesturesmith.writers import Item

SCORE = "score"  # LilyPond's name for the score


@frozen(kw_only=True)
class EngravedPart:
    """A part with all its engraved music.

    engravings   gestures and passages as in the part
    in_score     its passages as in the score
    apart        for two players, the passages in which they are divided, as each reads them
    apart_in_score   the same as in the score
    cued         the passages of its page with cues from other parts; () where none are wanted; `cued_apart`: the
                 same where its players are divided
    quotes       lines that these are taken from
    """

    number: int
    part: PartReading
    checked: Checked
    settings: Settings
    engravings: tuple[EngravedMusic, ...]
    in_score: tuple[EngravedMusic, ...]
    apart: tuple[tuple[EngravedMusic, ...], ...] = ()
    apart_in_score: tuple[tuple[EngravedMusic, ...], ...] = ()
    cued: tuple[EngravedMusic, ...] = ()
    cued_apart: tuple[tuple[EngravedMusic, ...], ...] = ()
    quotes: tuple[LyText, ...] = ()

    @property
    def page(self) -> tuple[EngravedMusic, ...]:
        """The content of its page: the passages the parts play together, if its players are not divided."""
        return self.cued or tuple(one for one in self.engravings if one.music.name in self.part.passages)

    def staves(self, name: str, *, score: bool, cues: bool = False) -> Iterator[ScoreStaff]:
        """The staves of a passage: two if its players are divided. None if it is not engraved."""
        from gesturesmith.sheets.score import ScoreStaff

        title, short = self.part.title, self.part.short
        for one in self.in_score if score else self.page:
            if one.music.name == name:
                yield ScoreStaff(name=title, short=short, settings=self.settings, engraving=one)
        apart = self.apart_in_score if score else (self.cued_apart if cues else ()) or self.apart
        for number, player in enumerate(apart, start=1):
            for one in player:
                if one.music.name == name:
                    who = f"{number}."
                    yield ScoreStaff(name=title, short=short, player=who, settings=self.settings, engraving=one)

    def in_order(self, options: Options) -> EngravedPart:
        """The part as it stands on pages, where one passage follows another."""
        page = self._ordered((self.page, *(self.cued_apart or self.apart)), options)
        score = self._ordered((self.in_score, *self.apart_in_score), options)
        return replace(self, cued=page[0], cued_apart=page[1:], in_score=score[0], apart_in_score=score[1:])

    def _ordered(
        self, lines: tuple[tuple[EngravedMusic, ...], ...], options: Options
    ) -> tuple[tuple[EngravedMusic, ...], ...]:
        """The lines that all players share and those of each player, one passage after the other."""
        by_name = [{one.music.name: one for one in line} for line in lines]
        read = [tuple(line[name] for line in by_name if name in line) for name in self.part.passages]
        ordered = {
            id(old): new
            for system, told in zip(read, in_order(read, options), strict=True)
            for old, new in zip(system, told, strict=True)
        }
        return tuple(tuple(ordered.get(id(one), one) for one in line) for line in lines)

    def renumbered(self, numbers: Numbers) -> EngravedPart:
        """The part with the numbers of a notes page."""
        return replace(
            self,
            engravings=tuple(numbers.on(one) for one in self.engravings),
            in_score=tuple(numbers.on(one) for one in self.in_score),
            apart=tuple(tuple(numbers.on(one) for one in player) for player in self.apart),
            apart_in_score=tuple(tuple(numbers.on(one) for one in player) for player in self.apart_in_score),
            cued=tuple(numbers.on(one) for one in self.cued),
            cued_apart=tuple(tuple(numbers.on(one) for one in player) for player in self.cued_apart),
        )


def compiled(
    checked: Checked,
    options: Options,
    store: Store | None,
    reads: Iterable[Path],
    numbers: Numbers | None,
) -> tuple[tuple[Item, ...], tuple[SignUsage, ...], PinnedNumbers]:
    """The items of a file with parts, the sign usage of each part, and the numbers of its notes page."""
    shared = checked.reading.shared
    if shared is None:
        return (), (), NOTHING_PINNED
    parts = tuple(_parts(checked, shared, options, store, reads))
    if options.cues:
        parts = tuple(_with_cues(part, parts, options) for part in parts)
    items: tuple[Item, ...] = ()
    ways: tuple[SignUsage, ...] = ()
    pinned = NOTHING_PINNED
    if options.notes is not None or numbers is not None:
        from gesturesmith.pipeline import notes

        every = parts
        if options.only is not None:
            every = tuple(_parts(checked, shared, replace(options, only=None), None, ()))
        noted = tuple(noted for part in every for noted in _notes_of(part, shared))
        if options.notes is not None and any(part.engravings for part in every):
            # Parts are at written pitch, whatever the score is.
            place = replace(
                options.notes,
                place=options.place,
                stem=f"{options.stem}-notes",
                name=options.name,
                pitches="written",
            )
            numbers, pinned = notes.numbers_of(noted, place.pinned)
            items = (notes.notes_item(noted, place),) if options.reads_ly else ()
        if numbers is not None:
            parts = tuple(part.renumbered(numbers) for part in parts)
        ways = tuple(way for part in noted for way in notes.ways_of(part))
    return (*_laid_out(checked.report, parts, shared, options), *items), ways, pinned


def _notes_of(part: EngravedPart, shared: Settings) -> Iterator[NotesPart]:
    """The input of a notes page from a part, in the language of the score."""
    from gesturesmith.pipeline import notes

    source = part.checked.report.source.name
    name = f"{source}, {part.part.title}"
    settings = replace(part.settings, wording=shared.wording)
    yield notes.part_of(source, name, part.checked, settings, (one.music for one in part.engravings))
    for player, cases in zip(part.apart, part.checked.players, strict=False):
        own = replace(part.checked, passage_cases=cases)
        yield notes.part_of(source, name, own, settings, (one.music for one in player))


def _parts(
    checked: Checked, shared: Settings, options: Options, store: Store | None, reads: Iterable[Path]
) -> Iterator[EngravedPart]:
    """Every part engraved. A passage that one part cannot play as written is left out of all, except in a draft."""
    out = set() if options.draft else _refused(checked)
    for number, (part, own) in enumerate(zip(checked.reading.parts, checked.parts, strict=True)):
        piece = part.reading.piece
        if piece is None:
            continue
        settings = piece.settings
        wanted = replace(options, pitches="written")
        report = _narrowed(own.report, options.only, out)
        kept = _kept(checked, part, wanted, store)
        apart = tuple(replace(own, passage_cases=cases) for cases in own.players)
        whole, divided = _divided(report, part.divided if apart else frozenset())
        made = tuple(engraved(own, whole, settings, wanted, kept, reads))
        passages = tuple(one for one in made if one.music.name in part.passages)
        by_player = tuple(tuple(engraved(one, divided, settings, wanted, None)) for one in apart)
        in_score = by_player
        of_score = replace(settings, wording=shared.wording)
        if options.pitches != "written" or of_score != settings:
            together = tuple(p for p in whole.passages if p.name in part.passages)
            alone = replace(whole, gestures=(), passages=together)
            passages = tuple(engraved(own, alone, of_score, options, None))
            in_score = tuple(tuple(engraved(one, divided, of_score, options, None)) for one in apart)
        yield EngravedPart(
            number=number,
            part=part,
            checked=own,
            settings=settings,
            engravings=made,
            in_score=passages,
            apart=by_player,
            apart_in_score=in_score,
        )


def systems(checked: Checked, options: Options) -> tuple[tuple[str, System], ...]:
    """The passages of a file with parts by name, each with its staves in the score."""
    shared = checked.reading.shared
    return () if shared is None else tuple(_systems(tuple(_parts(checked, shared, options, None, ()))))


def _with_cues(part: EngravedPart, every: tuple[EngravedPart, ...], options: Options) -> EngravedPart:
    """A part whose page has cues from others."""
    from gesturesmith.score.cues import CuePart, cues
    from gesturesmith.sheets import _score

    quotes: dict[str, LyText] = {}

    def wanted(own: Music, above: Music | None = None, below: Music | None = None) -> tuple[CueNotes, ...]:
        lines = {
            f"{other.part.name}-{own.name}{who}": (other.part.title + who, line)
            for other in every
            if other is not part
            for who, played in zip(("", " (1.)", " (2.)"), (other.page, *other.apart), strict=False)
            for line in played
            if line.music.name == own.name
        }
        there = tuple(CuePart(title=title, quote=quote, music=line.music) for quote, (title, line) in lines.items())
        found = cues(own, there, above=above, below=below)
        for cue in found:
            line = lines[cue.quote][1]
            quotes[cue.quote] = _score.quotable(line.music, line.unmarked, cue.quote)
        return found

    def made(
        checked: Checked, lines: Iterable[EngravedMusic], found: Mapping[str, tuple[CueNotes, ...]]
    ) -> tuple[EngravedMusic, ...]:
        names = {one.music.name for one in lines}
        report = replace(checked.report, gestures=(), passages=_named(checked.report, names))
        return tuple(engraved(checked, report, part.settings, options, None, cues=found))

    together = {one.music.name: wanted(one.music) for one in part.page}
    pairs = list(zip(*part.apart, strict=True))
    first = {one.music.name: wanted(one.music, below=other.music) for one, other in pairs}
    second = {other.music.name: wanted(other.music, above=one.music) for one, other in pairs}
    if not quotes:
        return part
    players = zip(part.checked.players, part.apart, (first, second), strict=False)
    return replace(
        part,
        cued=made(part.checked, part.page, together),
        cued_apart=tuple(made(replace(part.checked, passage_cases=c), own, found) for c, own, found in players),
        quotes=tuple(quotes.values()),
    )


def _named(report: FileReport, names: set[str]) -> tuple[PassageReport, ...]:
    return tuple(p for p in report.passages if p.name in names)


def _divided(report: FileReport, names: frozenset[str]) -> tuple[FileReport, FileReport]:
    """The report on a part without the passages in which its players are divided, and the report on those."""
    whole = tuple(p for p in report.passages if p.name not in names)
    apart = tuple(p for p in report.passages if p.name in names)
    return replace(report, passages=whole), replace(report, gestures=(), passages=apart)


def _kept(checked: Checked, part: PartReading, options: Options, store: Store | None) -> GestureCache | None:
    if store is None or checked.reading.errors:
        return None
    from gesturesmith.pipeline.gesture_cache import GestureCache

    return GestureCache(store, checked.reading.source, part.reading.tree, options, part=part.name)


def _refused(checked: Checked) -> set[str]:
    return {p.name for p in checked.report.passages if p.verdict is Verdict.NOT_AS_WRITTEN}


def _narrowed(report: FileReport, only: str | None, out: set[str]) -> FileReport:
    """The report on the one gesture or passage asked for, without passages that are left `out`."""

    def wanted(name: str) -> bool:
        return (only is None or folded(name) == folded(only)) and name not in out

    return replace(
        report,
        gestures=tuple(g for g in report.gestures if wanted(g.name)),
        passages=tuple(p for p in report.passages if wanted(p.name)),
    )


# --- pages and pictures --------------------------------------------------------------------------------------


def _laid_out(
    report: FileReport, parts: tuple[EngravedPart, ...], shared: Settings, options: Options
) -> Iterator[Item]:
    """The score, the parts, and pictures of each passage in the score and of everything in the parts."""
    score = replace(shared, part=said("score", shared.wording))
    folder = options.place / _stem(options, score)
    systems = tuple(_systems(parts))
    on_pages = tuple(part.in_order(options) for part in parts)
    elsewhere = options.notes is not None or bool(options.together)
    left_out = tuple(_left_out(report, {name for name, _ in systems}))
    with_score = not options.parts or SCORE in options.parts
    if options.only is None and options.pages and systems and with_score:
        in_score = tuple(system for _, system in _systems(on_pages))
        yield _score_page(in_score, report, score, options, folder, left_out)
    for number, (name, system) in enumerate(systems if options.pictures and with_score else (), start=1):
        yield _score_picture(name, system, score, folder, f"score{number:05d}")
    places = _places(parts, options, folder)
    for part, on_page, place in zip(parts, on_pages, places, strict=True):
        if options.parts and part.part.name not in options.parts:
            continue
        if options.only is None and options.pages and (part.page or any(part.apart)):
            yield _part_page(on_page, report, place, elsewhere, left_out)
        if options.pictures:
            yield from _pictures(part, folder)


def _stem(options: Options, settings: Settings) -> str:
    if options.name is None:
        return file_name(options.stem)
    return delivery_name(options.name, settings, options.stem)


def _systems(parts: tuple[EngravedPart, ...]) -> Iterator[tuple[str, System]]:
    """The passages common to all parts, each with its staves."""
    for name in parts[0].part.passages if parts else ():
        staves = tuple(tuple(part.staves(name, score=True)) for part in parts)
        if all(staves):
            yield name, tuple(staff for of_part in staves for staff in of_part)


def _left_out(report: FileReport, shown: set[str]) -> Iterator[tuple[str, str]]:
    """The passages missing from the pages, by title or name, with the first reason and its part."""
    unread = {name for name, _ in report.unread}
    told = set(shown) | unread
    for said_of in report.passages:
        if said_of.name not in told and said_of.verdict is Verdict.NOT_AS_WRITTEN:
            told.add(said_of.name)
            yield said_of.title or said_of.name, _reason(said_of)


def _reason(passage: PassageReport) -> str:
    why = next((f.text for f in passage.findings if f.severity is Severity.REFUSED), "")
    return f"{passage.part.title}: {why}" if passage.part is not None else why


def _score_page(
    systems: tuple[System, ...],
    report: FileReport,
    settings: Settings,
    options: Options,
    place: PurePosixPath,
    left_out: tuple[tuple[str, str], ...],
) -> Item:
    from gesturesmith.sheets import document, score
    from gesturesmith.writers import Item

    musics = tuple(staff.engraving.music for system in systems for staff in system)
    book = score.book(
        systems,
        settings,
        output=SCORE,
        refused=left_out,
        unread=tuple(title for _, title in report.unread),
        notes_page=options.notes is not None or bool(options.together),
    )
    return Item(
        output=SCORE,
        kind="page",
        place=place,
        name=options.stem,
        title=settings.title or "",
        author=settings.composer or "",
        excerpts=tuple(dict.fromkeys(m.name for m in musics)),
        systems=tuple(tuple(staff.line for staff in system) for system in systems),
        book=book,
        document=document((book,)),
    )


def _score_picture(name: str, system: System, settings: Settings, folder: PurePosixPath, output: str) -> Item:
    from gesturesmith.sheets import document, score
    from gesturesmith.writers import Item

    musics = tuple(staff.engraving.music for staff in system)
    book = score.picture(system, settings, output=output)
    return Item(
        output=output,
        kind="score",
        place=folder / file_name(name),
        name=name,
        title=musics[0].title or "",
        author=settings.composer or "",
        description=" ".join(f"{staff.name}: {staff.engraving.music.description}" for staff in system),
        excerpts=(name,),
        systems=(tuple(staff.line for staff in system),),
        book=book,
        document=document((book,)),
    )


def _places(parts: tuple[EngravedPart, ...], options: Options, folder: PurePosixPath) -> tuple[PurePosixPath, ...]:
    """The paths of the parts: in the folder of the score, or beside it if a pattern gives each its own name."""
    if options.name is not None:
        names = [safe(_stem(options, part.settings)) for part in parts]
        others = {folded(name) for name in names} | {folded(folder.name)}
        if len(others) == len(names) + 1:
            return tuple(options.place / name for name in names)
    return tuple(folder / file_name(part.part.name) for part in parts)


def _part_page(
    part: EngravedPart,
    report: FileReport,
    place: PurePosixPath,
    elsewhere: bool,
    left_out: tuple[tuple[str, str], ...],
) -> Item:
    from gesturesmith.score.staves import alone
    from gesturesmith.sheets import document, page, score
    from gesturesmith.writers import Item

    settings = part.settings
    output = f"part{part.number:03d}"
    unread = tuple(title for _, title in report.unread)
    if not any(part.apart):
        musics = tuple(one.music for one in part.page)
        systems = tuple(alone(music, settings) for music in musics)
        book = page.book(
            part.page,
            settings,
            output=output,
            refused=left_out,
            unread=unread,
            notes_page=elsewhere,
            quotes=part.quotes,
        )
    else:
        found = (tuple(part.staves(name, score=False, cues=True)) for name in part.part.passages)
        there = tuple(system for system in found if system)
        systems = tuple(tuple(staff.line for staff in system) for system in there)
        musics = tuple(staff.engraving.music for system in there for staff in system)
        book = score.book(
            there,
            settings,
            output=output,
            refused=left_out,
            unread=unread,
            notes_page=elsewhere,
            quotes=part.quotes,
            of_part=True,
        )
    return Item(
        output=output,
        kind="page",
        place=place,
        name=part.part.name,
        title=settings.title or "",
        author=settings.composer or "",
        excerpts=tuple(dict.fromkeys(m.name for m in musics)),
        systems=systems,
        book=book,
        document=document((book,)),
    )


def _pictures(part: EngravedPart, folder: PurePosixPath) -> Iterator[Item]:
    for number, one in enumerate(part.engravings, start=1):
        output = f"part{part.number:03d}s{number:05d}"
        yield snippet(one, output, part.settings, folder / file_name(part.part.name))
    apart = tuple(dict.fromkeys(one.music.name for player in part.apart for one in player))
    for number, name in enumerate(apart, start=1):
        system = tuple(part.staves(name, score=False))
        place, output = folder / file_name(part.part.name), f"part{part.number:03d}d{number:05d}"
        yield _score_picture(name, system, part.settings, place, output)
