"""Pairs of techniques that a gesture asks for at the same time."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from gesturesmith.rules.base import Case
from gesturesmith.source import Span
from gesturesmith.techniques.base import Technique


def pairs(case: Case) -> Iterator[tuple[Technique, Technique, Span, bool]]:
    """Each pair of techniques once, where it first appears, and whether one `technique` or one `as` names both: the
    pairs of the gesture, then those in force at points that change something."""
    gesture = case.gesture
    said: set[frozenset[str]] = set()
    rows = [(gesture.techniques, gesture.span_of("technique"), {t.key for t in gesture.techniques})]
    rows += [(p.techniques, p.span, {*p.turns_to}) for p in gesture.points if p.turns_to or p.ends]
    for row, span, named in rows:
        for one, other in combinations(row, 2):
            pair = frozenset((one.key, other.key))
            if pair not in said:
                said.add(pair)
                yield one, other, span, pair <= named
