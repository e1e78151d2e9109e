"""A plan as an Abjad score, and as LilyPond text. Abjad spells nothing anew and splits nothing: it is given names
and values and puts beams, ties, tuplets, slurs and dynamics at them."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from gesturesmith.engrave._abjad import abjad
from gesturesmith.engrave.dynamics import Dynamic
from gesturesmith.engrave.events import Event, Saying
from gesturesmith.engrave.plan import Part, Plan
from gesturesmith.engrave.rhythm import Leaf, Slot, Triplet, leaves
from gesturesmith.engrave.signs import held, say
from gesturesmith.lytext import LyText, code
from gesturesmith.model.piece import Repeat

_FEATHER_VALUE = Fraction(1, 8)  # a thirty-second: three beams to open or close
_GRACE_VALUE = Fraction(1, 2)
_INSTANT = Fraction(1, 16)
_GRACE = (63, 64)  # the head where a line stops stands this far through the last leaf
_ARTICULATIONS = ("accent", "staccato", "tenuto", "marcato")
_BEAMED_BELOW = Fraction(1)
_PLAYS_ON = r"\gsPlaysOn"
_UNBROKEN = Fraction(8)  # beats of a gesture that stay on one line

type Components = list[abjad.Component]


def text(plan: Plan, name: str, repeats: tuple[Repeat, ...] = ()) -> LyText:
    """The LilyPond text of one voice."""
    made = [(part, _set_part(part, plan)) for part in plan.parts] if plan.meter.bar is None else _set_barred(plan)
    voice = abjad.Voice(_repeated(made, repeats, plan), name=name)
    return code(str(abjad.lilypond(voice)))  # type: ignore[no-untyped-call]  # Abjad leaves it unannotated


def _set_part(part: Part, plan: Plan) -> Components:
    return _set(part, list(leaves(part.slots, plan.meter)), plan)


def _set_barred(plan: Plan) -> list[tuple[Part, Components]]:
    """All parts on one clock; a triplet that reaches into the next part belongs to the one it begins in."""
    slots = tuple(slot for part in plan.parts for slot in part.slots)
    runs: list[list[Leaf | Triplet]] = [[] for _ in plan.parts]
    owner = {slot.key: n for n, part in enumerate(plan.parts) for slot in part.slots}
    for item in leaves(slots, plan.meter):
        runs[owner[_first(item).key]].append(item)
    setter = _Setter({k: e for part in plan.parts for k, e in _keyed(part.slots, part.line.events)}, plan)
    return [(part, _finish(part, run, setter, plan)) for part, run in zip(plan.parts, runs, strict=True)]


def _set(part: Part, run: list[Leaf | Triplet], plan: Plan) -> Components:
    setter = _Setter(dict(_keyed(part.slots, part.line.events)), plan)
    return _finish(part, run, setter, plan)


def _let_break(run: list[Leaf | Triplet], made: Components) -> None:
    """In a long gesture without bar lines, places where a line may end: where an event begins or goes on silently,
    every few beats."""
    last = _first(run[0]).at
    if sum((_beats(item) for item in run), Fraction(0)) <= _UNBROKEN:
        return
    for item, before in zip(run[1:], made, strict=False):
        leaf = _first(item)
        if (leaf.first or leaf.kind == "skip") and leaf.at - last >= _UNBROKEN / 2:
            _allow_break([before], keep=True)
            last = leaf.at


def _beats(item: Leaf | Triplet) -> Fraction:
    if isinstance(item, Triplet):
        return sum((leaf.value for leaf in item.leaves), Fraction(0)) * Fraction(2, 3)
    return item.value


def _keyed(slots: tuple[Slot, ...], found: list[Event]) -> Iterable[tuple[int, Event]]:
    return zip((slot.key for slot in slots), found, strict=True)


def _first(item: Leaf | Triplet) -> Leaf:
    return item.leaves[0] if isinstance(item, Triplet) else item


def _finish(part: Part, run: list[Leaf | Triplet], setter: _Setter, plan: Plan) -> Components:
    """The components of a part: its leaves, the head where its line stops, dynamics, a second voice."""
    if not run:
        return []
    made = setter.components(run)
    placed = setter.placed
    setter.placed = []
    if plan.meter.bar is None and not part.feathers:
        _let_break(run, made)
    end = None
    if part.line.stop is not None:
        end = _add_stop(part.line.stop, made, placed, plan)
    if part.feathers:
        made = [_feathered(made, placed, part.feathers)]
    track = _attach_dynamics(part, placed, plan, end)
    if part.sung is not None:
        return [_two_voices(part, made, track, plan)]
    if track:
        return [abjad.Container([abjad.Container(made), abjad.Container(track)], simultaneous=True)]
    return made


# --- leaves ----------------------------------------------------------------------------------------------------


class _Setter:
    """Makes Abjad leaves of rhythm leaves; `placed` holds each with its Abjad leaf, in order."""

    def __init__(self, events: dict[int, Event], plan: Plan) -> None:
        self._events = events
        self._plan = plan
        self._bar: Fraction | None = None  # the last bar that something sounds in
        self.placed: list[tuple[Leaf, abjad.Leaf]] = []

    def components(self, run: list[Leaf | Triplet]) -> Components:
        made: Components = []
        for item in run:
            if isinstance(item, Triplet):
                made.append(abjad.Tuplet("3:2", [self._leaf(leaf) for leaf in item.leaves]))
            else:
                made.append(self._leaf(item))
        _beam([(leaf, there) for leaf, there in self.placed if not self._events[leaf.key].beamed])
        return made

    def _leaf(self, leaf: Leaf) -> abjad.Leaf:
        event = self._events[leaf.key]
        made = _bare_leaf(leaf, event)
        # What comes first on a system says again what holds: systems end at bar lines, or where an event begins.
        opens = self._opens(leaf)
        if leaf.first:
            _attach_start(event, leaf, made, held(event) if opens else [])
        else:
            _attach_again(event, leaf, made, event.holds if opens else [])
        bar = self._plan.meter.bar
        if bar is not None and leaf.at and leaf.at % bar == 0 and self._plan.plays_on(leaf.at):
            _before(made, [_PLAYS_ON])
        if leaf.tied:
            abjad.attach(abjad.Tie(), made)
        if leaf.last and event.at_end:
            _after(made, event.at_end)
        self.placed.append((leaf, made))
        return made

    def _opens(self, leaf: Leaf) -> bool:
        """Whether a leaf may be the first of a system that sounds."""
        if leaf.kind in ("rest", "bar-rest"):
            return False
        if self._plan.meter.bar is None:
            return leaf.first
        bar, before = self._plan.meter.bar_start(leaf.at), self._bar
        self._bar = bar
        return bar != before


def _bare_leaf(leaf: Leaf, event: Event) -> abjad.Leaf:
    head = event.head
    if leaf.kind == "rest":
        return abjad.Rest.from_duration(_duration(leaf.value))
    if leaf.kind == "bar-rest":
        return abjad.MultimeasureRest.from_duration(abjad.Duration(1), dmp=_factor(leaf.value / 4))
    if leaf.kind == "skip":
        return _skip(leaf.value)
    if head is None:
        # A rest without a value: its space is its length, as that of a head without a stem.
        return abjad.Rest.from_duration(_duration(Fraction(1)), dmp=_factor(leaf.value))
    if event.beamed:
        value, factor = _duration(_FEATHER_VALUE), _factor(leaf.value / _FEATHER_VALUE)
    elif event.value is not None:
        value, factor = _duration(event.value), _factor(leaf.value / event.value)
    elif leaf.kind == "point":
        value, factor = _duration(Fraction(1)), _factor(leaf.value)
    else:
        value, factor = _duration(leaf.value), None
    if head.upper:
        return abjad.Chord.from_duration_and_pitches(value, [_pitch(head.name), _pitch(head.upper)], dmp=factor)
    note = abjad.Note.from_duration_and_pitch(value, _pitch(head.name), dmp=factor)
    if event.forced:
        note.note_head().set_is_forced(True)
    return note


def _skip(beats: Fraction) -> abjad.Skip:
    return abjad.Skip.from_duration(_duration(Fraction(1)), dmp=_factor(beats))


def _pitch(name: str) -> abjad.NamedPitch:
    return abjad.NamedPitch(name)  # type: ignore[no-untyped-call]  # Abjad leaves it unannotated


def _duration(beats: Fraction) -> abjad.Duration:
    """A note value as Abjad counts it, in whole notes."""
    return abjad.Duration(beats.numerator, 4 * beats.denominator)


def _factor(number: Fraction) -> tuple[int, int] | None:
    """What a note value is multiplied by, as Abjad wants it."""
    return None if number == 1 else (number.numerator, number.denominator)


def _attach_start(event: Event, leaf: Leaf, made: abjad.Leaf, again: list[Saying]) -> None:
    """What stands at the beginning of an event; `again` is said where it comes first on a system."""
    if leaf.kind == "bar-rest":
        # A rest for a whole bar stands in its middle and carries nothing: the words have a place before it.
        before = [f"<> {w}" for w in say(event.words)]
        _before(made, before)
        return
    _before(made, [*([f'\\clef "{event.clef}"'] if event.clef else []), *_head_commands(event, leaf)])
    _attach_marks(event, made)
    _after(made, [*say([*event.words, *again]), *event.after, *event.each])


def _attach_again(event: Event, leaf: Leaf, made: abjad.Leaf, again: list[Saying]) -> None:
    """What stands at a later leaf of an event: a head that is tied looks like the first."""
    printed = leaf.kind == "note"
    _before(made, _head_commands(event, leaf) if printed else [])
    _after(made, [*say(again), *(event.each if printed else [])])


def _head_commands(event: Event, leaf: Leaf) -> list[str]:
    if event.head is None:
        return []
    stemless = leaf.kind == "point" and not event.feather and event.value is None
    return [*event.before, *([r"\gsStemless"] if stemless else []), *event.head.before]


def _before(made: abjad.Leaf, commands: list[str]) -> None:
    """Commands before a note, those that stand there already behind them."""
    if not commands:
        return
    whole = list(commands)
    for old in abjad.get.indicators(made, abjad.LilyPondLiteral):
        if old.site == "before":
            whole += _listed(old.argument)
            abjad.detach(old, made)
    abjad.attach(abjad.LilyPondLiteral(whole, site="before"), made)


def _attach_marks(event: Event, made: abjad.Leaf) -> None:
    for mark in event.marks:
        if mark in _ARTICULATIONS:
            abjad.attach(abjad.Articulation(mark), made)
        elif mark == "fermata":
            abjad.attach(abjad.Fermata(), made)
    if "breath" in event.marks:
        event.at_end.append(r"\breathe")
    if ")" in event.slur:
        abjad.attach(abjad.StopSlur(), made)
    if "(" in event.slur:
        abjad.attach(abjad.StartSlur(), made)


def _after(made: abjad.Leaf, commands: list[str]) -> None:
    """Post-events in the order given. Abjad sorts separate literals by their text, so a leaf has one only."""
    plain = [c for c in commands if c != r"\breathe"]
    for old in abjad.get.indicators(made, abjad.LilyPondLiteral):
        if old.site == "after":
            plain = [*_listed(old.argument), *plain]
            abjad.detach(old, made)
    if plain:
        abjad.attach(abjad.LilyPondLiteral(plain, site="after"), made)
    if r"\breathe" in commands:
        abjad.attach(abjad.LilyPondLiteral(r"\breathe", site="absolute_after"), made)


def _listed(argument: str | list[str]) -> list[str]:
    return [argument] if isinstance(argument, str) else list(argument)


def _beam(placed: list[tuple[Leaf, abjad.Leaf]]) -> None:
    """Beam what is shorter than a quarter, group by group; rests and stemless heads end a beam."""
    group: list[abjad.Leaf] = []
    last: Leaf | None = None
    for leaf, made in [*placed, (None, None)]:
        fits = leaf is not None and leaf.kind == "note" and leaf.value < _BEAMED_BELOW
        if group and not (fits and last is not None and leaf is not None and leaf.group == last.group):
            if len(group) > 1:
                abjad.attach(abjad.StartBeam(), group[0])
                abjad.attach(abjad.StopBeam(), group[-1])
            group = []
        if fits and made is not None:
            group.append(made)
        last = leaf


def _feathered(made: Components, placed: list[tuple[Leaf, abjad.Leaf]], direction: str) -> abjad.Container:
    """One beam over all attacks, opening or closing as they speed up or slow down."""
    notes = [there for leaf, there in placed if leaf.first and isinstance(there, abjad.Note)]
    if len(notes) > 1:
        abjad.attach(abjad.StartBeam(), notes[0])
        abjad.attach(abjad.StopBeam(), notes[-1])
    whole = abjad.Container(made)
    abjad.attach(abjad.LilyPondLiteral(f"\\gsFeather #{direction}", site="before"), whole)
    return whole


def _add_stop(stop: Event, made: Components, placed: list[tuple[Leaf, abjad.Leaf]], plan: Plan) -> abjad.Leaf:
    """The head where a line stops: after the last leaf, before the bar line or the next note.

    Where space is time it has its own place at the end, for an instant; else it must not take any time.
    """
    head = stop.head
    if head is None:
        raise ValueError("a line stops at a head")
    in_time = plan.free and plan.meter.bar is None
    value, factor = (_duration(Fraction(1)), _factor(_INSTANT)) if in_time else (_duration(_GRACE_VALUE), None)
    grace = abjad.Note.from_duration_and_pitch(value, _pitch(head.name), dmp=factor)
    abjad.attach(abjad.LilyPondLiteral([r"\gsStops", *stop.before, *head.before], site="before"), grace)
    _attach_marks(stop, grace)
    _after(grace, [*say(stop.words), *stop.after, *stop.at_end])
    if in_time:
        made.append(grace)
    else:
        abjad.attach(abjad.AfterGraceContainer([grace], fraction=_GRACE), placed[-1][1])
    return grace


# --- dynamics --------------------------------------------------------------------------------------------------


def _attach_dynamics(
    part: Part, placed: list[tuple[Leaf, abjad.Leaf]], plan: Plan, end: abjad.Leaf | None
) -> Components:
    """Dynamics at the leaves that begin with them; where one falls between leaves, all go on a track of skips.

    The last one, at the very end, stands under the head where the line stops, or just before what comes next.
    """
    offset = part.at if plan.meter.bar is not None else Fraction(0)
    ending = [d for d in part.dynamics if d.at >= part.beats]
    inner = [d for d in part.dynamics if d.at < part.beats]
    if ending:
        last = end if end is not None else _place_after(placed[-1][1])
        for dynamic in ending:
            _attach_dynamic(dynamic, last)
    starts = {leaf.at - offset: made for leaf, made in reversed(placed)}
    if all(d.at in starts for d in inner):
        for dynamic in inner:
            _attach_dynamic(dynamic, starts[dynamic.at])
        return []
    times = sorted({Fraction(0), *(d.at for d in inner)})
    track: Components = []
    for at, until in zip(times, [*times[1:], part.beats], strict=True):
        skip = _skip(until - at)
        for dynamic in inner:
            if dynamic.at == at:
                _attach_dynamic(dynamic, skip)
        track.append(skip)
    return track


def _place_after(last: abjad.Leaf) -> abjad.Leaf:
    """A place of no length between a leaf and what comes next."""
    place = abjad.Skip.from_duration(_duration(_GRACE_VALUE))
    abjad.attach(abjad.AfterGraceContainer([place], fraction=_GRACE), last)
    return place


def _attach_dynamic(dynamic: Dynamic, made: abjad.Leaf) -> None:
    _before(made, dynamic.before)
    if dynamic.level:
        abjad.attach(abjad.Dynamic(dynamic.level), made)
    elif dynamic.closes:
        abjad.attach(abjad.StopHairpin(), made)
    if dynamic.other:
        _after(made, [dynamic.other])
    if dynamic.hairpin:
        abjad.attach(abjad.StartHairpin(dynamic.hairpin), made)


# --- voices and repeats ----------------------------------------------------------------------------------------


def _two_voices(part: Part, made: Components, track: Components, plan: Plan) -> abjad.Container:
    """The sung line above or below the played one, in a voice of its own."""
    if part.sung is None:
        raise ValueError("no sung line")
    setter = _Setter(dict(_keyed(part.sung_slots, part.sung.events)), plan)
    sung = setter.components(list(leaves(part.sung_slots, plan.meter)))
    if part.sung.stop is not None:
        _add_stop(part.sung.stop, sung, setter.placed, plan)
    above = _height(part.sung.sounding) >= _height(part.line.sounding)
    own, other = (r"\voiceTwo", r"\voiceOne") if above else (r"\voiceOne", r"\voiceTwo")
    played = abjad.Container(made)
    abjad.attach(abjad.LilyPondLiteral(own, site="opening"), played)
    abjad.attach(abjad.LilyPondLiteral(r"\oneVoice", site="closing"), played)
    voice = abjad.Voice(sung, name="Sung")
    abjad.attach(abjad.LilyPondLiteral(other, site="opening"), voice)
    tracks = [abjad.Container(track)] if track else []
    return abjad.Container([played, *tracks, voice], simultaneous=True)


def _height(found: list[Event]) -> Fraction:
    steps = [e.head.steps for e in found if e.head is not None and e.head.steps is not None]
    return Fraction(sum(steps), len(steps)) if steps else Fraction(0)


def _repeated(made: list[tuple[Part, Components]], repeats: tuple[Repeat, ...], plan: Plan) -> Components:
    """All components in order, stretches that are repeated in containers of their own."""
    out: Components = []
    inside: dict[Repeat, abjad.Container] = {}
    for part, components in made:
        repeat = next((r for r in repeats if r.start <= part.at < r.end), None)
        if repeat is None:
            out += components
        else:
            if repeat not in inside:
                inside[repeat] = _volta(repeat)
                out.append(inside[repeat])
            inside[repeat].extend(components)
        # An invisible bar line would let two levels that stand close run into each other.
        if plan.meter.bar is None and part is not made[-1][0] and not part.crowded:
            _allow_break(components, keep=plan.plays_on(part.at + part.beats))
    return out


def _volta(repeat: Repeat) -> abjad.Container:
    container = abjad.Container()
    abjad.attach(abjad.Repeat(repeat_count=repeat.times), container)
    return container


def _allow_break(components: Components, *, keep: bool) -> None:
    """Without bar lines a line may break between two events; `keep`: but not to go on on another page."""
    if components:
        site = "absolute_after" if isinstance(components[-1], abjad.Leaf) else "after"
        commands = [r'\bar ""', *([_PLAYS_ON] if keep else [])]
        abjad.attach(abjad.LilyPondLiteral(commands, site=site), components[-1])
