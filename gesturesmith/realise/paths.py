"""Choosing over a whole gesture: the least movement from note to note, and one tube for what is swept or held."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from gesturesmith.acoustics.series import hand_glide_cents, partial_cents
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

_UNHURRIED_S = 0.08  # in notes as long as this one finger moved weighs 1; in longer ones it weighs less
_BREAK = 1000.0  # leaving the partial in a slide glissando: anything else is better


class AskedPoint(NamedTuple):
    """One sounding point as the choice sees it.

    cents     sounding pitch asked for
    about     approximate
    bell      "" | "half" | "stopped" | "muted", which keeps the hand out
    names     the fingerings the composer allows, () for all
    seconds   from the start of the gesture
    """

    cents: Fraction
    about: bool
    bell: Bell
    names: tuple[str, ...]
    seconds: float


def ways_of(instrument: Instrument, asked: AskedPoint) -> tuple[PossibleFingering, ...]:
    """The ways of one point; an approximate pitch is fingered as the nearest semitone."""
    if not asked.about:
        return ways(instrument, asked.cents, asked.bell, asked.names)
    semitone = Fraction(100 * round(asked.cents / 100))
    found = ways(instrument, semitone, asked.bell, asked.names)
    off = float(asked.cents - semitone)
    return tuple(w._replace(error=w.error - off, fingered=w.fingered + off) for w in found) if off else found


def shortest(instrument: Instrument, points: Sequence[AskedPoint]) -> list[PossibleFingering]:
    """The ways that together cost least: each by itself, and the movement between them, more where it is fast."""
    if len(points) == 1:  # the commonest gesture
        return [ways_of(instrument, points[0])[0]]
    columns = [ways_of(instrument, point) for point in points]
    weights = [_weight(a, b) for a, b in pairwise(points)]
    if _first_is_best(columns, weights):
        return [column[0] for column in columns]
    return _shortest(columns, [_moving(w) for w in weights])


def slid(instrument: Instrument, points: Sequence[AskedPoint]) -> tuple[list[PossibleFingering], list[int]]:
    """The ways of a slide glissando, and which points (by their place here) it cannot reach on its partial."""
    columns = []
    for point in points:
        near = [w for w in ways_of(instrument, point) if abs(w.error) <= 2 * in_tune_cents(instrument)]
        columns.append(tuple(near) or ways_of(instrument, point)[:1])

    def cost(a: PossibleFingering, b: PossibleFingering) -> float:
        return movement(a, b) * 0.1 + (0.0 if _same_partial(a, b) else _BREAK)

    chosen = _shortest(columns, [cost] * (len(points) - 1))
    # A position the composer gives is kept, whatever it gives; other rules say so.
    reached = [
        bool(p.names) or abs(way.error) <= _slid_cents(instrument, p) for way, p in zip(chosen, points, strict=True)
    ]
    pairs = enumerate(pairwise(chosen), start=1)
    return chosen, [i for i, (a, b) in pairs if not (_same_partial(a, b) and reached[i - 1] and reached[i])]


def _slid_cents(instrument: Instrument, point: AskedPoint) -> float:
    """How far off its position a point may lie: the arm puts an exact one right."""
    about = instrument.limits.get("harmonic_gliss_about_cents")
    return float(about.narrow.value) if point.about and about else 2 * in_tune_cents(instrument)


def _same_partial(a: PossibleFingering, b: PossibleFingering) -> bool:
    return a.partial == b.partial and a.tube.side == b.tube.side


def _weight(a: AskedPoint, b: AskedPoint) -> float:
    gap = b.seconds - a.seconds
    return min(1.0, _UNHURRIED_S / gap) if gap > 0 else 1.0


def _moving(weight: float) -> Callable[[PossibleFingering, PossibleFingering], float]:
    def cost(a: PossibleFingering, b: PossibleFingering) -> float:
        return weight * movement(a, b)

    return cost


def _first_is_best(columns: Sequence[tuple[PossibleFingering, ...]], weights: Sequence[float]) -> bool:
    """Whether no saving of movement can outweigh the cheapest way of each point: eight fingers at the most."""
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
    """The cheapest path that takes one way of each column; ties go to the way that stands first."""
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
    at = totals.index(min(totals))
    path = [at]
    for links in reversed(back):
        at = links[at]
        path.append(at)
    return [column[i] for column, i in zip(columns, reversed(path), strict=True)]


class Swept(NamedTuple):
    """One tube for several points: their ways, whether every end is on its ladder, and the partials passed."""

    ways: list[PossibleFingering]
    on_ladder: bool
    partials: tuple[int, ...]


def swept(instrument: Instrument, points: Sequence[AskedPoint]) -> Swept:
    """The tube for a sweep through partials.

    Exact points within 15 cents of a partial, approximate ones within 50 (the instrument's limits); among such
    tubes the one with most partials, then least error, then the shortest. Where there is none, the tube whose
    ends are least off, and of such the one whose worst point is.
    """
    best: tuple[tuple[float, ...], Swept] | None = None
    for candidate in _one_tube(instrument, points):
        over = _worst_excess(instrument, points, candidate)
        passed = passed_partials([way.partial for way in candidate])
        errors = sum(abs(way.error) for way in candidate)
        length = candidate[0].tube.length_m
        count = len(set(passed))
        fits = over <= 1e-9
        key: tuple[float, ...] = (0.0, -count, round(errors, 6), length)
        if not fits:
            ends = _worst_excess(instrument, (points[0], points[-1]), (candidate[0], candidate[-1]))
            key = (1.0, round(max(0.0, ends), 6), round(over, 6), -count, length)
        if best is None or key < best[0]:
            best = (key, Swept(list(candidate), fits, passed))
    assert best is not None  # an instrument has a tube
    return best[1]


def bent(instrument: Instrument, points: Sequence[AskedPoint], one_partial: bool) -> list[PossibleFingering]:
    """One tube for a movement of the lip: on the first point's partial, or across those of its tube.

    The standard tube of the first point where it serves, else the one on which the lip has to bend its worst point
    least beyond what it bends, down or up.
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
            # Where the lip goes from here is no matter of fingering: the first point says if it is the usual one.
            best = (key, [way._replace(standard=candidate[0].standard) for way in candidate])
    assert best is not None
    return best[1]


def _beyond_lip(instrument: Instrument, point: AskedPoint, way: PossibleFingering) -> float:
    """Cents by which a way lies further off than the lip bends it, down or up; of an approximate pitch less."""
    limit = along(instrument, "bend_down" if way.error > 0 else "bend_up", point.cents)
    reach = float(limit.narrow.value) if limit is not None else 0.0
    return abs(way.error) - reach - (_slid_cents(instrument, point) if point.about else 0.0)


def handled(instrument: Instrument, points: Sequence[AskedPoint]) -> list[PossibleFingering]:
    """One open partial for a movement of the hand: the highest point is played open, the hand lowers the rest.

    The cheapest way of the highest point from which the hand reaches the lowest: to a half step above the next
    partial down.
    """
    top = max(points, key=lambda p: p.cents)
    low = min(float(p.cents) for p in points)

    def key(way: PossibleFingering) -> tuple[bool, float]:
        pitch = way.tube.fundamental_cents + partial_cents(way.partial)
        return pitch - low > hand_glide_cents(way.partial) + in_tune_cents(instrument), way.cost

    open_way = min(ways_of(instrument, top), key=key)
    return [_on_partial(instrument, open_way, p) for p in points]


def held(instrument: Instrument, points: Sequence[AskedPoint]) -> str:
    """The name of the one tube that serves all points best."""
    return swept(instrument, points).ways[0].tube.name


def passed_partials(ends: Sequence[int]) -> tuple[int, ...]:
    """Every partial from end to end through the points between, each turn counted once."""
    passed = [ends[0]]
    for n in ends[1:]:
        step = 1 if n > passed[-1] else -1
        passed.extend(range(passed[-1] + step, n + step, step) if n != passed[-1] else ())
    return tuple(passed)


def _one_tube(instrument: Instrument, points: Sequence[AskedPoint]) -> Iterable[tuple[PossibleFingering, ...]]:
    """For each tube the ways of all points on it, each on its nearest partial."""
    rows = zip(*(ladder(instrument, p.cents, p.about, p.bell) for p in points), strict=True)
    names = points[0].names
    if not names:
        return rows
    allowed = {tube.name for name in names for tube in instrument.tubes_named(name)}
    return [row for row in rows if not allowed or row[0].tube.name in allowed]


def _on_partial(instrument: Instrument, way: PossibleFingering, point: AskedPoint) -> PossibleFingering:
    """The same tube and partial for another point, which the lip or the hand has to reach from it."""
    side = next(s for s in instrument.sides if s.name == way.tube.side)
    fingered = fingered_cents(instrument, side, float(point.cents), point.bell)
    error = way.tube.fundamental_cents + partial_cents(way.partial) - fingered
    return way._replace(error=error, fingered=fingered)


def _worst_excess(instrument: Instrument, points: Sequence[AskedPoint], row: Sequence[PossibleFingering]) -> float:
    """How far the worst point lies beyond its tolerance, in cents; not above 0 where all fit."""
    exact = instrument.limits.get("harmonic_gliss_exact_cents")
    about = instrument.limits.get("harmonic_gliss_about_cents")
    exact_cents = float(exact.narrow.value) if exact else 15.0
    about_cents = float(about.narrow.value) if about else 50.0
    return max(
        abs(way.error) - (about_cents if point.about else exact_cents)
        for way, point in zip(row, points, strict=True)
    )
