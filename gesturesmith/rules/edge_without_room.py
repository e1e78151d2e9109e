"""The edge of a note leads out of the instrument's range.

Checks  how far beyond its note a rip, plop, doit or fall reaches, against the widest range of the instrument
Why     plops come from above and doits go there, rips come from below and falls go there: at the ends of the
        range there is nowhere to come from or to go to
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: doit
      contour: D6
      lasts: 2 beats
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: doit
      contour: C5
      lasts: 2 beats
Fix     move the note away from the end of the range, or leave the edge out
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.evidence import Limit
from gesturesmith.kinds import Side
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import both_names, counted, pitched_points


@rule(
    "GS511",
    "edge-without-room",
    severity="caution",
    only=(
        "limit:room_below_cents",
        "limit:room_above_cents",
    ),
)
def check(case: Case) -> Iterator[Finding]:
    low, high = case.instrument.widest_range.value
    for _, point in pitched_points(case):
        cents = point.sounding_cents or 0
        if not low <= cents <= high:
            continue  # the note itself is the problem
        for technique in point.techniques:
            ways: tuple[tuple[Side, Limit | None, float, int], ...] = (
                ("below", technique.limits.get("room_below_cents"), float(cents - low), low),
                ("above", technique.limits.get("room_above_cents"), float(high - cents), high),
            )
            name = technique.title["en"].lower()
            for word, limit, room, edge in ways:
                if limit is None or room >= limit.narrow.value:
                    continue
                yield Finding(
                    span=point.span,
                    text=f"a {name} needs about {counted(limit.narrow.value / 100, 'semitone')} "
                    f"{word} its note; the range ends at {both_names(case.instrument, edge)}",
                    evidence=limit.narrow,
                    numbers=(Number(name=f"room {word}", value=room, limit=limit.narrow.value, unit="cents"),),
                    proposed_fixes=(
                        *fixes.without(case, technique.key),
                        *fixes.moved(12 if word == "below" else -12),
                    ),
                )
                return
