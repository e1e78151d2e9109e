"""Lengths typed on the points of a contour, `C5 for 3/2`: they place the points instead of `@`."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from gesturesmith.lang.nodes import Amount, LineNode, PointNode
from gesturesmith.lang.reader import Reader

_DETACHED = ("none", "slur")


def length(reader: Reader, wanted: str) -> Amount:
    """A length in beats, above zero; the word `beats` is optional."""
    tok = reader.tok
    value = reader.positive(wanted)
    unit = reader.tok
    if unit.kind == "word" and unit.text in ("beat", "beats"):
        reader.next()
    elif unit.kind == "word" and unit.text in ("s", "sec", "seconds", "bar", "bars", "ms"):
        reader.fail("unknown-unit", unit.span, f"this length counts in beats: {tok.text} beats", ("beats",))
    return Amount(value, "beats", tok.span)


def placed(
    reader: Reader, points: list[PointNode], lines: list[LineNode]
) -> tuple[list[PointNode], Fraction | None]:
    """The points with their times, and their total length; unchanged, and None, if no length is typed."""
    first = next((point for point in points if point.for_ is not None), None)
    if first is None or first.for_ is None:
        return points, None
    if reader.key.text == "sing":
        what = "the sung line is as long as the gesture: place its points with @, as in G4@2"
        reader.error("bad-place", first.for_.span, what)
        return points, None
    both = next((point.at for point in points if point.at is not None), None)
    if both is not None:
        what = f"a point is placed by `for` or by @, not by both: remove @{both.value}, or every `for`"
        reader.error("bad-place", both.span, what)
        return points, None
    at = Fraction(0)
    made: list[PointNode] = []
    for index, point in enumerate(points):
        goes_on = index == len(points) - 1 > 0 and lines[-1].kind not in _DETACHED
        if point.for_ is None:
            if not goes_on:
                what = "no length, though other points have one: add `for` and its beats, as in C5 for 1"
                reader.error("incomplete", point.span, what)
            made.append(point)
            continue
        made.append(replace(point, at=Amount(at, "", point.for_.span)) if index else point)
        at += point.for_.value
    return made, at
