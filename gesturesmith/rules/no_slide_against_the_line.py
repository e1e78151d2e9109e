"""The slide cannot move against a glissando against the grain.

Checks  each line of a glissando against the grain: whether two positions give its ends such that the slide moves
        out while the pitch rises, or in while it falls
Why     the note breaks from harmonic to harmonic because the slide moves against the line; a note with only one
        position, at that end of the slide, leaves it no way to go
Fires
    instrument: trombone
    pitches: written
    gesture a
      technique: against-the-grain
      contour: E2 -- Bb2
Passes
    instrument: trombone
    pitches: written
    gesture a
      technique: against-the-grain
      contour: F3 -- Bb4
Fix     move it up, where notes have several positions, or write another glissando
"""

from collections.abc import Iterator

from gesturesmith.diagnostics.changes import FingeringChange, Fix
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.instruments.base import Instrument
from gesturesmith.realise.in_force import path_of
from gesturesmith.realise.ways import in_tune_cents, ways
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import point_name

_LAW = Sourced("a position is a half step on every harmonic", DERIVED, "the harmonic series of each position")


@rule("GS213", "no-slide-against-the-line", severity="refused", only=("path:against",))
def check(case: Case) -> Iterator[Finding]:
    points = case.gesture.points
    for index in case.realisation.breaks:
        point, before = points[index], points[index - 1]
        if path_of(before.techniques) != "against":
            continue
        start, end = float(before.sounding_cents or 0), float(point.sounding_cents or 0)
        way = "out" if end > start else "in"
        ends = [
            f"{point_name(case, one)} {_positions(case.instrument, cents)}"
            for one, cents in ((before, start), (point, end))
        ]
        given: list[Fix] = [(FingeringChange("auto"),)] if case.gesture.fingering.mode != "auto" else []
        yield Finding(
            span=point.span,
            text=f"the slide would have to move {way}, but {ends[0]}, and {ends[1]}"
            + (": the positions asked for do not lie so" if given else ""),
            evidence=_LAW,
            physical=True,
            proposed_fixes=(*given, *fixes.moved(12), *fixes.instead(case, "motion")),
        )


def _positions(instrument: Instrument, cents: float) -> str:
    """The positions of a pitch on all sides and harmonics, as a clause: "is in position 1 or 5"."""
    near = [w for w in ways(instrument, cents) if abs(w.error) <= 2 * in_tune_cents(instrument)]
    found = [w.tube.name for w in sorted(near, key=lambda w: (w.hand, w.position))]
    if not found:
        return "has no position"
    return (
        f"is in position {', '.join(found[:-1])} or {found[-1]}" if found[1:] else f"is only in position {found[0]}"
    )
