"""Compares levels asked for with the loudest or softest possible: the common part of five rules."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from typing import NamedTuple

from gesturesmith.diagnostics.changes import Fix
from gesturesmith.evidence import Limit
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.rules.base import Case, Finding
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import Excess, level_number, level_words, louder, softer
from gesturesmith.techniques.base import Technique


class AskedLevel(NamedTuple):
    """A level that is asked for.

    at          its time, in beats
    place       its place in LEVELS
    limit       the limit it is compared with
    technique   the technique whose limit it is, None if it is the instrument's
    """

    point: ContourPoint
    at: Fraction
    place: Fraction | int
    limit: Limit | None
    technique: Technique | None = None


# Makes the sentence for a level beyond its limit, from: what is asked, the level in words, the limit's level.
type Words = Callable[[AskedLevel, str, str], str]
# Other fixes than another level.
type Ways = Callable[[AskedLevel], tuple[Fix, ...]]


def too_loud(case: Case, asked: Iterable[AskedLevel], words: Words, ways: Ways) -> Iterator[Finding]:
    """The first level louder than its limit; with techniques, the first for each."""
    for one, excess in _first(asked, louder):
        yield _finding(case, one, excess, words, (*fixes.at_most(case.gesture, excess.limit), *ways(one)))


def too_soft(case: Case, asked: Iterable[AskedLevel], words: Words, ways: Ways) -> Iterator[Finding]:
    """The first level softer than its limit; with techniques, the first for each."""
    for one, excess in _first(asked, softer):
        yield _finding(case, one, excess, words, (*fixes.at_least(case.gesture, excess.limit), *ways(one)))


def without_technique(case: Case) -> Ways:
    """The gesture without the technique."""
    return lambda asked: fixes.without(case, asked.technique.key) if asked.technique is not None else ()


def moved(semitones: int) -> Ways:
    """The whole gesture transposed."""
    return lambda asked: fixes.moved(semitones)


def _first(
    asked: Iterable[AskedLevel], passes: Callable[[Limit | None, Fraction | int], Excess | None]
) -> Iterator[tuple[AskedLevel, Excess]]:
    said = set[str]()
    for one in asked:
        excess = passes(one.limit, one.place)
        if excess is None or (one.technique is not None and one.technique.key in said):
            continue
        yield one, excess
        if one.technique is None:
            return
        said.add(one.technique.key)


def _finding(case: Case, asked: AskedLevel, excess: Excess, words: Words, ways: tuple[Fix, ...]) -> Finding:
    return Finding(
        span=asked.point.span,
        text=words(asked, level_words(case.gesture, asked.at, asked.place), excess.limit),
        evidence=excess.evidence,
        severity=excess.severity,
        numbers=(level_number(asked.place, excess.limit),),
        proposed_fixes=ways,
    )
