"""Changes of equipment or of way of playing from one note to the next, and the time for them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.piece import PassageItem
from gesturesmith.rules.base import Case, Finding, PassageCase
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.account import inside
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import apart, plain, seconds_between

type State = Callable[[ContourPoint, Gesture], str | None]
type _Note = tuple[PassageItem, Case, ContourPoint]


def in_gesture(case: Case, state: State, limit_name: str, what: str) -> Iterator[Finding]:
    """Findings if a state changes within a gesture with too little silence before the new one.

    state   the state at a point; "" is the ordinary one, None is compatible with any
    what    what changes: "the mute"
    """
    gesture = case.gesture
    limit = case.instrument.limits.get(limit_name)
    before: tuple[ContourPoint, str | None] | None = None
    for point in gesture.points:
        if point.kind == "silence":
            continue
        now = state(point, gesture)
        if before is not None and _differ(before[1], now):
            # Only silence counts as time: during a note the hands are not free.
            free = seconds_between(gesture, before[0].until, point.at)
            excess = below(limit, free)
            if excess is not None and point.reached == "attack":
                words = f"{apart(free, excess.limit)} s" if free else "no time"
                yield Finding(
                    span=point.span,
                    text=f"{words} of rest before this note to change {what}; {plain(excess.limit)} s are needed",
                    evidence=excess.evidence,
                    severity=excess.severity,
                    numbers=(Number(name="rest", value=free, limit=excess.limit, unit="s"),),
                    proposed_fixes=fixes.slower(gesture, excess.limit / free) if free else (),
                )
        before = point, now


def _differ(one: str | None, other: str | None) -> bool:
    return one is not None and other is not None and one != other


def in_passage(passage: PassageCase, state: State, limit_name: str, what: str) -> Iterator[Finding]:
    """The same from the last note of one item of a passage to the first of the next."""
    for (_, old_case, old), (item, case, first), beats, again in _meetings(passage):
        free = float(beats * 60 / passage.passage.tempo)
        excess = below(case.instrument.limits.get(limit_name), free)
        if excess is not None and _differ(state(old, old_case.gesture), state(first, case.gesture)):
            words = f"{apart(free, excess.limit)} s" if free > 0 else "no time"
            yield Finding(
                span=item.span,
                where=item.played,
                text=f"{words} of rest before it{again} to change {what}; {plain(excess.limit)} s are needed",
                hint=f"rest {_beats(excess.limit, passage)} before it",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(Number(name="rest", value=free, limit=excess.limit, unit="s"),),
            )


def _meetings(passage: PassageCase) -> Iterator[tuple[_Note, _Note, Fraction, str]]:
    """The last note of each sounding item, the first of the next, and the beats between; also across repeats."""
    items = zip(passage.passage.items, passage.cases, strict=True)
    rows = [(item, case) for item, case in items if case is not None and case.gesture.sounding_points]
    pairs = [(before, after, Fraction(0), "") for before, after in pairwise(rows)]
    for repeat in passage.passage.repeats:
        again = inside(repeat, rows, lambda row: row[0].at)
        if again and repeat.times > 1:
            pairs.append((again[-1], again[0], repeat.end - repeat.start, ", where it is repeated,"))
    for (old_item, old_case), (item, case), later, words in pairs:
        old, first = old_case.gesture.sounding_points[-1], case.gesture.sounding_points[0]
        beats = item.at + later + first.at - old_item.at - old.until
        yield (old_item, old_case, old), (item, case, first), beats, words


def _beats(seconds: float, passage: PassageCase) -> str:
    beats = -int(-float(passage.passage.tempo) * seconds / 60 // 1)
    return f"{beats} {'beat' if beats == 1 else 'beats'}"
