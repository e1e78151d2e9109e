"""A scoop begins further below its note than the lip can take it there.

Checks  the usual width of a scoop against how far the lip can bend a note down at that height
Why     the lip can take low notes down by about a third but the highest by only about a quarter tone: up there a
        scoop is hardly more than a note out of tune
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: scoop
      contour: C6
      lasts: 2 beats
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: scoop
      contour: C5
      lasts: 2 beats
Fix     leave it out, move it down, or write a `rip`, which goes through the harmonics
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.realise.curve import along
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import pitched_points, plain, point_names


@rule("GS510", "scoop-too-wide", severity="caution", only=("limit:lip_down_cents",))
def check(case: Case) -> Iterator[Finding]:
    for _, point in pitched_points(case):
        for technique in point.techniques:
            width = technique.limits.get("lip_down_cents")
            if width is None or point.reached != "attack":
                continue
            cents = point.sounding_cents or 0
            excess = above(along(case.instrument, "bend_down", cents), width.narrow.value)
            if excess is None:
                continue
            yield Finding(
                span=point.span,
                text=f"a {technique.title['en'].lower()} begins about {plain(width.narrow.value)} cents below its "
                f"note; the lip lowers {point_names(case, point)} by about {plain(excess.limit)}, so "
                "it will hardly be heard",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(Number(name="width", value=width.narrow.value, limit=excess.limit, unit="cents"),),
                proposed_fixes=(*fixes.without(case, technique.key), *fixes.moved(-12)),
            )
            return
