"""A whole file, resolved: its settings, gestures, passages and exercises."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction

from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import (
    Accidentals,
    Choose,
    Fingerings,
    HeightLook,
    Keep,
    Order,
    Pace,
    Pitches,
    Players,
    WordsOnPage,
)
from gesturesmith.lang.nodes import PlayItem
from gesturesmith.model.changes import Change, MeterChange, bar_beats
from gesturesmith.model.gesture import Gesture
from gesturesmith.model.tempo import FERMATA, TempoMap
from gesturesmith.source import Span
from gesturesmith.units import UNISON, KeySignature
from gesturesmith.values import frozen
from gesturesmith.wording import PageWords, together


@frozen(kw_only=True)
class Settings:
    """The settings of a file, every default filled in. Sizes in mm, tempo in quarters per minute; `counted` is the
    note that it names, in quarters; `of_several`: this is one part of several."""

    instrument: Instrument
    pitches: Pitches
    tempo: Fraction = Fraction(60)
    tempo_text: str | None = None
    counted: Fraction | None = None
    tempo_given: bool = False
    title: str | None = None
    subtitle: str | None = None
    composer: str | None = None
    part: str | None = None
    of_several: bool = False
    wording: tuple[str, ...] = ("en",)
    words: WordsOnPage = "international"
    meter: tuple[int, int] | None = None  # None: free
    heights: HeightLook = "auto"
    accidentals: Accidentals = "stein"
    fingerings: Fingerings = "needed"
    paper_mm: tuple[Fraction, Fraction] = (Fraction(210), Fraction(297))
    paper_name: str = "a4"
    staff_mm: Fraction = Fraction(7)

    @property
    def page_words(self) -> PageWords:
        """The words of techniques on its page."""
        language = self.wording[0] if self.words == "language" else ""
        return PageWords(language=language, hand=self.instrument.has_hand)

    def part_name(self, languages: tuple[str, ...]) -> str:
        """Whom a page is for: as typed, else the instrument's name in these languages."""
        return self.part or together(self.instrument.part_in(language) for language in languages)

    def head_name(self) -> str:
        """Whom its page is for. One part of several may be called only "Horn 2": the page adds for which instrument
        it is written, where that transposes."""
        name, written = self.part_name(self.wording), self.instrument.part_in(self.wording[0])
        if not self.of_several or self.instrument.sounding == UNISON or written in name:
            return name
        return written if written.startswith(f"{name} ") else f"{name} ({written})"


@frozen(kw_only=True)
class Box:
    """What is repeated freely.

    cells      what stands in each box: its items, from time 0
    choose     how the player chooses among several
    pace       how it is repeated
    beats      how long, in beats of the passage; of a cue, the most that is reckoned with
    in_seconds whether that is written in seconds
    cue        until what it is repeated; "" if a length is given. `within`: at most how long is given as well
    """

    name: str
    title: str | None
    cells: tuple[tuple[PassageItem, ...], ...]
    choose: Choose
    pace: Pace
    beats: Fraction
    in_seconds: bool
    cue: str
    within: bool
    span: Span


@frozen(kw_only=True)
class InBox:
    """The place of an item in a box: number of its cell, and whether that begins or ends with it; cell -1 for the
    time after the cells, through which they are repeated."""

    box: Box
    cell: int
    first: bool = False
    last: bool = False

    @property
    def goes_on(self) -> bool:
        return self.cell < 0


@frozen(kw_only=True)
class PassageItem:
    """One event of a passage: a gesture, or a rest (`gesture` is None).

    A plain pitch is a gesture of one ordinary point with an empty name.
    """

    at: Fraction  # beats from the start of the passage
    beats: Fraction
    gesture: Gesture | None
    played: str  # the gesture's name in the file, "" for a rest or a plain pitch
    span: Span
    who: Players = ""  # which of two players plays from here on, if that changes
    fermata: bool = False  # over a rest
    box: InBox | None = None


@frozen(kw_only=True)
class Repeat:
    """A stretch between repeat signs, in beats from the start of the passage, played `times` in all."""

    start: Fraction
    end: Fraction
    times: int


@frozen(kw_only=True)
class Passage:
    """A passage. `items` holds what is engraved (a repeated stretch once); `two_players`: they read one line.

    tempo_map the tempo throughout; `changes`: where it and other things change, in order of time
    pickup    beats of an incomplete first bar, 0 if there is none
    key       of its beginning, sounding; None if it has no key signature
    """

    name: str
    title: str | None
    items: tuple[PassageItem, ...]
    repeats: tuple[Repeat, ...]
    tempo_text: str | None
    meter: tuple[int, int] | None
    span: Span
    spans: Mapping[str, Span]
    two_players: bool = False
    counted: Fraction | None = None
    bar: int | None = None
    tempo_map: TempoMap
    pickup: Fraction = Fraction(0)
    key: KeySignature | None = None
    changes: tuple[Change, ...] = ()

    @property
    def tempo(self) -> Fraction:
        """Quarters a minute at its beginning."""
        return self.tempo_map.first

    @property
    def beats(self) -> Fraction:
        return sum((i.beats for i in self.items), Fraction(0))

    def bar_at(self, at: Fraction) -> int | None:
        """The number of the bar around a time, 0 for a pickup before bar 1; None if there are no bars."""
        if self.meter is None:
            return None
        changes = [(c.at, c.meter) for c in self.changes if isinstance(c, MeterChange) and c.at <= at]
        number, since, meter = (self.bar or 1), self.pickup, self.meter
        for when, after in changes:
            number, since, meter = number + int((when - since) / bar_beats(meter)), when, after
        return number + (at - since) // bar_beats(meter)

    def silence_s(self, item: PassageItem) -> float:
        """The seconds that a rest of it lasts, longer under a fermata."""
        seconds = self.tempo_map.between(item.at, item.at + item.beats)
        return seconds * (1 + FERMATA.value) if item.fermata else seconds


@frozen(kw_only=True)
class PassageLine:
    """What parts that play together have to know of each other's lines of a passage, also of those with an error.

    entries   what its `play` says of changes, each with its time in quarters
    beats     its length; 0 if not all of it could be read
    """

    entries: tuple[tuple[Fraction, PlayItem], ...]
    beats: Fraction
    meter: tuple[int, int] | None


@frozen(kw_only=True)
class Exercise:
    """The variants of one gesture, in the order they were computed; `labels` describes each in words."""

    name: str
    title: str | None
    origin: str
    variants: tuple[Gesture, ...]
    labels: tuple[str, ...]
    order: Order
    keep: int | Keep
    times: int
    meter: tuple[int, int] | None
    fingerings: Fingerings | None
    instruction: str | None
    span: Span


@frozen(kw_only=True)
class Piece:
    """A file, complete as far as it could be read.

    unread    names of blocks with errors, case-folded
    lines     of its passages, by name
    """

    settings: Settings
    gestures: tuple[Gesture, ...]
    passages: tuple[Passage, ...]
    exercises: tuple[Exercise, ...]
    unread: frozenset[str] = frozenset()
    lines: Mapping[str, PassageLine] = field(default_factory=dict)
