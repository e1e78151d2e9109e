"""Dynamics of a gesture, each at its own time."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import replace
from fractions import Fraction

from gesturesmith.model.gesture import NIENTE, Gesture, attack_times
from gesturesmith.score.marks import DynamicLevel

_SHORT = Fraction(2)  # beats: a hairpin that lasts no longer is given room; our own judgement


def dynamics(gesture: Gesture) -> list[DynamicLevel]:
    """The dynamics of a gesture in order of time; those at points if the gesture has no `dynamics`."""
    marks = [(m.at, m.level, m.join) for m in gesture.dynamics]
    if not marks:
        marks = [(p.at, p.dynamic, "") for p in gesture.points if p.dynamic]
    over = _last_stroke(gesture)
    begins = {*(p.at for p in gesture.points), *attack_times(gesture)}
    made: list[DynamicLevel] = []
    for n, (written, level, join) in enumerate(marks):
        at = written
        if over is not None and n == len(marks) - 1 and at > over and not (made and made[-1].at >= over):
            at = over
        if not (made and made[-1].hairpin):
            at = _sounding(gesture, written, marks[n + 1][0] if n + 1 < len(marks) else None)
        opened = bool(made and made[-1].hairpin)
        tip = level == NIENTE and bool(join or opened)  # a circle at the tip of the hairpin shows it
        if tip and opened:
            made[-1] = replace(made[-1], niente=True)
        if opened and _needs_room(made[-1].at, at, begins):
            letters = sum(len(mark) for mark in (marks[len(made) - 1][1], level) if mark != NIENTE)
            made[-1] = replace(made[-1], letters=letters)
        made.append(
            DynamicLevel(at=at, level="" if tip else level, hairpin=join, closes=opened, niente=tip and bool(join))
        )
    return made


def _last_stroke(gesture: Gesture) -> Fraction | None:
    """When the last sound begins, if it has no length: a level at the gesture's end is printed under it, since
    nothing sounds after it."""
    point = next((p for p in reversed(gesture.points) if p.kind != "silence"), None)
    if point is None or point.reached == "line" or all(t.pitched != "none" for t in point.techniques):
        return None
    return max(attack_times(gesture))


def _sounding(gesture: Gesture, at: Fraction, following: Fraction | None) -> Fraction:
    """Levels are printed under notes: one in a silence under the next note, unless another mark comes first."""
    begins = next((p.at for p in gesture.points if p.until > at and p.kind != "silence"), at)
    silent = any(p.at <= at < p.until and p.kind == "silence" for p in gesture.points)
    return begins if silent and (following is None or begins < following) else at


def _needs_room(start: Fraction, end: Fraction, begins: set[Fraction]) -> bool:
    """Whether a hairpin may come out too narrow: it is short, or nothing begins between its ends, so that a crowded
    score could squeeze it."""
    return end - start <= _SHORT or not any(start < at < end for at in begins)


def apart_from(
    levels: tuple[DynamicLevel, ...], starts: Container[Fraction], begins: Fraction | None, beats: Fraction
) -> Fraction | None:
    """From when on the levels of a part need a track of their own because one of them falls between leaves; None if
    all are at leaves. Times are from the start of the part.

    starts   when its leaves begin, including those in a tuplet begun by the part before
    begins   when its own leaves begin, None if it has none: earlier levels are at the leaves of that tuplet
    """
    inner = [level.at for level in levels if level.at < beats]
    if begins is None or all(at in starts for at in inner) or not any(at >= begins for at in inner):
        return None
    return begins
