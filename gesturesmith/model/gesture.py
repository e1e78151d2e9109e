"""Complete gestures: what a file means once every default is filled in. Nothing here is partly known."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import get_args

from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import (
    AskedHead,
    AttackShape,
    Breath,
    Extreme,
    FingeringMode,
    Growth,
    Join,
    Level,
    LineKind,
    Mute,
    PointKind,
    Reached,
    Strokes,
)
from gesturesmith.model import times
from gesturesmith.model.tempo import TempoMap
from gesturesmith.source import Span
from gesturesmith.techniques.base import Technique
from gesturesmith.units import Interval, Spelling
from gesturesmith.values import frozen

LEVELS: tuple[str, ...] = get_args(Level)
NIENTE: Level = "n"
_LEVEL_OF_ACCENT = {"sf": "f", "sfz": "f", "sffz": "ff", "fp": "f", "sfp": "f", "rfz": "f"}
_LEFT_BY_ACCENT = {"fp": "p", "sfp": "p"}


@frozen(kw_only=True)
class Pitch:
    """A pitch with its written and sounding spelling; every judgement uses `sounding.pitch_cents`."""

    written: Spelling
    sounding: Spelling

    @property
    def cents(self) -> Fraction:
        """Sounding cents above C-1, exact."""
        return self.sounding.pitch_cents


@frozen(kw_only=True)
class ContourPoint:
    """One point of a contour, complete and resolved.

    at              beats from the start of the gesture, >= 0, exact
    until           where its slot ends: the next point's time, or the gesture's end
    kind            pitch | height | extreme | silence
    sounding_cents  exact, cents above C-1; of a height, its place in the band; of `highest`/`lowest`, the end of
                    the instrument's usual range; None for silence
    pitch           the pitch with its spellings, for kind "pitch"
    about           an approximate pitch (x before the note, heights, extremes)
    percent         place in the band, 0 to 100, for kind "height"
    extreme         "highest" | "lowest" | ""
    reached         how it begins: attack | slur | line | silence
    held            reached by a line and left by none: held to the end of its slot (not if the line stops there)
    stops           the small bracketed head: the last point, if the line stops at the gesture's end
    passing         a harmonic that a sweep passes, shown where a sign is explained (see `excerpt.with_harmonics`)
    value           beats of its note value, if the harmonics after it are spaced wider than in time; else None
    techniques      the techniques in force from here on: the gesture's own, changed by every `as` and `without`
    turns_to        the techniques named by `as` at this point, () for none ("ordinary" ends all)
    ends            those named by `without`
    trill           the interval its trill or tremolo goes to; None where none is named
    covers          key of the technique that `closed` or `half-closed` stands for here, "" for none
    named           those of `turns_to` as they are written, if the hand in the bell does something else
    opens           the word `open`: what covers the bell or the mute goes away
    marks           accent, staccato, tenuto, marcato, fermata, breath, inhale, exhale
    words           the composer's text above it; "" for none
    syllable        spoken or breathed there, under it; "" for none
    dynamic         a level given at this point (also among the gesture's `dynamics`), or ""
    strokes         how it is repeated by the tongue, "" for not at all
    graces          grace notes before it, in order; `after`: after it, at the end of the gesture
    """

    at: Fraction
    until: Fraction
    kind: PointKind
    sounding_cents: Fraction | None
    pitch: Pitch | None = None
    about: bool = False
    percent: Fraction | None = None
    extreme: Extreme = ""
    reached: Reached = "attack"
    held: bool = False
    stops: bool = False
    passing: bool = False
    value: Fraction | None = None
    techniques: tuple[Technique, ...] = ()
    turns_to: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()
    trill: Interval | None = None
    covers: str = ""
    opens: bool = False
    named: tuple[str, ...] = ()
    marks: tuple[str, ...] = ()
    words: str = ""
    syllable: str = ""
    dynamic: str = ""
    strokes: Strokes = ""
    graces: tuple[Grace, ...] = ()
    after: tuple[Grace, ...] = ()
    span: Span

    def __post_init__(self) -> None:
        if self.at.numerator < 0 or self.until < self.at:
            raise ValueError(f"at={self.at} until={self.until}")

    @property
    def breath(self) -> Breath:
        """The direction of the air, if given."""
        return "in" if "inhale" in self.marks else "out" if "exhale" in self.marks else ""

    @property
    def gives_breath(self) -> bool:
        """Whether the player breathes in during it, or at its end (`breath`): not if it is spoken or breathed
        out."""
        if self.kind == "silence":
            return self.breath != "out" and not self.syllable
        return self.breath == "in" or "breath" in self.marks


@frozen(kw_only=True)
class Grace:
    """A grace note: outside the rhythm, as quick as possible (`model.graces` says what is assumed).

    point   its pitch and signs; its time and techniques are not used, those of its note are
    join    what leads on from it if it is before its note, what leads to it if it is after
    """

    point: ContourPoint
    join: Segment


@frozen(kw_only=True)
class Segment:
    """What joins point i to point i+1: straight wavy broken dotted arrow slur none."""

    kind: LineKind
    growth: Growth
    span: Span

    @property
    def slides(self) -> bool:
        """Whether it is drawn as a line (slurs and commas are not)."""
        return self.kind not in ("slur", "none")


@frozen(kw_only=True)
class Band:
    """A register band. `register` is its name, or "" if it was given by two pitches."""

    register: str
    low: Pitch
    high: Pitch
    span: Span


@frozen(kw_only=True)
class DynamicMark:
    """A level at a time; `join` leads from it to the next: "<", ">" or ""."""

    level: str
    at: Fraction
    join: Join
    span: Span

    @property
    def plain(self) -> str:
        """The level of its attack: f for sfz and fp."""
        return _LEVEL_OF_ACCENT.get(self.level, self.level)

    @property
    def left(self) -> str:
        """The level that holds after it: f after sfz, p after fp."""
        return _LEFT_BY_ACCENT.get(self.level, self.plain)


@frozen(kw_only=True)
class WaveMark:
    """A speed or width of waves at a time: a word ("slow", "wide"), or waves per second; `join` leads from it
    to the next: "<", ">" or "" (it holds until then)."""

    word: str
    per_second: Fraction | None = None
    at: Fraction
    join: Join
    span: Span


@frozen(kw_only=True)
class Attacks:
    """Tongued attacks: that many on one sound or along its line, or one for each detached point; `shape` is
    "" (evenly spaced) | "accelerating" | "slowing"."""

    count: int
    shape: AttackShape
    span: Span


@frozen(kw_only=True)
class AskedFingering:
    """mode auto | held | given; for "given", one tube name ("F 1-2", "1-2", "3", "T 2", "short 2") for all points
    or one for each sounding point, "" where it is left to the player; without a span, those of the harmonics that
    points are named by. `others`: the second fingerings of trills, as many as `tubes`, or none."""

    mode: FingeringMode
    tubes: tuple[str, ...]
    span: Span | None
    others: tuple[str, ...] = ()


@frozen(kw_only=True)
class Allow:
    """A finding the composer takes responsibility for, with the reason."""

    rule: str
    reason: str
    span: Span


@frozen(kw_only=True)
class Sung:
    """The sung line of a multiphonic."""

    points: tuple[ContourPoint, ...]
    segments: tuple[Segment, ...]


@frozen(kw_only=True)
class Gesture:
    """A complete gesture.

    beats       its length in beats, > 0, exact; seconds are converted to beats at `tempo`
    in_seconds  written in seconds: engraved in free time, with proportional spacing
    tempo       quarters per minute at its beginning, exact
    pace        the tempo throughout, if it changes while a passage plays the gesture; else None
    beat        the beat of its file in quarters, in which its `lasts` and `@` are written
    spans       where each key of the block is written: key -> span of its value
    speed, width   of the waves of vibrato, trills and the like, in order; () if nothing is asked for
    mute        the mute named, "straight" if a technique takes one and none is named, else None
    """

    name: str
    title: str | None
    instrument: Instrument
    techniques: tuple[Technique, ...]
    points: tuple[ContourPoint, ...]
    segments: tuple[Segment, ...]
    band: Band | None
    beats: Fraction
    in_seconds: bool
    tempo: Fraction
    dynamics: tuple[DynamicMark, ...]
    attacks: Attacks | None
    fingering: AskedFingering
    mute: Mute | None
    sing: Sung | None
    fallback: str | None
    text: str | None
    footnote: str | None
    note: str | None
    notehead: AskedHead
    allows: tuple[Allow, ...]
    spans: Mapping[str, Span]
    span: Span
    beat: Fraction = Fraction(1)
    pace: TempoMap | None = None
    speed: tuple[WaveMark, ...] = ()
    width: tuple[WaveMark, ...] = ()
    own_texts: tuple[str, ...] = ()  # its footnote and note, in each language of the page

    @property
    def size(self) -> int:
        """Its number of notes and silences: points, or attacks if there are more; and grace notes."""
        graces = sum(len(p.graces) + len(p.after) for p in self.points)
        return graces + max(len(self.points), self.attacks.count if self.attacks is not None else 0)

    @property
    def spread(self) -> Attacks | None:
        """The attacks on a single sound; None if each attacked point is one attack."""
        several = sum(p.reached == "attack" for p in self.points) > 1
        return None if several else self.attacks

    @property
    def own_words(self) -> str | None:
        """The composer's texts for the player: one to replace the standard wording, then one to add to it."""
        return " ".join(words for words in (self.footnote, self.note) if words is not None) or None

    @property
    def seconds(self) -> Fraction:
        """Length in seconds."""
        return self.seconds_at(self.beats)

    def seconds_at(self, beats: Fraction) -> Fraction:
        """A time in beats as seconds from the start."""
        if self.pace is not None:
            return Fraction(self.pace.seconds(beats))
        return beats * 60 / self.tempo

    def seconds_between(self, start: Fraction, end: Fraction) -> float:
        """The seconds from one time in beats to another."""
        if self.pace is not None:
            return self.pace.between(start, end)
        # In integers: called for every note, and fractions take ten times as long.
        (a, b), (c, d) = start.as_integer_ratio(), end.as_integer_ratio()
        quarters, per = self.tempo.as_integer_ratio()
        beats, part = (c * b - a * d, b * d) if b != d else (c - a, b)
        return 60.0 * beats * per / (part * quarters)

    def in_time(self, times: Iterable[Fraction]) -> list[float]:
        """Times in beats as seconds from the start."""
        if self.pace is not None:
            return [self.pace.seconds(at) for at in times]
        beat = 60.0 / float(self.tempo)
        return [at.numerator / at.denominator * beat for at in times]  # `float` of a fraction takes twice as long

    def tempo_at(self, beats: Fraction) -> Fraction:
        """Quarters per minute at a time in beats."""
        return self.pace.tempo_at(beats) if self.pace is not None else self.tempo

    @property
    def sounding_points(self) -> tuple[ContourPoint, ...]:
        """The points that are not silence."""
        return tuple(p for p in self.points if p.kind != "silence")

    @property
    def held_points(self) -> tuple[ContourPoint, ...]:
        """The points that stay on their pitch: no line leaves them and no line stops there."""
        last = len(self.segments)
        return tuple(
            p
            for i, p in enumerate(self.points)
            if p.kind != "silence" and not p.stops and (i == last or not self.segments[i].slides)
        )

    @property
    def slides(self) -> tuple[tuple[ContourPoint, ContourPoint, Segment], ...]:
        """The segments that are lines, each with the points at its ends."""
        return tuple(
            (self.points[i], self.points[i + 1], segment)
            for i, segment in enumerate(self.segments)
            if segment.slides
        )

    def index_at(self, beats: Fraction) -> int:
        """The index of the point in force at a time: the last one reached."""
        return max(0, sum(p.at <= beats for p in self.points) - 1)

    def cents_at(self, beats: Fraction) -> Fraction | None:
        """Sounding cents at a time: linear in cents along a line, constant elsewhere; None in silence."""
        index = self.index_at(beats)
        point = self.points[index]
        start = point.sounding_cents
        if start is None or index == len(self.segments) or not self.segments[index].slides:
            return start
        after = self.points[index + 1]
        if after.sounding_cents is None:
            return start
        share = (min(beats, after.at) - point.at) / (after.at - point.at)
        return start + (after.sounding_cents - start) * share

    def techniques_at(self, beats: Fraction) -> tuple[Technique, ...]:
        """The techniques in force at a time."""
        return self.points[self.index_at(beats)].techniques

    def span_of(self, key: str) -> Span:
        """The span of a key's value, or of the heading if the key is missing."""
        return self.spans.get(key, self.span)


def attack_times(gesture: Gesture) -> tuple[Fraction, ...]:
    """Times of the tongued attacks, in beats: those on a single sound, else one for each attacked point."""
    spread = gesture.spread
    if spread is None:
        return tuple(p.at for p in gesture.points if p.reached == "attack")
    start, end = sounds(gesture)
    length = end - start
    return tuple([start + length * share for share in times.shaped(spread.count, spread.shape)])


def sounds(gesture: Gesture) -> tuple[Fraction, Fraction]:
    """When the first sound of a gesture begins and when the first silence after it begins, in beats."""
    points = iter(gesture.points)
    start = next((p.at for p in points if p.kind != "silence"), Fraction(0))
    return start, next((p.at for p in points if p.kind == "silence"), gesture.beats)
