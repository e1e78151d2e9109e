"""A glissando with the trigger has to leave its partial on the way, or needs no trigger.

Checks  each line of a glissando with the trigger: whether one partial gives both ends, without the trigger or
        with it, and as advice whether it needs the trigger at all
Why     the trigger lengthens the tube by a fourth, and the slide goes on from there on the same partial; further
        no tube of the instrument reaches. What one side gives alone is a plain slide glissando
Fires
    instrument: trombone-f
    pitches: written
    gesture a
      technique: trigger-gliss
      contour: F3 -- F2
Passes
    instrument: trombone-f
    pitches: written
    gesture a
      technique: trigger-gliss
      contour: F3 -- A2
Fix     keep both ends within one partial, with the trigger and without, or write a `slide-gliss`
"""

from collections.abc import Iterator

from gesturesmith.acoustics.series import partial_cents
from gesturesmith.diagnostics import Severity
from gesturesmith.diagnostics.changes import Fix, PitchChange
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.instruments.base import Instrument
from gesturesmith.realise.in_force import path_of
from gesturesmith.realise.ways import in_tune_cents
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import exact_name, point_name, slides, written_pitch

_LAW = Sourced("one partial of slide and trigger", DERIVED, "the tubes of the slide with and without the trigger")


@rule("GS214", "trigger-gliss-breaks", severity="refused", only=("path:trigger",))
def check(case: Case) -> Iterator[Finding]:
    if len(case.instrument.sides) < 2 or case.instrument.kind != "slide":
        return  # without a trigger, which has its own rule
    points = case.gesture.points
    for index in case.realisation.breaks:
        point, before = points[index], points[index - 1]
        if path_of(before.techniques) != "trigger":
            continue
        start, end = float(before.sounding_cents or 0), float(point.sounding_cents or 0)
        reach = _goes_to(case.instrument, start, end)
        way = "up" if end > start else "down"
        name, limit = point_name(case, before), exact_name(case.instrument, reach)
        text = f"slide and trigger lead {way} from {name} only to {limit}"
        if reach == start:
            text = f"neither slide nor trigger leads {way} from {name} on one partial"
        nearer: tuple[Fix, ...] = ()
        if reach != start and point.pitch is not None:
            nearer = ((PitchChange(index, written_pitch(case.instrument, reach), point.about),),)
        yield Finding(
            span=point.span,
            text=f"{text}, on one partial" if reach != start else text,
            evidence=_LAW,
            physical=True,
            proposed_fixes=(*nearer, *fixes.instead(case, "motion")),
        )
    yield from _needless(case)


def _needless(case: Case) -> Iterator[Finding]:
    """Lines that use no trigger, if none of the gesture does."""
    played = {p.index: p for p in case.realisation.points}
    lines = [(s, played.get(s.index), played.get(s.index + 1)) for s in slides(case, "trigger")]
    tubes = [(s, a.tube, b.tube) for s, a, b in lines if a is not None and b is not None]
    if case.realisation.breaks or any(a is None or b is None or a.side != b.side for _, a, b in tubes):
        return
    for slide, *_ in tubes[:1]:
        yield Finding(
            span=slide.segment.span,
            text="the slide does this alone, without a change of the trigger",
            hint="write `slide-gliss`",
            evidence=_LAW,
            severity=Severity.ADVICE,
            proposed_fixes=fixes.instead(case, "motion", "slide-gliss"),
        )


def _goes_to(instrument: Instrument, start: float, end: float) -> float:
    """How far towards `end` slide and trigger go from `start` without leaving a partial; sounding cents."""
    slack, found = 2 * in_tune_cents(instrument), [start]
    highest = max(t.widest_partials[1] for t in instrument.tubes)
    for n in range(1, highest + 1):
        reached = [t.fundamental_cents + partial_cents(n) for t in instrument.tubes if n <= t.widest_partials[1]]
        low, high = min(reached), max(reached)
        if low - slack <= start <= high + slack:
            found.append(100.0 * round((high if end > start else low) / 100))
    return max(found) if end > start else min(found)
