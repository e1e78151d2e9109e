"""A stopped note is asked for on the side of the horn that puts it out of tune.

Checks  the side of every stopped note with a given fingering
Why     stopping raises the F side by a semitone, for which there is a fingering; it raises the shorter B-flat side
        by about three quarters of a tone, for which there is none
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: stopped
      contour: C5
      fingering: Bb 2
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: stopped
      contour: C5
      fingering: F 2
Fix     play stopped notes on the F side: leave the fingering out
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.diagnostics.changes import FingeringChange
from gesturesmith.realise.in_force import bell_hand
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.reading import played_points


@rule("GS310", "stopped-on-wrong-side", severity="caution", only=("fingering",))
def check(case: Case) -> Iterator[Finding]:
    sides = {side.name: side for side in case.instrument.sides}
    for point, played in played_points(case):
        if not played.given or played.tube is None or bell_hand(point.techniques) != "stopped":
            continue
        raised = sides[played.tube.side].stopped_cents
        if raised is None or raised.value % 100 == 0:
            continue
        yield Finding(
            span=case.gesture.span_of("fingering"),
            text=f"stopping raises the {played.tube.side} side by about {raised.value} cents, between the notes",
            evidence=raised,
            numbers=(Number(name="raised by", value=raised.value, limit=100, unit="cents"),),
            proposed_fixes=((FingeringChange("auto"),),),
        )
        return
