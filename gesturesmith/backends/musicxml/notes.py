"""Notes and rests as elements."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from gesturesmith import techniques
from gesturesmith.backends.musicxml._xml import Element, add, decimal, lone
from gesturesmith.backends.musicxml.marks import ARROW_ACCIDENTALS, LINE_TYPES, PLAIN_ACCIDENTALS, Dress
from gesturesmith.backends.musicxml.written import Written
from gesturesmith.kinds import Accidentals, HeadShape
from gesturesmith.score.heads import Head, natural
from gesturesmith.score.marks import LineEnd, LineStart, SecondNote, Small, SungHead
from gesturesmith.score.music import Event
from gesturesmith.units import KeySignature, Spelling

_TYPES = {
    Fraction(1, 64): "256th",
    Fraction(1, 32): "128th",
    Fraction(1, 16): "64th",
    Fraction(1, 8): "32nd",
    Fraction(1, 4): "16th",
    Fraction(1, 2): "eighth",
    Fraction(1): "quarter",
    Fraction(2): "half",
    Fraction(4): "whole",
    Fraction(8): "breve",
}
_DOTS = {Fraction(1): 0, Fraction(3, 2): 1, Fraction(7, 4): 2}
_HEADS: dict[HeadShape, str] = {
    "x": "x",
    "diamond": "diamond",
    "slash": "slash",
    "triangle-up": "triangle",
    "triangle-down": "inverted triangle",
}
_SMUFL = {
    "quarter-sharp": "accidentalQuarterToneSharpStein",
    "quarter-flat": "accidentalQuarterToneFlatStein",
    "three-quarters-sharp": "accidentalThreeQuarterTonesSharpStein",
    "three-quarters-flat": "accidentalThreeQuarterTonesFlatZimmermann",
}
# The standard's names of mutes, by ours; any other is "on".
_MUTES = {
    "straight": "straight",
    "cup": "cup",
    "harmon": "harmon-no-stem",
    "plunger": "plunger",
    "bucket": "bucket",
    "practice": "practice",
    "stopping": "stop-mute",
}
_OPEN = KeySignature(0)
_QUARTER_TONES = 2  # parts of a semitone
_SHARPS = "FCGDAEB"  # the order of sharps in a key signature; flats come from the other end
# A line sounds every note between only where the instrument has steps; XSD, `glissando` and `slide`.
_STEPS = ("partials", "valves", "steps")
_MIDDLE_OF_THREE = natural(32)  # G4: with a percussion clef the lowest of the three lines is E4
_HALF_SPACES = 2  # from line to line there are four half spaces on the page, two here


def value_type(value: Fraction) -> tuple[str, int] | None:
    """The name of a note value in quarters, and its dots; None if no single note has it."""
    for factor, dots in _DOTS.items():
        if value / factor in _TYPES:
            return _TYPES[value / factor], dots
    return None


@dataclass(slots=True)
class AccidentalMemory:
    """Which accidentals a reader remembers: in bars, what stood on each line or space; without bars, nothing."""

    signs: Accidentals
    barred: bool
    key: KeySignature = _OPEN
    here: dict[int, Fraction] = field(default_factory=dict)  # by height, in this measure
    lately: dict[str, tuple[int, Fraction]] = field(default_factory=dict)  # by letter, with its measure
    measure: int = 0

    def next_measure(self, key: KeySignature) -> None:
        self.key = key
        self.here.clear()
        self.measure += 1

    def sign(self, spelling: Spelling, *, forced: bool, cents: Fraction, held: bool) -> str | None:
        """The accidental to print, None for none. `held`: by a tie.

        A pitch with cents, or an eighth tone, always has one: some programs refuse an alteration that is no quarter
        tone if it stands by itself.
        """
        steps, alter = spelling.steps, spelling.alter
        if held:
            return self._name(alter) if cents or alter.denominator > _QUARTER_TONES else None
        usual = self._usual(spelling.letter)
        when, before = self.lately.get(spelling.letter, (self.measure, usual))
        recent = before if self.measure - when <= 1 else usual
        shown = forced or bool(cents) or alter.denominator > 1 or alter != self.here.get(steps, usual)
        if self.barred:
            shown = shown or recent != alter
            self.here[steps] = alter
            self.lately[spelling.letter] = self.measure, alter
        return self._name(alter) if shown else None

    def _usual(self, letter: str) -> Fraction:
        """What the key signature makes of a letter."""
        fifths = self.key.fifths
        if fifths > 0:
            return Fraction(int(letter in _SHARPS[:fifths]))
        return Fraction(-int(letter in _SHARPS[len(_SHARPS) + fifths :]))

    def _name(self, alter: Fraction) -> str:
        return (ARROW_ACCIDENTALS if self.signs == "arrows" else PLAIN_ACCIDENTALS)[alter]


@dataclass(slots=True)
class Lines:
    """The contour line that is open in a voice: every head on it ends one piece of it and begins the next."""

    number: int
    open: tuple[str, str] | None = None  # element and type of line

    def at(self, event: Event) -> list[Element]:
        """What the line does at a head."""
        made = []
        starts = [mark for mark in event.marks if isinstance(mark, LineStart)]
        if self.open is not None:
            made.append(self._piece("stop", self.open))
            if not starts and not any(isinstance(mark, LineEnd) for mark in event.marks):
                made.append(self._piece("start", self.open))
            else:
                self.open = None
        for start in starts:
            steps = any(techniques.get(key).path in _STEPS for key in event.techniques)
            self.open = "glissando" if steps else "slide", LINE_TYPES[start.style]
            made.append(self._piece("start", self.open, start.word))
        return made

    def _piece(self, way: str, line: tuple[str, str], word: str = "") -> Element:
        return lone(line[0], word or None, type=way, number=self.number, line_type=line[1])


@dataclass(slots=True)
class NoteMaker:
    """Makes the elements of one voice."""

    voice: int
    divisions: int
    accidentals: AccidentalMemory
    lines: Lines

    def elements(self, written: Written, dress: Dress, footnote: str, mute: str | None) -> list[Element]:
        """A note with the upper one of two, and the second note of a trill after it."""
        made = [self._note(written, dress, footnote, mute)]
        head = written.event.head
        if head is not None and head.upper is not None and written.sounds:
            made.append(self._upper(written, head.upper))
        for mark in written.event.marks if written.kind == "note" and not written.tied else ():
            if isinstance(mark, SecondNote):
                made.append(self._second(mark.to))
        return made

    def _note(self, written: Written, dress: Dress, footnote: str, mute: str | None) -> Element:
        event = written.event
        head = event.head if written.sounds else None
        made = lone("note", print_object="no" if written.kind in ("space", "held") else None)
        if written.kind in ("grace", "after"):
            add(made, "grace", slash="yes" if written.slashed else "no")
        elif written.kind == "stop":
            add(made, "grace", slash="no", steal_time_previous=5)
        if head is None:
            add(made, "rest", measure="yes" if written.kind == "bar-rest" else None)
        elif _without_pitch(event):
            _place(made, head)
        else:
            _pitch(made, head)
        self._length(made, written)
        if footnote:
            add(made, "footnote", footnote)
        add(made, "voice", self.voice)
        small = written.kind == "stop" or any(isinstance(mark, Small) for mark in event.marks)
        _type(made, written, small=small)
        if head is not None and head.spelling is not None and not head.bare:
            sign = self.accidentals.sign(
                head.spelling,
                forced=event.forced and written.first,
                cents=head.cents,
                held=written.continued or written.kind == "held",
            )
            _accidental(made, sign)
        if written.tuplet is not None:
            _modification(made, written)
        if head is not None:
            _stem_and_head(made, written, head)
        for level, way in enumerate(written.beams, start=1):
            add(made, "beam", way, number=level, fan=_FANS.get(written.fan) if level == 1 else None)
        self._notations(made, written, dress)
        for number, text in enumerate(dress.lyrics, start=1):
            lyric = add(made, "lyric", number=number, placement="below")
            add(lyric, "syllabic", "single")
            add(lyric, "text", text)
        if mute is not None and head is not None:
            add(add(made, "play"), "mute", mute)
        return made

    def _length(self, made: Element, written: Written) -> None:
        if written.beats:
            add(made, "duration", int(written.beats * self.divisions))
        ends, starts = written.continued or written.kind == "held", written.tied or written.sounds_on
        for way, holds in (("stop", ends), ("start", starts)):
            if holds:
                add(made, "tie", type=way)

    def _notations(self, made: Element, written: Written, dress: Dress) -> None:
        event, first = written.event, []
        for way, holds in (("stop", written.continued), ("start", written.tied)):
            if holds:
                first.append(lone("tied", type=way))
        if written.first and written.sounds:
            for way, holds in (("stop", event.ends_slur), ("start", event.begins_slur)):
                if holds:
                    first.append(lone("slur", type=way, number=self.voice))
        if written.tuplet is not None:
            first += _brackets(written)
        if written.first and written.sounds:
            first += self.lines.at(event)
        dress.others[:0] = first
        notations = dress.notations
        if notations is not None:
            made.append(notations)

    def _upper(self, written: Written, upper: Spelling) -> Element:
        made = lone("note")
        add(made, "chord")
        _pitch(made, Head(spelling=upper))
        self._length(made, written)
        add(made, "voice", self.voice)
        _type(made, written, small=False)
        _accidental(made, self.accidentals.sign(upper, forced=False, cents=Fraction(0), held=written.continued))
        if written.tuplet is not None:
            _modification(made, written)
        if not written.stem:
            add(made, "stem", "none")
        return made

    def _second(self, to: Spelling) -> Element:
        made = lone("note")
        add(made, "grace", slash="no", steal_time_previous=5)
        _pitch(made, Head(spelling=to))
        add(made, "voice", self.voice)
        add(made, "type", "quarter", size="cue")
        _accidental(made, self.accidentals.sign(to, forced=False, cents=Fraction(0), held=False))
        add(made, "stem", "none")
        add(made, "notehead", "normal", parentheses="yes")
        return made


_FANS = {"accelerating": "accel", "slowing": "rit"}


def mute_of(event: Event, mute: str | None) -> str | None:
    """What closes the bell, in the standard's words; None if nothing does."""
    played = tuple(techniques.get(key) for key in event.techniques)
    hand = next((technique.bell_hand for technique in played if technique.bell_hand), "")
    if hand:
        return "stop-hand" if hand == "stopped" else "echo"
    if any(technique.takes_mute for technique in played):
        return _MUTES.get(mute or "straight", "on")
    return None


def _without_pitch(event: Event) -> bool:
    head = event.head
    noise = any(techniques.get(key).pitched == "none" for key in event.techniques)
    return head is not None and (head.spelling is None or head.bare or noise)


def _place(made: Element, head: Head) -> None:
    if head.spelling is not None:
        note = head.spelling
    else:
        up = round((head.position or Fraction(0)) / _HALF_SPACES)
        note = natural(_MIDDLE_OF_THREE.steps + up)
    place = add(made, "unpitched")
    add(place, "display-step", note.letter)
    add(place, "display-octave", note.octave)


def _pitch(made: Element, head: Head) -> None:
    spelling = head.spelling
    if spelling is None:
        raise ValueError("a pitch has a spelling")
    pitch = add(made, "pitch")
    add(pitch, "step", spelling.letter)
    alter = spelling.alter + head.cents / 100
    if alter:
        add(pitch, "alter", decimal(alter))
    add(pitch, "octave", spelling.octave)


def _type(made: Element, written: Written, *, small: bool) -> None:
    if written.kind in ("bar-rest", "space", "held"):
        return
    named = value_type(written.value) if written.value is not None else ("quarter", 0)
    if named is None:
        return
    add(made, "type", named[0], size="cue" if small else None)
    for _ in range(named[1]):
        add(made, "dot")


def _accidental(made: Element, sign: str | None) -> None:
    if sign is not None:
        add(made, "accidental", sign, smufl=_SMUFL.get(sign))


def _base(written: Written) -> str | None:
    """The note value of which a tuplet has so many, if there is one."""
    tuplet = written.tuplet
    if tuplet is None:
        return None
    whole = sum((leaf.value for leaf in tuplet.leaves), Fraction(0))
    named = value_type(whole / tuplet.count)
    return named[0] if named is not None and not named[1] else None


def _modification(made: Element, written: Written) -> None:
    tuplet = written.tuplet
    if tuplet is None:
        return
    change = add(made, "time-modification")
    add(change, "actual-notes", tuplet.count)
    add(change, "normal-notes", tuplet.normal)
    base = _base(written)
    if base is not None:
        add(change, "normal-type", base)


def _brackets(written: Written) -> list[Element]:
    tuplet = written.tuplet
    if tuplet is None:
        return []
    ratio = tuplet.count != 3 or len(tuplet.leaves) == 1
    made = []
    if written.opens:
        begin = lone("tuplet", type="start", number=1, bracket="yes", show_number="both" if ratio else "actual")
        base = _base(written)
        for name, number in (("tuplet-actual", tuplet.count), ("tuplet-normal", tuplet.normal)):
            portion = add(begin, name)
            add(portion, "tuplet-number", number)
            if base is not None:
                add(portion, "tuplet-type", base)
        made.append(begin)
    if written.closes:
        made.append(lone("tuplet", type="stop", number=1))
    return made


def _stem_and_head(made: Element, written: Written, head: Head) -> None:
    if not written.stem:
        add(made, "stem", "none")
    shape = next((mark.shape for mark in written.event.marks if isinstance(mark, SungHead)), head.shape)
    enclosed = "yes" if written.kind == "stop" or shape == "ghost" else None
    if shape in _HEADS or enclosed:
        add(made, "notehead", _HEADS.get(shape, "normal"), parentheses=enclosed)
