"""Builds the parts of an instrument: tubes from sides, charts and registers from short tables."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from itertools import combinations

from gesturesmith.acoustics.series import MAX_PARTIALS, partial_cents
from gesturesmith.acoustics.tubing import half_wavelength_m, lowering_cents, slide_reach
from gesturesmith.evidence import Sourced
from gesturesmith.instruments.base import Register, Side, Tube
from gesturesmith.kinds import Tuning
from gesturesmith.units import Spelling, frequency_hz

_NOTE = re.compile(r"([A-G])(##|bb|#|b)?([0-9])\Z")
_ALTER = {None: 0, "#": 1, "b": -1, "##": 2, "bb": -2}


def note(name: str) -> Spelling:
    """The tempered pitch called `name` ("F#2"), as written in the tables of this folder."""
    match = _NOTE.match(name)
    if match is None:
        raise ValueError(f"no pitch: {name!r}")
    return Spelling(match[1], Fraction(_ALTER[match[2]]), int(match[3]))


def cents(name: str) -> int:
    """Cents above C-1 of the pitch called `name`."""
    return int(note(name).pitch_cents)


def highest_partial(fundamental_cents: float, top_cents: float) -> int:
    """The highest partial not above `top_cents`; up to half a semitone above still counts."""
    n = 1
    while n < MAX_PARTIALS and fundamental_cents + partial_cents(n + 1) <= top_cents + 50:
        n += 1
    return n


def valve_tubes(
    sides: tuple[Side, ...],
    usual_top: int,
    widest_top: int,
    *,
    third_slide: Tuning = "alone",
    shown: Mapping[int, int] | None = None,
    lowest_usual: int = 2,
) -> tuple[Tube, ...]:
    """Every tube of the given sides, one side after another, fewest valves first.

    usual_top, widest_top   sounding cents above which partials do not count as usable
    shown                   highest partial a source demonstrates, by the nominal first partial in cents
    lowest_usual            lowest partial by the narrow reading; by the widest it is the first
    """
    tubes = []
    for side in sides:
        numbers = range(1, len(side.valves) + 1)
        for count in range(len(side.valves) + 1):
            for pressed in combinations(numbers, count):
                fundamental = side.fundamental_cents - lowering_cents(side.valves, pressed, third_slide)
                nominal = side.fundamental_cents - 100 * sum(side.valves[i - 1] for i in pressed)
                widest = (shown or {}).get(nominal) or highest_partial(fundamental, widest_top)
                usual = min(highest_partial(fundamental, usual_top), widest)
                tubes.append(
                    Tube(
                        side=side.name,
                        valves="-".join(map(str, pressed)) or "0",
                        fundamental_cents=fundamental,
                        length_m=half_wavelength_m(frequency_hz(fundamental)),
                        partials=(min(lowest_usual, usual), usual),
                        widest_partials=(1, widest),
                    )
                )
    return tuple(tubes)


def slide_tubes(sides: tuple[Side, ...], usual_top: int, widest_top: int) -> tuple[Tube, ...]:
    """The tubes of a slide instrument at its whole positions; those in between are reached continuously."""
    tubes = []
    for side in sides:
        for position in range(1, side.positions + 1):
            fundamental = float(side.fundamental_cents - 100 * (position - 1))
            usual = highest_partial(fundamental, usual_top)
            tubes.append(
                Tube(
                    side=side.name,
                    valves=str(position),
                    fundamental_cents=fundamental,
                    length_m=half_wavelength_m(frequency_hz(fundamental)),
                    partials=(2, usual),
                    widest_partials=(1, max(usual, highest_partial(fundamental, widest_top))),
                    reach=slide_reach(position, side.fundamental_cents, sides[0].fundamental_cents),
                )
            )
    return tuple(tubes)


def chart(table: str) -> dict[int, str]:
    """A fingering chart from "written pitch, tube name" items, separated by commas or line breaks."""
    result = {}
    for item in re.split(r"[,\n]", table):
        if item.strip():
            pitch, tube = item.strip().split(" ", 1)
            result[cents(pitch)] = tube.strip()
    return result


def registers(table: str, evidence: Sourced[str]) -> tuple[Register, ...]:
    """Registers from "low F#2 B3, middle C4 G4": names with written limits, lowest first."""
    rows = [item.split() for item in table.split(",")]
    return tuple(Register(name=n, low=note(low), high=note(high), evidence=evidence) for n, low, high in rows)
