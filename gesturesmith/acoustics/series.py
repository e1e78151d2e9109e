"""The harmonic series in cents: the pitch of partial n of a tube, and which partials are where."""

from __future__ import annotations

import math
from functools import cache

MAX_PARTIALS = 64  # far above what any lip reaches; bounds searches


@cache
def partial_cents(n: int) -> float:
    """Cents of partial n (1, 2, 3, ...) above the first: 1200 log2 n, by the definition of the series."""
    return 1200.0 * math.log2(n)


@cache
def deviation_cents(n: int) -> float:
    """Cents of partial n from the nearest equal-tempered semitone, + is sharp."""
    cents = partial_cents(n)
    return cents - 100.0 * round(cents / 100.0)


def quarter_tone_deviation_cents(n: int) -> float:
    """Cents of partial n from the nearest quarter tone that is not a semitone, + is sharp."""
    cents = partial_cents(n)
    return cents - (100.0 * math.floor(cents / 100.0) + 50.0)


def step_cents(n: int) -> float:
    """Cents from partial n to the next, n + 1."""
    return partial_cents(n + 1) - partial_cents(n)


def nearest_partial(cents: float, fundamental_cents: float, lowest: int = 1, highest: int = MAX_PARTIALS) -> int:
    """The partial from `lowest` to `highest` whose pitch is nearest to `cents` (both on the same scale)."""
    if lowest > highest:
        raise ValueError(f"no partials from {lowest} to {highest}")
    # Limited before the power, which would overflow for a pitch far out of reach.
    ratio = math.exp2(min(max((cents - fundamental_cents) / 1200.0, -10.0), 10.0))
    below = min(max(math.floor(ratio), lowest), highest)
    above = min(below + 1, highest)
    error_below = abs(fundamental_cents + partial_cents(below) - cents)
    error_above = abs(fundamental_cents + partial_cents(above) - cents)
    return above if error_above < error_below else below


def partials_between(
    fundamental_cents: float, low_cents: float, high_cents: float, slack_cents: float = 0.0
) -> tuple[int, ...]:
    """The partials from `low_cents` to `high_cents` inclusive, each end widened by `slack_cents`."""
    low, high = low_cents - slack_cents - fundamental_cents, high_cents + slack_cents - fundamental_cents
    return tuple(n for n in range(1, MAX_PARTIALS + 1) if low <= partial_cents(n) <= high)


def hand_glide_cents(n: int) -> float:
    """How far the closing hand takes open partial n down: to a half step above the next lower partial.

    Ericson, "Understanding stopped and muted horn", ASU (TBA Journal 3/2002). Partial 1 has none below: 0.
    """
    return step_cents(n - 1) - 100.0 if n > 1 else 0.0


def cents_of_difference(hz: float, difference_hz: float) -> float:
    """A difference in frequency above `hz`, in cents."""
    return 1200.0 * math.log2((hz + difference_hz) / hz)
