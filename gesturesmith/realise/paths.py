"""Choices over a whole gesture: the least movement from note to note, and one tube for sweeps and held tubes."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from gesturesmith.acoustics.series import partial_cents
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Bell
from gesturesmith.realise.curve import along
from gesturesmith.realise.ways import (
    PossibleFingering,
    fingered_cents,
    in_tune_cents,
    ladder,
    movement,
    tuning_cost,
    ways,
)

_UNHURRIED_S = 0.08  # in notes of this length a moved finger costs 1; in longer ones it costs less
_BREAK = 1000.0  # for a slide that cannot go as its technique asks: anything else is better
_FAR_APART, _FAR = 0.3, 4.0  # for each position of the slide's way against the grain, up to this many
_LEAST_AGAINST = 0.5  # positions: a slide that moves less does not seem to move
_LONG = 16  # points: from here on it pays to look for fingerings that cannot be chosen
_ROUNDED = 1e-9
_TRIGGER_UNUSED = 6.0  # for a line that needs no trigger, where the trigger is asked for

type _Allowed = Callable[[PossibleFingering, PossibleFingering], bool]


class AskedPoint(NamedTuple):
    """One sounding point, as far as the choice is concerned.

    cents     sounding pitch asked for
    about     approximate
    bell      "" | "half" | "stopped" | "muted", which keeps the hand out
    names     the fingerings the composer allows, () for all
    seconds   from the start of the gesture
    other     the second fingering of a trill, as the composer names it; "" for none
    first     on the first harmonic of a tube, whatever else gives the pitch
    """

    cents: Fraction
    about: bool
    bell: Bell
    names: tuple[str, ...]
    seconds: float
    other: str = ""
    first: bool = False


def ways_of(instrument: Instrument, asked: AskedPoint) -> tuple[PossibleFingering, ...]:
    """The possible fingerings of a point; an approximate pitch is fingered as the nearest semitone."""
    if not asked.about:
        return ways(instrument, asked.cents, asked.bell, asked.names, asked.first)
    semitone = Fraction(100 * round(asked.cents / 100))
    found = ways(instrument, semitone, asked.bell, asked.names, asked.first)
    off = float(asked.cents - semitone)
    return tuple(w._replace(error=w.error - off, fingered=w.fingered + off) for w in found) if off else found


def shortest(instrument: Instrument, points: Sequence[AskedPoint]) -> list[PossibleFingering]:
    """The fingerings of least total cost: each one's own, and the movement between them, more if it is fast."""
    if len(points) == 1:  # the most common gesture
        return [ways_of(instrument, points[0])[0]]
    columns = [ways_of(instrument, point) for point in points]
    weights = [_weight(a, b) for a, b in pairwise(points)]
    if _first_is_best(columns, weights):
        return [column[0] for column in columns]
    return _least_moved(columns, weights)


def slid(instrument: Instrument, points: Sequence[AskedPoint]) -> tuple[list[PossibleFingering], list[int]]:
    """The fingerings of a slide glissando, and the indices of points that it cannot reach on its partial."""
    return _slid(instrument, points, [_same_partial] * (len(points) - 1), lambda a, b: movement(a, b) * 0.1)


def crossing(instrument: Instrument, points: Sequence[AskedPoint]) -> tuple[list[PossibleFingering], list[int]]:
    """The fingerings of a glissando against the grain, on one side, and the indices of points that it cannot reach:
    where the pitch rises the slide moves out, where it falls the slide moves in.

    Of the positions that allow this, those far apart: the longer the slide's way, up to `_FAR`, the clearer it is
    that it goes against the line (our own judgement).
    """

    def against(up: bool) -> _Allowed:
        def allowed(a: PossibleFingering, b: PossibleFingering) -> bool:
            out = b.position - a.position
            return a.tube.side == b.tube.side and (out if up else -out) >= _LEAST_AGAINST

        return allowed

    ways = [against(b.cents > a.cents) if a.cents != b.cents else _same_partial for a, b in pairwise(points)]
    return _slid(instrument, points, ways, lambda a, b: -_FAR_APART * min(_FAR, abs(a.position - b.position)))


def triggered(instrument: Instrument, points: Sequence[AskedPoint]) -> tuple[list[PossibleFingering], list[int]]:
    """The fingerings of a glissando that goes on with the trigger, and the indices of points that it cannot reach
    on its partial, without the trigger or with it. Wherever possible the trigger is used."""

    def cost(a: PossibleFingering, b: PossibleFingering) -> float:
        return movement(a, b) * 0.1 + (_TRIGGER_UNUSED if a.tube.side == b.tube.side else 0.0)

    one_partial = [lambda a, b: a.partial == b.partial] * (len(points) - 1)
    return _slid(instrument, points, one_partial, cost)


def _slid(
    instrument: Instrument,
    points: Sequence[AskedPoint],
    allowed: Sequence[_Allowed],
    cost: Callable[[PossibleFingering, PossibleFingering], float],
) -> tuple[list[PossibleFingering], list[int]]:
    """The fingerings of a movement of the slide, and the indices of points that it cannot reach as `allowed` says
    from each to the next."""
    columns = []
    for point in points:
        near = [w for w in ways_of(instrument, point) if abs(w.error) <= 2 * in_tune_cents(instrument)]
        columns.append(tuple(near) or ways_of(instrument, point)[:1])

    def costing(may: _Allowed) -> Callable[[PossibleFingering, PossibleFingering], float]:
        return lambda a, b: cost(a, b) + (0.0 if may(a, b) else _BREAK)

    chosen = _shortest(columns, [costing(may) for may in allowed])
    # A position the composer gives is kept even if it misses the pitch; rules report that.
    reached = [
        bool(p.names) or abs(way.error) <= _slid_cents(instrument, p) for way, p in zip(chosen, points, strict=True)
    ]
    pairs = enumerate(zip(allowed, chosen, chosen[1:], strict=False), start=1)
    return chosen, [i for i, (may, a, b) in pairs if not (may(a, b) and reached[i - 1] and reached[i])]


def _slid_cents(instrument: Instrument, point: AskedPoint) -> float:
    """How far a point may be from its position: the arm corrects an exact one."""
    about = instrument.limits.get("harmonic_gliss_about_cents")
    return float(about.narrow.value) if point.about and about else 2 * in_tune_cents(instrument)


def _same_partial(a: PossibleFingering, b: PossibleFingering) -> bool:
    return a.partial == b.partial and a.tube.side == b.tube.side


def _weight(a: AskedPoint, b: AskedPoint) -> float:
    gap = b.seconds - a.seconds
    return min(1.0, _UNHURRIED_S / gap) if gap > 0 else 1.0


def _first_is_best(columns: Sequence[tuple[PossibleFingering, ...]], weights: Sequence[float]) -> bool:
    """Whether the cheapest fingering of each point is best however much has to move: at most eight fingers."""
    around = [*weights, 0.0]
    for i, column in enumerate(columns):
        reach = 8.0 * max(around[i], around[i - 1] if i else 0.0)
        if len(column) > 1 and column[1].cost - column[0].cost < reach:
            return False
    return True


def _shortest(
    columns: Sequence[tuple[PossibleFingering, ...]],
    costs: Sequence[Callable[[PossibleFingering, PossibleFingering], float]],
) -> list[PossibleFingering]:
    """The cheapest path through one fingering of each column; ties go to the earlier one."""
    totals = [way.cost for way in columns[0]]
    back: list[list[int]] = []
    for before, column, cost in zip(columns, columns[1:], costs, strict=False):
        fresh, links = [], []
        for way in column:
            best, link = min((totals[i] + cost(old, way), i) for i, old in enumerate(before))
            fresh.append(best + way.cost)
            links.append(link)
        totals = fresh
        back.append(links)
    return _followed(columns, totals, back)


def _least_moved(
    columns: Sequence[tuple[PossibleFingering, ...]], weights: Sequence[float]
) -> list[PossibleFingering]:
    """The same for weighted movement alone, written out: long parts spend much of their time here."""
    if len(columns) > _LONG:
        columns = _undominated(columns, weights)
    totals = [way.cost for way in columns[0]]
    back: list[list[int]] = []
    for before, column, weight in zip(columns, columns[1:], weights, strict=False):
        old = [(total, way.hand, way.position) for total, way in zip(totals, before, strict=True)]
        fresh, links = [], []
        for way in column:
            hand, position = way.hand, way.position
            best, link = math.inf, 0
            for i, (total, other, place) in enumerate(old):
                found = total + weight * ((other ^ hand).bit_count() + abs(place - position))
                if found < best:
                    best, link = found, i
            fresh.append(best + way.cost)
            links.append(link)
        totals = fresh
        back.append(links)
    return _followed(columns, totals, back)


def _undominated(
    columns: Sequence[tuple[PossibleFingering, ...]], weights: Sequence[float]
) -> list[tuple[PossibleFingering, ...]]:
    """The columns without the fingerings that no shortest path takes: those for which another one is cheaper even
    with the movement to it and back from it."""
    known: dict[tuple[int, float], tuple[PossibleFingering, ...]] = {}  # by identity: notes return, in one rhythm
    found = []
    for column, before, after in zip(columns, [0.0, *weights], [*weights, 0.0], strict=True):
        weight = before + after
        key = id(column), weight
        if key not in known:
            known[key] = tuple(
                way
                for way in column
                if all(way.cost <= other.cost + weight * movement(other, way) + _ROUNDED for other in column)
            )
        found.append(known[key])
    return found


def _followed(
    columns: Sequence[tuple[PossibleFingering, ...]], totals: list[float], back: list[list[int]]
) -> list[PossibleFingering]:
    """The path that the links lead back along from the cheapest end."""
    at = totals.index(min(totals))
    path = [at]
    for links in reversed(back):
        at = links[at]
        path.append(at)
    return [column[i] for column, i in zip(columns, reversed(path), strict=True)]


class Swept(NamedTuple):
    """One tube for several points: their fingerings, whether every end is a partial, and the partials passed."""

    ways: list[PossibleFingering]
    on_ladder: bool
    partials: tuple[int, ...]


def swept(instrument: Instrument, points: Sequence[AskedPoint], *, in_tune: bool = False) -> Swept:
    """The tube for a sweep through partials.

    Exact points must be as near to a partial as the lip bridges, approximate ones within a semitone (the
    instrument's limits). Of the tubes that allow this, the one with the most partials, then the least error, then
    the shortest. If none does, the tube whose ends are least off, then whose worst point is. `in_tune`: points must
    be in tune without the lip.
    """
    best: tuple[tuple[float, ...], Swept] | None = None
    for candidate in _one_tube(instrument, points):
        over = _worst_excess(instrument, points, candidate, in_tune)
        passed = passed_partials([way.partial for way in candidate])
        errors = sum(abs(way.error) for way in candidate)
        length = candidate[0].tube.length_m
        count = len(set(passed))
        fits = over <= 1e-9
        key: tuple[float, ...] = (0.0, -count, round(errors, 6), length)
        if not fits:
            ends = _worst_excess(instrument, (points[0], points[-1]), (candidate[0], candidate[-1]), in_tune)
            key = (1.0, round(max(0.0, ends), 6), round(over, 6), -count, length)
        if best is None or key < best[0]:
            best = (key, Swept(list(candidate), fits, passed))
    assert best is not None  # an instrument has at least one tube
    return best[1]


def bent(instrument: Instrument, points: Sequence[AskedPoint], one_partial: bool) -> list[PossibleFingering]:
    """One tube for a lip movement: on the first point's partial, or across the partials of the tube.

    The first point's standard tube if it will do, else the one whose worst point is least beyond what the lip can
    bend, down or up.
    """
    first = ways_of(instrument, points[0])
    if one_partial:
        return [first[0], *(_on_partial(instrument, first[0], p) for p in points[1:])]
    best: tuple[tuple[float, ...], list[PossibleFingering]] | None = None
    for candidate in _one_tube(instrument, points):
        over = max(0.0, *(_beyond_lip(instrument, p, way) for p, way in zip(points, candidate, strict=True)))
        cost = sum(tuning_cost(way.error, in_tune_cents(instrument)) for way in candidate)
        standard = candidate[0].tube.name == first[0].tube.name
        worst = max(abs(way.error) for way in candidate) > 2 * in_tune_cents(instrument)
        bent_most = max(tuning_cost(way.error, in_tune_cents(instrument)) for way in candidate) if worst else 0.0
        key = (
            round(over, 6),
            round(bent_most, 6),
            0.0 if standard else 1.0,
            round(cost, 6),
            candidate[0].tube.length_m,
        )
        if best is None or key < best[0]:
            # Where the lip goes next does not matter: the first point decides if the fingering is the usual one.
            best = (key, [way._replace(standard=candidate[0].standard) for way in candidate])
    assert best is not None
    return best[1]


def _beyond_lip(instrument: Instrument, point: AskedPoint, way: PossibleFingering) -> float:
    """Cents by which a fingering is beyond what the lip can bend, down or up; less for an approximate pitch."""
    limit = along(instrument, "bend_down" if way.error > 0 else "bend_up", point.cents)
    reach = float(limit.narrow.value) if limit is not None else 0.0
    return abs(way.error) - reach - (_slid_cents(instrument, point) if point.about else 0.0)


def handled(instrument: Instrument, points: Sequence[AskedPoint]) -> list[PossibleFingering]:
    """One open partial for a movement of the hand: the highest point is played open, as it always is, and the hand
    lowers the rest."""
    top = max(points, key=lambda p: p.cents)
    open_way = ways_of(instrument, top)[0]
    return [_on_partial(instrument, open_way, p) for p in points]


def held(instrument: Instrument, points: Sequence[AskedPoint]) -> str:
    """The name of the tube that is best for all points together."""
    return swept(instrument, points, in_tune=True).ways[0].tube.name


def passed_partials(ends: Sequence[int]) -> tuple[int, ...]:
    """Every partial from end to end through the points in between, each turning point counted once."""
    passed = [ends[0]]
    for n in ends[1:]:
        step = 1 if n > passed[-1] else -1
        passed.extend(range(passed[-1] + step, n + step, step) if n != passed[-1] else ())
    return tuple(passed)


def _one_tube(instrument: Instrument, points: Sequence[AskedPoint]) -> Iterable[tuple[PossibleFingering, ...]]:
    """For each tube, the fingerings of all points on it, each on its nearest partial."""
    rows = zip(*(ladder(instrument, p.cents, p.about, p.bell) for p in points), strict=True)
    names = points[0].names
    if not names:
        return rows
    allowed = {tube.name for name in names for tube in instrument.tubes_named(name)}
    return [row for row in rows if not allowed or row[0].tube.name in allowed]


def _on_partial(instrument: Instrument, way: PossibleFingering, point: AskedPoint) -> PossibleFingering:
    """The same tube and partial for another point, which lip or hand must reach from it."""
    side = next(s for s in instrument.sides if s.name == way.tube.side)
    fingered = fingered_cents(instrument, side, float(point.cents), point.bell)
    error = way.tube.fundamental_cents + partial_cents(way.partial) - fingered
    return way._replace(error=error, fingered=fingered)


def _worst_excess(
    instrument: Instrument, points: Sequence[AskedPoint], row: Sequence[PossibleFingering], in_tune: bool
) -> float:
    """How far the worst point is beyond its tolerance, in cents; 0 or less if all are within it."""
    names = ("in_tune_cents", "lip_correction_cents")
    exact, about = names if in_tune else ("harmonic_gliss_exact_cents", "harmonic_gliss_about_cents")
    limits = {name: instrument.limits.get(name) for name in (exact, about)}
    cents = {name: float(limit.narrow.value) if limit is not None else 0.0 for name, limit in limits.items()}
    return max(
        abs(way.error) - cents[about if point.about else exact] for way, point in zip(row, points, strict=True)
    )
