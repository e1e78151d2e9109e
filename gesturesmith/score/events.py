"""From a gesture to the events of a staff: what begins when, with what marks. No note values yet."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field, replace
from fractions import Fraction

from gesturesmith.kinds import StaffClef
from gesturesmith.lang.words import FERMATA
from gesturesmith.model.gesture import ContourPoint, Gesture, Grace, Segment, attack_times
from gesturesmith.model.strokes import MEASURED
from gesturesmith.score.heads import Head, Stave
from gesturesmith.score.marks import Mark, RepeatStrokes, Small, TechniqueLabel
from gesturesmith.score.rhythm import Slot, SlotKind

F = Fraction


@dataclass(slots=True, kw_only=True)
class EventBuilder:
    """One head, rest or point of a voice, filled in step by step.

    start, end  beats from the start of its gesture
    kind        as in a slot: note | moving | point | rest
    head        None for a rest
    index       of the contour point that begins here; None if the event only lies between points
    tongued     a tongued attack
    feather     written with a stem under a feathered beam; `beamed`: under it, with or without a stem
    labels      words of techniques above the staff, in order, on one line
    held        words of techniques in force, printed if this event opens a system
    repeat_after_break  the same, printed if it continues after a break
    marks       the marks at its beginning, in order; `ends`: those at its end
    sounding_cents  the sounding pitch at its beginning, above C-1; None for a rest, and if no pitch is meant
    value       beats of its note value, if not its spacing
    graces      grace notes before it, in order; `after`: after it
    goes_on     no silence: what stands in a box before it is repeated
    articulations   by name: accent, staccato, tenuto, marcato, fermata, breath, inhale, exhale
    begins_slur, ends_slur   whether a slur begins here, or ends
    clef        the clef that begins here, or ""; `after_stop`: it follows a head where a line stops
    """

    start: Fraction
    end: Fraction
    kind: SlotKind
    head: Head | None
    point: ContourPoint | None
    index: int | None = None
    tongued: bool = False
    feather: bool = False
    beamed: bool = False
    labels: list[TechniqueLabel] = field(default_factory=list)
    held: list[TechniqueLabel] = field(default_factory=list)
    repeat_after_break: list[TechniqueLabel] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    ends: list[Mark] = field(default_factory=list)
    sounding_cents: Fraction | None = None
    articulations: tuple[str, ...] = ()
    begins_slur: bool = False
    ends_slur: bool = False
    clef: StaffClef = ""
    after_stop: bool = False
    forced: bool = False
    value: Fraction | None = None
    goes_on: bool = False
    graces: list[EventBuilder] = field(default_factory=list)
    after: list[EventBuilder] = field(default_factory=list)

    @property
    def whole(self) -> list[EventBuilder]:
        """The event with its graces, in order."""
        return [*self.graces, self, *self.after]

    @property
    def sounds(self) -> bool:
        return self.head is not None


@dataclass(slots=True, kw_only=True)
class VoiceBuilder:
    """The events of one voice of a gesture; `stop` is the head where its last line stops, at its end."""

    events: list[EventBuilder]
    stop: EventBuilder | None
    points: tuple[ContourPoint, ...]
    segments: tuple[Segment, ...]

    @property
    def sounding(self) -> list[EventBuilder]:
        """Every event with a head, including the stop, in order."""
        heads = [e for e in self.events if e.sounds]
        return [*heads, self.stop] if self.stop is not None else heads

    def at_point(self, index: int) -> EventBuilder:
        """The event of a contour point: its own, else the one sounding at that time."""
        found = next((e for e in (*self.events, self.stop) if e is not None and e.index == index), None)
        if found is not None:
            return found
        starts = [e.start for e in self.events]
        return self.events[bisect_right(starts, self.points[index].at) - 1]


def contour(gesture: Gesture, stave: Stave) -> VoiceBuilder:
    """The voice of a gesture's contour."""
    stop = None
    last = len(gesture.points) - 1
    if gesture.points[last].stops:
        stop = _stop(gesture, gesture.points[last], last, stave)
    events = _attacked(gesture, stave) if gesture.spread else _own(gesture, stave)
    for event in events:
        _grace(gesture, event, stave)
    if gesture.attacks is not None and gesture.attacks.shape:
        _feather(events, in_seconds=gesture.in_seconds)
    return VoiceBuilder(events=events, stop=stop, points=gesture.points, segments=gesture.segments)


def _grace(gesture: Gesture, event: EventBuilder, stave: Stave) -> None:
    """The grace notes of an event; those after a note with several attacks are at the last one."""
    if event.point is None:
        return
    note = event.point
    if event.index is not None:
        event.graces = [_of_grace(gesture, grace, note, event.start, stave) for grace in note.graces]
    if event.end == note.until:
        event.after = [_of_grace(gesture, grace, note, event.end, stave) for grace in note.after]


def _of_grace(gesture: Gesture, grace: Grace, note: ContourPoint, at: Fraction, stave: Stave) -> EventBuilder:
    point = replace(grace.point, at=at, until=at, techniques=note.techniques)
    return EventBuilder(
        start=at,
        end=at,
        kind="note",
        head=stave.head(gesture, point),
        point=point,
        sounding_cents=point.sounding_cents,
        articulations=point.marks,
    )


def sung(gesture: Gesture, stave: Stave) -> VoiceBuilder | None:
    """The sung voice of a multiphonic, in small heads; None if nothing is to be sung."""
    if gesture.sing is None:
        return None
    points, segments = gesture.sing.points, gesture.sing.segments
    events = [_at_point(gesture, points, segments, i, stave) for i in range(len(points)) if not points[i].stops]
    last = len(points) - 1
    stop = _stop(gesture, points[last], last, stave) if points[last].stops else None
    return VoiceBuilder(events=events, stop=stop, points=points, segments=segments)


def slots(line: VoiceBuilder, offset: Fraction, first_key: int) -> tuple[Slot, ...]:
    """The times the events take, for the rhythm; `offset` in beats."""
    return tuple(Slot(offset + e.start, offset + e.end, e.kind, first_key + n) for n, e in enumerate(line.events))


def _own(gesture: Gesture, stave: Stave) -> list[EventBuilder]:
    """One event for each point, except the one where the line stops."""
    return [
        _at_point(gesture, gesture.points, gesture.segments, i, stave)
        for i, point in enumerate(gesture.points)
        if not point.stops
    ]


def _slides(segments: tuple[Segment, ...], index: int) -> bool:
    """Whether the sound leaves point `index` on a line."""
    return index < len(segments) and segments[index].slides


def _plain(point: ContourPoint) -> SlotKind:
    """The kind of a note that no line leaves: a stroke if its sound has neither pitch nor length."""
    return "stroke" if not point.strokes and any(t.pitched == "none" for t in point.techniques) else "note"


def _at_point(
    gesture: Gesture,
    points: tuple[ContourPoint, ...],
    segments: tuple[Segment, ...],
    index: int,
    stave: Stave,
) -> EventBuilder:
    point = points[index]
    if point.kind == "silence":
        silent: SlotKind = "point" if gesture.in_seconds else "rest"
        held = tuple(mark for mark in point.marks if mark == FERMATA)
        return EventBuilder(
            start=point.at, end=point.until, kind=silent, head=None, point=point, index=index, articulations=held
        )
    kind: SlotKind
    if gesture.in_seconds or (point.reached == "line" and not point.held):
        kind = "point"
    else:
        kind = "moving" if _slides(segments, index) else _plain(point)
    if point.value is not None:
        kind = "point"
    return EventBuilder(
        start=point.at,
        end=point.until,
        kind=kind,
        head=stave.head(gesture, point),
        point=point,
        index=index,
        tongued=point.reached == "attack",
        marks=[*([Small()] if point.passing else []), *_strokes(point)],
        sounding_cents=point.sounding_cents,
        articulations=point.marks,
        value=point.value,
    )


_THREE = F(1, 8)  # the value of three strokes, which unmeasured repetition uses


def _strokes(point: ContourPoint) -> list[Mark]:
    return [RepeatStrokes(value=MEASURED.get(point.strokes, _THREE))] if point.strokes else []


def _stop(gesture: Gesture, point: ContourPoint, index: int, stave: Stave) -> EventBuilder:
    return EventBuilder(
        start=point.at,
        end=point.at,
        kind="point",
        head=stave.head(gesture, point),
        point=point,
        index=index,
        sounding_cents=point.sounding_cents,
        articulations=point.marks,
    )


def _attacked(gesture: Gesture, stave: Stave) -> list[EventBuilder]:
    """`attacks: N`: a head at every attack, at the current pitch; on a line the heads lie on the line.

    Points without an attack keep their own head if a line or slur reaches them; a point after a comma begins with
    the next attack.
    """
    points = tuple(p for p in gesture.points if not p.stops)
    attacks = frozenset(attack_times(gesture))
    times = sorted(attacks | {p.at for p in points if p.reached != "attack"})
    starts = [p.at for p in points]
    made: list[EventBuilder] = []
    for n, at in enumerate(times):
        index = bisect_right(starts, at) - 1
        until = times[n + 1] if n + 1 < len(times) else gesture.beats
        event = _attack(gesture, points, index, at, until, stave)
        event.tongued = at in attacks and event.sounds
        if event.sounds and at not in attacks and points[index].reached == "line" and not points[index].held:
            event.kind = "point"
        if gesture.in_seconds and event.sounds:
            event.kind = "point"
        made.append(event)
    return made


def _feather(events: list[EventBuilder], *, in_seconds: bool) -> None:
    """Put attacks that speed up or slow down, and everything between them, under one beam; gestures in seconds have
    no stems to beam."""
    struck = [n for n, event in enumerate(events) if event.tongued]
    if in_seconds or not struck:
        return
    for event in events[: struck[-1] + 1]:
        if event.sounds or event is not events[0]:
            event.kind, event.feather, event.beamed = "point", event.tongued, True
    for event in events[struck[-1] + 1 :]:
        if event.sounds:
            event.kind, event.beamed = "point", True


def _attack(
    gesture: Gesture,
    points: tuple[ContourPoint, ...],
    index: int,
    at: Fraction,
    until: Fraction,
    stave: Stave,
) -> EventBuilder:
    point = points[index]
    own = index if point.at == at else None
    if point.kind == "silence":
        silent: SlotKind = "point" if gesture.in_seconds else "rest"
        held = tuple(mark for mark in point.marks if mark == FERMATA and own is not None)
        return EventBuilder(start=at, end=until, kind=silent, head=None, point=point, index=own, articulations=held)
    head, kind, sounding = stave.head(gesture, point), _plain(point), point.sounding_cents
    if _slides(gesture.segments, index):
        kind = "moving"
        following = gesture.points[index + 1]
        if own is None:
            share = F(at - point.at) / (following.at - point.at)
            head = stave.between(gesture, point, following, share)
            sounding = _between(point.sounding_cents, following.sounding_cents, share)
    return EventBuilder(
        start=at,
        end=until,
        kind=kind,
        head=head,
        point=point,
        index=own,
        sounding_cents=sounding,
        articulations=point.marks if own is not None else (),
    )


def _between(one: Fraction | None, two: Fraction | None, share: Fraction) -> Fraction | None:
    """The pitch a given share of the way along a straight line between two pitches."""
    return one if one is None or two is None else one + share * (two - one)
