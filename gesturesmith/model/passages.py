"""Passages: what they play, in order."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from gesturesmith.kinds import one_of
from gesturesmith.lang import nodes
from gesturesmith.lang.messages import listed, shown
from gesturesmith.lang.words import FERMATA, PLAYERS
from gesturesmith.model import boxes, build, messages, move
from gesturesmith.model.changing import MAX_CHANGES, Course
from gesturesmith.model.context import MAX_EVENTS, MAX_EVENTS_IN_FILE, Context, meant
from gesturesmith.model.gesture import Gesture
from gesturesmith.model.piece import Box, Passage, PassageItem, PassageLine, Repeat
from gesturesmith.model.settings import meter_of
from gesturesmith.model.tempo import TempoMap
from gesturesmith.source import Span
from gesturesmith.units import KeySignature, interval
from gesturesmith.values import frozen


@frozen
class PassageFrame:
    """How a passage is barred and counted, and how many times it is played.

    bar        the number of its first bar, None if bars are not numbered
    counted    the note that the tempo names, in quarters, None if none
    own_tempo, own_meter   whether the passage sets its own, or takes the file's
    pickup     beats of an incomplete first bar; `key`: sounding
    """

    tempo: Fraction
    tempo_text: str | None
    meter: tuple[int, int] | None
    bar: int | None
    counted: Fraction | None
    own_tempo: bool
    own_meter: bool
    times: int
    pickup: Fraction = Fraction(0)
    key: KeySignature | None = None


@dataclass(slots=True)
class _Made:
    """The passages of a file while they are resolved, by case-folded name."""

    blocks: dict[str, nodes.Block]
    gestures: dict[str, Gesture]
    exercises: frozenset[str]
    unread: set[str]
    frames: dict[str, PassageFrame] = field(default_factory=dict)
    items: dict[str, tuple[PassageItem, ...]] = field(default_factory=dict)
    circled: set[str] = field(default_factory=set)  # those that play themselves
    boxes: dict[str, nodes.Block] = field(default_factory=dict)
    every_box: frozenset[str] = frozenset()  # those with an error too
    courses: dict[str, Course] = field(default_factory=dict)
    lengths: dict[str, Fraction] = field(default_factory=dict)
    # A gesture played again in the same way is one value: keyed by its `play` item, and then by its tempo as well.
    again: dict[tuple[object, ...], list[PassageItem]] = field(default_factory=dict)
    in_time: dict[tuple[object, ...], tuple[PassageItem, PassageItem]] = field(default_factory=dict)
    written_out: int = 0


def passages(
    ctx: Context,
    blocks: tuple[nodes.Block, ...],
    gestures: dict[str, Gesture],
    file_frame: tuple[str | None, tuple[int, int] | None],
    unread: set[str],
) -> tuple[tuple[Passage, ...], dict[str, PassageLine]]:
    """The passages of a file, and their lines by name; those with an error, or that play one with an error, join
    `unread`.

    gestures     by case-folded name
    file_frame   the words before the file's tempo, and the file's meter
    """
    mine = {b.name.text.casefold(): b for b in reversed(blocks) if b.kind == "passage"}
    others = frozenset(b.name.text.casefold() for b in blocks if b.kind == "exercises")
    made = _Made(mine, gestures, others, unread)
    _read_boxes(ctx, made, blocks)
    for name in _in_playing_order(ctx, made, [b.name.text.casefold() for b in blocks if b.kind == "passage"]):
        block = mine[name]
        ctx.enter(block)
        made.frames[name] = _frame(ctx, block, file_frame)
        items = _items(ctx, made, block, name) if not ctx.full else None
        if items is None or ctx.flawed:
            unread.add(name)
        else:
            made.items[name] = items
    found = tuple(
        _passage(ctx, made, b)
        for b in blocks
        if b.kind == "passage" and b.name.text.casefold() in made.items and mine[b.name.text.casefold()] is b
    )
    return found, {
        mine[name].name.text: PassageLine(
            entries=tuple(course.placed), beats=made.lengths.get(name, Fraction(0)), meter=course.meter
        )
        for name, course in made.courses.items()
    }


def _read_boxes(ctx: Context, made: _Made, blocks: tuple[nodes.Block, ...]) -> None:
    """Read every box once, for its mistakes; each passage that plays it reads it again at its own tempo."""
    played = {item.name.text.casefold() for b in blocks for item in _played(b) if item.name is not None}
    broken = any(b.broken for b in blocks)
    made.every_box = frozenset(b.name.text.casefold() for b in blocks if b.kind == "box")
    for block in blocks:
        if block.kind != "box":
            continue
        ctx.enter(block)
        name = block.name.text.casefold()
        box = _box(ctx, made, block, ctx.tempo)
        if name not in played and not broken:
            ctx.error("box-unplayed", block.name.span, name=f"`{block.name.text}`")
        if box is None or ctx.flawed:
            made.unread.add(name)
        else:
            made.boxes.setdefault(name, block)


def _box(ctx: Context, made: _Made, block: nodes.Block, tempo: Fraction) -> Box | None:
    """A box at a tempo; what stands in it has no bars of its own."""
    frame = PassageFrame(tempo, None, None, None, ctx.counted, own_tempo=False, own_meter=False, times=1)

    def events(node: nodes.PlayItem) -> list[PassageItem] | None:
        if node.name is not None and node.name.text.casefold() not in made.gestures:
            if node.name.text.casefold() in {*made.blocks, *made.exercises, *made.every_box}:
                ctx.error("box-content", node.name.span, name=shown(node.name.text))
            else:
                _unplayable(ctx, made, node.name)
            return None
        found = _events(ctx, made, node, frame, frame.tempo)
        return [_in_time(made, item, tempo, None) for item in found] if found is not None else None

    return boxes.read(ctx, block, tempo, events)


def _passage(ctx: Context, made: _Made, block: nodes.Block) -> Passage:
    name = block.name.text.casefold()
    frame, items, course = made.frames[name], made.items[name], made.courses[name]
    end = items[-1].at + items[-1].beats
    return Passage(
        name=block.name.text,
        title=block.title.text if block.title is not None else None,
        items=items,
        repeats=(Repeat(start=Fraction(0), end=end, times=frame.times),) if frame.times > 1 else (),
        tempo_map=course.tempo_map,
        tempo_text=course.words if course.renewed else frame.tempo_text,
        meter=course.meter,
        counted=course.counted,
        bar=frame.bar,
        pickup=frame.pickup,
        key=course.key,
        changes=tuple(sorted(course.changes, key=lambda change: change.at)),
        span=block.span,
        spans={e.key.text: e.span for e in reversed(block.entries)},
        two_players=ctx.two_players,
    )


def _played(block: nodes.Block) -> Iterator[nodes.PlayItem]:
    entry = block.get("play")
    if entry is not None and isinstance(entry.value, nodes.Play):
        every = (one for item in entry.value.items for one in (item, item.below) if one is not None)
        yield from (item for item in every if item.name is not None)


def _in_playing_order(ctx: Context, made: _Made, names: list[str]) -> list[str]:
    """The passages, each after those it plays; one that plays itself is left out, with one error per circle."""
    order: list[str] = []
    done: set[str] = set()
    for start in names:
        if start in done:
            continue
        path = [start]
        left = [_played(made.blocks[start])]
        on_path = {start}
        while path:
            item = next(left[-1], None)
            if item is None or item.name is None:
                done.add(path[-1])
                order.append(path[-1])
                on_path.discard(path.pop())
                left.pop()
                continue
            name = item.name.text.casefold()
            if name in on_path:
                _circle(ctx, made, path[path.index(name) :], item.span)
            elif name in made.blocks and name not in done:
                path.append(name)
                left.append(_played(made.blocks[name]))
                on_path.add(name)
    return [name for name in order if name not in made.unread]


def _circle(ctx: Context, made: _Made, circle: list[str], span: Span) -> None:
    """Report passages that play each other in a circle, where it closes; none of them can be resolved."""
    names = [f"`{made.blocks[name].name.text}`" for name in circle]
    ctx.block = made.blocks[circle[-1]].name.text
    shown_names = names if len(names) < 6 else [*names[:3], "…", names[-1]]
    chain = ", which plays ".join(shown_names) if len(names) > 1 else "itself"
    ctx.error("plays-itself", span, passage=names[-1], chain=chain)
    made.unread.update(circle)
    # They are not resolved any further: what else they play is checked here, once.
    fresh = [name for name in circle if name not in made.circled]
    made.circled.update(circle)
    for name in fresh:
        ctx.block = made.blocks[name].name.text
        for item in _played(made.blocks[name]):
            if item.name is not None and item.name.text.casefold() not in (
                *made.gestures,
                *made.blocks,
                *made.boxes,
            ):
                _unplayable(ctx, made, item.name)


def _frame(ctx: Context, block: nodes.Block, file_frame: tuple[str | None, tuple[int, int] | None]) -> PassageFrame:
    tempo = ctx.value(block, "tempo", nodes.Tempo)
    meter = ctx.value(block, "meter", nodes.TimeSignature)
    repeat = ctx.value(block, "repeat", nodes.Amount)
    bar = ctx.value(block, "bar", nodes.Amount)
    text, file_meter = file_frame
    if tempo is not None:
        text = tempo.words.text if tempo.words is not None else None
    barred = meter_of(meter) if meter is not None else file_meter
    if bar is not None and barred is None:
        ctx.error("bar-without-meter", bar.span, bar=messages.amount(bar.value))
    pickup = ctx.value(block, "pickup", nodes.Amount)
    if pickup is not None and barred is None:
        ctx.error("change-without-meter", pickup.span, what="a pickup")
    key = ctx.value(block, "key", nodes.KeyNode)
    return PassageFrame(
        tempo=tempo.bpm.value * (tempo.note or ctx.beat) if tempo is not None else ctx.tempo,
        tempo_text=text,
        meter=barred,
        bar=int(bar.value) if bar is not None else None,
        counted=(tempo.note if tempo is not None else None) or ctx.counted,
        own_tempo=tempo is not None,
        own_meter=meter is not None,
        times=int(repeat.value) if repeat is not None else 1,
        pickup=pickup.value * ctx.beat if pickup is not None else Fraction(0),
        key=ctx.sounding_key(key.key) if key is not None and not ctx.keyless else None,
    )


def _items(ctx: Context, made: _Made, block: nodes.Block, name: str) -> tuple[PassageItem, ...] | None:
    """Everything a passage plays, each at its time; None if any of it cannot be read."""
    frame = made.frames[name]
    course = made.courses[name] = Course(ctx, frame.tempo, frame.meter, frame.pickup, frame.key, frame.counted)
    play = ctx.value(block, "play", nodes.Play)
    if play is None:
        if block.get("play") is None and not block.broken:
            example = next((g.name for g in made.gestures.values()), "C4 for 1")
            ctx.error("missing-play", block.name.span, name=f"`{block.name.text}`", example=example)
        return None
    items: list[PassageItem] = []
    at, complete, notes, size = Fraction(0), True, 0, 0
    # Without bars a passage is engraved in pieces of four beats, which cost as much.
    bar = Fraction(4) if frame.meter is None else Fraction(4 * frame.meter[0], frame.meter[1])
    who = ""
    imposed = ctx.value(block, nodes.IMPOSED, nodes.Imposed)
    for number, (when, entry) in enumerate(imposed.changes if imposed is not None else ()):
        if number == MAX_CHANGES:
            ctx.error("too-many-changes", entry.span, limit=MAX_CHANGES)
            break
        course.take(entry, when)
    # What a line among others says is only placed: what all of them say is imposed.
    enter = course.add if imposed is None else course.place
    for node in play.items:
        if node.change is not None:
            enter(node, at)
            continue
        if (node.who is not None or node.below is not None) and not ctx.two_players:
            ctx.error("one-player", node.span, what=shown(node.who.text) if node.who is not None else "`/`")
            return None
        events = _events(ctx, made, node, frame, course.tempo_map.tempo_at(at))
        if events is not None and node.name is not None and node.name.text.casefold() in made.items:
            _include(ctx, made, node.name, course, at, alone=imposed is None)
        if node.below is not None and not _even(ctx, made, node, node.below, frame, events):
            return None
        if events and node.silent:
            length = sum((event.beats for event in events), Fraction(0))
            events = [PassageItem(at=Fraction(0), beats=length, gesture=None, played="", span=node.span)]
        if events and node.who is not None and node.who.text != who:
            who = node.who.text
            events = [replace(events[0], who=one_of(PLAYERS, who)), *events[1:]]
        complete = complete and events is not None
        for event in events or ():
            if not ctx.short_enough("this", event.beats, node.span):
                return None
            timed = _in_time(made, event, *course.time(at, event.beats))
            if not course.tempo_map.steady:
                complete = _countable_seconds(ctx, event, timed, course, at, node.span) and complete
            items.append(replace(timed, at=at, span=node.span))
            at += timed.beats
            notes += event.gesture.size if event.gesture is not None else 1
        size = max(notes, math.ceil(at / bar))
        if not _countable(ctx, made, size, frame.times, node.span):
            return None
    made.written_out += size
    if complete and items:
        made.lengths[name] = at
        course.end(at, repeated=frame.times > 1)
        first = course.bar_at(Fraction(0))
        if frame.pickup and first is not None and not frame.pickup < min(first, at):
            said, whole = (messages.length(one / ctx.beat, False) for one in (frame.pickup, first))
            ctx.error("pickup-too-long", block.span_of("pickup"), pickup=said, bar=whole)
    elif complete and not ctx.flawed:
        example = next((g.name for g in made.gestures.values()), "C4 for 1")
        ctx.error("missing-play", play.span, name=f"`{block.name.text}`", example=example)
    return tuple(items) if complete and items else None


def _countable_seconds(
    ctx: Context, event: PassageItem, timed: PassageItem, course: Course, at: Fraction, span: Span
) -> bool:
    """Whether what lasts seconds does so at one tempo; an error if not."""
    box = event.box is not None
    if not box and (event.gesture is None or not event.gesture.in_seconds):
        return True
    if course.time(at, timed.beats)[1] is None:
        return True
    what = f"the box `{event.box.box.name}`" if event.box is not None else shown(event.played)
    ctx.error("while-tempo-changes", span, what=what, lasts="is repeated for" if box else "lasts")
    return False


def _include(ctx: Context, made: _Made, word: nodes.Word, course: Course, at: Fraction, *, alone: bool) -> None:
    """What changes in a passage inside another, each time it is played there, and the key it begins with; only
    placed if the line is not `alone`."""
    name = word.text.casefold()
    frame, inner = made.frames[name], made.courses[name]
    start = course.bar_start(at + frame.pickup)
    if frame.pickup and course.meter is not None and start != at + frame.pickup:
        pickup = messages.length(frame.pickup / ctx.beat, False)
        ctx.error("pickup-inside", word.span, name=shown(word.text), pickup=pickup)
    enter = course.add if alone else course.place
    length = sum((item.beats for item in made.items[name]), Fraction(0))
    key = made.blocks[name].get("key")
    begins = frame.key if frame.key is not None else course.key_now
    if key is not None and isinstance(key.value, nodes.KeyNode) and (not alone or begins != course.key_now):
        enter(nodes.PlayItem(change=key.value, span=word.span), at)
    for turn in range(frame.times if inner.placed else 0):
        if course.full:
            break
        for when, entry in inner.placed:
            enter(replace(entry, span=word.span), at + when + turn * length)


def _even(
    ctx: Context,
    made: _Made,
    first: nodes.PlayItem,
    second: nodes.PlayItem,
    frame: PassageFrame,
    events: list[PassageItem] | None,
) -> bool:
    """Whether two divided players play for the same time; an error if not."""
    below = _events(ctx, made, second, frame, frame.tempo)
    if events is None or below is None:
        return False
    above, under = (sum((event.beats for event in one), Fraction(0)) for one in (events, below))
    if above != under:
        length, other = messages.length(above, False), messages.length(under, False)
        ctx.error("uneven-division", first.span, length=length, other=other)
    return above == under


def _countable(ctx: Context, made: _Made, count: int, times: int, span: Span) -> bool:
    if count * times > MAX_EVENTS:
        ctx.error("too-many-events", span, where="this passage has", limit=MAX_EVENTS)
        return False
    if made.written_out + count > MAX_EVENTS_IN_FILE:
        ctx.error("too-many-events", span, where="the passages of this file have", limit=MAX_EVENTS_IN_FILE)
        return False
    return True


def _events(
    ctx: Context, made: _Made, node: nodes.PlayItem, frame: PassageFrame, tempo: Fraction
) -> list[PassageItem] | None:
    """The events of one item of `play`, where the passage has a tempo; None if it cannot be read."""
    if node.rest is not None:
        beats = node.rest.value * ctx.beat
        held = any(mark.text == FERMATA for mark in node.marks)
        return [PassageItem(at=Fraction(0), beats=beats, gesture=None, played="", span=node.span, fermata=held)]
    if node.note is not None:
        beats = (node.for_.value if node.for_ is not None else 1) * ctx.beat
        one = build.plain(ctx, node.note, beats, node.as_, node.marks, node.graces, node.texts, node.span)
        return [_event(one)] if one is not None else None
    if node.name is None:
        return None
    name = node.name.text.casefold()
    if name in made.gestures:
        way = (name, node.move, node.interval, node.semitones, frame.meter)
        if way not in made.again:
            once = _moved(ctx, node, [_event(made.gestures[name])])
            framed = once and _framed(ctx, node, once, frame)
            if framed is None:
                return None
            made.again[way] = framed
        return made.again[way]
    if name in made.boxes:
        return _of_box(ctx, made, node, made.boxes[name], frame, tempo)
    if name in made.items:
        found = _nested(ctx, made, node.name, frame, tempo)
    else:
        _unplayable(ctx, made, node.name)
        return None
    moved = _moved(ctx, node, found)
    return moved and _framed(ctx, node, moved, frame)


def _of_box(
    ctx: Context, made: _Made, node: nodes.PlayItem, block: nodes.Block, frame: PassageFrame, tempo: Fraction
) -> list[PassageItem] | None:
    """The items of a box, at a tempo."""
    if node.move:
        why = "the content of a box can be moved only there"
        ctx.error("cannot-move", node.span, name=f"`{block.name.text}`", why=why)
        return None
    box = _box(ctx, made, block, tempo)
    found = boxes.items(ctx, box, frame.meter, node) if box is not None else None
    # It is at the passage's tempo already; only seconds may not fit.
    return found if found and _framed(ctx, node, found, frame) else None


def _event(gesture: Gesture) -> PassageItem:
    return PassageItem(at=Fraction(0), beats=gesture.beats, gesture=gesture, played=gesture.name, span=gesture.span)


def _unplayable(ctx: Context, made: _Made, word: nodes.Word) -> None:
    """Report a name that cannot be played, unless its own block already has an error."""
    name = word.text.casefold()
    if name in made.unread:
        return
    if name in made.exercises:
        ctx.error("exercises-played", word.span, name=shown(word.text))
        return
    blocks = (*made.blocks.values(), *made.boxes.values())
    names = (*(g.name for g in made.gestures.values()), *(b.name.text for b in blocks))
    near = ctx.nearest(word.text, names)
    ctx.error("unknown-name", word.span, nearest=near, name=shown(word.text), meant=meant(near))


def _nested(ctx: Context, made: _Made, word: nodes.Word, frame: PassageFrame, tempo: Fraction) -> list[PassageItem]:
    """A passage inside another, its repeats written out."""
    inner = made.frames[word.text.casefold()]
    name = shown(word.text)
    if inner.own_tempo and inner.tempo != tempo:
        its, ours = messages.amount(inner.tempo), messages.amount(tempo)
        ctx.error("other-tempo", word.span, name=name, its=f"the tempo {its}", ours=ours, key="tempo")
    if inner.own_meter and inner.meter != frame.meter:
        its, ours = (f"{m[0]}/{m[1]}" if m else "free time" for m in (inner.meter, frame.meter))
        ctx.error("other-tempo", word.span, name=name, its=f"the meter {its}", ours=ours, key="meter")
    return list(made.items[word.text.casefold()]) * inner.times


def _moved(ctx: Context, node: nodes.PlayItem, items: list[PassageItem]) -> list[PassageItem] | None:
    """The items transposed; None after an error."""
    if not node.move:
        return items
    change = _change(node, items)
    found: list[PassageItem] = []
    made: dict[int, Gesture] = {}  # a repeated gesture is one value, transposed once
    for item in items:
        old = item.gesture
        if old is None:
            found.append(item)
            continue
        if id(old) not in made:
            gesture = move.changed(old, change)
            if isinstance(gesture, move.Unmovable):
                name = f"`{item.played}`" if item.played else "this pitch"
                ctx.error("cannot-move", node.span, name=name, why=gesture.why)
                return None
            made[id(old)] = gesture
        found.append(replace(item, gesture=made[id(old)]))
    return found


def _change(node: nodes.PlayItem, items: list[PassageItem]) -> move.Change:
    down = node.move == "down"
    by = interval(node.interval) if node.interval else None
    if by is not None:
        return move.by_interval(-by if down else by)
    semitones = -(node.semitones or 0) if down else node.semitones or 0
    return move.by_semitones(semitones, (item.gesture for item in items if item.gesture is not None))


def _framed(
    ctx: Context, node: nodes.PlayItem, items: list[PassageItem], frame: PassageFrame
) -> list[PassageItem] | None:
    """The items as they are; None if seconds meet bars."""
    in_seconds = tuple(dict.fromkeys(i.played for i in items if i.gesture is not None and i.gesture.in_seconds))
    if in_seconds and frame.meter is not None:
        over, under = frame.meter
        names = listed(in_seconds[:3], "and")
        ctx.error("seconds-in-bars", node.span, name=names, meter=f"{over}/{under}")
        return None
    return items


def _in_time(made: _Made, item: PassageItem, tempo: Fraction, pace: TempoMap | None) -> PassageItem:
    """An item at a tempo, and as it changes meanwhile."""
    if item.gesture is None:
        return item
    way = (id(item.gesture), tempo, pace)
    if way not in made.in_time:
        gesture = move.at_tempo(item.gesture, tempo, None if item.gesture.in_seconds else pace)
        timed = item if gesture is item.gesture else replace(item, gesture=gesture, beats=gesture.beats)
        made.in_time[way] = item, timed  # the item too, so that its identity is not taken again
    timed = made.in_time[way][1]
    return replace(item, gesture=timed.gesture, beats=timed.beats)
