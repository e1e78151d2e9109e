"""A fingering is asked for that the instrument does not have.

Checks  every fingering or position of `fingering:` against the instrument's tubes
Why     a side or valve that does not exist cannot be used
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      fingering: F 1-4
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      fingering: F 0
Fix     write sides and valves the instrument has, such as `F 1-2` or `Bb 0`, or leave the fingering out
"""

from collections.abc import Iterator

from gesturesmith.diagnostics.changes import FingeringChange
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.rules.base import Case, Finding, rule


@rule("GS303", "no-such-fingering", severity="refused", only=("fingering",))
def check(case: Case) -> Iterator[Finding]:
    fingering, instrument = case.gesture.fingering, case.instrument
    if fingering.mode != "given":
        return
    for name in dict.fromkeys(filter(None, (*fingering.tubes, *fingering.others))):
        if instrument.tubes_named(name):
            continue
        thumb = f"Bb {name[2:]}"
        own = name.startswith("T ") and instrument.tube(thumb) is not None
        there = f"; the thumb of a horn turns to the B-flat side: {thumb}" if own else ""
        kind = "position" if instrument.kind == "slide" else "fingering"
        yield Finding(
            span=fingering.span or case.gesture.span,
            text=f"the {instrument.name} has no {kind} {name}{there}",
            evidence=Sourced(name, DERIVED, f"the tubes of the {instrument.name}"),
            physical=True,
            proposed_fixes=((FingeringChange("auto"),),),
        )
