"""Lengths of tube: what valves and slides add, and how far the sum is from the intended pitch.

A valve tuned alone lowers the open tube by n semitones: it makes the tube 2^(n/12) times as long, so it adds
2^(n/12) - 1 of the open length. Two valves add both their lengths, which is less than their combined pitch would
need: combinations are sharp.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import get_args

from gesturesmith.kinds import Tuning

SPEED_OF_SOUND_M_PER_S = 343.0  # dry air at 20 degrees C
TUNINGS: tuple[Tuning, ...] = get_args(Tuning)


def added_length(semitones: float) -> float:
    """The length that a valve of n semitones adds, tuned alone, in open lengths."""
    return math.exp2(semitones / 12.0) - 1.0


def valve_lengths(valves: Sequence[float], tuning: Tuning = "alone") -> tuple[float, ...]:
    """The length each valve adds, in open lengths; `valves` in semitones, valve 1 first.

    tuning   "alone": each valve is in tune by itself; "2-3" or "1-3": the third slide is drawn until that
             combination is in tune, which leaves valve 3 alone flat.
    """
    if tuning not in TUNINGS:
        raise ValueError(f"tuning {tuning!r}: one of {', '.join(TUNINGS)}")
    lengths = [added_length(v) for v in valves]
    if tuning != "alone" and len(valves) >= 3:
        other = int(tuning[0]) - 1
        lengths[2] = added_length(valves[other] + valves[2]) - lengths[other]
    return tuple(lengths)


def lowering_cents(valves: Sequence[float], pressed: Sequence[int], tuning: Tuning = "alone") -> float:
    """How far the pressed valves (numbers from 1) lower the open tube, in cents."""
    lengths = valve_lengths(valves, tuning)
    return 1200.0 * math.log2(1.0 + sum(lengths[i - 1] for i in pressed))


def combination_error_cents(valves: Sequence[float], pressed: Sequence[int], tuning: Tuning = "alone") -> float:
    """Error of a combination against its nominal semitones, + is sharp."""
    return 100.0 * sum(valves[i - 1] for i in pressed) - lowering_cents(valves, pressed, tuning)


def half_wavelength_m(hz: float) -> float:
    """Half the wavelength at `hz` in air at 343 m/s: the effective length of a tube with that first partial."""
    return SPEED_OF_SOUND_M_PER_S / (2.0 * hz)


def slide_position(fundamental_cents: float, tube_cents: float) -> float:
    """The slide position (from 1, one per semitone) that lowers an open tube to `tube_cents`."""
    return 1.0 + (fundamental_cents - tube_cents) / 100.0


def slide_reach(position: float, side_cents: float, open_cents: float) -> float:
    """The place of the slide at a position of another side, in positions of the open side.

    A longer side (the trigger) needs longer steps: position 6 of a side in F is at 7.4 of one in B-flat.
    """
    longer = math.exp2((open_cents - side_cents) / 1200.0)
    return 1.0 + 12.0 * math.log2(1.0 + longer * (math.exp2((position - 1.0) / 12.0) - 1.0))


def slide_extension_m(open_hz: float, position: float) -> float:
    """How far the slide is out at a position, in metres: half the added length, since the tube doubles back."""
    return (half_wavelength_m(open_hz * math.exp2(-(position - 1.0) / 12.0)) - half_wavelength_m(open_hz)) / 2.0
