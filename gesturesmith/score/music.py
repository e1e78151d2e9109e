"""A score as plain values: what stands when and where, for whoever prints, reads or plays it.

Times are in beats (a quarter note each) from the start of the music, exact. Nothing here belongs to any format.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Literal

from gesturesmith.kinds import AttackShape, Pitches
from gesturesmith.score.heads import Head
from gesturesmith.score.marks import DynamicLevel, FootnoteMark, Mark, TechniqueLabel
from gesturesmith.score.rhythm import Leaf, SlotKind, Triplet
from gesturesmith.tones import Performance
from gesturesmith.units import Interval
from gesturesmith.values import frozen

# As the layouts in `templates/` have it: a place is as wide as a head in brackets and the gap after it.
USUAL_PLACE = Fraction(1, 12)
# Where a page may end: our own judgement.
_TOGETHER = Fraction(40)  # beats that stand on one page: about four lines
_LINE = Fraction(12)  # beats of a line


@frozen(kw_only=True)
class Footnote:
    """A footnote: its number as printed at the note and its text, plain.

    techniques  keys of the techniques whose standard wording it is, in order
    own         the composer's own words in it, or ""
    """

    number: str
    text: str
    techniques: tuple[str, ...] = ()
    own: str = ""


@frozen(kw_only=True)
class Event:
    """One note, rest or point of a voice.

    key         its number in the music, by which leaves name it; -1 for a head where a line stops
    start, end  when
    kind        as a slot's (see `rhythm`)
    head        None for a rest
    sounding_cents  the pitch that sounds as it begins, cents above C-1; None for a rest and for what has no pitch
    index       of the contour point that begins here; None where the event only lies on the way
    about       its pitch or height is only about what is written
    techniques  keys of those it is played with, in order
    tongued     a tongued attack
    feathered   written with a stem under a beam that fans out; `beamed`: under it, with a stem or without
    value       beats that its note value shows, where it is not spaced by them; else its leaves say it
    labels      words of techniques above the staff, in order; they stand in one line
    held        what is said again where it comes first on a system
    repeat_after_break  the same where it goes on after a break
    marks       what stands at its beginning, in order; `ends`: at its end
    articulations   by name: accent, staccato, tenuto, marcato, fermata, breath
    clef        the clef that begins here, or ""; `after_stop`: a head where a line stops stands before it
    forced      its accidental is printed although nothing asks for it
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
    clef: str = ""
    after_stop: bool = False
    forced: bool = False

    @property
    def sounds(self) -> bool:
        return self.head is not None


@frozen(kw_only=True)
class Voice:
    """The events of one voice of a part.

    events  in order, each with the leaves that write it; `stop` is the head where the last line stops, at the end
    leaves  note values; a triplet may reach into the next part, and its leaves name events of that
    """

    events: tuple[Event, ...]
    leaves: tuple[Leaf | Triplet, ...]
    stop: Event | None = None

    @property
    def everything(self) -> tuple[Event, ...]:
        """All its events, the stop included."""
        return (*self.events, self.stop) if self.stop is not None else self.events

    @property
    def sounding(self) -> tuple[Event, ...]:
        """Every event with a head, the stop included, in order."""
        return tuple(event for event in self.everything if event.sounds)


@frozen(kw_only=True)
class Part:
    """One gesture or rest of a music.

    name     of the gesture; "" for a rest
    mute     the mute that its techniques take, None for none
    levels   their times are from the start of the part
    fan      how the one beam over all its attacks opens or closes; "" for none
    crowded  its last level stands close before the first of the next part
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
    """A stretch between repeat signs, played `times` in all; `text` is what stands over the sign at its end."""

    start: Fraction
    end: Fraction
    times: int
    text: str


@frozen(kw_only=True)
class Music:
    """One gesture or one passage.

    name, title   as in the file
    kind          "gesture" | "passage"
    parts         its gestures and rests, in order
    beats         how long it lasts
    turns         rests with time to turn a page: start and end
    repeats       stretches that are repeated
    instrument    its key
    transposition from what is written here to what sounds
    pitches       "written" in a part, "sounding" in a concert score
    free          spaced in proportion to time
    place         then, whole notes a place on the page
    staff_lines   5, or 3 for heights without pitch
    clef          the clef at its beginning; `last_clef` the one at its end
    meter         time signature; None: free, no bar lines
    tempo         quarters a minute where a tempo is printed, None where nothing is counted in beats; with the words
                  before it
    footnotes     in order of their numbers, counted within this music
    last_bar      the bar line at its end; "" where a repeat sign stands there
    description   the music in words, for those who cannot see it
    cautions      sentences for pages that carry cautions
    draft         lines of the findings to be printed with a draft; () where it is none
    performance   what is heard of it
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
    clef: str
    last_clef: str
    meter: tuple[int, int] | None
    tempo: Fraction | None
    tempo_text: str | None
    last_bar: str = "|"
    place: Fraction = USUAL_PLACE
    footnotes: tuple[Footnote, ...]
    description: str
    cautions: tuple[str, ...]
    draft: tuple[str, ...] = ()
    performance: Performance

    @property
    def events(self) -> Iterator[Event]:
        """All events of all parts and voices."""
        return (event for part in self.parts for voice in part.voices for event in voice.everything)

    @property
    def marks(self) -> Iterator[Mark]:
        """All that stands at its events."""
        return (mark for event in self.events for mark in (*event.marks, *event.ends))

    @property
    def levels(self) -> Iterator[DynamicLevel]:
        """All that is said of loudness."""
        return (level for part in self.parts for level in part.levels)

    @property
    def footnote_marks(self) -> tuple[FootnoteMark, ...]:
        """The marks that lead to its footnotes, in order."""
        return tuple(mark for mark in self.marks if isinstance(mark, FootnoteMark))

    def footnotes_at(self, mark: FootnoteMark) -> tuple[Footnote, ...]:
        """The footnotes that a mark leads to; none where they stand elsewhere."""
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
        """The music with the numbers of a notes page, where its footnotes are read: own number -> label there."""
        return replace(self.renumbered(numbers), footnotes=()) if self.footnotes else self

    def plays_on(self, at: Fraction) -> bool:
        """Whether no page should end at a moment: while something is played that will stand on one page.

        What is too long for that may be parted, but not a line or so after its beginning or before its end.
        """
        if any(start <= at <= end for start, end in self.turns):
            return False
        since = max((end for _, end in self.turns if end < at), default=Fraction(0))
        until = min((start for start, _ in self.turns if start > at), default=self.beats)
        return until - since <= _TOGETHER or at - since < _LINE or until - at < _LINE


def _changed(part: Part, change: Callable[[Mark], Mark]) -> Part:
    """A part with its footnote marks changed; only what is played has any."""

    def event(one: Event) -> Event:
        marks = tuple(change(mark) for mark in one.marks)
        return one if marks == one.marks else replace(one, marks=marks)

    voice = part.played
    stop = event(voice.stop) if voice.stop is not None else None
    return replace(part, played=replace(voice, events=tuple(event(one) for one in voice.events), stop=stop))
