"""Exercises: every variant of a gesture, one for each combination of values in the lists of a block."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from itertools import product
from typing import get_args

from gesturesmith.kinds import Keep, Unit, VariedKey, one_of
from gesturesmith.lang import nodes
from gesturesmith.lang.messages import shown
from gesturesmith.lang.words import FINGERINGS, ORDERS, STROKES
from gesturesmith.model import contour as contours
from gesturesmith.model import messages, move
from gesturesmith.model.context import MAX_VARIANTS, MAX_VARIED_EVENTS, Context, meant
from gesturesmith.model.contour import GestureLength
from gesturesmith.model.dynamics import dynamics, in_words
from gesturesmith.model.gesture import Band, Gesture
from gesturesmith.model.piece import Exercise
from gesturesmith.model.settings import meter_of
from gesturesmith.model.strokes import MEASURED
from gesturesmith.source import Span
from gesturesmith.units import Spelling
from gesturesmith.values import frozen

_KEYS: tuple[VariedKey, ...] = get_args(VariedKey)


@frozen
class VariedValue:
    """One value of a list: its key, value, label and span."""

    key: VariedKey
    what: object
    words: str
    span: Span


class _BadListError(Exception):
    """A list cannot be evaluated; its error is recorded. Never leaves this module."""


def exercise(
    ctx: Context, block: nodes.Block, gestures: dict[str, Gesture], others: dict[str, str], unread: set[str]
) -> Exercise | None:
    """The exercises of a block, or None if anything in it is wrong; errors go to the context.

    gestures, others   by case-folded name: the gestures, and what each other block is ("is a passage")
    """
    ctx.enter(block)
    origin = _origin(ctx, block, gestures, others, unread)
    variants = _variants(ctx, block, origin) if origin is not None else ()
    order = ctx.value(block, "order", nodes.Word)
    keep = _keep(ctx, block)
    times = ctx.value(block, "times", nodes.Amount)
    meter = _meter(ctx, block, [v for v, _ in variants])
    fingerings = ctx.value(block, "fingerings", nodes.Word)
    instruction = ctx.value(block, "instruction", nodes.Text)
    if ctx.flawed or origin is None:
        return None
    return Exercise(
        name=block.name.text,
        title=block.title.text if block.title is not None else None,
        origin=origin.name,
        variants=tuple(v for v, _ in variants),
        labels=tuple(label for _, label in variants),
        order=one_of(ORDERS, order.text) if order is not None else "as listed",
        keep=keep,
        times=int(times.value) if times is not None else 1,
        meter=meter,
        fingerings=one_of(FINGERINGS, fingerings.text) if fingerings is not None else None,
        instruction=instruction.text if instruction is not None else None,
        span=block.span,
    )


def _origin(
    ctx: Context, block: nodes.Block, gestures: dict[str, Gesture], others: dict[str, str], unread: set[str]
) -> Gesture | None:
    """The gesture to vary; None if it is missing or unread."""
    word = ctx.value(block, "from", nodes.Word)
    names = tuple(g.name for g in gestures.values())
    if word is None:
        if block.get("from") is None and not block.broken:
            ctx.error("missing-from", block.name.span, name=f"`{block.name.text}`", example=(*names, "NAME")[0])
        return None
    name = word.text.casefold()
    if name in gestures:
        return gestures[name]
    if name in others:
        ctx.error("not-a-gesture", word.span, name=shown(word.text), is_what=others[name])
    elif name not in unread:
        near = ctx.nearest(word.text, names)
        what = f"is not in this file{meant(near)}"
        ctx.error("not-a-gesture", word.span, nearest=near, name=shown(word.text), is_what=what)
    return None


def _keep(ctx: Context, block: nodes.Block) -> int | Keep:
    entry = block.get("keep")
    if entry is None:
        return "all"
    if isinstance(entry.value, nodes.Amount):
        return int(entry.value.value)
    word = ctx.value(block, "keep", nodes.Word)
    return one_of(get_args(Keep), word.text) if word is not None else "all"


def _meter(ctx: Context, block: nodes.Block, variants: list[Gesture]) -> tuple[int, int] | None:
    """The meter of the lines; a written one is an error if a line is in seconds, which have no bars."""
    node = ctx.value(block, "meter", nodes.TimeSignature)
    if node is None:
        return (4, 4)
    meter = meter_of(node)
    if meter is not None and any(v.in_seconds for v in variants):
        ctx.error("seconds-in-bars", node.span, name="a line", meter=f"{meter[0]}/{meter[1]}")
    return meter


def _variants(ctx: Context, block: nodes.Block, origin: Gesture) -> tuple[tuple[Gesture, str], ...]:
    """Every variant with its label: the product of the lists, the last key varying fastest."""
    lists: list[list[VariedValue]] = []
    for key in _KEYS:
        try:
            values = _values(ctx, block, key, origin)
        except _BadListError:
            continue
        if values:
            lists.append(values)
    count = math.prod(len(values) for values in lists)
    if count > MAX_VARIANTS:
        ctx.error("too-many-variants", block.span, count=count, limit=MAX_VARIANTS)
    ctx.varied += count * origin.size
    if ctx.varied > MAX_VARIED_EVENTS:
        ctx.error("too-many-exercises", block.span, limit=MAX_VARIED_EVENTS)
    starts, bands = block.get("start"), block.get("band")
    if starts is not None and bands is not None and any(p.kind == "height" for p in origin.points):
        why = "its heights follow the band; leave out `start` or `band`"
        ctx.error("cannot-vary", starts.span, key="start", name=f"`{origin.name}`", why=why)
    if ctx.flawed:
        return ()
    made: list[tuple[Gesture, str]] = []
    pitched: dict[tuple[int, ...], Gesture] = {}  # one version of the pitches serves all lengths, tempos, dynamics
    for chosen in product(*lists):
        gesture = _pitched(ctx, origin, [v for v in chosen if v.key in _KEYS[:4]], pitched)
        if gesture is None:
            return ()
        for value in chosen:
            changed = _noted(_timed(gesture, value), value)
            if isinstance(changed, move.Unmovable):
                ctx.error("cannot-vary", value.span, key=value.key, name=f"`{origin.name}`", why=changed.why)
                return ()
            gesture = changed
        if not ctx.short_enough("a variant", gesture.beats, block.span):
            return ()
        words = ", ".join(v.words for v in chosen if v.words)
        name = f"{block.name.text}-{len(made) + 1}"
        made.append((replace(gesture, name=name), words or "as written"))
    return tuple(made)


def _pitched(
    ctx: Context, origin: Gesture, chosen: list[VariedValue], made: dict[tuple[int, ...], Gesture]
) -> Gesture | None:
    """The original gesture with its pitches changed; None after an error."""
    key = tuple(id(v) for v in chosen)
    if key in made:
        return made[key]
    gesture = origin
    for value in chosen:
        changed: Gesture | move.Unmovable = gesture
        if isinstance(value.what, Spelling):
            changed = move.to_start(gesture, value.what)
        elif value.key == "stretch" and isinstance(value.what, Fraction):
            changed = move.stretched(gesture, value.what)
        elif value.key == "mirror" and value.what:
            changed = move.mirrored(gesture)
        elif isinstance(value.what, Band):
            changed = move.in_band(gesture, value.what)
        if isinstance(changed, move.Unmovable):
            ctx.error("cannot-vary", value.span, key=value.key, name=f"`{origin.name}`", why=changed.why)
            return None
        gesture = changed
    made[key] = gesture
    return gesture


def _timed(gesture: Gesture, value: VariedValue) -> Gesture:
    """The gesture with the length, tempo or dynamics of one value."""
    what = value.what
    if value.key == "lasts" and isinstance(what, tuple):
        length, seconds = what
        return move.lasting(gesture, length if seconds else length * gesture.beat, seconds=seconds)
    if value.key == "tempo" and isinstance(what, Fraction):
        return move.at_tempo(gesture, what * gesture.beat)
    if value.key == "dynamics" and isinstance(what, tuple):
        marks, length = what  # times in an exercise refer to the gesture as written
        factor = gesture.beats / length
        return move.with_dynamics(gesture, tuple(replace(m, at=m.at * factor) for m in marks))
    return gesture


def _noted(gesture: Gesture, value: VariedValue) -> Gesture | move.Unmovable:
    """The gesture with the grace notes or repeats of one value."""
    if value.key == "graces" and isinstance(value.what, Fraction):
        return move.with_graces(gesture, int(value.what))
    if value.key == "strokes":
        return move.with_strokes(gesture, one_of(STROKES, str(value.what)))
    return gesture


def _values(ctx: Context, block: nodes.Block, key: VariedKey, origin: Gesture) -> list[VariedValue]:
    """The values of one list, [] if it is missing."""
    if key == "mirror":
        word = ctx.value(block, "mirror", nodes.Word)
        if word is None or word.text != "yes":
            return []
        return [VariedValue(key, False, "", word.span), VariedValue(key, True, "upside down", word.span)]
    series = ctx.value(block, key, nodes.Series)
    if series is None:
        if block.get(key) is not None:
            raise _BadListError
        return []
    found: list[VariedValue] = []
    for item in series.items:
        if isinstance(item, nodes.Range):
            found += _range(ctx, key, item, origin)
        else:
            found.append(_value(ctx, key, item, origin))
    return found


def _value(
    ctx: Context,
    key: VariedKey,
    item: nodes.Amount | nodes.Note | nodes.BandNode | nodes.Dynamics | nodes.Word,
    origin: Gesture,
) -> VariedValue:
    """One written value."""
    if isinstance(item, nodes.Word):
        return VariedValue(key, item.text, f"in {item.text}" if item.text in MEASURED else item.text, item.span)
    if isinstance(item, nodes.Note):
        return _start(ctx.pitch(item)[0].written, item.span)
    if isinstance(item, nodes.BandNode):
        band = contours.band(ctx, item)
        if band is None:
            raise _BadListError
        name = band.register or f"{band.low.written.name} to {band.high.written.name}"
        return VariedValue(key, band, f"in {name}", item.span)
    if isinstance(item, nodes.Dynamics):
        seconds = origin.tempo / 60 if origin.in_seconds else origin.beat
        marks = dynamics(ctx, item, GestureLength(origin.beats, seconds, origin.in_seconds))
        return VariedValue(key, (marks, origin.beats), in_words(item), item.span)
    return _quantity(key, item.value, item.unit, item.span)


def _start(written: Spelling, span: Span) -> VariedValue:
    return VariedValue("start", written, f"from {written.name}", span)


def _quantity(key: VariedKey, value: Fraction, unit: Unit, span: Span) -> VariedValue:
    if key == "lasts":
        seconds = unit == "s"
        return VariedValue(key, (value, seconds), messages.length(value, seconds), span)
    if key == "graces":
        words = f"{messages.amount(value)} grace {'note' if value == 1 else 'notes'}" if value else "without graces"
        return VariedValue(key, value, words, span)
    if key == "tempo":
        return VariedValue(key, value, f"tempo {messages.amount(value)}", span)
    return VariedValue(key, value, f"intervals times {messages.amount(value)}" if value != 1 else "", span)


def _range(ctx: Context, key: VariedKey, item: nodes.Range, origin: Gesture) -> list[VariedValue]:
    """The values from one end of a range towards the other."""
    if isinstance(item.first, nodes.Note) and isinstance(item.last, nodes.Note):
        return _pitches(ctx, item, item.first, item.last, origin)
    if not isinstance(item.first, nodes.Amount) or not isinstance(item.last, nodes.Amount):
        raise _BadListError
    unit = item.by.unit or item.last.unit or item.first.unit
    values = _steps(ctx, item, item.first.value, item.last.value, item.by.value)
    return [_quantity(key, value, unit, item.first.span.to(item.last.span)) for value in values]


def _pitches(
    ctx: Context, item: nodes.Range, first: nodes.Note, last: nodes.Note, origin: Gesture
) -> list[VariedValue]:
    """Start pitches, by semitones; the ends as spelled, those between spelled for the plainest names."""
    low, high = ctx.pitch(first)[0].written, ctx.pitch(last)[0].written
    ends = {high.pitch_cents: high, low.pitch_cents: low}
    values = _steps(ctx, item, low.pitch_cents, high.pitch_cents, item.by.value * 100)
    return [_start(ends.get(cents) or move.start_on(origin, cents), first.span.to(last.span)) for cents in values]


def _steps(ctx: Context, item: nodes.Range, first: Fraction, last: Fraction, by: Fraction) -> list[Fraction]:
    if by <= 0:
        ctx.error("bad-range", item.by.span, why="the step after `by` must be more than 0")
        raise _BadListError
    count = math.floor(abs(last - first) / by) + 1
    if count > MAX_VARIANTS:
        ctx.error("too-many-variants", item.by.span, count=count, limit=MAX_VARIANTS)
        raise _BadListError
    step = by if last >= first else -by
    return [first + step * k for k in range(count)]
