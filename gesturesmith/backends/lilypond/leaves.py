"""From rhythm leaves to Abjad leaves, with all their marks and beams."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from gesturesmith.backends.lilypond import marks
from gesturesmith.backends.lilypond._abjad import abjad
from gesturesmith.kinds import AttackShape
from gesturesmith.score.marks import TechniqueLabel, TrillSign
from gesturesmith.score.music import Event, Music
from gesturesmith.score.rhythm import GRACE_VALUE, GRACES_VALUE, Leaf, Meter, Tuplet

_FEATHER_VALUE = Fraction(1, 8)  # a thirty-second: three beams for the feather
GRACE = (63, 64)  # the head where a line stops comes this far through the last leaf
_INSTANT = Fraction(1, 16)  # beats it takes in proportional spacing
_ARTICULATIONS = ("accent", "staccato", "tenuto", "marcato")
PLAYS_ON = r"\gsPlaysOn"

type Components = list[abjad.Component]
type Placed = list[tuple[Leaf, abjad.Leaf]]  # each rhythm leaf with its Abjad leaf


class LeafBuilder:
    """Builds Abjad leaves from rhythm leaves; `placed` pairs them, in order."""

    def __init__(self, events: dict[int, Event], music: Music, meter: Meter) -> None:
        self._events = events
        self._music = music
        self._meter = meter
        self._bar: Fraction | None = None  # the last bar with any sound
        self.placed: Placed = []

    def components(self, run: tuple[Leaf | Tuplet, ...]) -> Components:
        made: Components = []
        for item in run:
            if isinstance(item, Tuplet):
                made.append(abjad.Tuplet(f"{item.count}:{item.normal}", [self._leaf(leaf) for leaf in item.leaves]))
                if all(leaf.kind in ("point", "skip") for leaf in item.leaves):
                    # Without note values there is nothing to count.
                    hidden = [r"\once \omit TupletNumber", r"\once \omit TupletBracket"]
                    abjad.attach(abjad.LilyPondLiteral(hidden, site="before"), made[-1])
                elif len(item.leaves) == 1:
                    # No bracket fits over one note, and a 3 alone would look like a finger or a position.
                    ratio = r"\once \override TupletNumber.text = #tuplet-number::calc-fraction-text"
                    abjad.attach(abjad.LilyPondLiteral(ratio, site="before"), made[-1])
                elif item.count != 3:
                    abjad.attach(abjad.LilyPondLiteral(r"\gsRatio", site="before"), made[-1])
            else:
                made += [self._leaf(leaf) for leaf in self._by_bars(item)]
        return made

    def _by_bars(self, leaf: Leaf) -> Iterator[Leaf]:
        """A leaf, bar by bar if it is a skip over bar lines: LilyPond prints none in the middle of one."""
        bar = self._meter.bar
        if bar is None or not self._events[leaf.key].goes_on:
            yield leaf
            return
        at, end = leaf.at, leaf.at + leaf.value
        while at < end:
            until = min(self._meter.bar_end(at) or end, end)
            yield replace(
                leaf, at=at, value=until - at, first=leaf.first and at == leaf.at, last=leaf.last and until == end
            )
            at = until

    def _leaf(self, leaf: Leaf) -> abjad.Leaf:
        event = self._events[leaf.key]
        made = _bare_leaf(leaf, event)
        # The first event on a system repeats what holds: systems break at bar lines, or where an event begins.
        opens = self._opens(leaf)
        if leaf.first:
            _attach_start(event, leaf, made, event.held if opens else ())
            if event.graces:
                small = _grace_notes(event.graces)
                one = len(small) == 1
                if not one:
                    put_before(small[0], [r"\gsGraceSlash"])
                command = r"\slashedGrace" if one else r"\grace"
                abjad.attach(abjad.BeforeGraceContainer(small, command=command), made)
        else:
            _attach_again(event, leaf, made, event.repeat_after_break if opens else ())
        bar = self._meter.bar
        if (
            bar is not None
            and leaf.at
            and leaf.at == self._meter.bar_start(leaf.at)
            and self._music.plays_on(leaf.at)
        ):
            put_before(made, [PLAYS_ON])
        if leaf.tied:
            abjad.attach(abjad.Tie(), made)
        elif leaf.kind in ("note", "point") or leaf.last:
            _attach_fermata(event, made)
        if leaf.first and leaf.kind == "point" and not leaf.last:
            put_after(made, [marks.text(mark) for mark in event.ends if marks.is_at_head(mark)])
        if leaf.last:
            if any(isinstance(mark, TrillSign) and (mark.waves or _waves(leaf)) for mark in event.marks):
                put_after(made, [marks.WAVES_END])
            _attach_end(event, made, headless=leaf.kind == "skip")
            if event.after:
                abjad.attach(abjad.AfterGraceContainer(_grace_notes(event.after), fraction=_AFTER), made)
        self.placed.append((leaf, made))
        return made

    def _opens(self, leaf: Leaf) -> bool:
        """Whether a leaf may be the first sounding one on a system."""
        if leaf.kind in ("rest", "bar-rest"):
            return False
        if self._meter.bar is None:
            return leaf.first or leaf.kind == "skip"  # a long line may be broken midway
        bar, before = self._meter.bar_start(leaf.at), self._bar
        self._bar = bar
        return bar != before


_AFTER = (7, 8)  # grace notes at its end come this far through a note


def _grace_notes(events: tuple[Event, ...]) -> list[abjad.Leaf]:
    """Grace notes: one with a flag, several under a beam."""
    made: list[abjad.Leaf] = []
    for event in events:
        head = event.head
        if head is None:
            raise ValueError("a grace note has a head")
        value = duration(GRACE_VALUE if len(events) == 1 else GRACES_VALUE)
        note = abjad.Note.from_duration_and_pitch(value, _pitch(marks.head_name(head)))
        if event.forced:
            note.note_head().set_is_forced(True)
        put_before(note, [*marks.before_note(event.marks), *marks.head_commands(head)])
        _attach_articulations(event, note)
        put_after(note, marks.after_note(event.marks, waves=False))
        made.append(note)
    if len(made) > 1:
        abjad.attach(abjad.StartBeam(), made[0])
        abjad.attach(abjad.StopBeam(), made[-1])
    return made


def _bare_leaf(leaf: Leaf, event: Event) -> abjad.Leaf:
    head = event.head
    if event.goes_on:
        return silent(leaf.value)
    if leaf.kind == "rest":
        return abjad.Rest.from_duration(duration(leaf.value))
    if leaf.kind == "bar-rest":
        return abjad.MultimeasureRest.from_duration(abjad.Duration(1), dmp=_factor(leaf.value / 4))
    if leaf.kind == "skip":
        return silent(leaf.value)
    if head is None:
        # A rest without a value: its space shows its length, as with a stemless head.
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
    pitch = _pitch(marks.head_name(head))
    if head.upper is not None:
        upper = _pitch(marks.note_name(head.upper))
        return abjad.Chord.from_duration_and_pitches(value, [pitch, upper], dmp=factor)
    note = abjad.Note.from_duration_and_pitch(value, pitch, dmp=factor)
    if event.forced:
        note.note_head().set_is_forced(True)
    return note


def silent(beats: Fraction) -> abjad.Skip:
    return abjad.Skip.from_duration(duration(Fraction(1)), dmp=_factor(beats))


def _pitch(name: str) -> abjad.NamedPitch:
    return abjad.NamedPitch(name)  # type: ignore[no-untyped-call]  # Abjad leaves it unannotated


def duration(beats: Fraction) -> abjad.Duration:
    """A note value in Abjad's unit, whole notes."""
    return abjad.Duration(beats.numerator, 4 * beats.denominator)


def _factor(number: Fraction) -> tuple[int, int] | None:
    """The factor of a note value, as Abjad wants it."""
    return None if number == 1 else (number.numerator, number.denominator)


def _attach_start(event: Event, leaf: Leaf, made: abjad.Leaf, again: tuple[TechniqueLabel, ...]) -> None:
    """Attach the marks at the beginning of an event; `again` is printed if it comes first on a system."""
    if leaf.kind == "bar-rest" and not event.goes_on:
        # A whole-bar rest is centred and cannot carry marks: words get a place before it.
        said = [*marks.labels(event.labels), *marks.after_note(event.marks, waves=False)]
        put_before(made, [f"<> {' '.join(said)}"] if said else [])
        return
    clef = [*([r"\gsAfterStop"] if event.after_stop else []), f'\\clef "{event.clef}"'] if event.clef else []
    put_before(made, [*clef, *_head_commands(event, leaf)])
    _attach_articulations(event, made)
    after = marks.after_note(event.marks, waves=leaf.tied or _waves(leaf))
    put_after(made, [*marks.labels((*event.labels, *again)), *after, *marks.at_every_head(event.marks, leaf.value)])


def _attach_again(event: Event, leaf: Leaf, made: abjad.Leaf, again: tuple[TechniqueLabel, ...]) -> None:
    """Attach the marks of an event's later leaf: a tied head looks like the first."""
    printed = leaf.kind == "note"
    put_before(made, _head_commands(event, leaf) if printed else [])
    put_after(made, [*marks.labels(again), *(marks.at_every_head(event.marks, leaf.value) if printed else [])])


def _head_commands(event: Event, leaf: Leaf) -> list[str]:
    if event.head is None:
        return []
    stemless = leaf.kind == "point" and not event.feathered and event.value is None
    before = marks.before_note(event.marks)
    return [*before, *([r"\gsStemless"] if stemless else []), *marks.head_commands(event.head)]


def put_before(made: abjad.Leaf, commands: list[str]) -> None:
    """Put commands before a note, in front of those already there."""
    if not commands:
        return
    whole = list(commands)
    for old in abjad.get.indicators(made, abjad.LilyPondLiteral):
        if old.site == "before":
            whole += _listed(old.argument)
            abjad.detach(old, made)
    abjad.attach(abjad.LilyPondLiteral(whole, site="before"), made)


def _attach_articulations(event: Event, made: abjad.Leaf) -> None:
    for name in event.articulations:
        if name in _ARTICULATIONS:
            abjad.attach(abjad.Articulation(name), made)
    if event.ends_slur:
        abjad.attach(abjad.StopSlur(), made)
    if event.begins_slur:
        abjad.attach(abjad.StartSlur(), made)


def _attach_fermata(event: Event, made: abjad.Leaf) -> None:
    """Put a fermata over the last of tied notes, or of rests in a row."""
    if "fermata" in event.articulations:
        abjad.attach(abjad.Fermata(), made)


def _waves(leaf: Leaf) -> bool:
    """Whether a trill that begins or ends here has a wavy line: over tied notes and in proportional spacing."""
    return leaf.kind == "point" or not leaf.first


def _attach_end(event: Event, made: abjad.Leaf, *, headless: bool = False) -> None:
    """Attach the marks at an event's last leaf, a breath after it; `headless`: the note only continues there."""
    here = [marks.text(mark) for mark in event.ends if not (headless and marks.is_at_head(mark))]
    put_after(made, [*here, *([r"\breathe"] if "breath" in event.articulations else [])])


def put_after(made: abjad.Leaf, commands: list[str]) -> None:
    """Attach post-events in the given order. Abjad sorts separate literals by text, so a leaf gets only one."""
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


def beam(placed: Placed) -> None:
    """Begin and end beams where the leaves say so."""
    for leaf, made in placed:
        if leaf.beam == "start":
            abjad.attach(abjad.StartBeam(), made)
        elif leaf.beam == "end":
            abjad.attach(abjad.StopBeam(), made)


def feathered(made: Components, fan: AttackShape) -> abjad.Container:
    """All leaves under one feathered beam."""
    whole = abjad.Container(made)
    abjad.attach(abjad.LilyPondLiteral(f"\\gsFeather #{marks.FAN_DIRECTIONS[fan]}", site="before"), whole)
    return whole


def add_stop(stop: Event, made: Components, placed: Placed, music: Music) -> abjad.Leaf:
    """Add the head where a line stops: after the last leaf, before the bar line or the next note.

    In proportional spacing it takes the last instant of the leaf; otherwise it must take no time. Either way the
    gesture lasts as long as the file says: in a composer's score what follows must not shift.
    """
    head = stop.head
    if head is None:
        raise ValueError("a line stops at a head")
    last = placed[-1][1]
    in_time = (
        music.free and music.meter is None and not isinstance(abjad.get.parentage(last).parent(), abjad.Tuplet)
    )
    value, factor = (duration(Fraction(1)), _factor(_INSTANT)) if in_time else (duration(GRACE_VALUE), None)
    grace = abjad.Note.from_duration_and_pitch(value, _pitch(marks.head_name(head)), dmp=factor)
    before = [r"\gsStops", *marks.before_note(stop.marks), *marks.head_commands(head)]
    abjad.attach(abjad.LilyPondLiteral(before, site="before"), grace)
    _attach_articulations(stop, grace)
    put_after(grace, [*marks.labels(stop.labels), *marks.after_note(stop.marks, waves=False)])
    _attach_fermata(stop, grace)
    _attach_end(stop, grace)
    if in_time:
        value, times = last.written_duration(), Fraction(*(last.dmp() or (1, 1)))
        last.set_dmp(_factor(times - _INSTANT / (4 * Fraction(value.numerator, value.denominator))))
        made.append(grace)
    else:
        abjad.attach(abjad.AfterGraceContainer([grace], fraction=GRACE), last)
    return grace
