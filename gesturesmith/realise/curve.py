"""Limits that change with height: given for the middle of each register, interpolated in between."""

from __future__ import annotations

from bisect import bisect
from fractions import Fraction
from functools import lru_cache

from gesturesmith.evidence import Limit, Sourced
from gesturesmith.instruments.base import Instrument


def along(instrument: Instrument, prefix: str, sounding_cents: Fraction | float) -> Limit | None:
    """The limit `prefix_REGISTER` at a pitch, narrow and wide; cents are rounded.

    Exact in the middle of a register, linear between two middles, constant beyond the outermost. None if the
    instrument lacks a value. The evidence is that of the nearer register.
    """
    (n, d), (m, e) = sounding_cents.as_integer_ratio(), instrument.sounding.cents.as_integer_ratio()
    return _along(instrument, prefix, (n * e - m * d) / (d * e))


@lru_cache(maxsize=4096)
def _along(instrument: Instrument, prefix: str, written: float) -> Limit | None:
    limits = [instrument.limits.get(f"{prefix}_{r.name}") for r in instrument.registers]
    known = [limit for limit in limits if limit is not None]
    if len(known) < len(limits):
        return None
    middles = [float(r.low.pitch_cents + r.high.pitch_cents) / 2 for r in instrument.registers]
    above = bisect(middles, written)
    if above == 0 or above == len(middles):
        return known[min(above, len(middles) - 1)]
    share = (written - middles[above - 1]) / (middles[above] - middles[above - 1])
    low, high = known[above - 1], known[above]
    digits = None if low.unit == "cents" else 3
    narrow = _mixed(low.narrow, high.narrow, share, digits)
    wide = None if low.wide is None or high.wide is None else _mixed(low.wide, high.wide, share, digits)
    return Limit(narrow, wide, low.unit, low.wide_means, low.side)


def _mixed(low: Sourced[float], high: Sourced[float], share: float, digits: int | None) -> Sourced[float]:
    nearer = low if share < 0.5 else high
    return Sourced(round(low.value + (high.value - low.value) * share, digits), nearer.kind, nearer.source)
