"""From a gesture or passage, and the way it is played, to its sound."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import chain, pairwise, zip_longest

from gesturesmith.acoustics.series import partial_cents
from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Colour, Onset
from gesturesmith.model.gesture import ContourPoint, Gesture, Segment
from gesturesmith.model.graces import has_graces, unfolded
from gesturesmith.model.levels import MF
from gesturesmith.model.piece import Passage
from gesturesmith.model.realisation import Realisation
from gesturesmith.model.strokes import has_strokes, struck
from gesturesmith.model.tempo import steady
from gesturesmith.realise.gesture import realise
from gesturesmith.techniques.base import Technique
from gesturesmith.tones import material
from gesturesmith.tones.clock import Clock, pauses, rest_pause
from gesturesmith.tones.pitch import Point, edged, glide, heard_points, moved_alone
from gesturesmith.tones.types import Curve, Performance, Tone, Wave, at, part, simple
from gesturesmith.values import frozen

STACCATO = Sourced(0.5, PRACTICE, "common practice: about half of its value")
BREATH_S = Sourced(0.3, HOUSE, "a quick breath; as `tongue_change_s`")

type Drawing = Callable[[material.Along], Curve]


def perform(gesture: Gesture, realisation: Realisation) -> Performance:
    """The sound of a single gesture, played in this way."""
    gesture, realisation = _in_time(gesture, realisation)
    clock = Clock(gesture.pace or steady(gesture.tempo), pauses(gesture, Fraction(0)))
    tones = _Player(gesture, realisation, clock, Fraction(0), gesture.name, float(MF)).tones()
    return Performance(
        tones=tuple(tones),
        seconds=clock.arrive(gesture.beats),
        fermatas=clock.fermatas,
        time=clock.rows(gesture.beats),
    )


def perform_passage(passage: Passage, played: Sequence[tuple[Gesture, Realisation] | None]) -> Performance:
    """The sound of a passage, with its repeats.

    played  each item's gesture as played, with a fallback if it is used, and its realisation; None for rests

    A level continues into a following gesture without levels, as on the page.
    """
    order = [(played[i], passage.items[i], offset) for i, offset in _in_order(passage)]
    held = (
        pauses(one[0], offset) if one is not None else rest_pause(passage, item, offset)
        for one, item, offset in order
    )
    places = [(offset, item.at) for _, item, offset in order]
    clock = Clock(passage.tempo_map, chain.from_iterable(held), places)
    tones: list[Tone] = []
    level, end = float(MF), Fraction(0)
    for one, item, offset in order:
        end = offset + item.beats
        if one is not None:
            gesture, realisation = _in_time(*one)
            tones += _Player(gesture, realisation, clock, offset, item.played, level).tones()
            level = material.level_after(gesture, level)
    return Performance(
        tones=tuple(tones),
        seconds=clock.arrive(end),
        fermatas=clock.fermatas,
        begins=tuple((clock.arrive(offset), item.played) for _, item, offset in order if item.played),
        time=clock.rows(end),
    )


def _in_time(gesture: Gesture, realisation: Realisation) -> tuple[Gesture, Realisation]:
    """A gesture with its grace notes as notes in time, and their realisation."""
    if not has_graces(gesture):
        return gesture, realisation
    played = unfolded(gesture)
    return played, realise(played)


def _in_order(passage: Passage) -> Iterator[tuple[int, Fraction]]:
    """The items in playing order, each with its time in beats from the beginning."""
    numbers: list[int] = []
    begun = 0
    for repeat in passage.repeats:
        inside = [i for i, item in enumerate(passage.items) if repeat.start <= item.at < repeat.end]
        numbers += [*range(begun, inside[0]), *inside * repeat.times]
        begun = inside[-1] + 1
    numbers += range(begun, len(passage.items))
    now = started = Fraction(0)
    cells: dict[int, list[int]] = {}
    for i in numbers:
        place = passage.items[i].box
        if place is not None and not place.goes_on:
            if place.cell == 0 and place.first:
                started, cells = now, {}
            if place.cell and place.box.choose == "one":
                continue
            cells.setdefault(place.cell, []).append(i)
        elif place is not None:
            end = started + place.box.beats
            yield from _again(passage, [k for row in cells.values() for k in row], now, end)
            now = end - passage.items[i].beats
        yield i, now
        now += passage.items[i].beats


def _again(passage: Passage, row: list[int], now: Fraction, end: Fraction) -> Iterator[tuple[int, Fraction]]:
    """The content of a box again and again, as long as a whole repetition fits."""
    while True:
        for i in row:
            if now + passage.items[i].beats > end:
                return
            yield i, now
            now += passage.items[i].beats


@frozen
class _Stretch:
    """The points of one sound: joined by lines, with the same techniques.

    into      the next point, if a line leads to it and the sound continues there with other techniques; else None
    slurred   whether the next sound follows without the tongue
    """

    points: tuple[Point, ...]
    into: Point | None
    slurred: bool
    onset: Onset

    @property
    def techniques(self) -> tuple[Technique, ...]:
        return self.points[0].point.techniques

    @property
    def first(self) -> ContourPoint:
        return self.points[0].point

    @property
    def last(self) -> ContourPoint:
        return self.points[-1].point

    @property
    def goes_on(self) -> bool:
        """Whether the sound continues into the next, by a line or slur."""
        return self.into is not None or self.slurred


def _pieces(points: dict[int, Point], segments: Sequence[Segment]) -> Iterator[_Stretch]:
    """The sounds of a line of points, in order."""
    groups: list[list[Point]] = []
    for i, point in sorted(points.items()):
        before = points.get(i - 1)
        if before is not None and point.point.reached == "line" and _same_sound(before.point, point.point):
            groups[-1].append(point)
        else:
            groups.append([point])
    for group, following in zip_longest(groups, groups[1:]):
        first, last = group[0], group[-1]
        into = points.get(last.index + 1) if last.index < len(segments) and segments[last.index].slides else None
        slurred = following is not None and _carried(following[0], last) and not _noise(following[0].point)
        yield _Stretch(
            points=tuple(group),
            into=into if into is not None and not _noise(into.point) else None,
            slurred=slurred,
            onset=_onset(first, points.get(first.index - 1)),
        )


def _noise(point: ContourPoint) -> Technique | None:
    """The technique at a point that gives no pitch, if any."""
    return next((t for t in point.techniques if t.pitched == "none"), None)


def _same_sound(before: ContourPoint, point: ContourPoint) -> bool:
    said = point.syllable or point.breath != before.breath
    return before.techniques == point.techniques and "breath" not in before.marks and not said


def _carried(point: Point, before: Point | None) -> bool:
    """Whether a sound follows the one before without the tongue: there is one, and no breath in between."""
    return (
        before is not None
        and before.index == point.index - 1
        and point.point.reached in ("slur", "line")
        and "breath" not in before.point.marks
        and _noise(before.point) is None
    )


def _onset(first: Point, before: Point | None) -> Onset:
    if _carried(first, before):
        return "slur" if first.point.reached == "slur" else "continued"
    return "split" if any(t.sound.splits for t in first.point.techniques) else "attack"


class _Player:
    """Plays one gesture, timed by the clock of its music."""

    def __init__(
        self, gesture: Gesture, realisation: Realisation, clock: Clock, offset: Fraction, name: str, level: float
    ) -> None:
        self._gesture = gesture
        self._realisation = realisation
        self._clock = clock
        self._offset = offset
        self._name = name
        self._level = level
        self._instrument: Instrument = gesture.instrument
        attacks = [at for at, _ in struck(gesture)] if gesture.spread is not None or has_strokes(gesture) else []
        self._attacks = tuple(clock.arrive(offset + beats) for beats in attacks)

    def tones(self) -> list[Tone]:
        """Its tones, in order of beginning."""
        points = heard_points(self._gesture, self._realisation)
        found: list[Tone] = []
        for piece in _pieces(points, self._gesture.segments):
            noise = _noise(piece.first)
            found += self._sounds(piece) if noise is None else self._strokes(piece, noise)
        found += self._sung(tuple(p.point for p in points.values()))
        found += self._in_rests()
        return sorted(found, key=lambda tone: tone.start)

    # --- sounds ------------------------------------------------------------------------------------------------

    def _sounds(self, piece: _Stretch) -> Iterator[Tone]:
        """The tones of one sound: one for each attack, and those that sound with it."""
        start, end = self._span(piece)
        if end <= start:
            return  # a technique that begins where a line stops is not heard
        techniques, drawn = piece.techniques, self._drawing(piece)
        level = self._level_of(piece, start, end)
        asked = material.asked_waves(
            self._gesture, self._clock, self._offset, piece.first.at, max(piece.last.until, piece.first.until)
        )
        whole = Tone(
            start=start,
            end=end,
            onset=piece.onset,
            pitch=edged(
                part(self._pitch(piece), start, end),
                techniques,
                piece.points[0],
                into=piece.onset in ("attack", "split"),
                off=not piece.goes_on,
            ),
            waves=material.waves(piece.points, piece.into, drawn, asked),
            level=level if piece.goes_on else material.faded(level, techniques, start),
            air=_unless_nothing(drawn(material.air)),
            hand=material.opening(piece.points, start, end, asked)
            or _unless_nothing(drawn(material.hand(self._instrument))),
            rolls=material.rolls(piece.points, piece.into, drawn),
            breath=piece.first.breath,
            syllable=piece.first.syllable,
            mute=self._mute(techniques),
            colours=_colours(techniques),
            techniques=_keys(techniques),
            gesture=self._name,
        )
        for tone in self._attacked(whole, piece):
            yield tone
            yield from self._seconds(tone, piece, drawn)
            yield from self._unwritten_voice(tone, techniques)

    def _attacked(self, whole: Tone, piece: _Stretch) -> Iterator[Tone]:
        """One tone for each attack in it."""
        starts = (whole.start, *(t for t in self._attacks if whole.start < t < whole.end))
        short = STACCATO.value if "staccato" in piece.first.marks and len(piece.points) == 1 else 1.0
        for number, (start, until) in enumerate(pairwise((*starts, whole.end))):
            last = number == len(starts) - 1  # which is short already
            onset: Onset = whole.onset if number == 0 or whole.onset == "split" else "attack"
            cut = _cut(whole, start, until if last else start + (until - start) * short)
            yield replace(cut, onset=onset, syllable=whole.syllable if number == 0 else "")

    def _seconds(self, tone: Tone, piece: _Stretch, drawn: Drawing) -> Iterator[Tone]:
        """The upper partials of neighbouring ones held at once."""
        holds = max((t.holds for t in piece.techniques), default=1)
        if all(p.played is not None and p.played.partial for p in piece.points):
            for n in range(1, holds):
                above = drawn(_partials_above(n))
                yield _cut(replace(tone, voice="second", pitch=_added(tone.pitch, above)), tone.start, tone.end)

    def _strokes(self, piece: _Stretch, noise: Technique) -> Iterator[Tone]:
        """Short noises, one for each attack."""
        start, end = self._span(piece)
        attacks = [t for t in self._attacks if start <= t < end] if self._attacks else [start]
        for begin, until in pairwise((*attacks, end)):
            stop = begin + min(_stroke_s(noise), until - begin)
            if stop > begin:
                yield Tone(
                    start=begin,
                    end=stop,
                    level=self._level_of(piece, begin, stop),
                    noise=noise.sound.noise,
                    syllable=piece.first.syllable if begin == start else "",
                    mute=self._mute(piece.techniques),
                    colours=_colours(piece.techniques),
                    techniques=_keys(piece.techniques),
                    gesture=self._name,
                )

    def _in_rests(self) -> Iterator[Tone]:
        """Sounds breathed or spoken during a rest, as long as the rest."""
        for point in self._gesture.points:
            if point.kind != "silence" or not (point.breath or point.syllable):
                continue
            start, end = self._arrive(point.at), self._arrive(point.until)
            level = material.level(self._gesture, self._clock, self._offset, point.at, point.until, self._level)
            yield Tone(
                voice="spoken" if point.syllable else "played",
                start=start,
                end=end,
                level=level,
                air=((start, 1.0), (end, 1.0)) if point.breath else (),
                breath=point.breath,
                syllable=point.syllable,
                gesture=self._name,
            )

    # --- voices ------------------------------------------------------------------------------------------------

    def _sung(self, played: tuple[ContourPoint, ...]) -> Iterator[Tone]:
        """The written sung line."""
        line = self._gesture.sing
        if line is None:
            return
        singing = tuple(dict.fromkeys(t for point in played for t in point.techniques if t.sings))
        sung = {
            i: Point(i, point, float(point.sounding_cents), None, "none")
            for i, point in enumerate(line.points)
            if point.sounding_cents is not None
        }
        for piece in _pieces(sung, line.segments):
            start, end = self._span(piece)
            if end > start:
                level, pitch = self._level_of(piece, start, end), part(self._pitch(piece), start, end)
                yield self._voice(start, end, piece.onset, pitch, level, singing)

    def _unwritten_voice(self, tone: Tone, techniques: tuple[Technique, ...]) -> Iterator[Tone]:
        """The voice that goes with a tone if no sung line is written."""
        singing = next((t for t in techniques if t.sings and t.sound.sung_cents is not None), None)
        if singing is None or singing.sound.sung_cents is None or self._gesture.sing is not None:
            return
        first = at(tone.pitch, tone.start)
        by = self._in_voice(first + singing.sound.sung_cents.value) - first
        pitch = tuple((seconds, cents + by) for seconds, cents in tone.pitch)
        yield self._voice(tone.start, tone.end, tone.onset, pitch, tone.level, (singing,))

    def _in_voice(self, cents: float) -> float:
        """A pitch in an octave that a voice can sing."""
        limit = self._instrument.limits.get("sing_cents")
        if limit is not None:
            low, high = limit.narrow.value
            cents -= 1200.0 * max(0, math.ceil((cents - high) / 1200))
            cents += 1200.0 * max(0, math.ceil((low - cents) / 1200))
        return cents

    def _voice(
        self, start: float, end: float, onset: Onset, pitch: Curve, level: Curve, singing: tuple[Technique, ...]
    ) -> Tone:
        return Tone(
            voice="sung",
            start=start,
            end=end,
            onset=onset,
            pitch=pitch,
            level=level,
            techniques=_keys(singing),
            gesture=self._name,
        )

    # --- along a sound -------------------------------------------------------------------------------------------

    def _span(self, piece: _Stretch) -> tuple[float, float]:
        """When a sound begins and ends, in seconds."""
        start, end = self._arrive(piece.first.at), self._arrive(piece.last.until)
        if "breath" in piece.last.marks:
            end -= min(BREATH_S.value, (end - start) / 2)
        elif "staccato" in piece.last.marks and not piece.goes_on:
            slot = self._arrive(piece.last.at)
            last = max((t for t in self._attacks if slot < t < end), default=slot)
            end = last + (end - last) * STACCATO.value
        return start, end

    def _pitch(self, piece: _Stretch) -> Curve:
        """The pitch of a sound through its points, to its end."""
        alone = piece.points[0]
        if len(piece.points) == 1 and piece.into is None and alone.point.reached != "line":
            start, end = self._arrive(alone.point.at), self._arrive(alone.point.until)
            moved = moved_alone(self._instrument, alone, start, end)
            if moved is not None:
                return moved
        rows: list[tuple[float, float]] = []
        for one, two in zip_longest(piece.points, piece.points[1:]):
            to = two or piece.into
            rows.append((self._arrive(one.point.at), one.cents))
            if to is None:
                rows.append((self._arrive(one.point.until), one.cents))
            else:
                start, end = self._leave(one.point.at), self._reach(to.point.at)
                rows += glide(self._instrument, one, to, start, end, breaks=to.index in self._realisation.breaks)
        return simple(tuple(rows))

    def _drawing(self, piece: _Stretch) -> Drawing:
        """Draws a property along a sound: constant on a point, linear along a line."""
        start, end = self._span(piece)

        def drawn(of: material.Along) -> Curve:
            rows: list[tuple[float, float]] = []
            for one in piece.points:
                rows += [(self._arrive(one.point.at), of(one)), (self._leave(one.point.at), of(one))]
            if piece.into is not None:
                rows.append((self._reach(piece.into.point.at), of(piece.into)))
            else:
                rows.append((self._arrive(piece.last.until), of(piece.points[-1])))
            return part(tuple(rows), start, end)

        return drawn

    def _level_of(self, piece: _Stretch, start: float, end: float) -> Curve:
        """The level between two times of a sound, with its accents."""
        first, last = piece.first.at, piece.last.until
        curve = material.level(self._gesture, self._clock, self._offset, first, last, self._level)
        for point in piece.points:
            curve = material.accented(curve, point.point.marks, self._arrive(point.point.at))
        return part(curve, start, end)

    def _mute(self, techniques: tuple[Technique, ...]) -> str:
        return (self._gesture.mute or "") if any(t.takes_mute for t in techniques) else ""

    def _reach(self, beats: Fraction) -> float:
        return self._clock.reach(self._offset + beats)

    def _arrive(self, beats: Fraction) -> float:
        return self._clock.arrive(self._offset + beats)

    def _leave(self, beats: Fraction) -> float:
        return self._clock.leave(self._offset + beats)


def _keys(techniques: Iterable[Technique]) -> tuple[str, ...]:
    return tuple(t.key for t in techniques if t.layer != "none")


def _colours(techniques: Iterable[Technique]) -> tuple[Colour, ...]:
    return tuple(t.sound.colour for t in techniques if t.sound.colour)


def _stroke_s(noise: Technique) -> float:
    """How long a noise lasts: the shortest audible, else the time between the fastest."""
    shortest, fastest = noise.limits.get("shortest_ms"), noise.limits.get("fastest_per_s")
    if shortest is not None:
        return float(shortest.narrow.value) / 1000
    return 1 / float(fastest.narrow.value) if fastest is not None else material.STROKE_S.value


def _partials_above(n: int) -> material.Along:
    """Cents from the partial of a point to the nth above it."""
    return lambda point: (
        partial_cents(point.played.partial + n) - partial_cents(point.played.partial)
        if point.played is not None and point.played.partial
        else 0.0
    )


def _unless_nothing(curve: Curve) -> Curve:
    return curve if any(value for _, value in curve) else ()


def _added(curve: Curve, other: Curve) -> Curve:
    return tuple((seconds, value + at(other, seconds)) for seconds, value in curve)


def _cut(tone: Tone, start: float, end: float) -> Tone:
    """Part of a tone."""
    if (start, end) == (tone.start, tone.end):
        return tone
    return replace(
        tone,
        start=start,
        end=end,
        pitch=part(tone.pitch, start, end),
        level=part(tone.level, start, end),
        air=part(tone.air, start, end),
        hand=part(tone.hand, start, end),
        waves=tuple(_wave_cut(w, start, end) for w in tone.waves),
        rolls=tuple(replace(r, amount=part(r.amount, start, end)) for r in tone.rolls),
    )


def _wave_cut(wave: Wave, start: float, end: float) -> Wave:
    """Part of a wave."""
    speeds = part(wave.speeds, start, end)
    return replace(wave, hz=speeds[0][1] if speeds else wave.hz, cents=part(wave.cents, start, end), speeds=speeds)
