"""A stopped or half-stopped note is below the range where it can be tuned and heard.

Checks  every stopped or half-stopped note, by its sounding pitch
Why     low notes lose pitch and core when the hand closes the bell
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: stopped
      contour: C3
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: stopped
      contour: C5
Fix     move it up, or ask for a mute
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import both_names, pitched_points, point_names

_LIMITS = {"stopped": "stopped_lowest_cents", "half": "half_stopped_lowest_cents"}


@rule("GS309", "stopped-too-low", severity="caution", only=("bell",))
def check(case: Case) -> Iterator[Finding]:
    for _, point in pitched_points(case):
        technique = next((t for t in point.techniques if t.bell_hand), None)
        if technique is None or any(t.tone == "none" for t in point.techniques):
            continue
        cents = point.sounding_cents or 0
        excess = below(case.instrument.limits.get(_LIMITS[technique.bell_hand]), float(cents))
        if excess is None:
            continue
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)} {technique.title['en'].lower()}; good from "
            f"{both_names(case.instrument, excess.limit)} upward",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="sounding pitch", value=cents, limit=excess.limit, unit="cents above C-1"),),
            proposed_fixes=(*fixes.moved(12), *fixes.instead(case, "bell", "muted")),
        )
