"""Changes of equipment or of way of playing from one note to the next, and the time for them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

from gesturesmith.diagnostics import Number
from gesturesmith.evidence import Limit
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.piece import PassageItem, Repeat
from gesturesmith.rules.base import Case, Finding, PassageCase
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.account import inside
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import apart, plain, seconds_between, slot_s

type LimitName = Callable[[str, str], str]  # of a change from one state to another
type State = Callable[[ContourPoint, Gesture], str | None]
type _Note = tuple[PassageItem, Case, ContourPoint]
type _Row = tuple[PassageItem, Case]


def in_gesture(
    case: Case, state: State, limit_name: str | LimitName, what: str, *, playing: bool = False
) -> Iterator[Finding]:
    """Findings if a state changes within a gesture with too little time before the new one.

    state       the state at a point; "" is the ordinary one, None is compatible with any
    limit_name  of the limit of every change, or of each
    what        what changes: "the mute"
    playing     whether it can be done while playing, so that the time is that from note to note; else only silence
                is time
    """
    gesture = case.gesture
    before: tuple[ContourPoint, str | None] | None = None
    for point in gesture.points:
        if point.kind == "silence":
            continue
        now = state(point, gesture)
        if before is not None and _differ(before[1], now):
            since = before[0].at if playing else before[0].until
            free = seconds_between(gesture, since, point.at)
            excess = below(_limit(case, limit_name, before[1], now), free)
            if excess is not None and point.reached == "attack":
                words = f"{apart(free, excess.limit)} s" if free else "no time"
                yield Finding(
                    span=point.span,
                    text=f"{words} {_between(playing)} this note to change {what}; "
                    f"{plain(excess.limit)} s are needed",
                    evidence=excess.evidence,
                    severity=excess.severity,
                    numbers=(Number(name="time" if playing else "rest", value=free, limit=excess.limit, unit="s"),),
                    proposed_fixes=fixes.slower(gesture, excess.limit / free) if free else (),
                )
        before = point, now


def _between(playing: bool) -> str:
    return "from the note before to" if playing else "of rest before"


def _limit(case: Case, name: str | LimitName, before: str | None, now: str | None) -> Limit | None:
    return case.instrument.limits.get(name if isinstance(name, str) else name(before or "", now or ""))


def _differ(one: str | None, other: str | None) -> bool:
    return one is not None and other is not None and one != other


def in_passage(
    passage: PassageCase, state: State, limit_name: str | LimitName, what: str, *, playing: bool = False
) -> Iterator[Finding]:
    """The same from the last note of one item of a passage to the first of the next."""
    for (_, old_case, old), (item, case, _), states, rest, again in _meetings(passage, state):
        free = rest + (slot_s(old_case.gesture, old) if playing else 0.0)
        excess = below(_limit(case, limit_name, *states), free)
        if excess is not None:
            words = f"{apart(free, excess.limit)} s" if free > 0 else "no time"
            yield Finding(
                span=item.span,
                where=item.played,
                text=f"{words} {_between(playing)} it{again} to change {what}; {plain(excess.limit)} s are needed",
                hint="make the note before it longer"
                if playing
                else f"rest {_beats(excess.limit, passage)} before it",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(Number(name="time" if playing else "rest", value=free, limit=excess.limit, unit="s"),),
            )


def _meetings(
    passage: PassageCase, state: State
) -> Iterator[tuple[_Note, _Note, tuple[str | None, str | None], float, str]]:
    """The last note of each sounding item and the first of the next where their states differ, both states, and the
    seconds between; also across repeats."""
    items = zip(passage.passage.items, passage.cases, strict=True)
    rows = [(item, case) for item, case in items if case is not None and case.gesture.sounding_points]
    going_on = [item for item in passage.passage.items if item.box is not None and item.box.goes_on]
    lasts, held = passage.passage.tempo_map.between, [i for i in passage.passage.items if i.fermata]
    pairs: list[tuple[_Row, _Row, Repeat | None]] = [(before, after, None) for before, after in pairwise(rows)]
    for repeat in passage.passage.repeats:
        again = inside(repeat, rows, lambda row: row[0].at)
        if again and repeat.times > 1:
            pairs.append((again[-1], again[0], repeat))
    for (old_item, old_case), (item, case), repeated in pairs:
        old, first = old_case.gesture.sounding_points[-1], case.gesture.sounding_points[0]
        states = state(old, old_case.gesture), state(first, case.gesture)
        if not _differ(*states):  # before the times are counted, of which there may be thousands
            continue
        since, until = old_item.at + old.until, item.at + first.at
        if repeated is None:
            rest, words = lasts(since, until), ""
            between = [kept for kept in held if old_item.at < kept.at < item.at]
        else:
            rest, words = lasts(since, repeated.end) + lasts(repeated.start, until), ", where it is repeated,"
            between = [kept for kept in held if kept.at > old_item.at or kept.at < item.at]
        # A box that is repeated in between is no rest; a fermata makes one longer.
        rest -= sum(lasts(box.at, box.at + box.beats) for box in going_on if old_item.at < box.at < item.at)
        rest += sum(passage.passage.silence_s(kept) - lasts(kept.at, kept.at + kept.beats) for kept in between)
        yield (old_item, old_case, old), (item, case, first), states, rest, words


def _beats(seconds: float, passage: PassageCase) -> str:
    beat = next((case.gesture.beat for case in passage.cases if case is not None), Fraction(1))
    beats = -int(-float(passage.passage.tempo / beat) * seconds / 60 // 1)
    return f"{beats} {'beat' if beats == 1 else 'beats'}"
