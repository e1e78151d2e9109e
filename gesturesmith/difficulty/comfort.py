"""Where playing is comfortable: an instrument's limits from its middle register outwards, and what techniques add.

A limit may become milder away from the middle register: high notes take less air, low notes bend further. That does
not make anything easier here: going outwards from the middle register each limit stays at its strictest value so
far, so that moving away from the middle never lowers the difficulty.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from gesturesmith.difficulty.quantities import COMFORTABLE_LEVELS
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Path, Pitched
from gesturesmith.model.gesture import LEVELS
from gesturesmith.realise.in_force import path_of, pitched_by, stays_on_partial
from gesturesmith.realise.tonguing import rate_limit
from gesturesmith.rules.shared import account
from gesturesmith.rules.shared.limits import of_technique
from gesturesmith.techniques.base import Technique

MF = LEVELS.index("mf")
LEFT_TO_PLAYER = "any"
_LOWEST, _HIGHEST = (LEVELS.index(level) for level in COMFORTABLE_LEVELS.value)


class Comfort(NamedTuple):
    """The figures of an instrument, by register (0 is the lowest) where they differ.

    home           the number of the middle register
    bounds         sounding cents at which each register but the last changes to the next
    middle         sounding cents, the lowest and the highest note of the middle register
    reach          semitones from there to the bottom and to the top of the widest range, at least one
    flow, tiring   litres per second, and effort per second, by register and level
    """

    home: int
    bounds: tuple[float, ...]
    middle: tuple[float, float]
    reach: tuple[float, float]
    flow: tuple[tuple[float, ...], ...]
    tiring: tuple[tuple[float, ...], ...]

    def register(self, cents: float) -> int:
        """The number of the register of a sounding pitch."""
        for number, bound in enumerate(self.bounds):
            if cents < bound:
                return number
        return len(self.bounds)


class TechniqueLoad(NamedTuple):
    """The combined demands of the techniques in force on the player.

    pitched     "exact" | "about" | "none"
    air, effort_factor   multiples of plain playing, at least 1
    skill       of the hardest of them by itself, 0 to 1
    drop        cents below its note that an edge begins, 0 for none
    technique_count      their number
    levels      places in LEVELS between which they are comfortable
    rate        the kind of tonguing, LEFT_TO_PLAYER where none is named; "" if no tone is tongued
    fastest     attacks per second of the slowest of them, None for no such limit
    lasting     (key, longest s or None, shortest ms or None) of those that have either
    rolls       (rolls per second at the fastest, periods that each must hold)
    path        how the pitch gets from point to point; one_partial: on the partial it starts from
    """

    pitched: Pitched
    air: float
    effort_factor: float
    skill: float
    drop: float
    technique_count: int
    levels: tuple[int, int]
    rate: str
    fastest: float | None
    lasting: tuple[tuple[str, float | None, float | None], ...]
    rolls: tuple[tuple[float, float], ...]
    path: Path
    one_partial: bool


@lru_cache(maxsize=64)
def comfort(instrument: Instrument) -> Comfort:
    """The figures of an instrument, computed once."""
    registers, shift = instrument.registers, float(instrument.sounding.cents)
    home = _home(instrument)
    low, high = (float(s.pitch_cents) + shift for s in (registers[home].low, registers[home].high))
    bottom, top = instrument.widest_range.value
    names = [r.name for r in registers]
    return Comfort(
        home=home,
        bounds=tuple(float(r.high.pitch_cents) + shift + 50.0 for r in registers[:-1]),
        middle=(low, high),
        reach=(max(1.0, (low - bottom) / 100.0), max(1.0, (top - high) / 100.0)),
        flow=_by_level(instrument, [_levels(instrument, n, account.air_flow) for n in names]),
        tiring=_by_level(instrument, [_levels(instrument, n, account.weight) for n in names]),
    )


@lru_cache(maxsize=1024)
def row(instrument: Instrument, prefix: str) -> tuple[float | None, ...]:
    """The limit `prefix_REG` of each register, the strictest from the middle outwards; None if there is none."""
    limits = [instrument.limits.get(f"{prefix}_{r.name}") for r in instrument.registers]
    values = [float(limit.narrow.value) if limit is not None else None for limit in limits]
    return _outward(values, _home(instrument), min)


@lru_cache(maxsize=1024)
def tongue_row(instrument: Instrument, rate: str) -> tuple[float | None, ...]:
    """The same for the limit on attacks per second with a kind of tonguing; the fastest if it is left open."""
    if rate != LEFT_TO_PLAYER:
        return row(instrument, f"{rate}_per_s")
    limits = [instrument.limits.get(rate_limit(instrument, (), r.name)) for r in instrument.registers]
    values = [float(limit.narrow.value) if limit is not None else None for limit in limits]
    return _outward(values, _home(instrument), min)


@lru_cache(maxsize=1024)
def single(instrument: Instrument, name: str) -> float | None:
    """The narrow value of a limit of the instrument, or None."""
    limit = instrument.limits.get(name)
    return float(limit.narrow.value) if limit is not None else None


@lru_cache(maxsize=1024)
def technique_load(instrument: Instrument, techniques: tuple[Technique, ...]) -> TechniqueLoad:
    """The combined demands of techniques in force on an instrument."""
    fastest = [t.limits["fastest_per_s"].narrow.value for t in techniques if "fastest_per_s" in t.limits]
    silent = any(t.tone == "none" and not t.rate for t in techniques)
    struck = any(t.layer == "attack" for t in techniques)
    rate = next((t.rate for t in techniques if t.rate), "single_tongue" if struck else LEFT_TO_PLAYER)
    air = effort_factor = 1.0
    for technique in techniques:
        air *= max(1.0, technique.flow.value) if technique.flow is not None else 1.0
        effort_factor *= max(1.0, technique.effort.value) if technique.effort is not None else 1.0
    return TechniqueLoad(
        pitched=pitched_by(techniques),
        air=air,
        effort_factor=effort_factor,
        skill=max((float(t.skill.value) for t in techniques if t.skill is not None), default=0.0),
        drop=max(
            (float(t.limits["lip_down_cents"].narrow.value) for t in techniques if "lip_down_cents" in t.limits),
            default=0.0,
        ),
        technique_count=sum(t.layer != "none" for t in techniques) + any(t.sings for t in techniques),
        levels=_comfortable_levels(instrument, techniques),
        rate="" if silent else rate,
        fastest=float(min(fastest)) if fastest else None,
        lasting=tuple(
            _lasting(instrument, t) for t in techniques if {"longest_s", "shortest_ms"} & t.limits.keys()
        ),
        rolls=tuple(
            (float(t.limits["cycles_hz"].narrow.value[1]), float(t.limits["cycle_periods"].narrow.value))
            for t in techniques
            if "cycles_hz" in t.limits and "cycle_periods" in t.limits
        ),
        path=path_of(techniques),
        one_partial=stays_on_partial(techniques),
    )


def _lasting(instrument: Instrument, technique: Technique) -> tuple[str, float | None, float | None]:
    longest, shortest = (of_technique(instrument, technique, name) for name in ("longest_s", "shortest_ms"))
    return (
        technique.key,
        float(longest.narrow.value) if longest is not None else None,
        float(shortest.narrow.value) if shortest is not None else None,
    )


def _comfortable_levels(instrument: Instrument, techniques: tuple[Technique, ...]) -> tuple[int, int]:
    """From mp to mf, shifted for a technique that is not possible so soft or so loud; one that needs force
    prevails."""
    low, high = _LOWEST, _HIGHEST
    for technique in techniques:
        softest, loudest = (of_technique(instrument, technique, name) for name in ("softest", "loudest"))
        low = max(low, LEVELS.index(softest.narrow.value)) if softest is not None else low
        high = min(high, LEVELS.index(loudest.narrow.value)) if loudest is not None else high
    if low > high:
        return (low, low) if low > _HIGHEST else (high, high)
    return low, high


def _home(instrument: Instrument) -> int:
    """The number of the middle register: the one with that name, else the one with the centre of the usual
    range."""
    names = [r.name for r in instrument.registers]
    centre = sum(instrument.usual_range.value) / 2
    return names.index("middle" if "middle" in names else instrument.register_of(centre).name)


def _levels(
    instrument: Instrument, register: str, give: Callable[[Instrument, str, int], float]
) -> tuple[float | None, ...]:
    """A quantity by level, never decreasing from mf outwards."""
    values: list[float | None] = [give(instrument, register, level) for level in range(len(LEVELS))]
    return _outward(values, MF, max)


def _by_level(instrument: Instrument, rows: list[tuple[float | None, ...]]) -> tuple[tuple[float, ...], ...]:
    """Rows by register, each level never decreasing from the middle register outwards."""
    home = _home(instrument)
    columns = [_outward(list(column), home, max) for column in zip(*rows, strict=True)]
    return tuple(tuple(value or 0.0 for value in row) for row in zip(*columns, strict=True))


def _outward(
    values: list[float | None], home: int, keep: Callable[[float, float], float]
) -> tuple[float | None, ...]:
    """Each value combined by `keep` with those between it and `home`."""
    made = list(values)
    for path in (range(home + 1, len(values)), range(home - 1, -1, -1)):
        before = made[home]
        for number in path:
            now = made[number]
            made[number] = before = now if before is None else before if now is None else keep(before, now)
    return tuple(made)
