"""A passage tires the player more than its rests give back.

Checks  an account of effort through the passage with its repeats: each second of playing counts by register,
        dynamic and technique, each second of rest pays back as much as a second of plain playing
Why     height, force, flutter, growl and hard attacks use up the lip; teachers say to rest as much as one plays
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: growl
      contour: A5
      lasts: 8 beats
      dynamics: ff
    passage b
      play: a, a
      repeat: 20
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      lasts: 8 beats
    passage b
      play: a, rest 8, a
Fix     put in the rest that the finding names, or write some of it lower or softer
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.evidence import Limit
from gesturesmith.model.gesture import LEVELS
from gesturesmith.model.piece import PassageItem
from gesturesmith.rules._limits import above
from gesturesmith.rules._reading import plain, register_name, slot_s
from gesturesmith.rules.base import Case, Finding, PassageCase, passage_rule


@passage_rule("GS602", "effort-overdrawn", severity="caution")
def check(passage: PassageCase) -> Iterator[Finding]:
    account = 0.0
    worst: tuple[float, PassageItem, Limit] | None = None
    for item, case in _played_out(passage):
        seconds = float(item.beats * 60 / passage.passage.tempo)
        if case is None:
            account = max(0.0, account - seconds * _rest_ratio(passage))
            continue
        account = max(0.0, account + _effort(case))
        reserve = case.instrument.limits.get("effort_reserve_s")
        if reserve is not None and above(reserve, account) and (worst is None or account > worst[0]):
            worst = (account, item, reserve)
    if worst is None:
        return
    account, item, reserve = worst
    over = account - reserve.narrow.value
    meter = passage.passage.meter
    bar = "" if meter is None else f" (bar {int(item.at * meter[1] / 4 / meter[0]) + 1})"
    yield Finding(
        span=item.span,
        where=item.played,
        text=f"up to here{bar} the passage takes as much as {plain(account)} s of plain playing, "
        f"{plain(over)} s more than a player has",
        hint=f"rests of {plain(over / _rest_ratio(passage))} s in all before it settle that",
        evidence=reserve.narrow,
        numbers=(Number(name="effort", value=account, limit=reserve.narrow.value, unit="s of plain playing"),),
    )


def _played_out(passage: PassageCase) -> Iterator[tuple[PassageItem, Case | None]]:
    """The items in the order they are played, repeated stretches as often as they are."""
    rows = list(zip(passage.passage.items, passage.cases, strict=True))
    repeats = {r.end: r for r in passage.passage.repeats}
    for row in rows:
        yield row
        repeat = repeats.get(row[0].at + row[0].beats)
        if repeat is not None:
            again = [r for r in rows if repeat.start <= r[0].at < repeat.end]
            for _ in range(min(repeat.times, 100) - 1):  # more repeats change nothing in the answer
                yield from again


def _rest_ratio(passage: PassageCase) -> float:
    limit = next((c.instrument.limits.get("rest_ratio") for c in passage.cases if c is not None), None)
    return float(limit.narrow.value) if limit is not None else 1.0


def _effort(case: Case) -> float:
    """What a gesture takes, as seconds of plain playing in the middle register; its own silences pay back."""
    limits = case.instrument.limits
    step = limits.get("effort_louder")
    total = 0.0
    for point in case.gesture.points:
        seconds = slot_s(case.gesture, point)
        if point.kind == "silence":
            total -= seconds
            continue
        height = limits.get(f"effort_{register_name(case, point)}")
        weight = float(height.narrow.value) if height is not None else 1.0
        louder = LEVELS.index(case.gesture.level_at(point.at)) - LEVELS.index("mf")
        weight *= max(0.5, 1 + louder * float(step.narrow.value)) if step is not None else 1.0
        for technique in point.techniques:
            if technique.effort is not None:
                weight *= technique.effort.value
        total += seconds * weight
    return total
