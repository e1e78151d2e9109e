"""Exact pitches are written for a technique that gives only approximate ones, or none.

Checks  every exact pitch with half valves, a split attack or another technique that cannot promise its pitch
Why     an ordinary notehead promises a pitch; half valves shift the partials and blur their centres, a spat
        attack has no time to find one, and a kiss or click has none
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: half-valve
      contour: G4 ~~ D5 ~~ B4
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: half-valve
      contour: xG4 ~~ xD5 ~~ xB4
Fix     put x before the pitches (approximately this high), or `allow` it if the exact pitch is meant as a goal
"""

from collections.abc import Iterator

from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes

_UNSOURCED = Sourced("approximate", HOUSE, "our reading of the technique")


@rule("GS701", "exact-head-on-vague-pitch", severity="caution", only=("vague",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    if gesture.notehead in ("x", "slash"):
        return
    exact: dict[str, list[int]] = {}
    by_key = {}
    for index in fixes.exact_points(gesture):
        vague = next((t for t in gesture.points[index].techniques if t.pitched != "exact"), None)
        if vague is not None:
            exact.setdefault(vague.key, []).append(index)
            by_key[vague.key] = vague
    for key, indices in exact.items():
        technique = by_key[key]
        more = f" (and {len(indices) - 1} more)" if len(indices) > 1 else ""
        gives = "no pitch" if technique.pitched == "none" else "only an approximate pitch"
        yield Finding(
            span=gesture.points[indices[0]].span,
            text=f"an exact notehead, but {technique.title['en'].lower()} gives {gives}{more}",
            hint="put x before the pitch: roughly this high",
            evidence=technique.sources[0] if technique.sources else _UNSOURCED,
            proposed_fixes=fixes.about(gesture, *indices),
        )
