"""The note of a gesture that a place in the text belongs to, in words."""

from __future__ import annotations

from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.source import Span

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def ordinal(number: int) -> str:
    """1 is "first", 2 "second"; from 11 on "11th", "12th"."""
    if number <= len(_ORDINALS):
        return _ORDINALS[number - 1]
    ending = "th" if number // 10 % 10 == 1 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def point_at(gesture: Gesture, span: Span) -> int | None:
    """The index of the contour point that `span` marks, or None if it marks something else."""
    for index, point in enumerate(gesture.points):
        own = point.span
        if own.line == span.line and own.column <= span.column and span.end_column <= own.end_column:
            return index
    return None


def where(gesture: Gesture, span: Span) -> str:
    """ "third note (written C6)", or "" if `span` does not mark a single point."""
    index = point_at(gesture, span)
    if index is None:
        graces = (grace.point for point in gesture.points for grace in (*point.graces, *point.after))
        return next((f"grace note ({_height(grace)})" for grace in graces if grace.span == span), "")
    point = gesture.points[index]
    if point.kind == "silence":
        return f"{ordinal(index + 1)} point (silence)"
    number = sum(p.kind != "silence" for p in gesture.points[: index + 1])
    return f"{ordinal(number)} note ({_height(point)})"


def _height(point: ContourPoint) -> str:
    if point.pitch is not None:
        return f"written {'about ' if point.about else ''}{point.pitch.written.name}"
    if point.extreme:
        return f"the {point.extreme} possible"
    percent = point.percent if point.percent is not None else 0
    return f"at {float(percent):g} % of the band"
