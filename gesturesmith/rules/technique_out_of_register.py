"""A technique is asked for in a register where it does not speak well.

Checks  the register of each note against those in which its techniques work
Why     at the extremes of the range the lip has too little freedom, or the tube too little response
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: flutter-tongue
      contour: B5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: flutter-tongue
      contour: C5
Fix     move it into a register where it speaks, or do without the technique there
"""

from collections.abc import Iterator

from gesturesmith.evidence import Sourced
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import point_names, register_name


@rule("GS506", "technique-out-of-register", severity="caution", only=("limit:registers",))
def check(case: Case) -> Iterator[Finding]:
    said = set()
    # Noises too: where a stroke of the tongue resonates is a matter of register.
    for point in (p for p in case.gesture.sounding_points if p.sounding_cents is not None):
        for technique in point.techniques:
            limit = technique.limits.get("registers")
            register = register_name(case, point)
            if limit is None or register in limit.narrow.value or technique.key in said:
                continue
            said.add(technique.key)
            good: Sourced[tuple[str, ...]] = limit.narrow
            yield Finding(
                span=point.span,
                text=f"{point_names(case, point)} is in the {register} register; "
                f"{technique.title['en'].lower()} speaks well in the {_listed(good.value)}",
                evidence=good,
                proposed_fixes=(
                    *fixes.moved(-12 if register == "top" else 12),
                    *fixes.without(case, technique.key),
                ),
            )


def _listed(words: tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
