"""A technique needs something this instrument does not have.

Checks  what each technique of the gesture needs: a hand in the bell, valves, a slide
Why     no hand closes a trumpet's bell, and valves cannot make a slide glissando
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: slide-gliss
      contour: C5 -- G4
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: hand-gliss
      contour: C5 -- B4
Fix     choose an equivalent on this instrument: a mute for the hand, `lip-gliss` or `fingered-gliss` for a slide
"""

from collections.abc import Iterator

from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import first_with, in_force
from gesturesmith.techniques.base import NEED_WORDS


@rule("GS302", "instrument-lacks-means", severity="refused", only=("needs",))
def check(case: Case) -> Iterator[Finding]:
    instrument = case.instrument
    for technique in in_force(case):
        if instrument.gives(technique.needs):
            continue
        point = first_with(case, technique)
        own = technique in case.gesture.techniques
        yield Finding(
            span=case.gesture.span_of("technique") if own or point is None else point.span,
            text=f"{technique.key} needs {NEED_WORDS[technique.needs]}; the {instrument.name} has "
            f"{'a slide' if technique.needs == 'valves' and instrument.gives('slide') else 'none'}",
            evidence=Sourced(technique.needs, DERIVED, f"what the {instrument.name} is built with"),
            physical=True,
            proposed_fixes=(*fixes.instead(case, technique.layer), *fixes.without(case, technique.key)),
        )
