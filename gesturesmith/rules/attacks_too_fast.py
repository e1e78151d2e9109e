"""Attacks follow each other faster than the tongue can go, or the register respond.

Checks  attacks per second, from `attacks:` or one for each tongued point, in runs of at least three, against limits
        for the register and the kind of tonguing (the fastest if none is named); in a passage also from one item to
        the next
Why     the tongue has a top speed, and in the low register the sound takes longer to form; a short burst can be
        faster than a sustained rate; sources differ, so below the widest reading the checker only warns
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      lasts: 1 beat
      attacks: 15
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      lasts: 1 beat
      attacks: 9
Fix     slow it down, ask for fewer attacks, or leave the kind of tonguing to the player
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from gesturesmith.diagnostics import Number
from gesturesmith.diagnostics.changes import AttacksChange, Fix
from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.model.piece import Passage, PassageItem
from gesturesmith.model.strokes import struck
from gesturesmith.realise.tonguing import SHORTEST_RUN, runs, runs_in
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.account import inside
from gesturesmith.rules.shared.limits import Excess
from gesturesmith.rules.shared.reading import apart, plain, register_name
from gesturesmith.rules.shared.tonguing import TONGUINGS, other_tonguings, tonguing
from gesturesmith.values import frozen

_TURNS = 16  # repeats considered: as many as the longest run has gaps
# An attack: its time in seconds from the start of the passage, its item, and the sounding point.
type _Struck = tuple[float, PassageItem, Case, ContourPoint]


@frozen
class _Run:
    """A run of attacks that is too fast: its gaps, its rate, the limit exceeded, and the words for it."""

    gaps: int
    rate: float
    excess: Excess
    words: str

    @property
    def key(self) -> tuple[int, float, int]:
        """For finding the worst: refusals first, then the furthest beyond the limit, then the longest."""
        return self.excess.severity.rank, self.rate / float(self.excess.limit), self.gaps

    def text(self, where: str) -> str:
        many = "" if self.gaps == SHORTEST_RUN else f", {self.gaps + 1} in a row"
        return (
            f"{apart(self.rate, self.excess.limit)} attacks a second{many}{where}; {self.words}: up to "
            f"{plain(self.excess.limit)}{self.excess.caveat}"
        )

    @property
    def numbers(self) -> tuple[Number, ...]:
        return (Number(name="attacks a second", value=self.rate, limit=self.excess.limit, unit="attacks a second"),)


def _between(passage: PassageCase) -> Iterator[Finding]:
    """The fastest attacks across the items of a passage; those within one item have their own finding."""
    rows = [
        (passage.passage.tempo_map.seconds(item.at + at), item, case, point)
        for item, case in zip(passage.passage.items, passage.cases, strict=True)
        if case is not None
        for at, point in struck(case.gesture, unmeasured=False)
    ]
    alike = {(id(case.instrument), id(point.techniques)): (case, point) for _, _, case, point in rows}
    never = min((_never_too_fast(case, (point,)) for case, point in alike.values()), default=0.0)
    worst: tuple[_Run, PassageItem] | None = None
    for first, gaps, rate in _windows(rows, passage.passage):
        if rate <= never:
            continue
        _, item, case, point = first
        for excess, words in tonguing(case, point, rate, gaps):
            found = _Run(gaps, rate, excess, f"{words} in the {register_name(case, point)} register")
            if worst is None or found.key > worst[0].key:
                worst = found, item
    if worst is not None:
        run, item = worst
        yield Finding(
            span=item.span,
            where=item.played,
            text=run.text(" from here"),
            evidence=run.excess.evidence,
            severity=run.excess.severity,
            numbers=run.numbers,
        )


def _windows(rows: Sequence[_Struck], passage: Passage) -> Iterator[tuple[_Struck, int, float]]:
    """Runs of attacks that reach from one item into another, or into a repeat of it."""
    for i, gaps, rate in runs([row[0] for row in rows]):
        if rows[i][1] is not rows[i + gaps][1]:
            yield rows[i], gaps, rate
    for repeat in passage.repeats:
        whole = passage.tempo_map.between(repeat.start, repeat.end)
        once = inside(repeat, rows, lambda row: row[1].at)
        turns = range(min(repeat.times, _TURNS))
        played = [(turn, row[0] + turn * whole, row) for turn in turns for row in once]
        for i, gaps, rate in runs([at for _, at, _ in played]):
            if played[i][0] != played[i + gaps][0]:
                yield played[i][2], gaps, rate


@rule("GS401", "attacks-too-fast", severity="caution", passage=_between, graces=False)
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    never = _never_too_fast(case, gesture.points)
    # The fastest of runs played alike, the first of equals: a hundred notes are one question.
    fastest: dict[tuple[int, str, int], tuple[float, ContourPoint]] = {}
    for point, gaps, rate in runs_in(gesture):
        if rate <= never:
            continue
        alike = id(point.techniques), register_name(case, point), gaps
        if alike not in fastest or rate > fastest[alike][0]:
            fastest[alike] = rate, point
    worst: tuple[_Run, ContourPoint] | None = None
    for (_, _, gaps), (rate, point) in fastest.items():
        for excess, words in tonguing(case, point, rate, gaps):
            found = _Run(gaps, rate, excess, f"{words} in the {register_name(case, point)} register")
            if worst is None or found.key > worst[0].key:
                worst = found, point
    if worst is None:
        return
    run, point = worst
    yield Finding(
        span=gesture.span_of("attacks") if gesture.attacks is not None else point.span,
        text=run.text(""),
        evidence=run.excess.evidence,
        severity=run.excess.severity,
        numbers=run.numbers,
        proposed_fixes=_ways_out(case, run.rate, run.excess),
    )


def _never_too_fast(case: Case, points: Sequence[ContourPoint]) -> float:
    """Attacks per second not above any limit of the instrument or of a technique in force at the points."""
    rows = {id(p.techniques): p.techniques for p in points}
    own = (t.limits.get("fastest_per_s") for row in rows.values() for t in row)
    return min([_slowest(case.instrument), *(float(limit.narrow.value) for limit in own if limit is not None)])


@lru_cache(maxsize=64)
def _slowest(instrument: Instrument) -> float:
    named = (f"{prefix}_per_s_{r.name}" for prefix in TONGUINGS for r in instrument.registers)
    found = (instrument.limits.get(name) for name in named)
    return min((float(limit.narrow.value) for limit in found if limit is not None), default=0.0)


def _ways_out(case: Case, rate: float, excess: Excess) -> tuple[Fix, ...]:
    gesture = case.gesture
    changes: list[Fix] = list(other_tonguings(case))
    spread = gesture.spread
    if spread is not None:
        fewer = int(spread.count * excess.limit / rate)
        changes += [(AttacksChange(fewer, spread.shape),)] if fewer > 0 else []
    changes += fixes.slower(gesture, rate / excess.limit)
    return tuple(changes)
