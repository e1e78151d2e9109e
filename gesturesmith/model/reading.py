"""A text as read: its syntax tree, the piece it describes, and every mistake in it."""

from __future__ import annotations

from pathlib import Path

from gesturesmith.diagnostics import ReadError
from gesturesmith.instruments.base import Instrument
from gesturesmith.lang import nodes, parse
from gesturesmith.model import parts
from gesturesmith.model.looks import AS_WRITTEN, PageLook
from gesturesmith.model.piece import Piece, Settings
from gesturesmith.model.resolve import resolve
from gesturesmith.model.settings import Profile, settings
from gesturesmith.source import Source, Span
from gesturesmith.values import frozen

_TOP = Span(1, 1, 2)


@frozen(kw_only=True)
class Reading:
    """A file as far as it could be read.

    source   the text
    tree     its blocks as written, including those with mistakes
    piece    its complete gestures, passages and exercises; None if none can be resolved
    errors   the mistakes in its form, then those in its meaning
    parts    of a file for several instruments: what each part plays; there `piece` is None
    shared   then: the settings of the score

    >>> gesturesmith.read("instrument: horn").errors[0].rule
    'missing-pitches'
    """

    source: Source
    tree: nodes.File
    piece: Piece | None
    errors: tuple[ReadError, ...] = ()
    parts: tuple[PartReading, ...] = ()
    shared: Settings | None = None


@frozen(kw_only=True)
class PartReading:
    """One part of a file for several instruments, read like a separate file.

    short     its short name
    players   if two players read its lines, what each of them plays
    divided   names of the passages in which they are divided
    passages  names of the passages the parts play together, in file order
    reading   its own settings and content; `tree` has its lines as the `play` of the passages

    >>> duo = "pitches: written\\npart one\\n  instrument: horn\\npart two\\n  instrument: trombone\\n"
    >>> parts = gesturesmith.read(duo + "passage p\\n  one: G4 for 2\\n  two: F3 for 2").parts
    >>> [(part.name, part.reading.piece.settings.instrument.key) for part in parts]
    [('one', 'horn'), ('two', 'trombone')]
    """

    name: str
    title: str
    short: str
    passages: tuple[str, ...]
    reading: Reading
    players: tuple[Reading, ...] = ()
    divided: frozenset[str] = frozenset()


def read(
    source: Source,
    *,
    folder: Path | None = None,
    instrument: Instrument | None = None,
    look: PageLook = AS_WRITTEN,
) -> Reading:
    """Parse a text and resolve it. The only file opened is the profile it names.

    folder       the profile is looked up from here and must be inside it; None for the working folder
    instrument   replaces the one the text names
    look         replaces settings of the page

    >>> horn = "instrument: horn\\npitches: written\\n"
    >>> read(Source("a", f"{horn}gesture a\\n  contour: G4, C5")).piece.gestures[0].beats
    Fraction(2, 1)
    >>> [e.rule for e in read(Source("a", f"{horn}gesture a\\n  contour: H4")).errors]
    ['note-h']
    """
    tree, errors = parse(source)
    return read_tree(source, look.on(tree), errors, folder=folder, instrument=instrument)


def read_tree(
    source: Source,
    tree: nodes.File,
    errors: tuple[ReadError, ...],
    *,
    folder: Path | None = None,
    instrument: Instrument | None = None,
    blocks: nodes.File | None = None,
) -> Reading:
    """The same for a text already parsed. `blocks`: the tree with only those blocks from which the piece is to be
    made."""
    if parts.has_parts(tree):
        return _with_parts(source, tree, errors, folder, instrument)
    profile = None if instrument is not None else profile_of(tree, folder)
    piece, mistakes = resolve(blocks or tree, profile=profile, instrument=instrument)
    return Reading(source=source, tree=tree, piece=piece, errors=(*errors, *mistakes))


def _with_parts(
    source: Source,
    tree: nodes.File,
    errors: tuple[ReadError, ...],
    folder: Path | None,
    instrument: Instrument | None,
) -> Reading:
    """Each part separately, then their lines together. A mistake common to several parts is reported once."""
    division = parts.divided(tree)
    profiles = [None if instrument is not None else profile_of(part.tree, folder) for part in division.parts]
    changes: parts.Imposed = {}
    contradictions: tuple[ReadError, ...] = ()
    there = division.parts
    for _ in range(parts.MAX_ROUNDS):
        there, resolved = _padded(tree, there, profiles, instrument)
        pieces = tuple(piece for piece, _ in resolved)
        before, (changes, contradictions) = changes, parts.imposed(tree, there, pieces)
        if changes == before or not any(one.changes for one in changes.values()):
            break
        there = parts.with_changes(division.parts, changes)
    else:
        contradictions = (*contradictions, *parts.unsettled(tree, changes, before))
    uneven = parts.uneven(tree, there, pieces)
    told = (e for _, found in resolved for e in found)
    mistakes = (*division.errors, *told, *uneven, *(contradictions or ()))
    order = sorted(dict.fromkeys(mistakes), key=lambda e: (e.rule == "too-many-errors", e.span.line, e.span.column))
    every = (*errors, *order)
    names = tuple(b.name.text for b in tree.blocks if parts.lines_of(b))
    return Reading(
        source=source,
        tree=tree,
        piece=None,
        errors=every,
        parts=tuple(
            PartReading(
                name=part.name,
                title=part.title,
                short=part.short or (piece.settings.instrument.abbreviation if piece is not None else ""),
                passages=names,
                reading=Reading(source=source, tree=part.tree, piece=piece, errors=every),
                players=_players(source, part.tree, every, profile, instrument),
                divided=parts.divided_passages(part.tree),
            )
            for part, piece, profile in zip(there, pieces, profiles, strict=True)
        ),
        shared=_shared(division, pieces),
    )


def _padded(
    tree: nodes.File,
    there: tuple[parts.PartTree, ...],
    profiles: list[Profile | None],
    instrument: Instrument | None,
) -> tuple[tuple[parts.PartTree, ...], tuple[tuple[Piece | None, tuple[ReadError, ...]], ...]]:
    """The parts with rests while others play, and what each of them is resolved to."""
    while True:
        resolved = tuple(
            resolve(part.tree, profile=profile, instrument=instrument)
            for part, profile in zip(there, profiles, strict=True)
        )
        longer = parts.padded(tree, there, tuple(piece for piece, _ in resolved))
        if longer is None:
            return there, resolved
        there = longer


def _players(
    source: Source,
    tree: nodes.File,
    errors: tuple[ReadError, ...],
    profile: Profile | None,
    instrument: Instrument | None,
) -> tuple[Reading, ...]:
    """What each of two players plays of their common lines, whose mistakes are already reported."""
    if not parts.two_players(tree):
        return ()
    own = (parts.of_player(tree, number) for number in range(2))
    return tuple(
        Reading(
            source=source,
            tree=one,
            piece=resolve(one, profile=profile, instrument=instrument)[0],
            errors=errors,
        )
        for one in own
    )


def _shared(division: parts.Division, pieces: tuple[Piece | None, ...]) -> Settings | None:
    """The settings of the score: the file's own; for the page, those of the first known part."""
    known = next((piece.settings for piece in pieces if piece is not None), None)
    if known is None:
        return None
    instrument = known.instrument
    word = nodes.KeyEntry(nodes.Word("pitches", _TOP), nodes.Word(known.pitches, _TOP), _TOP)
    entries = (*(e for e in division.shared if e.key.text not in ("pitches", "instrument", "part")), word)
    found, _ = settings(nodes.File(entries, ()), None, instrument)
    return found


def profile_of(tree: nodes.File, folder: Path | None) -> Profile | None:
    """The profile that a file names by its path, read from `folder`; None if it names none."""
    entry = tree.get("instrument")
    if entry is None or not isinstance(entry.value, nodes.Text):
        return None
    from gesturesmith.instruments import profile

    place = folder or Path()
    return profile.load(profile.located(place, entry.value.text), within=place)
