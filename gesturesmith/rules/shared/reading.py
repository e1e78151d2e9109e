"""What rules read from a gesture: written names, notes with their seconds, slides, changes of technique."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from gesturesmith.instruments.base import Instrument, Tube
from gesturesmith.kinds import Path
from gesturesmith.model.gesture import ContourPoint, Gesture, Segment, attack_times
from gesturesmith.model.realisation import PlayedPoint
from gesturesmith.model.tempo import FERMATA
from gesturesmith.realise.in_force import path_of, pitched_by
from gesturesmith.rules.base import Case
from gesturesmith.techniques.base import Technique
from gesturesmith.units import Spelling, frequency_hz, spell
from gesturesmith.values import frozen


def written_name(instrument: Instrument, sounding_cents: Fraction | float) -> str:
    """The written name of a sounding pitch, to the nearest quarter tone: "C6"."""
    return _names(instrument, 50 * round(sounding_cents / 50))[0]


def written_pitch(instrument: Instrument, sounding_cents: Fraction | float) -> Spelling:
    """The same as a pitch."""
    return instrument.written(spell(50 * round(sounding_cents / 50)))


def exact_name(instrument: Instrument, sounding_cents: Fraction | float) -> str:
    """The written name of a sounding pitch to the cent: "Bb4-31c"."""
    return _names(instrument, round(sounding_cents))[0]


def both_names(instrument: Instrument, sounding_cents: Fraction | float) -> str:
    """The written name, and the sounding one if different: "C6 (sounding F5)"."""
    written, sounding = _names(instrument, 50 * round(sounding_cents / 50))
    return written if written == sounding else f"{written} (sounding {sounding})"


@lru_cache(maxsize=4096)
def _names(instrument: Instrument, sounding_cents: int) -> tuple[str, str]:
    """Written and sounding name, cached: the same few pitches are named over and over."""
    sounding = spell(sounding_cents)
    return instrument.written(sounding).name, sounding.name


@lru_cache(maxsize=64)
def far_range(instrument: Instrument) -> tuple[int, int]:
    """The sounding cents beyond which a pitch is refused: a margin outside the widest reading, but not below the
    lowest first partial.
    """
    low, high = instrument.widest_range.value
    far = instrument.limits.get("range_far_cents")
    margin = int(far.narrow.value) if far is not None else 0
    bottom = math.ceil(min(tube.fundamental_cents for tube in instrument.tubes))
    return min(low, max(bottom, low - margin)), high + margin


def point_name(case: Case, point: ContourPoint) -> str:
    """A point's written name, else that of its height in the band."""
    if point.pitch is not None:
        return point.pitch.written.name
    return written_name(case.instrument, point.sounding_cents or 0)


def point_names(case: Case, point: ContourPoint) -> str:
    """The names of a point's pitch as spelled: "Ab5 (sounding Db5)"; else those of its height in the band."""
    if point.pitch is None:
        return both_names(case.instrument, point.sounding_cents or 0)
    written, sounding = point.pitch.written.name, point.pitch.sounding.name
    return written if written == sounding else f"{written} (sounding {sounding})"


def tube_words(instrument: Instrument, tube: Tube | None) -> str:
    """A tube as a player would say it: "F 1-2", "valve 3", "position 5", "the open tube"; "this tube" for none."""
    if tube is None:
        return "this tube"
    if instrument.kind == "slide":
        return f"position {tube.name}"
    if tube.name in ("", "0"):
        return "the open tube"
    valves = "valves" if "-" in tube.name else "valve"
    return tube.name if tube.side else f"{valves} {tube.name}"


def fingering_word(instrument: Instrument) -> str:
    """The player's word for the choice of a note: a fingering or a position."""
    return "position" if instrument.kind == "slide" else "fingering"


def plain(value: float | Fraction) -> str:
    """A number for people: two decimals below 1, one below 100, none above."""
    size = abs(float(value))
    digits = 2 if size < 1 else 1 if size < 100 else 0
    text = f"{float(value):.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def apart(value: float | Fraction, limit: float | Fraction) -> str:
    """A measured number with enough decimals to differ from its limit: "7.33" beside 7.3."""
    said, digits = plain(value), 0
    while said == plain(limit) and digits < 6:
        digits += 1
        said = f"{float(value):.{digits}f}".rstrip("0").rstrip(".")
    return said


def counted(value: float | Fraction, one: str) -> str:
    """A number with what it counts: "1 semitone", "2 semitones"."""
    said = plain(value)
    return f"{said} {one}" if said == "1" else f"{said} {one}s"


def seconds_between(gesture: Gesture, start: Fraction, end: Fraction) -> float:
    return gesture.seconds_between(start, end)


def swept_points(case: Case) -> frozenset[int]:
    """The indices of points between which lines sweep through the partials of a tube."""
    partials = [path_of(point.techniques) == "partials" for point in case.gesture.points]
    lines = [i for i, segment in enumerate(case.gesture.segments) if segment.slides and partials[i]]
    return frozenset(end for i in lines for end in (i, i + 1) if partials[end])


def fingered_path(case: Case, index: int) -> Path:
    """The path of a point's techniques; that of an ordinary note if it is not part of a sweep."""
    path = path_of(case.gesture.points[index].techniques)
    return "none" if path == "partials" and index not in swept_points(case) else path


def slot_s(gesture: Gesture, point: ContourPoint) -> float:
    """The length of a point's slot in seconds, with what a fermata adds to it."""
    seconds = gesture.seconds_between(point.at, point.until)
    return seconds * (1 + FERMATA.value) if "fermata" in point.marks else seconds


def hz(point: ContourPoint) -> float:
    return frequency_hz(point.sounding_cents or 0)


def register_name(case: Case, point: ContourPoint) -> str:
    """The register a point sounds in."""
    cents = point.sounding_cents
    if cents is None:
        return _register(case.instrument, 0.0)
    return _register(case.instrument, cents.numerator if cents.denominator == 1 else float(cents))


@lru_cache(maxsize=1024)
def _register(instrument: Instrument, sounding_cents: float) -> str:
    return instrument.register_of(sounding_cents).name


def pitched_points(case: Case) -> Iterator[tuple[int, ContourPoint]]:
    """The points that sound a pitch, with their index in the contour: no rests, and nothing without lip tone."""
    for index, point in enumerate(case.gesture.points):
        if point.sounding_cents is not None and pitched_by(point.techniques) != "none":
            yield index, point


def played_points(case: Case) -> Iterator[tuple[ContourPoint, PlayedPoint]]:
    """Points with a pitch, each with the way it is played."""
    for played in case.realisation.points:
        if played.asked_cents is not None:
            yield case.gesture.points[played.index], played


def leaves_by_line(gesture: Gesture, index: int) -> bool:
    """Whether a sliding line leaves a point."""
    return index < len(gesture.segments) and gesture.segments[index].slides


def begun(gesture: Gesture) -> Iterator[tuple[Fraction, int]]:
    """The beginnings of sounds, in beats, and their points: each attack, and each note reached by a slur."""
    if gesture.spread is not None:
        times = [(at, gesture.index_at(at)) for at in attack_times(gesture)]
    else:
        times = [(p.at, i) for i, p in enumerate(gesture.points) if p.reached != "line"]
    yield from ((at, i) for at, i in times if gesture.points[i].kind != "silence")


@frozen
class Slide:
    """A sliding line, with the points it joins and their indices in the contour."""

    index: int
    segment: Segment
    start: ContourPoint
    end: ContourPoint

    @property
    def cents(self) -> float:
        """The width in cents, + upwards."""
        return float((self.end.sounding_cents or 0) - (self.start.sounding_cents or 0))


def slides(case: Case, *paths: str) -> Iterator[Slide]:
    """The sliding lines that start by one of `paths`; all of them if none is given."""
    gesture = case.gesture
    for index, segment in enumerate(gesture.segments):
        start, end = gesture.points[index], gesture.points[index + 1]
        if not segment.slides or start.sounding_cents is None or end.sounding_cents is None:
            continue
        if not paths or path_of(start.techniques) in paths:
            yield Slide(index, segment, start, end)


def in_force(case: Case) -> tuple[Technique, ...]:
    """Every technique of the gesture once: its own first, then those its points turn to."""
    seen = {t.key: t for t in case.gesture.techniques}
    for point in case.gesture.points:
        for technique in point.techniques:
            seen.setdefault(technique.key, technique)
    return tuple(seen.values())


def first_with(case: Case, technique: Technique) -> ContourPoint | None:
    """The first sounding point played with a technique."""
    return next((p for p in case.gesture.sounding_points if technique in p.techniques), None)


def stretches(case: Case, technique: Technique) -> Iterator[tuple[ContourPoint, float]]:
    """The unbroken stretches of a technique: the first point of each, and its seconds."""
    begin: ContourPoint | None = None
    end = Fraction(0)
    for point in case.gesture.points:
        if point.kind != "silence" and technique in point.techniques:
            begin, end = begin or point, point.until
        elif begin is not None:
            yield begin, seconds_between(case.gesture, begin.at, end)
            begin = None
    if begin is not None:
        yield begin, seconds_between(case.gesture, begin.at, end)
