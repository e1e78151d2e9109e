"""A passage tires the player more than its rests can make up for.

Checks  a running balance of effort through the passage and its repeats: each second of playing costs according to
        register, dynamic and technique, each second of rest pays back a second of plain playing
Why     height, loudness, flutter, growl and hard attacks wear out the lip; teachers say to rest as much as one
        plays
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
Fix     add the rest that the finding names, or write some of it lower or softer
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.evidence import Limit
from gesturesmith.model.piece import PassageItem
from gesturesmith.rules.base import Finding, PassageCase, passage_rule
from gesturesmith.rules.shared.account import account, bar_words, rest_ratio
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import plain


@passage_rule("GS602", "effort-overdrawn", severity="caution")
def check(passage: PassageCase) -> Iterator[Finding]:
    first: tuple[float, PassageItem, Limit] | None = None
    most = 0.0
    for item, owed, case in account(passage):
        reserve = case.instrument.limits.get("effort_reserve_s") if case is not None else None
        if reserve is not None and above(reserve, owed):
            first = first or (owed, item, reserve)
            most = max(most, owed)
    if first is None:
        return
    owed, item, reserve = first
    over, bar = owed - reserve.narrow.value, bar_words(passage, item)
    in_all = most - reserve.narrow.value
    yield Finding(
        span=item.span,
        where=item.played,
        text=f"up to here{bar} the passage takes as much as {_minutes(owed)} of plain playing, "
        f"{_minutes(over)} more than a player's reserve",
        hint=f"rests of {_minutes(in_all / rest_ratio(passage))} in all would be enough for the whole passage",
        evidence=reserve.narrow,
        numbers=(Number(name="effort", value=owed, limit=reserve.narrow.value, unit="s of plain playing"),),
    )


def _minutes(seconds: float) -> str:
    """A long time in a natural unit: "95 s", "12 minutes"."""
    return f"{plain(seconds)} s" if seconds < 120 else f"{plain(seconds / 60)} minutes"
