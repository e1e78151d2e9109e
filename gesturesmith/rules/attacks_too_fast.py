"""Attacks follow each other faster than the tongue can go, or the register respond.

Checks  attacks per second, from `attacks:` or one for each tongued point, against limits for the kind of
        tonguing and the register; in a passage also from one item to the next
Why     the tongue has a top speed, and in the low register the sound takes longer to form; sources differ,
        so below the widest reading the checker only warns
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      lasts: 1 beat
      attacks: 9
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      lasts: 1 beat
      attacks: 6
Fix     use `double-tongue` or `triple-tongue`, slow it down, or ask for fewer attacks
"""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import lru_cache

from gesturesmith.diagnostics import Number
from gesturesmith.diagnostics.changes import AttacksChange, Fix
from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import ContourPoint, Gesture, attack_times
from gesturesmith.model.piece import PassageItem, Repeat
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.account import inside
from gesturesmith.rules.shared.limits import Excess
from gesturesmith.rules.shared.reading import apart, plain, register_name
from gesturesmith.rules.shared.tonguing import TONGUINGS, other_tonguings, tonguing

_WINDOW = 2  # gaps averaged: a single short note among long ones is not a rate
# An attack: its time in beats from the start of the passage, its item, and the sounding point.
type _Struck = tuple[Fraction, PassageItem, Case, ContourPoint]


def _between(passage: PassageCase) -> Iterator[Finding]:
    """The fastest attacks across the items of a passage; those within one item have their own finding."""
    struck = [
        (item.at + at, item, case, point)
        for item, case in zip(passage.passage.items, passage.cases, strict=True)
        if case is not None
        for at, point in _struck(case.gesture)
    ]
    worst: tuple[tuple[int, float], PassageItem, str, Excess] | None = None
    for first, beats in _windows(struck, passage.passage.repeats):
        rate = float(_WINDOW * passage.passage.tempo / (60 * beats))
        _, item, case, point = first
        for excess, words in tonguing(case, point, rate):
            key = (excess.severity.rank, rate)
            if worst is None or key > worst[0]:
                worst = (key, item, f"{words} in the {register_name(case, point)} register", excess)
    if worst is not None:
        (_, rate), item, words, excess = worst
        yield Finding(
            span=item.span,
            where=item.played,
            text=f"{apart(rate, excess.limit)} attacks a second from here; {words}: up to "
            f"{plain(excess.limit)}{excess.caveat}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="attacks a second", value=rate, limit=excess.limit, unit="attacks a second"),),
        )


def _windows(struck: Sequence[_Struck], repeats: Iterable[Repeat]) -> Iterator[tuple[_Struck, Fraction]]:
    """Attacks with the beats to the next but one, if that is in another item or a repeat."""
    for first, third in zip(struck, struck[_WINDOW:], strict=False):
        if first[1] is not third[1]:
            yield first, third[0] - first[0]
    for repeat in repeats:
        once = inside(repeat, struck, lambda s: s[1].at)
        length, turns = repeat.end - repeat.start, range(min(repeat.times, _WINDOW + 1))
        played = [(turn, s[0] + turn * length, s) for turn in turns for s in once]
        for (turn, at, first), (other, until, _) in zip(played, played[_WINDOW:], strict=False):
            if turn != other:
                yield first, until - at


def _struck(gesture: Gesture) -> Iterator[tuple[Fraction, ContourPoint]]:
    """The time of each attack, in beats from the start, and the point sounding then."""
    points = gesture.sounding_points
    place = 0
    for at in attack_times(gesture) if points else ():
        while place + 1 < len(points) and points[place + 1].at <= at:
            place += 1
        yield at, points[place]


@rule("GS401", "attacks-too-fast", severity="caution", passage=_between, graces=False)
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    rates = list(_rates(tuple(_struck(gesture)), gesture.tempo))
    if not rates or max(rate for _, rate in rates) <= _never_too_fast(case):
        return
    worst: tuple[tuple[int, float], float, ContourPoint, str, Excess] | None = None
    for point, rate in rates:
        for excess, words in tonguing(case, point, rate):
            key = (excess.severity.rank, rate)
            if worst is None or key > worst[0]:
                worst = (key, rate, point, words, excess)
    if worst is None:
        return
    _, rate, point, words, excess = worst
    asked = gesture.attacks is not None
    register = register_name(case, point)
    yield Finding(
        span=gesture.span_of("attacks") if asked else point.span,
        text=f"{apart(rate, excess.limit)} attacks a second; {words} in the {register} register: up to "
        f"{plain(excess.limit)}{excess.caveat}",
        evidence=excess.evidence,
        severity=excess.severity,
        numbers=(Number(name="attacks a second", value=rate, limit=excess.limit, unit="attacks a second"),),
        proposed_fixes=_ways_out(case, rate, excess),
    )


def _never_too_fast(case: Case) -> float:
    """Attacks per second not above any limit of the instrument or of a technique in force."""
    rows = {id(p.techniques): p.techniques for p in case.gesture.points}
    own = (t.limits.get("fastest_per_s") for row in rows.values() for t in row)
    return min([_slowest(case.instrument), *(float(limit.narrow.value) for limit in own if limit is not None)])


@lru_cache(maxsize=64)
def _slowest(instrument: Instrument) -> float:
    named = (f"{prefix}_per_s_{r.name}" for prefix in TONGUINGS for r in instrument.registers)
    found = (instrument.limits.get(name) for name in named)
    return min((float(limit.narrow.value) for limit in found if limit is not None), default=0.0)


def _rates(
    struck: Sequence[tuple[Fraction, ContourPoint]], tempo: Fraction
) -> Iterator[tuple[ContourPoint, float]]:
    """Attacks per second over two gaps (or the only one), each with the point sounding at its start."""
    gaps = min(_WINDOW, len(struck) - 1)
    for i in range(len(struck) - gaps if gaps > 0 else 0):
        at, point = struck[i]
        beats = struck[i + gaps][0] - at
        seconds = 60 * beats.numerator * tempo.denominator / (beats.denominator * tempo.numerator)
        if seconds > 0:
            yield point, gaps / seconds


def _ways_out(case: Case, rate: float, excess: Excess) -> tuple[Fix, ...]:
    gesture = case.gesture
    changes: list[Fix] = []
    changes += other_tonguings(case)
    spread = gesture.spread
    if spread is not None:
        fewer = int(spread.count * excess.limit / rate)
        changes += [(AttacksChange(fewer, spread.shape),)] if fewer > 0 else []
    changes += fixes.slower(gesture, rate / excess.limit)
    return tuple(changes)
