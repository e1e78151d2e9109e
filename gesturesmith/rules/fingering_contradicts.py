"""The fingering asked for contradicts what the technique does with valves or slide.

Checks  `fingering` against each technique: a single tube where valves or slide must move, several where there can
        be only one
Why     a chromatic run needs a fingering for each note, a valve trill two, a slide glissando the slide; a sweep
        through partials, a bend and a hand glissando happen on one tube
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 ~~ G5
      fingering: F 0, F 1
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 ~~ G5
      fingering: F 0
Fix     leave the choice to the player with `fingering: auto`, or choose a technique that fits the fingering
"""

from collections.abc import Iterator
from typing import Literal

from gesturesmith.diagnostics.changes import FingeringChange, Fix
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.kinds import Layer
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import slides
from gesturesmith.source import Span

_ONE_TUBE = ("partials", "lip", "hand", "hand-out")
_MOVING = {
    "valves": "moves the valves",
    "steps": "fingers every note",
    "slide": "moves the slide",
    "against": "moves the slide",
    "trigger": "moves the slide",
}


@rule("GS317", "fingering-contradicts", severity="refused", only=("fingering",))
def check(case: Case) -> Iterator[Finding]:
    fingering = case.gesture.fingering
    if fingering.mode == "auto" or len(case.instrument.tubes) == 1:
        return
    span = fingering.span or case.gesture.span
    one = fingering.mode == "held" or len(fingering.tubes) == 1
    for technique in case.gesture.techniques if fingering.mode == "held" else ():
        if technique.trill in ("same", "above"):
            yield _finding(
                case, span, f"one tube for all, but {technique.key} needs two fingerings", technique.layer
            )
            return
    for slide in slides(case, *_MOVING) if one else ():
        technique = next(t for t in slide.start.techniques if t.path in _MOVING)
        if slide.cents and (fingering.mode == "held" or technique.path != "valves"):
            what = _MOVING[technique.path]
            yield _finding(case, span, f"one tube for all, but {technique.key} {what}", technique.layer)
            return
    if len(fingering.tubes) > 1:
        yield from _changes(case, span)


def _changes(case: Case, span: Span) -> Iterator[Finding]:
    """Changes of fingering along a line that needs a single tube."""
    names = dict(zip([p.index for p in case.realisation.points], case.gesture.fingering.tubes, strict=False))
    for slide in slides(case, *_ONE_TUBE):
        here, there = names.get(slide.index, ""), names.get(slide.index + 1, "")
        if here and there and here != there:
            technique = next(t for t in slide.start.techniques if t.path in _ONE_TUBE)
            yield _finding(case, span, f"{here} and then {there}, but {technique.key} stays on one tube", "")
            return


def _finding(case: Case, span: Span, text: str, layer: Layer | Literal[""]) -> Finding:
    ways: list[Fix] = [(FingeringChange("auto"),), (FingeringChange("held"),)]
    if layer == "motion":
        ways += fixes.instead(case, layer, "harmonic-gliss", "lip-gliss")
    return Finding(
        span=span,
        text=text,
        evidence=Sourced("valves and slide", DERIVED, "what the technique is"),
        proposed_fixes=tuple(ways),
    )
