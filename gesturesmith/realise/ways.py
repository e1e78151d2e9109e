"""The possible fingerings of a pitch on an instrument: tube, partial, error, and what each costs the player.

Costs are our own judgement of what a player prefers; they only rank the fingerings. The scale: 1 is one finger
moved in very fast notes, 4 is leaving the standard fingering, 10 and more is a pitch out of tune.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from gesturesmith.acoustics.series import nearest_partial, partial_cents
from gesturesmith.acoustics.tubing import half_wavelength_m, slide_reach
from gesturesmith.instruments.base import Instrument, Side, Tube
from gesturesmith.kinds import Bell
from gesturesmith.units import frequency_hz

LEAVING_THE_CHART = 4.0
_UNUSUAL_PARTIAL = 3.0
_OUT_OF_TUNE = 10.0
_LIFTING = 1.0  # added if the lip must lift: its limits, beyond being in tune, are 20 cents up and 35 down
_LIFTED_CENTS = 35.0  # beyond this it is no longer a matter of preference
_KEPT = 8  # fingerings kept for a pitch: the shortest path never needs more
_REACH_CENTS = 150.0  # beyond this a partial does not give the pitch, it is only the nearest there is
_CHARTED_CENTS = 100.0  # the chart's fingering may be this far off: as much as a drawn valve slide brings down
_TEMPERED_CENTS = 5.0  # a pitch this close to a semitone counts as the semitone, and the chart applies
_RAISED_FROM = 7  # the lowest partial for which the source of `hand_raise_cents` takes the hand out
_ROUNDING_POSITIONS = 0.2  # a slide this close to a position is in it: the ear does the rest


class PossibleFingering(NamedTuple):
    """One fingering of a pitch. `error` in cents against the pitch fingered, + is sharp.

    hand       the fingers and thumb used, one bit each; 0 on a slide
    position   of the slide, in positions of the open side, 1 to 7 with fractions; 0 on valves
    """

    cost: float
    tube: Tube
    partial: int
    error: float
    standard: bool
    hand: int
    position: float
    fingered: float


@lru_cache(maxsize=64)
def hands(instrument: Instrument) -> tuple[tuple[Tube, Side, int], ...]:
    """Each tube with its side and the fingers it needs: a bit for each valve, the high bits for the side."""
    sides = {side.name: (i, side) for i, side in enumerate(instrument.sides)}
    result = []
    for tube in instrument.tubes:
        number, side = sides[tube.side]
        pressed = 0
        if instrument.kind == "valves" and tube.valves != "0":
            pressed = sum(1 << int(valve) for valve in tube.valves.split("-"))
        result.append((tube, side, pressed | number << 16))
    return tuple(result)


def in_tune_cents(instrument: Instrument) -> float:
    """The largest error at which a fingering counts as in tune."""
    limit = instrument.limits.get("in_tune_cents")
    return float(limit.narrow.value) if limit else 15.0


def fingered_cents(instrument: Instrument, side: Side, sounding: float, bell: Bell) -> float:
    """The pitch the player fingers to get `sounding`: a different one if the hand closes the bell."""
    if bell == "stopped" and side.stopped_cents is not None:
        return sounding - side.stopped_cents.value
    if bell == "half":
        limit = instrument.limits.get("half_stopped_lower_cents")
        return sounding + (limit.narrow.value if limit else 0)
    return sounding


def movement(a: PossibleFingering, b: PossibleFingering) -> float:
    """Fingers that move from one fingering to the next, or slide positions; changing sides counts one."""
    return (a.hand ^ b.hand).bit_count() + abs(a.position - b.position)


def tuning_cost(error: float, in_tune: float) -> float:
    """The cost of an error: low while in tune, high beyond; the lip lowers a sharp partial far more easily than it
    raises a flat one.
    """
    size = abs(error)
    if size <= in_tune:
        return size / 50.0
    beyond = size - in_tune
    lifted = _LIFTING * min(beyond, _LIFTED_CENTS) if error < 0 else 0.0
    return _OUT_OF_TUNE + (beyond + lifted) / 5.0


def raised(instrument: Instrument, partial: int, error: float) -> bool:
    """Whether a partial is flat by no more than it rises when the hand leaves the bell of a natural horn."""
    limit = instrument.limits.get("hand_raise_cents")
    return limit is not None and partial >= _RAISED_FROM and -limit.narrow.value <= error < 0


@lru_cache(maxsize=16384)
def ways(
    instrument: Instrument,
    sounding: Fraction | float,
    bell: Bell = "",
    names: tuple[str, ...] = (),
    first: bool = False,
) -> tuple[PossibleFingering, ...]:
    """The fingerings of a sounding pitch, cheapest first; never empty.

    bell    "" | "half" | "stopped" | "muted", which keeps the hand out
    names   only these fingerings, as the composer wrote them; () for all
    first   only on the first harmonic of a tube
    """
    asked = float(sounding)
    found = _slide_ways(instrument, asked, names, first) if instrument.kind == "slide" else None
    found = found or _valve_ways(instrument, asked, bell, names, first)
    found.sort(key=lambda way: (way.cost, way.tube.length_m, way.tube.name, way.partial))
    if names:
        return tuple(found)
    near = [way for way in found if abs(way.error) <= _REACH_CENTS][:_KEPT]
    return tuple(near or [min(found, key=lambda way: (abs(way.error), way.cost))])


@lru_cache(maxsize=4096)
def ladder(instrument: Instrument, sounding: Fraction, about: bool, bell: Bell) -> tuple[PossibleFingering, ...]:
    """For each tube, in the instrument's order, its partial nearest to a sounding pitch, without costs."""
    usual = ways(instrument, Fraction(100 * round(sounding / 100)) if about else sounding, bell)[0]
    rungs = []
    for tube, side, hand in hands(instrument):
        fingered = fingered_cents(instrument, side, float(sounding), bell)
        n = nearest_partial(fingered, tube.fundamental_cents, *tube.widest_partials)
        error = tube.fundamental_cents + partial_cents(n) - fingered
        standard = usual.standard and usual.tube.name == tube.name
        rungs.append(PossibleFingering(0.0, tube, n, error, standard, hand, tube.reach, fingered))
    return tuple(rungs)


def _chart_tube(instrument: Instrument, fingered: float, bell: Bell) -> tuple[str | None, bool]:
    """The standard chart's tube for the semitone nearest to a pitch, and whether the pitch is on that semitone."""
    semitone = 100 * round(fingered / 100.0)
    off = abs(fingered - semitone)
    if off > 45:  # a quarter tone is on no chart
        return None, False
    chart = instrument.hand_chart if bell == "stopped" and instrument.hand_chart else instrument.chart
    return chart.get(semitone - int(instrument.sounding.cents)), off <= _TEMPERED_CENTS


def _valve_ways(
    instrument: Instrument, asked: float, bell: Bell, names: tuple[str, ...], first: bool
) -> list[PossibleFingering]:
    in_tune = in_tune_cents(instrument)
    allowed = {tube.name for name in names for tube in instrument.tubes_named(name)}
    charts = {}
    for side in instrument.sides:
        fingered = fingered_cents(instrument, side, asked, bell)
        charts[side.name] = (fingered, *_chart_tube(instrument, fingered, bell))
    by_hand = instrument.has_hand and len(instrument.tubes) == 1 and bell != "muted"  # a natural horn
    found = []
    for tube, side, hand in hands(instrument):
        if allowed and tube.name not in allowed:
            continue
        fingered, chart_name, tempered = charts[side.name]
        low, high = (1, 1) if first else tube.widest_partials
        n = nearest_partial(fingered, tube.fundamental_cents, low, high)
        error = tube.fundamental_cents + partial_cents(n) - fingered
        if by_hand and error < -in_tune and n < high and not raised(instrument, n, error):
            n, error = n + 1, tube.fundamental_cents + partial_cents(n + 1) - fingered  # the hand takes it down
        charted = chart_name == tube.name and abs(error) <= _CHARTED_CENTS
        cost = 0.0
        if not (charted and tempered):
            cost = tuning_cost(error, in_tune) + 0.05 * (hand & 0xFFFF).bit_count() + 0.02 * n
            cost += 0.0 if charted else LEAVING_THE_CHART
            cost += 0.0 if tube.partials[0] <= n <= tube.partials[1] else _UNUSUAL_PARTIAL
        standard = (charted and tempered) or (by_hand and abs(error) <= in_tune)
        found.append(PossibleFingering(cost, tube, n, error, standard, hand, 0.0, fingered))
    return found


def _slide_ways(
    instrument: Instrument, asked: float, names: tuple[str, ...], first: bool
) -> list[PossibleFingering]:
    in_tune = in_tune_cents(instrument)
    chart_name, tempered = _chart_tube(instrument, asked, "")
    found = []
    for number, side in enumerate(instrument.sides):
        wanted = _wanted_positions(side, names)
        if names and not wanted:
            continue
        highest = 1 if first else next(t.widest_partials[1] for t in instrument.tubes if t.side == side.name)
        for n in range(1, highest + 1):
            position = 1.0 + (side.fundamental_cents + partial_cents(n) - asked) / 100.0
            if not -0.5 <= position <= side.positions + 1.5 and not wanted:
                continue
            for low, high in wanted or [(1.0, float(side.positions))]:
                at = min(max(position, low), high)
                error = 100.0 * (position - at)
                nearest = min(max(round(at), 1), side.positions)
                tube = slide_tube(instrument, side, at)
                name = f"{side.name} {nearest}".strip()
                standard = tempered and name == chart_name and abs(error) <= in_tune and abs(at - nearest) <= 0.35
                cost = 0.0
                if not standard:
                    cost = LEAVING_THE_CHART + tuning_cost(error, in_tune) + 0.1 * at + 0.02 * n
                    cost += 0.0 if tube.partials[0] <= n <= tube.partials[1] else _UNUSUAL_PARTIAL
                found.append(PossibleFingering(cost, tube, n, error, standard, number << 16, tube.reach, asked))
    return found


def _wanted_positions(side: Side, names: tuple[str, ...]) -> list[tuple[float, float]]:
    """The stretches of the slide that position names cover on this side: "3", "short 3" (in), "long 3" (out)."""
    stretches = []
    for name in names:
        words = name.split()
        bend = next((w for w in words if w in ("short", "long")), "")
        rest = [w for w in words if w not in ("short", "long")]
        if not rest or not rest[-1].isdigit() or " ".join(rest[:-1]) != side.name:
            continue
        position = int(rest[-1])
        if not 1 <= position <= side.positions:
            continue
        inner = {"": 0.0, "short": -0.5, "long": _ROUNDING_POSITIONS}[bend]
        outer = {"": 0.0, "short": -_ROUNDING_POSITIONS, "long": 0.5}[bend]
        stretches.append((max(1.0, position + inner), max(1.0, min(float(side.positions), position + outer))))
    return stretches


def slide_tube(instrument: Instrument, side: Side, position: float) -> Tube:
    """The tube of a slide at any position, named after the nearest whole one: "3", "short 3", "long 2"."""
    whole = min(max(int(position + 0.5 - 1e-9), 1), side.positions)
    off = position - whole
    word = "" if abs(off) <= _ROUNDING_POSITIONS else ("short " if off < 0 else "long ")
    base = next(t for t in instrument.tubes if t.side == side.name and t.valves == str(whole))
    if not off:
        return base
    fundamental = side.fundamental_cents - 100.0 * (position - 1.0)
    return Tube(
        side=side.name,
        valves=f"{word}{whole}",
        fundamental_cents=fundamental,
        length_m=half_wavelength_m(frequency_hz(fundamental)),
        partials=base.partials,
        widest_partials=base.widest_partials,
        reach=slide_reach(position, side.fundamental_cents, instrument.sides[0].fundamental_cents),
    )
