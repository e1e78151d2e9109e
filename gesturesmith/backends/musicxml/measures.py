"""The measures of one part in one system: attributes, notes and directions in the order of time."""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from gesturesmith.backends.musicxml._xml import Element, add, decimal, lone
from gesturesmith.backends.musicxml.marks import Dresser, words
from gesturesmith.backends.musicxml.notes import AccidentalMemory, Lines, NoteMaker, mute_of, value_type
from gesturesmith.backends.musicxml.written import Written, joined_times, voices
from gesturesmith.kinds import Join, TempoTurn
from gesturesmith.model.changes import (
    Change,
    DoubleBar,
    KeyChange,
    MeterChange,
    RehearsalMark,
    TempoChange,
    TempoGradually,
)
from gesturesmith.score.marks import DynamicLevel
from gesturesmith.score.music import Music
from gesturesmith.score.staves import Staff
from gesturesmith.units import UNISON, Interval, KeySignature
from gesturesmith.values import frozen

_CLEFS = {"treble": ("G", 2), "bass": ("F", 4), "tenor": ("C", 4), "alto": ("C", 3)}
_LEVELS = ("n", "pppp", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "ffff")
_ACCENTS = ("sf", "sfz", "sffz", "fp", "sfp", "rf", "rfz", "fz", "pf")
_PERCUSSION, _THREE_LINES = "percussion", 3
_SHORTEST_UNIT = 128  # the shortest note that a time signature may count, in parts of a whole note
_TURNS: dict[TempoTurn, str] = {"accelerando": "accel.", "ritardando": "rit."}  # in every language
_GRADUAL = 7  # the number of its bracket
# What stands beside the notes: when; 0 if it ends something there, 1 where something changes, 2 what begins.
type Moment = tuple[Fraction, int, DynamicLevel | Change | TempoReached]


def bounds_of(musics: Sequence[Music]) -> tuple[Fraction, ...]:
    """When the measures of parts that sound together begin, and when the last ends.

    Without meter there is one for each gesture and rest, as far as nothing is held, beamed or grouped across and a
    time signature can be as long.
    """
    end = max(music.beats for music in musics)
    meter = musics[0].meter
    if meter is not None:
        return tuple(_bars(musics[0], meter, end))
    cuts: set[Fraction] | None = None
    for music in musics:
        joined = joined_times(music)
        own = {p.at for p in music.parts if not any(a < p.at < b for a, b in joined)}
        borders = {at for repeat in music.repeats for at in (repeat.start, repeat.end)}
        cuts = own | borders if cuts is None else cuts & own
    made = [Fraction(0)]
    for cut in sorted(cuts or ()):
        if made[-1] < cut < end and _is_counted(cut - made[-1]):
            made.append(cut)
    return (*made, end)


@frozen(kw_only=True)
class TempoReached:
    """The end of a gradual change of tempo."""

    turn: TempoGradually


@dataclass(slots=True)
class PartState:
    """What is in force on the staff of a part, so that only changes are written; at first nothing is.

    signature   of the last measure, shown or hidden
    """

    clef: str = ""
    lines: int = 5
    transposition: Interval = UNISON
    signature: tuple[int, int] = (0, 0)
    divisions: int = 0
    numbering: str = "system"
    key: KeySignature | None = None


def _bars(music: Music, meter: tuple[int, int], end: Fraction) -> Iterator[Fraction]:
    """When bars begin, and the end; the first may be incomplete."""
    at, bar = Fraction(0), music.pickup or _length(meter)
    while at < end:
        yield at
        at += bar
        bar = _length(_meter_at(music, at) or meter)
    yield end


def _length(meter: tuple[int, int]) -> Fraction:
    return Fraction(4 * meter[0], meter[1])


def _meter_at(music: Music, at: Fraction) -> tuple[int, int] | None:
    changed = [change.meter for change in music.changes if isinstance(change, MeterChange) and change.at <= at]
    return changed[-1] if changed else music.meter


def _key_at(music: Music, at: Fraction) -> KeySignature:
    changed = [change.key for change in music.changes if isinstance(change, KeyChange) and change.at <= at]
    return changed[-1] if changed else music.key or KeySignature(0)


class PartWriter:
    """Writes the measures of one part of a system.

    staff      its line
    force      what is in force before it; changed by each measure
    bounds     when measures begin, and the end
    footnotes  texts by number, as numbered in the document
    """

    def __init__(
        self, staff: Staff, force: PartState, bounds: Sequence[Fraction], footnotes: dict[str, str]
    ) -> None:
        self._music, self._force, self._bounds = staff.music, force, bounds
        every = voices(staff.music, bounds)
        moments = sorted(_moments(staff.music), key=lambda m: m[:2])
        self._divisions = _divisions(every, moments, bounds)
        # By voice, then by measure; what comes after a note is in that note's.
        self._voices: tuple[defaultdict[int, list[Written]], ...] = tuple(defaultdict(list) for _ in every)
        for voice, mine in zip(self._voices, every, strict=True):
            for one in mine:
                voice[_number(one.at, bounds, before=one.kind in ("after", "stop"))].append(one)
        self._moments: defaultdict[int, list[Moment]] = defaultdict(list)
        for moment in moments:
            self._moments[_number(moment[0], bounds, before=moment[1] == 0)].append(moment)
        memory = AccidentalMemory(signs=staff.settings.accidentals, barred=staff.music.meter is not None)
        self._memory = memory
        self._makers = [
            NoteMaker(voice=number, divisions=self._divisions, accidentals=memory, lines=Lines(number=number))
            for number, _ in enumerate(self._voices, start=1)
        ]
        language = staff.settings.wording[0]
        self._dressers = [Dresser(language, footnotes) for _ in self._voices]
        self._mutes = {e.key: part.mute for part in staff.music.parts for v in part.voices for e in v.events}
        self._upper = False
        self._hairpin: tuple[Join, bool] | None = None
        self._at = Fraction(0)
        self._measure = lone("measure")

    def measure(self, number: int, name: int, *, heading: str, upper: bool, new_system: bool) -> Element:
        """One measure, by its place from 0.

        name     its number in the score
        heading  title of what begins here; "" for none
        upper    whether this is the highest part, with title and tempo above it
        new_system   whether something else came before
        """
        start, end = self._bounds[number], self._bounds[number + 1]
        music = self._music
        incomplete = number == 0 and bool(music.pickup)
        self._measure = lone("measure", number=name, implicit="yes" if incomplete else None)
        self._at, self._upper = start, upper
        self._memory.next_measure(_key_at(music, start))
        if number == 0:
            self._print(new_system=new_system)
        made = attributes(music, self._force, self._divisions, start, end)
        if len(made):
            self._measure.append(made)
        if heading and upper:
            self._measure.append(words(heading, font_weight="bold"))
        if number == 0 and upper and (music.tempo is not None or music.tempo_text):
            self._tempo(music.tempo, music.tempo_text, music.counted)
        self._barline_before(start)
        for voice, written in enumerate(self._voices):
            mine = written[number]
            if voice and not mine:
                continue
            if voice and self._at > start:
                add(add(self._measure, "backup"), "duration", self._units(self._at - start))
                self._at = start
            self._voice(voice, mine, self._moments[number] if not voice else [], last=end == self._bounds[-1])
        self._barline_after(start, end)
        return self._measure

    def _print(self, *, new_system: bool) -> None:
        """A new line for new music, with numbers at lines only where there are bars."""
        numbering = "none" if self._music.meter is None else "system"
        if new_system or numbering != self._force.numbering:
            made = add(self._measure, "print", new_system="yes" if new_system else None)
            if numbering != self._force.numbering:
                add(made, "measure-numbering", numbering)
        self._force.numbering = numbering

    # --- attributes, tempo, bar lines ------------------------------------------------------------------------

    def _tempo(self, tempo: Fraction | None, text: str | None, counted: Fraction | None) -> Element:
        """A tempo, in quarters a minute, with the note that it names."""
        made = add(self._measure, "direction", placement="above")
        if text:
            add(add(made, "direction-type"), "words", text)
        if tempo is not None:
            note = counted or self._music.counted or _counted_in(_meter_at(self._music, self._at))
            sign = add(add(made, "direction-type"), "metronome")
            named = value_type(note) or ("quarter", 0)
            add(sign, "beat-unit", named[0])
            for _ in range(named[1]):
                add(sign, "beat-unit-dot")
            add(sign, "per-minute", decimal(tempo / note))
            add(made, "sound", tempo=decimal(tempo))
        return made

    def _barline_before(self, start: Fraction) -> None:
        if any(repeat.start == start for repeat in self._music.repeats):
            line = add(self._measure, "barline", location="left")
            add(line, "bar-style", "heavy-light")
            add(line, "repeat", direction="forward")

    def _barline_after(self, start: Fraction, end: Fraction) -> None:
        music = self._music
        repeat = next((r for r in music.repeats if r.end == end), None)
        last = end == self._bounds[-1]
        if repeat is not None:
            line = add(self._measure, "barline", location="right")
            add(line, "bar-style", "light-heavy")
            add(line, "repeat", direction="backward", times=repeat.times)
        elif last or music.meter is None or DoubleBar(at=end) in music.changes:
            double = DoubleBar(at=end) in music.changes or (last and music.meter is None)
            style = "light-light" if double else "light-heavy" if last else "none"
            add(add(self._measure, "barline", location="right"), "bar-style", style)

    # --- notes and directions --------------------------------------------------------------------------------

    def _voice(self, voice: int, mine: list[Written], moments: list[Moment], *, last: bool) -> None:
        maker, dresser = self._makers[voice], self._dressers[voice]
        for written in mine:
            if written.at > self._at:
                self._space(written.at - self._at)
            moments = self._levels(moments, written)
            if written.first and written.event.clef:
                _clef(add(self._measure, "attributes"), written.event.clef)
            dress = dresser.dress(written)
            self._measure.extend(dress.before)
            if written.kind == "space" and not written.event.goes_on:
                self._space(written.beats)
            else:
                mute = mute_of(written.event, self._mutes.get(written.event.key))
                self._measure.extend(maker.elements(written, dress, dresser.numbers(written), mute))
                self._at += written.beats
            self._measure.extend(dress.after)
        for moment in moments:
            self._moment(moment)
        if last and voice == 0 and self._hairpin is not None:
            self._end_hairpin(Fraction(0))

    def _levels(self, moments: list[Moment], written: Written) -> list[Moment]:
        """Write the levels up to the end of a note; returns the others. One that ends a gesture comes after it."""
        left = []
        for moment in moments:
            at, order, _ = moment
            if at <= written.at if order == 0 else at < written.until:
                self._moment(moment)
            else:
                left.append(moment)
        return left

    def _moment(self, moment: Moment) -> None:
        at, _, what = moment
        offset = at - self._at
        match what:
            case DynamicLevel():
                self._level(what, offset)
            case KeyChange():
                self._key(what.key, at)
            case TempoChange() if self._upper:
                self._offset(self._tempo(what.tempo, what.words, what.counted), offset)
            case TempoGradually() if self._upper:
                self._beside(words(_TURNS[what.turn]), offset)
                self._bracket("start", offset)
            case TempoReached() if self._upper:
                self._bracket("stop", offset)
                turn = what.turn
                if not any(isinstance(c, TempoChange) and c.at == turn.until for c in self._music.changes):
                    self._offset(self._tempo(turn.tempo, None, turn.counted), offset)
            case RehearsalMark() if self._upper:
                made = lone("direction", placement="above")
                add(add(made, "direction-type"), "rehearsal", what.text)
                self._beside(made, offset)
            case DoubleBar() if at not in self._bounds:
                add(add(self._measure, "barline", location="middle"), "bar-style", "light-light")
            case _:
                pass  # meters and bar lines belong to measures; the others stand above the highest part alone

    def _key(self, key: KeySignature, at: Fraction) -> None:
        """A key signature inside a bar; at its beginning it is among what changes there."""
        if self._force.key != key:
            self._force.key = self._memory.key = key
            _key(add(self._measure, "attributes"), key)

    def _bracket(self, way: str, offset: Fraction) -> None:
        made = lone("direction", placement="above")
        line = "dashed" if way == "start" else None
        add(add(made, "direction-type"), "bracket", type=way, number=_GRADUAL, line_end="none", line_type=line)
        self._beside(made, offset)

    def _beside(self, direction: Element, offset: Fraction) -> None:
        self._measure.append(direction)
        self._offset(direction, offset)

    def _level(self, level: DynamicLevel, offset: Fraction) -> None:
        if level.level:
            made = self._below()
            dynamics = add(add(made, "direction-type"), "dynamics")
            if level.level in (*_LEVELS, *_ACCENTS):
                add(dynamics, level.level)
            else:
                add(dynamics, "other-dynamics", level.level)
            self._offset(made, offset)
        if self._hairpin is not None:
            self._end_hairpin(offset)
        if level.hairpin:
            made = self._below()
            opens = level.hairpin == "<"
            add(
                add(made, "direction-type"),
                "wedge",
                type="crescendo" if opens else "diminuendo",
                number=1,
                niente="yes" if opens and level.niente else None,
            )
            self._offset(made, offset)
            self._hairpin = level.hairpin, level.niente

    def _end_hairpin(self, offset: Fraction) -> None:
        if self._hairpin is None:
            return
        way, niente = self._hairpin
        self._hairpin = None
        made = self._below()
        add(
            add(made, "direction-type"),
            "wedge",
            type="stop",
            number=1,
            niente="yes" if niente and way == ">" else None,
        )
        self._offset(made, offset)

    def _below(self) -> Element:
        return add(self._measure, "direction", placement="below")

    def _offset(self, direction: Element, offset: Fraction) -> None:
        """Place a direction that does not stand at the next note; its place is before its sound."""
        if offset:
            made = lone("offset", self._units(offset), sound="yes")
            direction.insert(len(direction.findall("direction-type")), made)

    def _space(self, beats: Fraction) -> None:
        add(add(self._measure, "forward"), "duration", self._units(beats))
        self._at += beats

    def _units(self, beats: Fraction) -> int:
        return int(beats * self._divisions)


def attributes(music: Music, force: PartState, divisions: int, start: Fraction, end: Fraction) -> Element:
    """What changes at the beginning of a measure."""
    made = lone("attributes")
    if force.divisions != divisions:
        add(made, "divisions", divisions)
    key = _key_at(music, start)
    if key != force.key:
        _key(made, key)
    signature = _meter_at(music, start) or _signature(end - start)
    if signature != force.signature:
        time = add(made, "time", print_object="no" if music.meter is None else None)
        add(time, "beats", signature[0])
        add(time, "beat-type", signature[1])
    if start == 0:
        three = music.staff_lines == _THREE_LINES
        clef = _PERCUSSION if three else music.clef
        if clef != force.clef:
            _clef(made, clef)
        if music.staff_lines != force.lines:
            add(add(made, "staff-details"), "staff-lines", music.staff_lines)
        if music.transposition != force.transposition:
            _transposition(made, music.transposition)
        force.lines, force.transposition = music.staff_lines, music.transposition
        force.clef = _PERCUSSION if three else music.last_clef
    force.signature, force.divisions, force.key = signature, divisions, key
    return made


def _number(at: Fraction, bounds: Sequence[Fraction], *, before: bool) -> int:
    """The place of the measure of a time; `before`: what is at a bar line is in the measure before it."""
    number = (bisect_left if before else bisect_right)(bounds, at) - 1
    return max(0, min(number, len(bounds) - 2))


def _moments(music: Music) -> Iterator[Moment]:
    for part in music.parts:
        for level in part.levels:
            yield part.at + level.at, 0 if level.at >= part.beats else 2, level
    for change in music.changes:
        if change.at < music.beats:
            yield change.at, 1, change
        if isinstance(change, TempoGradually):
            yield change.until, 0, TempoReached(turn=change)


def _divisions(
    written: tuple[tuple[Written, ...], ...], moments: Sequence[Moment], bounds: Sequence[Fraction]
) -> int:
    """The units of a quarter in which every time is a whole number."""
    times = [time for voice in written for one in voice for time in (one.at, one.beats)]
    times += [at for at, _, _ in moments]
    return lcm(*(time.denominator for time in (*times, *bounds)))


def _is_counted(length: Fraction) -> bool:
    """Whether a time signature can be so long, in quarters."""
    unit = 4 * length.denominator
    return unit.bit_count() == 1 and unit <= _SHORTEST_UNIT


def _signature(length: Fraction) -> tuple[int, int]:
    """The hidden time signature of a measure without bar lines, in quarters: exactly as long, or if none can be,
    the next longer one in quarters, which the measure does not fill."""
    if not _is_counted(length):
        return math.ceil(length), 4
    return int(length * length.denominator), 4 * length.denominator


def _clef(attributes: Element, name: str) -> None:
    clef = add(attributes, "clef")
    sign, line = _CLEFS.get(name, (_PERCUSSION, None))
    add(clef, "sign", sign)
    if line is not None:
        add(clef, "line", line)


def _transposition(attributes: Element, interval: Interval) -> None:
    """From the written to the sounding pitch: what is left after whole octaves."""
    octaves = abs(interval.steps) // 7 * (1 if interval.steps > 0 else -1)
    made = add(attributes, "transpose")
    add(made, "diatonic", interval.steps - 7 * octaves)
    add(made, "chromatic", int(interval.cents / 100) - 12 * octaves)
    if octaves:
        add(made, "octave-change", octaves)


def _key(attributes: Element, key: KeySignature) -> None:
    made = add(attributes, "key")
    add(made, "fifths", key.fifths)
    if key.mode:
        add(made, "mode", key.mode)


def _counted_in(meter: tuple[int, int] | None) -> Fraction:
    """The note that a meter is counted in, in quarters."""
    if meter is None or meter[1] < 8:
        return Fraction(1)
    unit = Fraction(4, meter[1])
    return 3 * unit if meter[0] % 3 == 0 and meter[0] > 3 else unit
