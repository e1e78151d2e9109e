"""A slide with the hand out of the bell is below the register where it is smooth.

Checks  the lower end of every hand-out slide
Why     with the hand out, the steps between partials lose their edges only where partials are close, high up;
        lower down they remain steps
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: hand-out
      contour: C4 -- E4
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: hand-out
      contour: A5 -- C6
Fix     move it into the top register, or ask for a `harmonic-gliss` or a `lip-gliss`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import both_names, point_names, slides


@rule("GS305", "hand-out-too-low", severity="caution", only=("path:hand-out",))
def check(case: Case) -> Iterator[Finding]:
    limit = case.instrument.limits.get("hand_out_lowest_cents")
    said = set()
    for slide in slides(case, "hand-out"):
        low, point = min(((p.sounding_cents or 0, p) for p in (slide.start, slide.end)), key=lambda pair: pair[0])
        excess = below(limit, float(low))
        if excess is None or point.span in said:
            continue  # two lines that meet in a low point: reported once
        said.add(point.span)
        yield Finding(
            span=point.span,
            text=f"{point_names(case, point)}; smooth slides with the hand out begin at about "
            f"{both_names(case.instrument, 100 * round(excess.limit / 100))}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="lowest pitch", value=low, limit=excess.limit, unit="cents above C-1"),),
            proposed_fixes=(
                *fixes.instead(case, "motion", "harmonic-gliss", "lip-gliss", "fingered-gliss", "chromatic"),
                *fixes.moved(12),
            ),
        )
