"""A bend is wider than the lip can take a note in that register.

Checks  each line of a bend: how far it goes from the bent note, down and up, against limits for its height and the
        distance to the next partial of its tube
Why     the lip can take a note off its partial, down more than up, about a third in the low register and
        about a quarter tone in the top; beyond half way the note slips to the next partial
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: bend
      contour: G5 -- E5 -- G5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: bend
      contour: C5 -- B4 -- C5
Fix     narrow it, write a `lip-gliss` or `hand-gliss`, or move it down
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.diagnostics.changes import Fix, PitchChange
from gesturesmith.kinds import Direction
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.realise.curve import along
from gesturesmith.realise.in_force import path_of, stays_on_partial
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reach import bend_limit
from gesturesmith.rules.shared.reading import apart, plain, point_names, written_pitch


@rule("GS503", "bend-too-wide", severity="caution", only=("path:lip",))
def check(case: Case) -> Iterator[Finding]:
    home: ContourPoint | None = None
    for index, point in enumerate(case.gesture.points):
        if point.reached != "line" or home is None:
            home = point if point.sounding_cents is not None else None
            continue
        bent = path_of(home.techniques) == "lip" and stays_on_partial(home.techniques)
        if not bent or point.sounding_cents is None:
            continue
        width = float((point.sounding_cents or 0) - (home.sounding_cents or 0))
        way: Direction = "down" if width < 0 else "up"
        excess = above(bend_limit(case, home, way), abs(width))
        if excess is None:
            continue
        sign = -1 if width < 0 else 1
        reach = float(home.sounding_cents or 0) + sign * 50 * (excess.limit // 50)
        near = float(point.sounding_cents)
        other = _other_way(case, home) if way == "up" else ""
        yield Finding(
            span=point.span,
            text=f"bent {way} {apart(abs(width), excess.limit)} cents; the lip bends {point_names(case, home)} "
            f"{way} by about {plain(excess.limit)}{excess.caveat}{other}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name=f"bend {way}", value=abs(width), limit=excess.limit, unit="cents"),),
            proposed_fixes=(
                *_narrowed(case, index, reach),
                *(_narrowed(case, index, 2 * float(home.sounding_cents or 0) - near) if way == "up" else ()),
                *fixes.instead(case, "motion", "lip-gliss", *(("hand-gliss",) if way == "down" else ())),
            ),
        )


def _other_way(case: Case, home: ContourPoint) -> str:
    """How far the same note can be bent down instead, as a clause."""
    down = along(case.instrument, "bend_down", home.sounding_cents or 0)
    return f", down by about {plain(down.narrow.value)}" if down is not None else ""


def _narrowed(case: Case, index: int, cents: float) -> tuple[Fix, ...]:
    point = case.gesture.points[index]
    if (
        point.pitch is None
        or cents % 50
        or any(p.sounding_cents == cents for p in fixes.joined(case.gesture, index))
    ):
        return ()  # a line would have nowhere to go
    return ((PitchChange(index, written_pitch(case.instrument, cents), point.about),),)
