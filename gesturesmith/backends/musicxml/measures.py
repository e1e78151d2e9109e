"""The measures of one part in one system: attributes, notes and directions in the order of time."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from gesturesmith.backends.musicxml._xml import Element, add, decimal, lone
from gesturesmith.backends.musicxml.marks import Dresser, words
from gesturesmith.backends.musicxml.notes import AccidentalMemory, Lines, NoteMaker, mute_of, value_type
from gesturesmith.backends.musicxml.written import Written, joined_times, voices
from gesturesmith.kinds import Join
from gesturesmith.score.marks import DynamicLevel
from gesturesmith.score.music import Music
from gesturesmith.score.staves import Staff
from gesturesmith.units import UNISON, Interval

_CLEFS = {"treble": ("G", 2), "bass": ("F", 4), "tenor": ("C", 4), "alto": ("C", 3)}
_LEVELS = ("n", "pppp", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "ffff")
_ACCENTS = ("sf", "sfz", "sffz", "fp", "sfp", "rf", "rfz", "fz", "pf")
_PERCUSSION, _THREE_LINES = "percussion", 3
_SHORTEST_UNIT = 128  # the shortest note that a time signature may count, in parts of a whole note
type Moment = tuple[Fraction, bool, DynamicLevel]  # when, whether it ends a gesture, the level


def bounds_of(musics: Sequence[Music]) -> tuple[Fraction, ...]:
    """When the measures of parts that sound together begin, and when the last ends.

    Without meter there is one for each gesture and rest, as far as nothing is held, beamed or grouped across and a
    time signature can be as long.
    """
    end = max(music.beats for music in musics)
    meter = musics[0].meter
    if meter is not None:
        bar = Fraction(4 * meter[0], meter[1])
        return (*(bar * n for n in range(-(-end // bar))), end)
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
        self._voices = voices(staff.music, bounds)
        self._moments = sorted(_moments(staff.music), key=lambda m: (m[0], not m[1]))
        self._divisions = _divisions(self._voices, self._moments, bounds)
        memory = AccidentalMemory(signs=staff.settings.accidentals, barred=staff.music.meter is not None)
        self._memory = memory
        self._makers = [
            NoteMaker(voice=number, divisions=self._divisions, accidentals=memory, lines=Lines(number=number))
            for number, _ in enumerate(self._voices, start=1)
        ]
        language = staff.settings.wording[0]
        self._dressers = [Dresser(language, footnotes) for _ in self._voices]
        self._mutes = {e.key: part.mute for part in staff.music.parts for v in part.voices for e in v.events}
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
        self._measure = lone("measure", number=name)
        self._at = start
        self._memory.next_measure()
        if number == 0:
            self._print(new_system=new_system)
        made = attributes(music, self._force, self._divisions, end - start, opens=number == 0)
        if len(made):
            self._measure.append(made)
        if heading and upper:
            self._measure.append(words(heading, font_weight="bold"))
        if number == 0 and upper:
            self._tempo()
        self._barline_before(start)
        for voice, written in enumerate(self._voices):
            mine = [one for one in written if _is_in(one, start, end)]
            if voice and not mine:
                continue
            if voice and self._at > start:
                add(add(self._measure, "backup"), "duration", self._units(self._at - start))
                self._at = start
            self._voice(voice, mine, start, end)
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

    def _tempo(self) -> None:
        music = self._music
        if music.tempo is None and not music.tempo_text:
            return
        made = lone("direction", placement="above")
        if music.tempo_text:
            add(add(made, "direction-type"), "words", music.tempo_text)
        if music.tempo is not None:
            note = _counted(music)
            sign = add(add(made, "direction-type"), "metronome")
            named = value_type(note) or ("quarter", 0)
            add(sign, "beat-unit", named[0])
            for _ in range(named[1]):
                add(sign, "beat-unit-dot")
            add(sign, "per-minute", decimal(music.tempo / note))
            add(made, "sound", tempo=decimal(music.tempo))
        self._measure.append(made)

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
        elif last or music.meter is None:
            style = "none" if not last else "light-light" if music.meter is None else "light-heavy"
            add(add(self._measure, "barline", location="right"), "bar-style", style)

    # --- notes and directions --------------------------------------------------------------------------------

    def _voice(self, voice: int, mine: list[Written], start: Fraction, end: Fraction) -> None:
        maker, dresser = self._makers[voice], self._dressers[voice]
        moments = [m for m in self._moments if _falls_in(m, start, end)] if voice == 0 else []
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
            self._level(moment)
        if end == self._bounds[-1] and voice == 0 and self._hairpin is not None:
            self._end_hairpin(Fraction(0))

    def _levels(self, moments: list[Moment], written: Written) -> list[Moment]:
        """Write the levels up to the end of a note; returns the others. One that ends a gesture comes after it."""
        left = []
        for moment in moments:
            at, ending, _ = moment
            now = at <= written.at if ending else at < written.until
            if now:
                self._level(moment)
            else:
                left.append(moment)
        return left

    def _level(self, moment: Moment) -> None:
        at, _, level = moment
        offset = at - self._at
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
        if offset:
            add(direction, "offset", self._units(offset), sound="yes")

    def _space(self, beats: Fraction) -> None:
        add(add(self._measure, "forward"), "duration", self._units(beats))
        self._at += beats

    def _units(self, beats: Fraction) -> int:
        return int(beats * self._divisions)


def attributes(music: Music, force: PartState, divisions: int, length: Fraction, *, opens: bool) -> Element:
    """What changes at the beginning of a measure that lasts `length`; `opens`: the first of its music."""
    made = lone("attributes")
    if force.divisions != divisions:
        add(made, "divisions", divisions)
    if not force.divisions:
        add(add(made, "key"), "fifths", 0)
    signature = music.meter or _signature(length)
    if signature != force.signature:
        time = add(made, "time", print_object="no" if music.meter is None else None)
        add(time, "beats", signature[0])
        add(time, "beat-type", signature[1])
    if opens:
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
    force.signature, force.divisions = signature, divisions
    return made


def _is_in(written: Written, start: Fraction, end: Fraction) -> bool:
    """Whether something is in a measure; what comes after a note is in that note's."""
    if written.kind in ("after", "stop"):
        return start < written.at <= end
    return start <= written.at < end


def _falls_in(moment: Moment, start: Fraction, end: Fraction) -> bool:
    at, ending, _ = moment
    return start < at <= end if ending else start <= at < end


def _moments(music: Music) -> Iterator[Moment]:
    for part in music.parts:
        for level in part.levels:
            yield part.at + level.at, level.at >= part.beats, level


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


def _counted(music: Music) -> Fraction:
    """The note that the tempo names, in quarters: that of the file, or the one its meter is counted in."""
    if music.counted is not None:
        return music.counted
    if music.meter is None or music.meter[1] < 8:
        return Fraction(1)
    unit = Fraction(4, music.meter[1])
    return 3 * unit if music.meter[0] % 3 == 0 and music.meter[0] > 3 else unit
