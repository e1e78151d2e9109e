"""A technique that slides has no line to slide along.

Checks  techniques that need a line: whether a line starts while they are in force
Why     points separated by commas are separate attacks, and nothing moves between them
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4, G5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: harmonic-gliss
      contour: G4 ~~ G5
Fix     join the points with `--` or `~~`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics.changes import Fix, LineChange
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.kinds import LineKind
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.reading import first_with, in_force


@rule("GS704", "line-missing", severity="refused", only=("needs-line",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    for technique in in_force(case):
        if not technique.needs_line or len(gesture.sounding_points) < technique.points[0]:
            continue
        lines = zip(gesture.segments, gesture.points, strict=False)
        if any(segment.slides and technique in point.techniques for segment, point in lines):
            continue
        own = technique in gesture.techniques
        point = first_with(case, technique)
        yield Finding(
            span=gesture.span_of("contour") if own or point is None else point.span,
            text=f"{technique.key} needs a line to slide along: `--` or `~~` between two points",
            evidence=Sourced("a line", DERIVED, f"what {technique.key} is"),
            physical=True,
            proposed_fixes=(
                *_joined(case, "wavy"),
                *_joined(case, "straight"),
                *fixes.without(case, technique.key),
            ),
        )


def _joined(case: Case, kind: LineKind) -> tuple[Fix, ...]:
    """The gesture with a line in place of each comma between two sounding points."""
    points = case.gesture.points
    change = tuple(
        LineChange(i, kind)
        for i, segment in enumerate(case.gesture.segments)
        if segment.kind == "none" and points[i].kind != "silence" and points[i + 1].kind != "silence"
    )
    return (change,) if change else ()
