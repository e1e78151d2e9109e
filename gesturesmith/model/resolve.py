"""From a syntax tree to a piece, with every gesture, passage and exercise complete."""

from __future__ import annotations

from collections.abc import Mapping

from gesturesmith.diagnostics import ReadError
from gesturesmith.instruments.base import Instrument
from gesturesmith.lang import nodes
from gesturesmith.model import build, exercises, passages
from gesturesmith.model.context import MAX_GESTURES, MAX_NOTES, Context
from gesturesmith.model.gesture import Gesture
from gesturesmith.model.piece import Exercise, Piece, Settings
from gesturesmith.model.settings import Profile, meter_of, settings

_IS = {
    "gesture": "is a gesture",
    "passage": "is a passage",
    "exercises": "is a set of exercises",
    "box": "is a box",
}


def resolve(
    tree: nodes.File,
    *,
    profile: Profile | None = None,
    instrument: Instrument | None = None,
    known: tuple[Settings, Context] | None = None,
    kept: Mapping[int, Gesture] | None = None,
) -> tuple[Piece | None, tuple[ReadError, ...]]:
    """The piece of a file, as far as it can be resolved, and every mistake in its meaning, in file order. Opens no
    file.

    profile      what was read at the quoted path of the instrument, if there is one
    instrument   replaces the one the file names
    known        the settings of this file, if they were read before, and a context for its blocks
    kept         the gestures of blocks that were resolved before with these settings, by the block's `id`

    The piece is None if no gesture can be resolved: without an instrument, or without `pitches` for a transposing
    instrument.
    """
    found, ctx = known or settings(tree, profile, instrument)
    unread: set[str] = set()
    gestures = _gestures(ctx, tree, unread, kept or {})
    text, meter = _file_frame(tree)
    played, lines = passages.passages(ctx, tree.blocks, gestures, (text, meter), unread)
    varied = _exercises(ctx, tree, gestures, unread)
    order = sorted(ctx.errors, key=lambda e: (e.rule == "too-many-errors", e.span.line, e.span.column, e.code))
    errors = tuple(order)
    if found is None:
        return None, errors
    piece = Piece(
        settings=found,
        gestures=tuple(gestures.values()),
        passages=played,
        exercises=varied,
        unread=frozenset(unread),
        lines=lines,
    )
    return piece, errors


def _file_frame(tree: nodes.File) -> tuple[str | None, tuple[int, int] | None]:
    """The words before the file's tempo, and its meter: the defaults of passages."""
    tempo, meter = tree.get("tempo"), tree.get("meter")
    words = tempo.value.words if tempo is not None and isinstance(tempo.value, nodes.Tempo) else None
    bars = meter_of(meter.value) if meter is not None and isinstance(meter.value, nodes.TimeSignature) else None
    return words.text if words is not None else None, bars


def _gestures(ctx: Context, tree: nodes.File, unread: set[str], kept: Mapping[int, Gesture]) -> dict[str, Gesture]:
    """The gestures by case-folded name, in file order; names of those with an error join `unread`."""
    blocks = [b for b in tree.blocks if b.kind == "gesture"]
    if len(blocks) > MAX_GESTURES:
        ctx.block = None
        ctx.error("too-many-gestures", blocks[MAX_GESTURES].span, limit=MAX_GESTURES, what="gestures")
        unread.update(b.name.text.casefold() for b in blocks[MAX_GESTURES:])
    found: dict[str, Gesture] = {}
    notes_so_far = 0
    for block in blocks[:MAX_GESTURES]:
        name = block.name.text.casefold()
        gesture = None
        if not ctx.full and notes_so_far <= MAX_NOTES:
            gesture = kept.get(id(block)) or build.gesture(ctx, block)
        notes_so_far += gesture.size if gesture is not None else 0
        if gesture is not None and notes_so_far > MAX_NOTES:
            ctx.error("too-many-gestures", block.name.span, limit=MAX_NOTES, what="notes in all gestures")
            gesture = None
        if gesture is None:
            unread.add(name)
        elif name not in unread:
            found.setdefault(name, gesture)
    return found


def _exercises(
    ctx: Context, tree: nodes.File, gestures: dict[str, Gesture], unread: set[str]
) -> tuple[Exercise, ...]:
    others = {b.name.text.casefold(): _IS[b.kind] for b in tree.blocks if b.kind != "gesture"}
    found: dict[str, Exercise] = {}
    for block in tree.blocks:
        if block.kind != "exercises":
            continue
        exercise = exercises.exercise(ctx, block, gestures, others, unread) if not ctx.full else None
        name = block.name.text.casefold()
        if exercise is None:
            unread.add(name)
        else:
            found.setdefault(name, exercise)
    return tuple(found.values())
