"""A slide glissando against the grain: where the lip jumps, and where each partial goes in between."""

from __future__ import annotations

from itertools import pairwise

from gesturesmith.acoustics.series import partial_cents
from gesturesmith.model.realisation import PlayedPoint


def against_the_line(one: PlayedPoint, two: PlayedPoint) -> tuple[tuple[float, float], ...]:
    """The places between two points where the pitch jumps, as (share of the time, sounding cents), in order: for
    each jump where it leaves one partial and where it reaches the next, at the same time.

    Derived: the slide moves evenly, so that each partial rises or falls evenly; the lip jumps when the line is as
    far from the partial it leaves as from the next. () if both are on one partial.
    """
    if one.tube is None or two.tube is None or one.partial == two.partial:
        return ()
    step = 1 if two.partial > one.partial else -1
    first, last = partial_cents(one.partial), partial_cents(two.partial)
    tubes = one.tube.fundamental_cents, two.tube.fundamental_cents
    places = []
    for left, reached in pairwise(range(one.partial, two.partial + step, step)):
        share = ((partial_cents(left) + partial_cents(reached)) / 2 - first) / (last - first)
        tube = tubes[0] + share * (tubes[1] - tubes[0])
        places += [(share, tube + partial_cents(left)), (share, tube + partial_cents(reached))]
    return tuple(places)
