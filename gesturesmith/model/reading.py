"""A text as read: its syntax tree, the piece it describes, and every mistake in it."""

from __future__ import annotations

from pathlib import Path

from gesturesmith.diagnostics import ReadError
from gesturesmith.instruments.base import Instrument
from gesturesmith.lang import nodes, parse
from gesturesmith.model.piece import Piece
from gesturesmith.model.resolve import resolve
from gesturesmith.model.settings import Profile
from gesturesmith.source import Source
from gesturesmith.values import frozen


@frozen(kw_only=True)
class Reading:
    """A file as far as it could be read.

    source   the text
    tree     its blocks as written, including those with mistakes
    piece    its complete gestures, passages and exercises; None if none can be resolved
    errors   the mistakes in its form, then those in its meaning

    >>> gesturesmith.read("instrument: horn").errors[0].rule
    'missing-pitches'
    """

    source: Source
    tree: nodes.File
    piece: Piece | None
    errors: tuple[ReadError, ...] = ()


def read(source: Source, *, folder: Path | None = None, instrument: Instrument | None = None) -> Reading:
    """Parse a text and resolve it. The only file opened is the profile it names.

    folder       the profile is looked up from here and must be inside it; None for the working folder
    instrument   replaces the one the text names

    >>> horn = "instrument: horn\\npitches: written\\n"
    >>> read(Source("a", f"{horn}gesture a\\n  contour: G4, C5")).piece.gestures[0].beats
    Fraction(2, 1)
    >>> [e.rule for e in read(Source("a", f"{horn}gesture a\\n  contour: H4")).errors]
    ['note-h']
    """
    tree, errors = parse(source)
    return read_tree(source, tree, errors, folder=folder, instrument=instrument)


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
    profile = None if instrument is not None else profile_of(tree, folder)
    piece, mistakes = resolve(blocks or tree, profile=profile, instrument=instrument)
    return Reading(source=source, tree=tree, piece=piece, errors=(*errors, *mistakes))


def profile_of(tree: nodes.File, folder: Path | None) -> Profile | None:
    """The profile that a file names by its path, read from `folder`; None if it names none."""
    entry = tree.get("instrument")
    if entry is None or not isinstance(entry.value, nodes.Text):
        return None
    from gesturesmith.instruments import profile

    place = folder or Path()
    return profile.load(profile.located(place, entry.value.text), within=place)
