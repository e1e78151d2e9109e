"""From a plan to a score: the leaves of every voice, timed from the start of the music, and their beams, frozen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from gesturesmith.score.dynamics import apart_from
from gesturesmith.score.events import EventBuilder, VoiceBuilder
from gesturesmith.score.music import Event, Part, Voice
from gesturesmith.score.plan import PartBuilder, Plan
from gesturesmith.score.rhythm import Leaf, Slot, Tuplet, leaves

type Run = tuple[Leaf | Tuplet, ...]

_BEAMED_BELOW = Fraction(1)  # quarters and longer have no flags
_NO_LEAF = -1  # the key of a head to which no leaf refers: where a line stops, a grace note


def parts(plan: Plan) -> tuple[Part, ...]:
    """The parts of a plan, with their leaves."""
    runs = _runs(plan)
    beams = dict(_beams(plan, runs))
    made = []
    for part, run in zip(plan.parts, runs, strict=True):
        sung = None
        if part.sung is not None:
            own = _moved(leaves(part.sung_slots, plan.meter), part.since)
            beamed = _beamed(own, dict(_groups(list(flat(own)))))
            sung = _voice(part.sung, part.sung_slots, part, beamed)
        made.append(
            Part(
                name=part.case.gesture.name if part.case is not None else "",
                at=part.at,
                beats=part.beats,
                played=_voice(part.line, part.slots, part, _beamed(run, beams)),
                sung=sung,
                mute=part.case.gesture.mute if part.case is not None else None,
                levels=tuple(part.levels),
                fan=part.fan,
                crowded=part.crowded,
            )
        )
    return tuple(made)


def flat(run: Run) -> Iterator[Leaf]:
    """The leaves of a run, including those in tuplets."""
    for item in run:
        if isinstance(item, Tuplet):
            yield from item.leaves
        else:
            yield item


# --- leaves ----------------------------------------------------------------------------------------------------


def _moved(run: Run, by: Fraction) -> Run:
    if not by:
        return run

    def moved(leaf: Leaf) -> Leaf:
        return replace(leaf, at=leaf.at + by)

    return tuple(
        replace(item, leaves=tuple(moved(leaf) for leaf in item.leaves))
        if isinstance(item, Tuplet)
        else moved(item)
        for item in run
    )


def _runs(plan: Plan) -> list[Run]:
    """The leaves of each part; a tuplet that reaches into the next part belongs to the one it begins in."""
    runs: list[list[Leaf | Tuplet]] = [[] for _ in plan.parts]
    owner = {slot.key: n for n, part in enumerate(plan.parts) for slot in part.slots}
    for since, together in groupby(plan.parts, lambda part: part.since):
        slots = tuple(slot for part in together for slot in part.slots)
        for whole in _moved(leaves(slots, plan.meter), since):
            for item in _parted(whole, owner, plan):
                runs[owner[next(flat((item,))).key]].append(item)
    return [tuple(run) for run in runs]


def _parted(item: Leaf | Tuplet, owner: dict[int, int], plan: Plan) -> list[Leaf | Tuplet]:
    """Split a tuplet that parts share into one for each, if anything in it needs music of its own: a second voice,
    a feathered beam, a level between two leaves."""
    if not isinstance(item, Tuplet):
        return [item]
    shared = [(n, list(group)) for n, group in groupby(item.leaves, lambda leaf: owner[leaf.key])]
    if not any(plan.parts[n].sung is not None or plan.parts[n].fan for n, _ in shared) and not any(
        _level_between(plan.parts[n], group, item.factor) for n, group in shared[1:]
    ):
        return [item]
    return [replace(item, leaves=tuple(group)) for _, group in shared]


def _level_between(part: PartBuilder, found: list[Leaf], factor: Fraction) -> bool:
    until = found[-1].at + found[-1].value * factor
    starts = {leaf.at for leaf in found}
    return any(part.at + d.at < until and part.at + d.at not in starts for d in part.levels if d.at < part.beats)


# --- beams -----------------------------------------------------------------------------------------------------


def _beams(plan: Plan, runs: list[Run]) -> Iterator[tuple[Leaf, Leaf]]:
    """Leaves at which a beam begins or ends, each mapped to its beamed copy. Beams reach from part to part, but not
    into or out of one in music of its own."""
    events = {key: event for part in plan.parts for key, event in keyed(part.slots, part.line.events)}
    own: dict[int, list[Leaf]] = {n: [] for n in range(len(plan.parts))}
    owner = {slot.key: n for n, part in enumerate(plan.parts) for slot in part.slots}
    for run in runs:
        for leaf in flat(run):
            own[owner[leaf.key]].append(leaf)
    waiting: list[Leaf] = []
    for n, (part, run) in enumerate(zip(plan.parts, runs, strict=True)):
        placed = list(flat(run))
        if part.fan:
            yield from _fanned(placed, events)
        plain = [leaf for leaf in placed if not events[leaf.key].beamed]
        begins = placed[0].at - part.at if placed else None
        levels = apart_from(tuple(part.levels), {leaf.at - part.at for leaf in own[n]}, begins, part.beats)
        if n and part.since != plan.parts[n - 1].since:
            yield from _groups(waiting)
            waiting = []
        if not (part.fan or levels is not None or part.sung is not None):
            waiting += plain
            continue
        yield from _groups(waiting)
        yield from _groups(plain)
        waiting = []
    yield from _groups(waiting)


def _groups(placed: list[Leaf]) -> Iterator[tuple[Leaf, Leaf]]:
    """Beam notes shorter than a quarter, group by group; rests and stemless heads end a beam."""
    group: list[Leaf] = []
    for leaf in [*placed, None]:
        fits = leaf is not None and leaf.kind == "note" and leaf.value < _BEAMED_BELOW
        if group and not (fits and leaf is not None and leaf.group == group[-1].group):
            yield from _beam(group)
            group = []
        if fits and leaf is not None:
            group.append(leaf)


def _fanned(placed: list[Leaf], events: dict[int, EventBuilder]) -> Iterator[tuple[Leaf, Leaf]]:
    """One feathered beam over all attacks, opening or closing as they speed up or slow down."""
    heads = ((leaf, events[leaf.key].head) for leaf in placed if leaf.first and leaf.kind in ("note", "point"))
    yield from _beam([leaf for leaf, head in heads if head is not None and head.upper is None])


def _beam(group: list[Leaf]) -> Iterator[tuple[Leaf, Leaf]]:
    if len(group) > 1:
        yield group[0], replace(group[0], beam="start")
        yield group[-1], replace(group[-1], beam="end")


def _beamed(run: Run, beams: dict[Leaf, Leaf]) -> Run:
    return tuple(
        replace(item, leaves=tuple(beams.get(leaf, leaf) for leaf in item.leaves))
        if isinstance(item, Tuplet)
        else beams.get(item, item)
        for item in run
    )


# --- events ----------------------------------------------------------------------------------------------------


def keyed(slots: tuple[Slot, ...], found: list[EventBuilder]) -> Iterable[tuple[int, EventBuilder]]:
    """Events with the numbers by which leaves refer to them."""
    return zip((slot.key for slot in slots), found, strict=True)


def _voice(line: VoiceBuilder, slots: tuple[Slot, ...], part: PartBuilder, run: Run) -> Voice:
    """Freeze a voice; a rest merged into another has no leaf and is dropped."""
    events = tuple(
        _event(event, slot, part) for slot, event in zip(slots, line.events, strict=True) if not slot.gathered
    )
    stop = None
    if line.stop is not None:
        at = line.stop.start
        stop = _event(line.stop, Slot(at, at, "point", _NO_LEAF), part)
    return Voice(events=events, leaves=run, stop=stop)


def _event(event: EventBuilder, slot: Slot, part: PartBuilder) -> Event:
    said = {label.word for label in event.labels}
    start = part.at + event.start
    return Event(
        key=slot.key,
        start=start,
        end=start + slot.end - slot.start,
        kind=slot.kind,
        head=event.head,
        sounding_cents=event.sounding_cents,
        index=event.index,
        about=event.point is not None and event.point.about,
        techniques=tuple(t.key for t in part.case.in_force(event.point)) if part.case and event.sounds else (),
        tongued=event.tongued,
        feathered=event.feather,
        beamed=event.beamed,
        value=event.value,
        labels=tuple(event.labels),
        held=tuple(label for label in event.held if label.word not in said),
        repeat_after_break=tuple(event.repeat_after_break),
        marks=tuple(event.marks),
        ends=tuple(event.ends),
        articulations=event.articulations,
        begins_slur=event.begins_slur,
        ends_slur=event.ends_slur,
        clef=event.clef,
        after_stop=event.after_stop,
        forced=event.forced,
        goes_on=event.goes_on,
        graces=_graces(event.graces, start, part),
        after=_graces(event.after, start + slot.end - slot.start, part),
    )


def _graces(found: list[EventBuilder], at: Fraction, part: PartBuilder) -> tuple[Event, ...]:
    return tuple(_event(event, Slot(at - part.at, at - part.at, "note", _NO_LEAF), part) for event in found)
