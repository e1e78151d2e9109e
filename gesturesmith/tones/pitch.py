"""The pitch over time: where the points really sound, and how the instrument gets from one to the next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise

from gesturesmith.acoustics.series import hand_glide_cents, partial_cents
from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Path
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.realisation import PlayedPoint, Realisation
from gesturesmith.realise.against import against_the_line
from gesturesmith.realise.curve import along
from gesturesmith.realise.in_force import bell_hand, path_of
from gesturesmith.realise.ways import in_tune_cents, ways
from gesturesmith.techniques.base import Technique
from gesturesmith.tones.types import Curve, at
from gesturesmith.values import frozen

# The share of the time from one harmonic to the next that a lip glissando slides: neither a slide nor steps.
BLUR = Sourced(0.5, HOUSE, "the lip hides half of each step; `lip_gliss_cents` says how many it can hide")
# How far a bend without a line goes, as a share of what the lip can bend the note down.
DIP = Sourced(0.5, HOUSE, "a bend that no line measures keeps to half of what the lip can do")
# The largest share of a tone that its edge takes.
EDGE = Sourced(0.5, HOUSE, "the note itself must be heard")

_BY_THE_LINE = (
    "lip",
    "hand",
    "hand-out",
    "slide",
    "against",
    "trigger",
    "half-valve",
)  # the player goes where the line goes
_NEAR = 25.0  # a step this close to an end, in cents, is not a separate step


@frozen
class Point:
    """A sounding point with its actual pitch and how it is played."""

    index: int
    point: ContourPoint
    cents: float
    played: PlayedPoint | None
    path: Path

    @property
    def shift(self) -> float:
        """Cents by which the hand makes it sound above the pitch fingered."""
        if self.played is None or self.played.fingered_cents is None or self.played.asked_cents is None:
            return 0.0
        return float(self.played.asked_cents) - self.played.fingered_cents


def heard_points(gesture: Gesture, realisation: Realisation) -> dict[int, Point]:
    """The sounding points by their index in the contour."""
    played = {p.index: p for p in realisation.points}
    paths = {i: path_of(p.techniques) for i, p in enumerate(gesture.points)}
    swept = {
        i + n
        for i, segment in enumerate(gesture.segments)
        if segment.slides and paths[i] == "partials"
        for n in (0, 1)
    }
    found = {}
    for i, point in enumerate(gesture.points):
        if point.sounding_cents is None:
            continue
        cents, one = float(point.sounding_cents), played.get(i)
        if one is not None and (i in swept or not _placed(gesture.instrument, point, one, paths[i])):
            cents += one.error_cents
        found[i] = Point(i, point, cents, one, paths[i])
    return found


def _placed(instrument: Instrument, point: ContourPoint, played: PlayedPoint, path: Path) -> bool:
    """Whether the player reaches the pitch asked for instead of staying on the partial as it is."""
    by_ear = point.about or played.correction != "" or abs(played.error_cents) <= in_tune_cents(instrument)
    return by_ear or path in _BY_THE_LINE


def glide(instrument: Instrument, one: Point, two: Point, start: float, end: float, *, breaks: bool) -> Curve:
    """The pitch from one point to the next along a line, from `start` to `end` in seconds, both ends included.

    breaks  whether a slide leaves its partial on the way
    """
    straight = ((start, one.cents), (end, two.cents))
    if one.path == "partials":
        return _stepped(straight, _partials(one), 0.0)
    if one.path == "lip" and _crosses(one, two):
        return _stepped(straight, _partials(one), BLUR.value)
    if one.path == "steps":
        return _stepped(straight, (100.0 * n for n in _semitones(one, two)), 0.0)
    if one.path == "valves":
        return _stepped(straight, _fingered(instrument, one, two), 0.0)
    if one.path == "against" and one.played is not None and two.played is not None and not breaks:
        return _against(straight, one.played, two.played)
    if one.path in ("slide", "against", "trigger") and breaks:
        return _broken(straight, one, two)
    return straight


def _crosses(one: Point, two: Point) -> bool:
    """Whether a lip movement goes from one partial to another."""
    played = one.played, two.played
    if any(t.one_partial for t in one.point.techniques) or played[0] is None or played[1] is None:
        return False
    return played[0].partial != played[1].partial


def _partials(point: Point) -> list[float]:
    """The sounding harmonics of a point's tube."""
    tube = point.played.tube if point.played is not None else None
    if tube is None:
        return []
    base = tube.fundamental_cents + point.shift
    return [base + partial_cents(n) for n in range(1, tube.widest_partials[1] + 1)]


def _semitones(one: Point, two: Point) -> range:
    """The tempered half steps between two pitches, as numbers above C-1."""
    low, high = sorted((one.cents, two.cents))
    return range(int(low // 100), int(high // 100) + 2)


def _fingered(instrument: Instrument, one: Point, two: Point) -> Iterator[float]:
    """The pitches that the standard fingerings of the half steps in between really give: nobody corrects them in
    passing."""
    bell = bell_hand(one.point.techniques)
    for n in _semitones(one, two):
        way = ways(instrument, Fraction(100 * n), bell)[0]
        yield 100.0 * n + way.error


def _stepped(straight: Curve, steps: Iterable[float], blur: float) -> Curve:
    """The way from end to end in steps: each changes when an even slide would be half way to the next.

    blur  the share of the time between two steps during which the pitch slides, 0 to 1
    """
    (start, first), (end, last) = straight
    if first == last:
        return straight
    low, high = min(first, last) + _NEAR, max(first, last) - _NEAR
    between = sorted((c for c in steps if low < c < high), reverse=last < first)
    rungs = [first, *between, last]
    rate = (end - start) / (last - first)  # seconds per cent
    rows = [(start, first)]
    for a, b in pairwise(rungs):
        middle = start + ((a + b) / 2 - first) * rate
        half = blur * (b - a) * rate / 2
        rows += [(middle - half, a), (middle + half, b)]
    return (*rows, (end, last))


def _broken(straight: Curve, one: Point, two: Point) -> Curve:
    """A slide that has to change partials: the tube length changes evenly, and half way the lip changes over.

    Derived: a position is a half step on every partial.
    """
    (start, first), (end, last) = straight
    tubes = [p.played.tube if p.played is not None else None for p in (one, two)]
    if tubes[0] is None or tubes[1] is None:
        return straight
    half = 50.0 * (tubes[1].reach - tubes[0].reach)
    middle = (start + end) / 2
    return ((start, first), (middle, first - half), (middle, last + half), (end, last))


def _against(straight: Curve, one: PlayedPoint, two: PlayedPoint) -> Curve:
    """A slide against the grain: each partial falls or rises with the slide, and the lip jumps to the next."""
    (start, first), (end, last) = straight
    places = [(start + share * (end - start), cents) for share, cents in against_the_line(one, two)]
    return ((start, first), *places, (end, last))


# --- a note by itself -----------------------------------------------------------------------------------------


def moved_alone(instrument: Instrument, point: Point, start: float, end: float) -> Curve | None:
    """The pitch of a note without a line if its technique moves it anyway, else None."""
    force = next((t for t in point.point.techniques if t.path == point.path and not t.needs_line), None)
    if force is None or point.path not in ("lip", "hand"):
        return None
    if point.path == "hand":
        return ((start, point.cents), (end, point.cents - hand_reach(instrument, point, usual=True)))
    reach = along(instrument, "bend_down", point.cents)
    if reach is None:
        return None
    # Down in the middle third and back in the last, as the sign after the note shows.
    third, depth = (end - start) / 3, DIP.value * float(reach.narrow.value)
    return (
        (start, point.cents),
        (start + third, point.cents),
        (start + 2 * third, point.cents - depth),
        (end, point.cents),
    )


def hand_reach(instrument: Instrument, point: Point, *, usual: bool = False) -> float:
    """How far the closing hand takes a note down, in cents: by the law, or the usual half step."""
    if point.played is None or not point.played.partial:
        return 0.0
    limit = instrument.limits.get("hand_lower_cents")
    common = float(limit.narrow.value) if limit is not None else 0.0
    law = hand_glide_cents(point.played.partial)
    return min(law, common) if usual else max(law, common)


def edged(pitch: Curve, techniques: Iterable[Technique], point: Point, *, into: bool, off: bool) -> Curve:
    """A pitch with the edges that its techniques give it, into it and off it.

    An edge lasts as long as the shortest note that may have it, and no more than its share of this one.
    """
    for technique in techniques:
        if technique.layer == "edge-in" and into:
            pitch = _into(pitch, technique, point)
        elif technique.layer == "edge-off" and off:
            pitch = _off(pitch, technique, point)
    return pitch


def edge_s(technique: Technique, seconds: float) -> float:
    """How long an edge lasts on a tone of a given length, in seconds."""
    if technique.sound.edge_share is not None:
        return technique.sound.edge_share.value * seconds
    limit = technique.limits.get("shortest_ms")
    most = EDGE.value * seconds
    return min(most, float(limit.narrow.value) / 1000) if limit is not None else most


def edge_cents(technique: Technique) -> float:
    """Where an edge comes from or goes to, in signed cents from the note."""
    for name, sign in (("lip_down_cents", -1), ("room_below_cents", -1), ("room_above_cents", 1)):
        limit = technique.limits.get(name)
        if limit is not None:
            return sign * float(limit.narrow.value)
    return 0.0


def _into(pitch: Curve, technique: Technique, point: Point) -> Curve:
    start, first = pitch[0]
    end = start + edge_s(technique, pitch[-1][0] - start)
    rest = [row for row in pitch if row[0] > end]
    whole: Curve = ((start, first + edge_cents(technique)), (end, at(pitch, end)))
    if technique.sound.through_harmonics:
        whole = _stepped(whole, _partials(point), 0.0)
    return (*whole, *rest)


def _off(pitch: Curve, technique: Technique, point: Point) -> Curve:
    end, last = pitch[-1]
    start = end - edge_s(technique, end - pitch[0][0])
    rest = [row for row in pitch if row[0] < start]
    turns = technique.sound.edge_turns
    if turns:
        step = (end - start) / (len(turns) - 1)
        return (*rest, *((start + n * step, last + cents) for n, cents in enumerate(turns)))
    whole: Curve = ((start, last), (end, last + edge_cents(technique)))
    return (*rest, *(_stepped(whole, _partials(point), 0.0) if technique.sound.through_harmonics else whole))
