"""A score as plain values: what comes when and where, for printing, reading and playing.

Times are exact, in beats (quarter notes) from the start of the music. Nothing here depends on a format.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from gesturesmith.kinds import AttackShape, Pitches, StaffClef
from gesturesmith.model.changes import Change, MeterChange
from gesturesmith.model.tempo import TempoMap
from gesturesmith.score.heads import Head
from gesturesmith.score.marks import DynamicLevel, FootnoteMark, Mark, TechniqueLabel
from gesturesmith.score.rhythm import Leaf, Meter, SlotKind, Tuplet, free, meters
from gesturesmith.tones import Performance
from gesturesmith.units import Interval, KeySignature
from gesturesmith.values import frozen

# As in the layouts in `templates/`: a place is as wide as a bracketed head and the gap after it.
USUAL_PLACE = Fraction(1, 12)
# Where a page may end: our own judgement.
_TOGETHER = Fraction(40)  # beats kept on one page: about four lines
_LINE = Fraction(12)  # beats on a line


@frozen(kw_only=True)
class Footnote:
    """A footnote: its number as printed at the note, and its plain text.

    techniques  keys of the techniques whose standard wording it holds, in order
    own         the composer's own words in it, or ""
    plays       if there are any, the keys of the techniques of the gesture they are about
    """

    number: str
    text: str
    techniques: tuple[str, ...] = ()
    own: str = ""
    plays: tuple[str, ...] = ()


@frozen(kw_only=True)
class Event:
    """One note, rest or point of a voice.

    key         its number in the music, by which leaves refer to it; -1 for a head where a line stops
    start, end  in beats
    kind        as in a slot (see `rhythm`)
    head        None for a rest
    sounding_cents  the sounding pitch at its beginning, cents above C-1; None for a rest or without pitch
    index       of the contour point that begins here; None if the event only lies between points
    about       its pitch or height is approximate
    techniques  keys of the techniques it is played with, in order
    tongued     a tongued attack
    feathered   written with a stem under a feathered beam; `beamed`: under it, with or without a stem
    value       beats of its note value, if not its spacing; else its leaves give it
    labels      words of techniques above the staff, in order, on one line
    held        words repeated if it comes first on a system
    repeat_after_break  the same if it continues after a break
    marks       the marks at its beginning, in order; `ends`: those at its end
    articulations   by name: accent, staccato, tenuto, marcato, fermata, breath, inhale, exhale
    clef        the clef that begins here, or ""; `after_stop`: it follows a head where a line stops
    forced      its accidental is printed even if not needed
    goes_on     no silence, though it has no head: what stands in a box before it is repeated
    graces      grace notes before it, in order; `after`: after it. They have no leaves and no time
    """

    key: int
    start: Fraction
    end: Fraction
    kind: SlotKind
    head: Head | None = None
    sounding_cents: Fraction | None = None
    index: int | None = None
    about: bool = False
    techniques: tuple[str, ...] = ()
    tongued: bool = False
    feathered: bool = False
    beamed: bool = False
    value: Fraction | None = None
    labels: tuple[TechniqueLabel, ...] = ()
    held: tuple[TechniqueLabel, ...] = ()
    repeat_after_break: tuple[TechniqueLabel, ...] = ()
    marks: tuple[Mark, ...] = ()
    ends: tuple[Mark, ...] = ()
    articulations: tuple[str, ...] = ()
    begins_slur: bool = False
    ends_slur: bool = False
    clef: StaffClef = ""
    after_stop: bool = False
    forced: bool = False
    goes_on: bool = False
    graces: tuple[Event, ...] = ()
    after: tuple[Event, ...] = ()

    @property
    def sounds(self) -> bool:
        return self.head is not None

    @property
    def whole(self) -> tuple[Event, ...]:
        """The event with its graces, in order."""
        return (*self.graces, self, *self.after)


@frozen(kw_only=True)
class Voice:
    """The events of one voice of a part.

    events  in order, each with the leaves that write it; `stop` is the head where the last line stops, at the end
    leaves  note values; a tuplet may reach into the next part, and its leaves then refer to that part's events
    """

    events: tuple[Event, ...]
    leaves: tuple[Leaf | Tuplet, ...]
    stop: Event | None = None

    @property
    def everything(self) -> tuple[Event, ...]:
        """All its events, including the stop."""
        return (*self.events, self.stop) if self.stop is not None else self.events

    @property
    def sounding(self) -> tuple[Event, ...]:
        """Every event with a head, including the stop, in order."""
        return tuple(event for event in self.everything if event.sounds)


@frozen(kw_only=True)
class Part:
    """One gesture or rest.

    name     of the gesture; "" for a rest
    mute     the mute its techniques take, None for none
    levels   with times from the start of the part
    fan      how the feathered beam over all its attacks opens or closes; "" for none
    crowded  its last level is close to the first of the next part
    """

    name: str
    at: Fraction
    beats: Fraction
    played: Voice
    sung: Voice | None = None
    mute: str | None = None
    levels: tuple[DynamicLevel, ...] = ()
    fan: AttackShape = ""
    crowded: bool = False

    @property
    def voices(self) -> tuple[Voice, ...]:
        return (self.played, self.sung) if self.sung is not None else (self.played,)


@frozen(kw_only=True)
class RepeatedStretch:
    """A stretch between repeat signs, played `times` in all; `text` is printed over the sign at its end."""

    start: Fraction
    end: Fraction
    times: int
    text: str


@frozen(kw_only=True)
class CueNotes:
    """What another part plays in a rest, in small notes.

    quote   what LilyPond calls the other part's line; `name`: what people call the part
    clef    the clef of the small notes, "" for the one in force
    above   whether they stand above the part's own rest
    """

    start: Fraction
    end: Fraction
    quote: str
    name: str
    clef: StaffClef = ""
    above: bool = True


@frozen(kw_only=True)
class Music:
    """One gesture or one passage.

    name, title   as in the file
    kind          "gesture" | "passage"
    parts         its gestures and rests, in order
    beats         its length
    turns         rests with time to turn a page: start and end
    repeats       repeated stretches
    instrument    its key
    transposition from written to sounding pitch
    pitches       "written" in a part, "sounding" in a concert score
    free          spaced in proportion to time
    place         whole notes to a place on the page, if `free`
    staff_lines   5, or 3 for heights without pitch
    clef          the clef at its beginning; `last_clef` the one at its end
    meter         time signature; None: free, no bar lines
    bar           the number of its first bar; None if bars are not numbered
    counted       the note that the tempo names, in quarters; None: the one that the meter is counted in
    tempo         quarters per minute to print, None if nothing is counted in beats; `tempo_text`: words before it
    tempo_map     the tempo throughout, as heard; None for a single gesture
    pickup        beats of an incomplete first bar, 0 for none
    key           the key signature at its beginning, in its own pitch; None for none
    changes       of tempo, meter and key, rehearsal marks and double bar lines, in order of time
    footnotes     in order of their numbers, which count within this music
    last_bar      the bar line at its end; "" if a repeat sign is there
    description   the music in words, for those who cannot see it
    cautions      sentences for pages that carry cautions
    draft         the findings to print with a draft, by line; () if it is not a draft
    cues          what other parts play in its rests, before its entries
    performance   how it sounds
    """

    name: str
    title: str | None
    kind: Literal["gesture", "passage"]
    parts: tuple[Part, ...]
    beats: Fraction
    turns: tuple[tuple[Fraction, Fraction], ...] = ()
    repeats: tuple[RepeatedStretch, ...] = ()
    instrument: str
    transposition: Interval
    pitches: Pitches
    free: bool
    staff_lines: int
    clef: StaffClef
    last_clef: StaffClef
    meter: tuple[int, int] | None
    tempo: Fraction | None
    tempo_text: str | None
    counted: Fraction | None = None
    bar: int | None = None
    tempo_map: TempoMap | None = None
    pickup: Fraction = Fraction(0)
    key: KeySignature | None = None
    changes: tuple[Change, ...] = ()
    last_bar: str = "|"
    place: Fraction = USUAL_PLACE
    footnotes: tuple[Footnote, ...]
    description: str
    cautions: tuple[str, ...]
    draft: tuple[str, ...] = ()
    cues: tuple[CueNotes, ...] = ()
    performance: Performance

    @property
    def bars(self) -> Meter:
        """How it is barred throughout."""
        return barred(self.meter, self.counted, self.pickup, self.changes)

    @property
    def events(self) -> Iterator[Event]:
        """All events of all parts and voices, including grace notes."""
        notes = (event for part in self.parts for voice in part.voices for event in voice.everything)
        return (event for note in notes for event in note.whole)

    @property
    def marks(self) -> Iterator[Mark]:
        """All marks at its events."""
        return (mark for event in self.events for mark in (*event.marks, *event.ends))

    @property
    def levels(self) -> Iterator[DynamicLevel]:
        """All dynamic marks."""
        return (level for part in self.parts for level in part.levels)

    @property
    def footnote_marks(self) -> tuple[FootnoteMark, ...]:
        """The marks that refer to its footnotes, in order."""
        return tuple(mark for mark in self.marks if isinstance(mark, FootnoteMark))

    def footnotes_at(self, mark: FootnoteMark) -> tuple[Footnote, ...]:
        """The footnotes that a mark refers to; none if they are printed elsewhere."""
        known = {f.number: f for f in self.footnotes}
        return tuple(known[number] for number in mark.numbers if number in known)

    def renumbered(self, numbers: Mapping[str, str]) -> Music:
        """The music with other numbers at its marks: own number -> number on the page, or several with commas."""

        def mark(mark: Mark) -> Mark:
            if not isinstance(mark, FootnoteMark):
                return mark
            there = {n for own in mark.numbers for n in numbers[own].split(", ")}
            return FootnoteMark(numbers=tuple(sorted(there, key=int)))

        return replace(self, parts=tuple(_changed(part, mark) for part in self.parts))

    def noted(self, numbers: Mapping[str, str]) -> Music:
        """The music with the numbers of a notes page, which has its footnotes: own number -> label there."""
        return replace(self.renumbered(numbers), footnotes=()) if self.footnotes else self

    def plays_on(self, at: Fraction) -> bool:
        """Whether no page should end at a given time: while something is played that fits on one page.

        Anything longer may be split, but not within a line or so of its beginning or end.
        """
        if any(start <= at <= end for start, end in self.turns):
            return False
        since = max((end for _, end in self.turns if end < at), default=Fraction(0))
        until = min((start for start, _ in self.turns if start > at), default=self.beats)
        return until - since <= _TOGETHER or at - since < _LINE or until - at < _LINE


def barred(
    meter: tuple[int, int] | None, counted: Fraction | None, pickup: Fraction, changes: tuple[Change, ...]
) -> Meter:
    """How music is barred throughout."""
    beat = counted or Fraction(1)
    if meter is None:
        return free(beat)
    later = ((change.at, change.meter) for change in changes if isinstance(change, MeterChange))
    return meters(((Fraction(0), meter), *later), beat, pickup)


def _changed(part: Part, change: Callable[[Mark], Mark]) -> Part:
    """A part with its footnote marks changed; rests have none."""

    def event(one: Event) -> Event:
        marks = tuple(change(mark) for mark in one.marks)
        return one if marks == one.marks else replace(one, marks=marks)

    voice = part.played
    stop = event(voice.stop) if voice.stop is not None else None
    return replace(part, played=replace(voice, events=tuple(event(one) for one in voice.events), stop=stop))
