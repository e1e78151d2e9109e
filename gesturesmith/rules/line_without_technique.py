"""A line joins two pitches, but nothing says how to slide.

Checks  lines between different pitches where no technique moves the pitch
Why     there are several ways: lip, valves, half valves, partials of one tube; they sound different, and each
        player would choose another
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: G4 -- G5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: half-valve
      contour: xG4 -- xG5
Fix     name the technique, or leave the choice open with `allow` and say so in a `note`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics.changes import Fix, TechniquesChange
from gesturesmith.evidence import HOUSE, Sourced
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.reading import slides

_EVIDENCE = Sourced("several ways", HOUSE, "a plain line leaves the way of sliding to the player")


@rule("GS710", "line-without-technique", severity="caution", only=("line",))
def check(case: Case) -> Iterator[Finding]:
    for slide in slides(case, "none"):
        # Breath without tone moves from one height to another in the mouth, whatever the valves do.
        if slide.cents == 0 or any(t.lines or t.tone == "none" for t in slide.start.techniques):
            continue
        yield Finding(
            span=slide.segment.span,
            text="a line without a sliding technique; players could choose between several",
            evidence=_EVIDENCE,
            proposed_fixes=_named(case),
        )
        return


def _named(case: Case) -> tuple[Fix, ...]:
    """The gesture with each of the slides usual for its kind of instrument."""
    slide = case.instrument.kind == "slide"
    keys = ("slide-gliss", "lip-gliss") if slide else ("lip-gliss", "fingered-gliss", "harmonic-gliss", "bend")
    row = [t.key for t in case.gesture.techniques if t.layer not in ("none", "motion")]
    return tuple((TechniquesChange((key, *row)),) for key in keys)
