"""The times of points: exactly the language page's paragraph on time."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from gesturesmith.kinds import AttackShape
from gesturesmith.values import frozen

type Given = Sequence[Fraction | None]

_ZERO = Fraction(0)


@frozen
class Fault:
    """An impossible time: its index, the rule it breaks, and the time it should come after."""

    index: int
    rule: str
    before: Fraction = _ZERO


def shaped(count: int, shape: AttackShape) -> tuple[Fraction, ...]:
    """When `count` attacks begin in a stretch of length 1. `shape`: "" (even), "accelerating" or "slowing".

    Gaps shrink or grow linearly, the widest three times the narrowest (our own judgement): enough to hear, still
    one beam.
    """
    if shape == "":
        return tuple(Fraction(i, count) for i in range(count))
    gaps = [Fraction(3) - Fraction(2 * i, max(1, count - 1)) for i in range(count)]
    if shape == "slowing":
        gaps.reverse()
    whole, now, starts = sum(gaps), Fraction(0), []
    for gap in gaps:
        starts.append(now / whole)
        now += gap
    return tuple(starts)


def usual_length(given: Given, *, detached: bool) -> Fraction:
    """The length of a contour without `lasts`.

    One beat a point; with times, at least the last one plus a beat for each untimed point after it, plus one if the
    last point is detached and so has a slot of its own.
    """
    count = Fraction(len(given))
    for index in range(len(given) - 1, -1, -1):
        last = given[index]
        if last is not None:
            return max(count, last + len(given) - 1 - index + int(detached))
    return count


def faults(given: Given, *, detached: bool, length: Fraction, from_start: bool = True) -> list[Fault]:
    """Every impossible written time.

    given       the written times, None for points without one
    detached    whether the last one needs a slot of its own before the end
    from_start  whether the first one is always at 0 (points) or may be later (dynamics)
    """
    found = []
    latest: Fraction | None = None
    if from_start:
        latest = _ZERO
        if given[0]:
            found.append(Fault(0, "first-point-late"))
    last = len(given) - 1
    for index in range(int(from_start), len(given)):
        at = given[index]
        if at is None:
            latest = _ZERO if latest is None else latest
        elif latest is not None and at <= latest:
            found.append(Fault(index, "times-fall", latest))
        elif at > length:
            found.append(Fault(index, "past-end"))
        elif at == length and (detached or index < last):
            found.append(Fault(index, "no-slot-left"))
        if at is not None:
            latest = at if latest is None else max(at, latest)
    return found


def spread(given: Given, *, detached: bool, length: Fraction) -> tuple[Fraction, ...]:
    """The time of every point, for valid times: untimed ones evenly share what lies between.

    A last point that is not detached comes at the end unless it has a time; a detached one has a slot of its own.
    """
    count = len(given)
    anchors = [(i, at) for i, at in enumerate(given) if at is not None]
    if not anchors or anchors[0][0] != 0:
        anchors.insert(0, (0, _ZERO))
    if detached or count == 1:
        anchors.append((count, length))
    elif given[-1] is None:
        anchors.append((count - 1, length))
    times: list[Fraction] = []
    for (index, at), (after, end) in pairwise(anchors):
        times.append(at)
        step = (end - at) / (after - index) if after - index > 1 else _ZERO
        times += [at + step * k for k in range(1, after - index)]
    if anchors[-1][0] < count:
        times.append(anchors[-1][1])
    return tuple(times)
