"""Tongued repeats of a note that is written once, with strokes through the stem: the times of the repeats."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Strokes
from gesturesmith.model import messages
from gesturesmith.model.context import Context
from gesturesmith.model.gesture import ContourPoint, Gesture, Segment, attack_times
from gesturesmith.source import Span

# Length of each repeat in beats. Unmeasured ones are as fast as possible.
MEASURED: dict[Strokes, Fraction] = {
    "eighths": Fraction(1, 2),
    "sixteenths": Fraction(1, 4),
    "thirty-seconds": Fraction(1, 8),
}
_USUAL = "single_tongue"
_TRIPLET = Fraction(2, 3)


def repeat_beats(strokes: Strokes, length: Fraction) -> Fraction | None:
    """Beats of each repeat of a note so many beats long; None if they are not measured. Strokes count in the values
    that are printed: a note within a beat in thirds stands in a triplet, and its repeats are of the triplet."""
    value = MEASURED.get(strokes)
    third, rest = divmod(length.denominator, 3)
    in_triplet = length < 1 and not rest and third.bit_count() == 1
    return value * _TRIPLET if value is not None and in_triplet else value


def has_strokes(gesture: Gesture) -> bool:
    """Whether any note is repeated."""
    return any(point.strokes for point in gesture.points)


def struck(gesture: Gesture, *, unmeasured: bool = True) -> Iterator[tuple[Fraction, ContourPoint]]:
    """The time of each attack, in beats from the start, with its sounding point; each repeat is an attack.
    `unmeasured`: include repeats whose speed is up to the player."""
    if gesture.spread is None:
        for point in gesture.points:
            if point.reached == "attack":
                yield from _repeats(gesture, point, point.at, unmeasured)
        return
    points = gesture.sounding_points
    place = 0
    for at in attack_times(gesture) if points else ():
        while place + 1 < len(points) and points[place + 1].at <= at:
            place += 1
        yield from _repeats(gesture, points[place], at, unmeasured)


def _repeats(
    gesture: Gesture, point: ContourPoint, at: Fraction, unmeasured: bool
) -> Iterator[tuple[Fraction, ContourPoint]]:
    """An attack and its repeats."""
    yield at, point
    if point.strokes and (unmeasured or point.strokes in MEASURED):
        yield from ((at + gap, point) for gap in _gaps(gesture, point))


def gap_beats(gesture: Gesture, point: ContourPoint) -> Fraction:
    """Beats from one repeat of a point to the next; its whole length if it is not repeated."""
    length = point.until - point.at
    if not point.strokes:
        return length
    measured = repeat_beats(point.strokes, length)
    if measured is not None:
        return measured
    fastest = _fastest_per_s(gesture.instrument, point) * 60 / gesture.tempo_at(point.at)
    return length / max(1, int(length * fastest))


def _gaps(gesture: Gesture, point: ContourPoint) -> Iterator[Fraction]:
    gap = gap_beats(gesture, point)
    at = gap
    while at < point.until - point.at:
        yield at
        at += gap


def _fastest_per_s(instrument: Instrument, point: ContourPoint) -> Fraction:
    """Comfortable attacks per second with the tonguing in force: the assumed speed of unmeasured repeats."""
    cents = point.sounding_cents
    register = instrument.register_of(float(cents if cents is not None else 0)).name
    kind = next((t.rate for t in point.techniques if t.rate), _USUAL)
    rates = [instrument.limits.get(f"{kind}_per_s_{register}")]
    rates += [t.limits.get("fastest_per_s") for t in point.techniques]
    found = [Fraction(str(limit.narrow.value)) for limit in rates if limit is not None]
    return min(found, default=Fraction(5))


def check(
    ctx: Context,
    points: Sequence[ContourPoint],
    segments: Sequence[Segment],
    *,
    seconds: bool,
    attacks: Span | None,
) -> None:
    """Report notes that cannot be repeated like this. `attacks` is the span of the gesture's own `attacks`."""
    for index, point in enumerate(points):
        if point.strokes:
            why = _wrong(ctx, points, segments, index, seconds, attacks)
            if why:
                ctx.error("strokes-misplaced", point.span, word=point.strokes, why=why)


def _wrong(
    ctx: Context,
    points: Sequence[ContourPoint],
    segments: Sequence[Segment],
    index: int,
    seconds: bool,
    attacks: Span | None,
) -> str:
    point = points[index]
    around = [*segments[max(0, index - 1) : index], *segments[index : index + 1]]
    if any(segment.kind != "none" for segment in around):
        return "each repeat is tongued, on one pitch; put commas beside the note, not a line or a slur"
    if attacks is not None:
        return "`attacks` says already how often the tongue strikes; keep one of them"
    rolled = next((t for t in point.techniques if t.look.tremolo), None)
    if rolled is not None:
        return f"{rolled.key} is written with strokes as well; keep one of them"
    length = point.until - point.at
    value = repeat_beats(point.strokes, length)
    if value is None:
        return ""
    if seconds:
        return "they count in beats, and this gesture lasts seconds; write `unmeasured`, or `lasts` in beats"
    if length % value or length == value:
        beats = messages.length(length, False)
        otherwise = "write `unmeasured`, or the repeats as notes of their own"
        if length > 1 and not length % Fraction(1, 3):
            otherwise = f"write it in notes within a beat, `for 2/3 {point.strokes}`, which count in triplets"
        return (
            f"the note lasts {beats}, and each of them {messages.length(value, False)}: make it a multiple, or "
            f"{otherwise}"
        )
    return ""
