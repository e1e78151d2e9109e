"""A run has more notes per second than valves or slide can manage.

Checks  the semitones of each line of a chromatic run against its time; and successive notes on different
        fingerings, slurred or in double or triple tonguing, over two changes
Why     each note has its own fingering or slide position; beyond the limit the run becomes a smear
Fires
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      technique: chromatic
      contour: C4 -- C5
      lasts: 1 beat
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      technique: chromatic
      contour: C4 -- C5
      lasts: 2 beats
Fix     give it more time, narrow it, or ask for a `fingered-gliss` or `half-valve` slide if a smear is meant
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import Excess, above
from gesturesmith.rules.shared.reading import (
    apart,
    counted,
    plain,
    played_points,
    register_name,
    seconds_between,
    slides,
)


@rule(
    "GS403",
    "run-too-fast",
    severity="caution",
    only=(
        "path:steps",
        "slur",
        "rate",
    ),
    graces=False,
)
def check(case: Case) -> Iterator[Finding]:
    yield from _lines(case)
    yield from _slurs(case)


def _verb(case: Case) -> str:
    return "played" if case.instrument.kind == "slide" else "fingered"


def _lines(case: Case) -> Iterator[Finding]:
    for slide in slides(case, "steps"):
        seconds = seconds_between(case.gesture, slide.start.at, slide.end.at)
        notes = abs(slide.cents) / 100
        if seconds <= 0 or notes == 0:
            continue
        low = min((slide.start, slide.end), key=lambda p: p.sounding_cents or 0)
        limit = case.instrument.limits.get(f"chromatic_per_s_{register_name(case, low)}")
        excess = above(limit, notes / seconds)
        if excess is None:
            continue
        yield Finding(
            span=slide.segment.span,
            text=f"{counted(notes, 'semitone')} in {plain(seconds)} s: {apart(notes / seconds, excess.limit)} "
            f"notes a second; about {plain(excess.limit)} can be {_verb(case)}{excess.caveat}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(
                Number(name="notes a second", value=notes / seconds, limit=excess.limit, unit="notes a second"),
            ),
            proposed_fixes=(
                *fixes.slower(case.gesture, notes / seconds / excess.limit),
                *fixes.instead(case, "motion", "fingered-gliss", "harmonic-gliss"),
            ),
        )


def _slurs(case: Case) -> Iterator[Finding]:
    """The fastest slurred run, or run in double or triple tonguing; plain tonguing is slower than fingers."""
    worst: tuple[float, ContourPoint, Excess] | None = None
    rows = list(played_points(case))
    for (a, played_a), (b, played_b), (c, played_c) in zip(rows, rows[1:], rows[2:], strict=False):
        reached = {b.reached, c.reached}
        tongued_fast = all(any(t.rate for t in p.techniques) for p in (a, b, c))
        if "line" in reached or any(p.about for p in (a, b, c)) or not ("slur" in reached or tongued_fast):
            continue
        tubes = [p.tube.name if p.tube else "" for p in (played_a, played_b, played_c)]
        seconds = seconds_between(case.gesture, a.at, c.at)
        if tubes[0] == tubes[1] or tubes[1] == tubes[2] or seconds <= 0:
            continue
        low = min((a, b, c), key=lambda p: p.sounding_cents or 0)
        limit = case.instrument.limits.get(f"chromatic_per_s_{register_name(case, low)}")
        excess = above(limit, 2 / seconds)
        if excess is not None and (worst is None or 2 / seconds > worst[0]):
            worst = (2 / seconds, a, excess)
    if worst is not None:
        rate, point, excess = worst
        yield Finding(
            span=point.span,
            text=f"{apart(rate, excess.limit)} notes a second from here; about {plain(excess.limit)} can be "
            f"{_verb(case)}{excess.caveat}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="notes a second", value=rate, limit=excess.limit, unit="notes a second"),),
            proposed_fixes=fixes.slower(case.gesture, rate / excess.limit),
        )
