"""Reports made by hand, for the tests of rendering."""

from fractions import Fraction

from gesturesmith.diagnostics import (
    Demand,
    Edit,
    ExerciseReport,
    FileReport,
    Finding,
    GestureReport,
    Number,
    PassageReport,
    PointReport,
    ReadError,
    RealisationReport,
    Report,
    Severity,
    Suggestion,
    Verdict,
)
from gesturesmith.evidence import HOUSE, PUBLISHED, Sourced
from gesturesmith.source import Source, Span

TEXT = """instrument: horn
pitches: written

gesture beacon "Beacon"
  technique: ordinary

  contour: C5, G5, C6
  fingering: F 0

gesture plain
  contour: C5
"""

FINDING = Finding(
    span=Span(7, 20, 22),
    text="partial 16 on the F side; 3 to 12 speak easily",
    evidence=Sourced((3, 12), HOUSE, "our reading"),
    hint="nearest easy pitch on this side: G5",
    code="GS211",
    rule="partial-off-window",
    severity=Severity.CAUTION,
    where="third note (written C6)",
    numbers=(Number(name="partial", value=16, limit=12, unit="partial"),),
    suggestions=(
        Suggestion(edits=(Edit(8, "fingering: F 0", "fingering: Bb 0"),), verdict=Verdict.PLAYABLE),
        Suggestion(edits=(Edit(7, "contour: C5, G5, C6", "contour: C5, G5, C5"),), verdict=Verdict.WITH_CARE),
    ),
)


def gesture(*findings, name="beacon", title="Beacon", verdict=Verdict.WITH_CARE):
    return GestureReport(
        name=name,
        title=title,
        span=Span(4, 1, 15),
        verdict=verdict,
        findings=findings,
        realisation=RealisationReport(
            techniques=("ordinary",),
            points=(PointReport(at=Fraction(3, 2), side="F", valves="0", partial=8, cents=0),),
        ),
    )


def file_report(*findings, text=TEXT, errors=(), **more):
    return FileReport(
        source=Source("study.gesture", text),
        readable=not errors,
        errors=errors,
        gestures=(gesture(*findings), gesture(name="plain", title=None, verdict=Verdict.PLAYABLE)),
        **more,
    )


DEMANDS = (
    Demand(name="height", value=10.0, comfortable=(None, 0.0), unit="semitones", share=0.5263),
    Demand(name="level", value="ff", comfortable=("mp", "mf"), unit="levels", share=0.5),
    Demand(name="response", value=9.0, comfortable=(12.0, None), unit="periods", share=0.25),
    Demand(name="leap", value=700.0, comfortable=(None, 400.0), unit="cents", share=0.1875),
)
ERROR = ReadError(
    code="GS101",
    rule="unknown-key",
    span=Span(5, 3, 12),
    message="there is no key “tecnique” in a gesture",
    nearest=("technique",),
    gesture="beacon",
)
PASSAGE = PassageReport(
    name="opening",
    title="Opening calls",
    span=Span(12, 1, 16),
    verdict=Verdict.NOT_AS_WRITTEN,
    findings=(
        Finding(
            span=Span(10, 1, 3),
            text="plays far",
            evidence=Sourced(1, PUBLISHED, "somewhere"),
            code="GS707",
            rule="plays-refused",
            severity=Severity.REFUSED,
        ),
    ),
)
EXERCISE = ExerciseReport(
    name="week-one",
    title=None,
    span=Span(14, 1, 9),
    made=12,
    left_out=tuple((f"start {i}", "too high") for i in range(5)),
)


def report(*files):
    return Report(files=files)
