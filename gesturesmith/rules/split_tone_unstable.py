"""A split tone is asked for between partials too far apart to be held together.

Checks  the partial of each split tone, which has to sound together with the one above
Why     between distant partials the tone will not hold; it jumps from one to the other
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: split-tone
      contour: C3
      lasts: 4 beats
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: split-tone
      contour: C5
      lasts: 4 beats
Fix     move it up, where partials are close, or sing the second note: `multiphonic`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import played_points


@rule("GS210", "split-tone-unstable", severity="caution", only=("holds",))
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("split_tone_lowest_partial")
    for point, played in played_points(case):
        if not played.partial or not any(t.holds > 1 for t in point.techniques):
            continue
        excess = below(limit, played.partial)
        if excess is None:
            continue
        yield Finding(
            span=point.span,
            text=f"partials {played.partial} and {played.partial + 1}; two are held from about partial "
            f"{excess.limit} upward",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="partial", value=played.partial, limit=excess.limit, unit="partial"),),
            proposed_fixes=(*fixes.moved(12), *fixes.instead(case, "lip", "multiphonic")),
        )
