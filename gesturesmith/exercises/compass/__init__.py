"""The notes and keys of a student, level by level, one group of instruments in each file."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from gesturesmith import registry
from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.exercises.compass.base import Compass
from gesturesmith.exercises.probes import written_range
from gesturesmith.instruments.base import Instrument
from gesturesmith.units import Spelling


def names() -> tuple[str, ...]:
    """The names of all groups, sorted."""
    return registry.names(__name__)


def get(name: str) -> Compass:
    """The group called `name`; KeyError if there is none."""
    compass: Compass = registry.module(__name__, name).COMPASS
    return compass


@lru_cache(maxsize=64)
def of(instrument: Instrument) -> Compass:
    """The compass of an instrument: its group's, else one worked out from its registers."""
    return next((c for c in map(get, names()) if instrument.key in c.instruments), None) or _worked_out(instrument)


def _worked_out(instrument: Instrument) -> Compass:
    """From a sixth in the middle outwards to the usual range, in even steps."""
    middle = instrument.register("middle") or instrument.registers[0]
    whole = written_range(instrument)
    centre = (middle.low.pitch_cents + middle.high.pitch_cents) / 2
    source = "the middle of the middle register, wider from level to level up to the usual range"
    ranges = []
    for number in range(4):
        low = max(whole[0].pitch_cents, centre - 450 - (centre - 450 - whole[0].pitch_cents) * number / 4)
        high = min(whole[-1].pitch_cents, centre + 450 + (whole[-1].pitch_cents - centre - 450) * number / 4)
        ranges.append(Sourced((_nearest(whole, low), _nearest(whole, high)), HOUSE, source))
    keys = tuple(
        Sourced(tuple(range(-n, n)) or (0,), HOUSE, "few signs first, flats before sharps") for n in range(1, 6)
    )
    return Compass(instruments=(instrument.key,), ranges=tuple(ranges), keys=keys)


def _nearest(notes: tuple[Spelling, ...], cents: Fraction) -> str:
    return min(notes, key=lambda note: abs(note.pitch_cents - cents)).name
