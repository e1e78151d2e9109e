"""What the instrument can do around the lines of a gesture: what lip, hand or slide reach, and the harmonics of a
tube. The same values as the rules'."""

from __future__ import annotations

from collections.abc import Iterator

from gesturesmith.acoustics.series import partial_cents
from gesturesmith.evidence import Limit
from gesturesmith.instruments.base import Tube
from gesturesmith.kinds import Direction
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.realise.in_force import path_of, stays_on_partial
from gesturesmith.rules.base import Case
from gesturesmith.rules.shared.limits import FAR
from gesturesmith.rules.shared.reach import bend_limit, hand_reaches, slide_goes_to
from gesturesmith.rules.shared.reading import exact_name, plain, tube_words
from gesturesmith.values import frozen

_LOST = 1e-6  # cents that rounding may lose


@frozen(kw_only=True)
class ReachBand:
    """Pitches within reach from a point of a gesture while its line lasts.

    first, last   indices of the points between which it holds
    sure          sounding cents, lowest and highest, that nobody doubts
    widest        the widest reading: beyond it nothing goes
    outside       indices of the points that nothing reaches, where it is known otherwise; else None
    above_is_open whether what lies above the band is simply another open note
    words         the same in words
    """

    first: int
    last: int
    sure: tuple[float, float]
    widest: tuple[float, float]
    words: str
    outside: frozenset[int] | None = None
    above_is_open: bool = False


@frozen(kw_only=True)
class Ladder:
    """The harmonics of a tube, as (number, sounding cents); `used`: the numbers that a line sweeps."""

    tube: Tube
    rungs: tuple[tuple[int, float], ...]
    used: frozenset[int]
    words: str


def bands(case: Case) -> Iterator[ReachBand]:
    """The reach of lip, hand and slide around each note that a line leaves."""
    for first, last in _runs(case):
        home = case.gesture.points[first]
        path = path_of(home.techniques)
        made: ReachBand | None = None
        if path == "lip" and stays_on_partial(home.techniques):
            made = _lip(case, first, last)
        elif path == "hand":
            made = _hand(case, first, last)
        elif path == "hand-out":
            made = _hand_out(case, first, last)
        elif path == "slide":
            made = _slide(case, first, last)
        if made is not None:
            yield made


def ladder(case: Case) -> Ladder | None:
    """The harmonics of the tube that a sweep or lip glissando is played on; None without one."""
    swept = case.realisation.tube is not None and bool(case.realisation.partials)
    lips = [
        played.tube
        for played in case.realisation.points
        if path_of(case.gesture.points[played.index].techniques) == "lip"
        and not stays_on_partial(case.gesture.points[played.index].techniques)
    ]
    tube = case.realisation.tube if swept else next((t for t in lips if t is not None), None)
    if tube is None:
        return None
    used = frozenset(case.realisation.partials)
    count = f"{len(used)} harmonics of {tube_words(case.instrument, tube)} on the way"
    return Ladder(
        tube=tube,
        rungs=tuple(rungs(tube)),
        used=used,
        words=count if used else f"the harmonics of {tube_words(case.instrument, tube)}",
    )


def rungs(tube: Tube) -> Iterator[tuple[int, float]]:
    """The harmonics that a tube gives, with their sounding cents."""
    low, high = tube.widest_partials
    for n in range(low, high + 1):
        yield n, tube.fundamental_cents + partial_cents(n)


def _runs(case: Case) -> Iterator[tuple[int, int]]:
    """The notes that a sliding line leaves, each with the last point that lines lead to."""
    gesture = case.gesture
    first: int | None = None
    for index, point in enumerate(gesture.points):
        slides = index < len(gesture.segments) and gesture.segments[index].slides
        if first is None and slides and point.sounding_cents is not None:
            first = index
        elif first is not None and not slides:
            yield first, index
            first = None


def _widest(limit: Limit) -> float:
    """Where it is refused; the narrow reading where nothing refuses."""
    if limit.wide is None:
        return float(limit.narrow.value)
    return float(limit.wide.value) * (FAR if limit.wide.kind.only_far else 1)


def _cents(point: ContourPoint) -> float:
    return float(point.sounding_cents or 0)


def _lip(case: Case, first: int, last: int) -> ReachBand | None:
    home = case.gesture.points[first]
    ways: tuple[Direction, ...] = ("down", "up")
    down, up = (bend_limit(case, home, way) for way in ways)
    if down is None or up is None:
        return None
    at = _cents(home)
    return ReachBand(
        first=first,
        last=last,
        sure=(at - down.narrow.value, at + up.narrow.value),
        widest=(at - _widest(down), at + _widest(up)),
        words=f"the lip takes {exact_name(case.instrument, at)} down {plain(down.narrow.value)} cents, "
        f"up {plain(up.narrow.value)}",
    )


def _hand(case: Case, first: int, last: int) -> ReachBand | None:
    reaches = [one for one in hand_reaches(case) if first <= one.played.index <= last]
    if not reaches:
        return None
    one = max(reaches, key=lambda reach: reach.played.error_cents)
    top, sure = one.open_cents, float(one.limit.narrow.value)
    return ReachBand(
        first=first,
        last=last,
        sure=(top - sure - one.slack, top),
        widest=(top - _widest(one.limit) - one.slack, top),
        words=f"the hand takes {exact_name(case.instrument, top)} down {plain(sure)} cents, "
        f"at most {plain(_widest(one.limit))}",
        above_is_open=True,
    )


def _hand_out(case: Case, first: int, last: int) -> ReachBand | None:
    limit = case.instrument.limits.get("hand_out_widest_cents")
    if limit is None:
        return None
    at = _cents(case.gesture.points[first])
    sure, widest = float(limit.narrow.value), _widest(limit)
    return ReachBand(
        first=first,
        last=last,
        sure=(at - sure, at + sure),
        widest=(at - widest, at + widest),
        words=f"smooth with the hand out over {plain(sure / 100)} semitones",
    )


def _slide(case: Case, first: int, last: int) -> ReachBand | None:
    points = case.gesture.points
    at = _cents(points[first])
    ends = [_cents(point) for point in points[first : last + 1]]
    low = slide_goes_to(case.instrument, at, min(*ends, at - 1))
    high = slide_goes_to(case.instrument, at, max(*ends, at + 1))
    return ReachBand(
        first=first,
        last=last,
        sure=(low, high),
        widest=(low, high),
        outside=frozenset(case.realisation.breaks),
        words=f"on one partial the slide reaches from {exact_name(case.instrument, low)} to "
        f"{exact_name(case.instrument, high)}",
    )


def leaves(case: Case, band: ReachBand) -> Iterator[tuple[int, bool]]:
    """The points at which a line leaves the band, each with whether it leaves the widest reading too."""
    for index in range(band.first, band.last + 1):
        cents = case.gesture.points[index].sounding_cents
        if band.outside is not None:
            if index in band.outside:
                yield index, True
        elif cents is not None and not _inside(float(cents), band.sure, band.above_is_open):
            yield index, not _inside(float(cents), band.widest, band.above_is_open)


def _inside(cents: float, edges: tuple[float, float], open_above: bool) -> bool:
    return edges[0] - _LOST <= cents and (open_above or cents <= edges[1] + _LOST)
