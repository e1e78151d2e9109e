"""Leaves: rhythm leaves as Abjad's, with everything that stands at them, under their beams."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.engrave import trills
from gesturesmith.engrave._abjad import abjad
from gesturesmith.engrave.events import Event, Saying
from gesturesmith.engrave.plan import Plan
from gesturesmith.engrave.rhythm import Leaf, Triplet
from gesturesmith.engrave.signs import at_head, held, say

_FEATHER_VALUE = Fraction(1, 8)  # a thirty-second: three beams to open or close
GRACE_VALUE = Fraction(1, 2)
GRACE = (63, 64)  # the head where a line stops stands this far through the last leaf
_INSTANT = Fraction(1, 16)  # beats it takes where space is time
_ARTICULATIONS = ("accent", "staccato", "tenuto", "marcato")
_BEAMED_BELOW = Fraction(1)
PLAYS_ON = r"\gsPlaysOn"

type Components = list[abjad.Component]
type Placed = list[tuple[Leaf, abjad.Leaf]]  # each leaf with Abjad's


class Setter:
    """Makes Abjad leaves of rhythm leaves; `placed` holds each with its Abjad leaf, in order."""

    def __init__(self, events: dict[int, Event], plan: Plan) -> None:
        self._events = events
        self._plan = plan
        self._bar: Fraction | None = None  # the last bar that something sounds in
        self._unbeamed: Placed = []
        self.placed: Placed = []

    def components(self, run: list[Leaf | Triplet]) -> Components:
        made: Components = []
        for item in run:
            if isinstance(item, Triplet):
                made.append(abjad.Tuplet("3:2", [self._leaf(leaf) for leaf in item.leaves]))
                if all(leaf.kind in ("point", "skip") for leaf in item.leaves):
                    # Where nothing has a note value there is nothing to count in threes.
                    hidden = [r"\once \omit TupletNumber", r"\once \omit TupletBracket"]
                    abjad.attach(abjad.LilyPondLiteral(hidden, site="before"), made[-1])
                elif len(item.leaves) == 1:
                    # No bracket fits over one note, and a 3 alone would be a finger or a position.
                    ratio = r"\once \override TupletNumber.text = #tuplet-number::calc-fraction-text"
                    abjad.attach(abjad.LilyPondLiteral(ratio, site="before"), made[-1])
            else:
                made.append(self._leaf(item))
        return made

    def beam(self, more: Placed, *, apart: bool) -> None:
        """Beam what has been placed; `apart`: what stands in voices of its own, under beams of its own."""
        here = [(leaf, there) for leaf, there in more if not self._events[leaf.key].beamed]
        if apart:
            _beam(self._unbeamed)
            _beam(here)
        self._unbeamed = [] if apart else [*self._unbeamed, *here]

    def _leaf(self, leaf: Leaf) -> abjad.Leaf:
        event = self._events[leaf.key]
        made = _bare_leaf(leaf, event)
        # What comes first on a system says again what holds: systems end at bar lines, or where an event begins.
        opens = self._opens(leaf)
        if leaf.first:
            _attach_start(event, leaf, made, held(event) if opens else [])
        else:
            _attach_again(event, leaf, made, event.holds_on if opens else [])
        bar = self._plan.meter.bar
        if bar is not None and leaf.at and leaf.at % bar == 0 and self._plan.plays_on(leaf.at):
            put_before(made, [PLAYS_ON])
        if leaf.tied:
            abjad.attach(abjad.Tie(), made)
        elif leaf.kind in ("note", "point"):
            _attach_fermata(event, made)
        if leaf.first and leaf.kind == "point" and not leaf.last:
            put_after(made, [sign for sign in event.at_end if at_head(sign)])
        if leaf.last:
            if any(trills.is_sign(one) for one in event.after) and _waves(leaf):
                put_after(made, [trills.WAVES_END])
            _attach_end(event, made, headless=leaf.kind == "skip")
        self.placed.append((leaf, made))
        return made

    def _opens(self, leaf: Leaf) -> bool:
        """Whether a leaf may be the first of a system that sounds."""
        if leaf.kind in ("rest", "bar-rest"):
            return False
        if self._plan.meter.bar is None:
            return leaf.first or leaf.kind == "skip"  # a long line may be broken where it only goes on
        bar, before = self._plan.meter.bar_start(leaf.at), self._bar
        self._bar = bar
        return bar != before


def _bare_leaf(leaf: Leaf, event: Event) -> abjad.Leaf:
    head = event.head
    if leaf.kind == "rest":
        return abjad.Rest.from_duration(duration(leaf.value))
    if leaf.kind == "bar-rest":
        return abjad.MultimeasureRest.from_duration(abjad.Duration(1), dmp=_factor(leaf.value / 4))
    if leaf.kind == "skip":
        return silent(leaf.value)
    if head is None:
        # A rest without a value: its space is its length, as that of a head without a stem.
        shown = _FEATHER_VALUE if event.beamed else Fraction(1)
        return abjad.Rest.from_duration(duration(shown), dmp=_factor(leaf.value / shown))
    if event.beamed:
        value, factor = duration(_FEATHER_VALUE), _factor(leaf.value / _FEATHER_VALUE)
    elif event.value is not None:
        value, factor = duration(event.value), _factor(leaf.value / event.value)
    elif leaf.kind == "point":
        value, factor = duration(Fraction(1)), _factor(leaf.value)
    else:
        value, factor = duration(leaf.value), None
    if head.upper:
        return abjad.Chord.from_duration_and_pitches(value, [_pitch(head.name), _pitch(head.upper)], dmp=factor)
    note = abjad.Note.from_duration_and_pitch(value, _pitch(head.name), dmp=factor)
    if event.forced:
        note.note_head().set_is_forced(True)
    return note


def silent(beats: Fraction) -> abjad.Skip:
    return abjad.Skip.from_duration(duration(Fraction(1)), dmp=_factor(beats))


def _pitch(name: str) -> abjad.NamedPitch:
    return abjad.NamedPitch(name)  # type: ignore[no-untyped-call]  # Abjad leaves it unannotated


def duration(beats: Fraction) -> abjad.Duration:
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
        put_before(made, before)
        return
    clef = [*([r"\gsAfterStop"] if event.after_stop else []), f'\\clef "{event.clef}"'] if event.clef else []
    put_before(made, [*clef, *_head_commands(event, leaf)])
    _attach_marks(event, made)
    waves = leaf.tied or _waves(leaf)
    after = [trills.in_waves(one) if waves and trills.is_sign(one) else one for one in event.after]
    put_after(made, [*say([*event.words, *again]), *after, *event.each])


def _attach_again(event: Event, leaf: Leaf, made: abjad.Leaf, again: list[Saying]) -> None:
    """What stands at a later leaf of an event: a head that is tied looks like the first."""
    printed = leaf.kind == "note"
    put_before(made, _head_commands(event, leaf) if printed else [])
    put_after(made, [*say(again), *(event.each if printed else [])])


def _head_commands(event: Event, leaf: Leaf) -> list[str]:
    if event.head is None:
        return []
    stemless = leaf.kind == "point" and not event.feather and event.value is None
    return [*event.before, *([r"\gsStemless"] if stemless else []), *event.head.before]


def put_before(made: abjad.Leaf, commands: list[str]) -> None:
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
    if ")" in event.slur:
        abjad.attach(abjad.StopSlur(), made)
    if "(" in event.slur:
        abjad.attach(abjad.StartSlur(), made)


def _attach_fermata(event: Event, made: abjad.Leaf) -> None:
    """A fermata stands over the last of tied notes."""
    if "fermata" in event.marks:
        abjad.attach(abjad.Fermata(), made)


def _waves(leaf: Leaf) -> bool:
    """Whether a trill that begins or ends here goes on in waves: over tied notes, and where space is time."""
    return leaf.kind == "point" or not leaf.first


def _attach_end(event: Event, made: abjad.Leaf, *, headless: bool = False) -> None:
    """What stands at the last leaf of an event, a breath after it; `headless`: the note only goes on there."""
    here = [sign for sign in event.at_end if not (headless and at_head(sign))]
    put_after(made, [*here, *([r"\breathe"] if "breath" in event.marks else [])])


def put_after(made: abjad.Leaf, commands: list[str]) -> None:
    """Post-events in the order given. Abjad sorts separate literals by their text, so a leaf has one only."""
    if not commands:
        return
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


def _beam(placed: Placed) -> None:
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


def feathered(made: Components, placed: Placed, direction: str) -> abjad.Container:
    """One beam over all attacks, opening or closing as they speed up or slow down."""
    notes = [there for leaf, there in placed if leaf.first and isinstance(there, abjad.Note)]
    if len(notes) > 1:
        abjad.attach(abjad.StartBeam(), notes[0])
        abjad.attach(abjad.StopBeam(), notes[-1])
    whole = abjad.Container(made)
    abjad.attach(abjad.LilyPondLiteral(f"\\gsFeather #{direction}", site="before"), whole)
    return whole


def add_stop(stop: Event, made: Components, placed: Placed, plan: Plan) -> abjad.Leaf:
    """The head where a line stops: after the last leaf, before the bar line or the next note.

    Where space is time it has its own place, the last instant of the leaf; else it must not take any time. Either
    way the gesture lasts as long as the file says: in a composer's score what comes after it must not shift.
    """
    head = stop.head
    if head is None:
        raise ValueError("a line stops at a head")
    last = placed[-1][1]
    in_time = (
        plan.free and plan.meter.bar is None and not isinstance(abjad.get.parentage(last).parent(), abjad.Tuplet)
    )
    value, factor = (duration(Fraction(1)), _factor(_INSTANT)) if in_time else (duration(GRACE_VALUE), None)
    grace = abjad.Note.from_duration_and_pitch(value, _pitch(head.name), dmp=factor)
    abjad.attach(abjad.LilyPondLiteral([r"\gsStops", *stop.before, *head.before], site="before"), grace)
    _attach_marks(stop, grace)
    put_after(grace, [*say(stop.words), *stop.after])
    _attach_fermata(stop, grace)
    _attach_end(stop, grace)
    if in_time:
        value, times = last.written_duration(), Fraction(*(last.dmp() or (1, 1)))
        last.set_dmp(_factor(times - _INSTANT / (4 * Fraction(value.numerator, value.denominator))))
        made.append(grace)
    else:
        abjad.attach(abjad.AfterGraceContainer([grace], fraction=GRACE), last)
    return grace
