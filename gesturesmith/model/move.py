"""Gestures derived from gestures: transposed, stretched, inverted, with another band, length or tempo.

Transposition works on written spellings, and the sounding ones follow: a written and a sounding file of the same
music give the same gestures.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Strokes
from gesturesmith.model.gesture import AskedFingering, Band, ContourPoint, DynamicMark, Gesture, Pitch
from gesturesmith.model.graces import has_graces
from gesturesmith.model.strokes import MEASURED, repeat_beats
from gesturesmith.model.tempo import TempoMap
from gesturesmith.units import Interval, Spelling, awkwardness, chromatic, simplest, spell, spell_quarter, spell_row
from gesturesmith.values import frozen

type Change = Callable[[Spelling, bool], Spelling]  # written spelling, whether approximate -> new spelling


@frozen
class Unmovable:
    """Why a gesture cannot be changed this way, as the end of a sentence."""

    why: str


_AUTO = AskedFingering(mode="auto", tubes=(), span=None)
_REGISTER = Unmovable("its heights lie in a register, which does not move; give it a band of two notes")
_NOTHING = Unmovable("it has no pitch of its own")
_OUTSIDE = Unmovable("it would go beyond the notes that can be written, C0 to B9")


def by_interval(interval: Interval) -> Change:
    """Transposes spellings by an interval, keeping how they are spelled."""
    return lambda name, _: name.transposed(interval)


def by_semitones(count: int, gestures: Iterable[Gesture]) -> Change:
    """Transposes spellings by semitones, all by the one interval that gives the gestures the plainest names.

    A pitch that was written with two names gets the usual one for both.
    """
    names = {name for gesture in gestures for name in written(gesture)}
    row = sorted(names, key=lambda name: (name.pitch_cents, name.steps))
    way = simplest(count, row)
    pitches = Counter(name.pitch_cents for name in row)

    def moved(name: Spelling, _: bool) -> Spelling:
        there = name.transposed(way)
        return _respelled(name, there.pitch_cents - name.cents) if pitches[name.pitch_cents] > 1 else there

    return moved


def written(gesture: Gesture) -> tuple[Spelling, ...]:
    """The written spellings of a gesture's pitches, in order."""
    return tuple(p.pitch.written for p in _all(gesture.points) if p.pitch is not None)


def _all(points: Iterable[ContourPoint]) -> Iterator[ContourPoint]:
    """Points with their grace notes, in order."""
    for point in points:
        yield from (grace.point for grace in point.graces)
        yield point
        yield from (grace.point for grace in point.after)


def _respelled(name: Spelling, cents: Fraction) -> Spelling:
    usual = spell(cents)
    return replace(usual, cents=usual.cents + name.cents)


def first_pitch(gesture: Gesture) -> Spelling | None:
    """The written spelling of the first point with a pitch or a height, or None."""
    for point in gesture.points:
        if point.kind == "pitch" and point.pitch is not None:
            return point.pitch.written
        if point.kind == "height" and point.sounding_cents is not None:
            return spell(point.sounding_cents - gesture.instrument.sounding.cents)
    return None


def to_start(gesture: Gesture, start: Spelling) -> Gesture | Unmovable:
    """The gesture transposed to begin on `start`, a written spelling; heights move by whole semitones."""
    first = first_pitch(gesture)
    if first is None:
        return _NOTHING
    cents = start.pitch_cents - first.pitch_cents
    if next(p for p in gesture.points if p.kind in ("pitch", "height")).kind == "height":
        return changed(gesture, by_interval(chromatic(round(cents / 100))))
    interval = Interval(start.steps - first.steps, cents)

    def move(name: Spelling, _: bool) -> Spelling:
        moved = name.transposed(interval)
        harder = abs(moved.alter) > 1 and abs(moved.alter) > abs(name.alter)
        if harder and moved.alter.denominator == 2:  # one quarter tone reads more easily than three
            return replace(spell_quarter(moved.pitch_cents - moved.cents), cents=moved.cents)
        # B and E# are no easier to read than B and F, which are just as far apart.
        harder |= moved.of_a_white_key and (moved.pitch_cents - start.pitch_cents) % 1200 == 600
        return _respelled(name, moved.pitch_cents - name.cents) if harder else moved

    return changed(gesture, move)


def start_on(gesture: Gesture, cents: Fraction) -> Spelling:
    """The spelling of a written pitch that gives the gesture the plainest names."""
    first, usual = first_pitch(gesture), spell(cents)
    if first is None or usual.alter.denominator != 1 or usual.cents:
        return usual
    sharp = spell(cents, sharps=True)
    other = sharp if sharp != usual else usual.transposed(Interval(1, Fraction(0))) if usual.alter == 1 else usual
    names = written(gesture)

    def weight(start: Spelling) -> int:
        interval = Interval(start.steps - first.steps, start.pitch_cents - first.pitch_cents)
        return awkwardness([name.transposed(interval) for name in names])

    return min((usual, other), key=weight)


def stretched(gesture: Gesture, factor: Fraction) -> Gesture | Unmovable:
    """Every interval from the first pitch multiplied by `factor`; approximate pitches stay on semitones."""
    first = first_pitch(gesture)
    if first is None:
        return _NOTHING
    if factor == 1:
        return gesture
    origin = first.pitch_cents

    def place(name: Spelling, about: bool) -> Fraction:
        cents = origin + (name.pitch_cents - origin) * factor
        return Fraction(round(cents / 100) * 100 if about and name != first else round(cents))

    row = [place(p.pitch.written, p.about) for p in _all(gesture.points) if p.pitch is not None]
    names = dict(zip(row, spell_row(row, first), strict=True))

    def stretch(name: Spelling, about: bool) -> Spelling:
        cents = place(name, about)
        return name if name == first else names.get(cents) or spell(cents)

    return changed(gesture, stretch)


def mirrored(gesture: Gesture) -> Gesture | Unmovable:
    """Inverted about the first pitch: an interval that rose now falls."""
    first = first_pitch(gesture)
    if first is None:
        return _NOTHING

    def mirror(name: Spelling, _: bool) -> Spelling:
        return first.transposed(Interval(first.steps - name.steps, first.pitch_cents - name.pitch_cents))

    return changed(gesture, mirror, turned=True)


def _pitch(instrument: Instrument, written: Spelling) -> Pitch:
    return Pitch(written=written, sounding=instrument.heard(written))


def _fits(pitch: Pitch | None) -> bool:
    return pitch is None or (0 <= pitch.written.octave <= 9 and 0 <= pitch.sounding.octave <= 9)


def _place(instrument: Instrument, band: Band | None, point: ContourPoint) -> Fraction | None:
    """Sounding cents of a height or an extreme."""
    if point.extreme:
        low, high = instrument.usual_range.value
        return Fraction(high if point.extreme == "highest" else low)
    if band is None or point.percent is None:
        return point.sounding_cents
    low_cents = band.low.cents
    return low_cents + (band.high.cents - low_cents) * point.percent / 100


def changed(gesture: Gesture, change: Change, *, turned: bool = False) -> Gesture | Unmovable:
    """The gesture with `change` applied to every pitch and to a written band; `turned`: high becomes low.

    Registers do not move, so heights in one cannot be changed this way.
    """
    if gesture.fingering.mode == "given" and gesture.fingering.span is None:
        gesture = replace(gesture, fingering=_AUTO)  # a harmonic transposed off its tube is a note like any other
    instrument, band = gesture.instrument, gesture.band
    sung = gesture.sing.points if gesture.sing is not None else ()
    kinds = {p.kind for p in (*gesture.points, *sung)}
    if "height" in kinds and band is not None and band.register:
        return _REGISTER
    if not kinds & {"pitch", "height"}:
        return _NOTHING
    if band is not None and not band.register:
        low, high = (_pitch(instrument, change(p.written, True)) for p in (band.low, band.high))
        band = replace(band, low=high, high=low) if turned else replace(band, low=low, high=high)
        if not (_fits(low) and _fits(high)):
            return _OUTSIDE
        if band.low.cents >= band.high.cents:
            return Unmovable("its band would shrink to nothing")

    def one(point: ContourPoint) -> ContourPoint:
        if point.graces or point.after:
            before, after = ([replace(g, point=one(g.point)) for g in row] for row in (point.graces, point.after))
            point = replace(point, graces=tuple(before), after=tuple(after))
        if point.pitch is not None:
            pitch = _pitch(instrument, change(point.pitch.written, point.about))
            return replace(point, pitch=pitch, sounding_cents=pitch.cents)
        if turned and point.extreme:
            point = replace(point, extreme="lowest" if point.extreme == "highest" else "highest")
        if turned and point.percent is not None:
            point = replace(point, percent=100 - point.percent)
        return replace(point, sounding_cents=_place(instrument, band, point))

    points, sung = tuple(map(one, gesture.points)), tuple(map(one, sung))
    if not all(_fits(p.pitch) for p in (*_all(points), *sung)):
        return _OUTSIDE
    sing = replace(gesture.sing, points=sung) if gesture.sing is not None else None
    return replace(gesture, points=points, band=band, sing=sing)


def in_band(gesture: Gesture, band: Band) -> Gesture:
    """The gesture with another band, its heights placed in it."""

    def one(point: ContourPoint) -> ContourPoint:
        return replace(point, sounding_cents=_place(gesture.instrument, band, point))

    points = tuple(one(p) if p.kind == "height" else p for p in gesture.points)
    return replace(gesture, points=points, band=band)


def _rescaled(gesture: Gesture, factor: Fraction) -> Gesture:
    """Every time and length in beats multiplied by `factor`."""

    def points(old: tuple[ContourPoint, ...]) -> tuple[ContourPoint, ...]:
        return tuple(replace(p, at=p.at * factor, until=p.until * factor) for p in old)

    sing = replace(gesture.sing, points=points(gesture.sing.points)) if gesture.sing is not None else None
    dynamics: tuple[DynamicMark, ...] = tuple(replace(m, at=m.at * factor) for m in gesture.dynamics)
    speed, width = (tuple(replace(m, at=m.at * factor) for m in old) for old in (gesture.speed, gesture.width))
    return replace(
        gesture,
        points=points(gesture.points),
        sing=sing,
        dynamics=dynamics,
        speed=speed,
        width=width,
        beats=gesture.beats * factor,
    )


def at_tempo(gesture: Gesture, tempo: Fraction, pace: TempoMap | None = None) -> Gesture:
    """The gesture at another tempo: lengths in beats keep their beats, those in seconds their seconds. `pace`: how
    it changes meanwhile, None if it does not."""
    if (gesture.tempo, gesture.pace) == (tempo, pace):
        return gesture
    if gesture.in_seconds:
        gesture = _rescaled(gesture, tempo / gesture.tempo)
    return replace(gesture, tempo=tempo, pace=pace)


def lasting(gesture: Gesture, length: Fraction, *, seconds: bool) -> Gesture:
    """The gesture with another length, in seconds or beats; inner times scale with it."""
    beats = length * gesture.tempo / 60 if seconds else length
    scaled = gesture if beats == gesture.beats else _rescaled(gesture, beats / gesture.beats)
    return replace(scaled, in_seconds=seconds)


def with_dynamics(gesture: Gesture, marks: tuple[DynamicMark, ...]) -> Gesture:
    """The gesture with other dynamics, which also replace those at its points."""
    points = tuple(replace(p, dynamic="") if p.dynamic else p for p in gesture.points)
    return replace(gesture, points=points, dynamics=marks)


def with_graces(gesture: Gesture, count: int) -> Gesture | Unmovable:
    """At most `count` grace notes at each note, those next to it."""
    if not has_graces(gesture):
        return Unmovable("it has no grace notes")

    def thinned(point: ContourPoint) -> ContourPoint:
        return replace(point, graces=point.graces[max(0, len(point.graces) - count) :], after=point.after[:count])

    return replace(gesture, points=tuple(map(thinned, gesture.points)))


def with_strokes(gesture: Gesture, strokes: Strokes) -> Gesture | Unmovable:
    """The repeated notes repeated otherwise."""
    repeated = [p for p in gesture.points if p.strokes]
    if not repeated:
        return Unmovable("none of its notes is repeated; write `sixteenths` at those that are")
    if strokes in MEASURED and gesture.in_seconds:
        return Unmovable(f"{strokes} count in beats, and it lasts seconds")
    lengths = [(p.until - p.at, repeat_beats(strokes, p.until - p.at)) for p in repeated]
    if any(value is not None and (length % value or length == value) for length, value in lengths):
        return Unmovable(f"a repeated note is no whole number of {strokes} long")
    return replace(gesture, points=tuple(replace(p, strokes=strokes) if p.strokes else p for p in gesture.points))
