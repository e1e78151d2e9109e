"""Dynamics: levels, their times, and the hairpins between them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from gesturesmith.lang import nodes
from gesturesmith.lang.words import EACH
from gesturesmith.model import messages, times
from gesturesmith.model.context import Context
from gesturesmith.model.contour import GestureLength, complain
from gesturesmith.model.gesture import ContourPoint, DynamicMark, Gesture, attack_times


def dynamics(ctx: Context, node: nodes.Dynamics, clock: GestureLength) -> tuple[DynamicMark, ...]:
    """The levels of a gesture of known length, each at its time.

    They share the time as points do: a last level reached by a hairpin comes at the end, any other has a stretch
    of its own. The first may come after the start.
    """
    if not node.levels:
        return ()
    length = clock.beats or Fraction(1)
    detached = not node.joins or node.joins[-1] == ""
    given = clock.given(level.at for level in node.levels)
    found = times.faults(given, detached=detached, length=length, from_start=False)
    if found:
        spans = [level.at.span if level.at is not None else level.span for level in node.levels]
        complain(ctx, found, given, spans, clock, "level")
        return ()
    at = times.spread(given, detached=detached, length=length)
    joins = (*node.joins, "")
    return tuple(
        DynamicMark(level=level.level, at=at[i], join=joins[i], span=level.span)
        for i, level in enumerate(node.levels)
    )


def at_each(gesture: Gesture) -> tuple[DynamicMark, ...]:
    """The one level of a gesture at each of its attacks."""
    return tuple(replace(gesture.dynamics[0], at=at) for at in attack_times(gesture))


def from_points(points: tuple[ContourPoint, ...]) -> tuple[DynamicMark, ...]:
    """The levels given at points."""
    return tuple(DynamicMark(level=p.dynamic, at=p.at, join="", span=p.span) for p in points if p.dynamic)


def in_words(node: nodes.Dynamics) -> str:
    """The dynamics as the language writes them: `p < f@3 > p`."""
    parts = []
    for level, join in zip(node.levels, (*node.joins, ""), strict=True):
        place = f"@{messages.amount(level.at.value)}" if level.at is not None else ""
        parts += [f"{level.level}{place}", join]
    return " ".join(p for p in (*parts, EACH if node.each else "") if p)
