"""The fingering asked for does not give the pitch.

Checks  each exact pitch with a given fingering: how far away the nearest partial of that tube is
Why     the lip can pull a partial about a quarter tone; beyond that the note slips to another
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C#5
      fingering: F 0
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C5
      fingering: F 0
Fix     leave the choice to the player with `fingering: auto`, or write the pitch that this tube gives
"""

from collections.abc import Iterator
from fractions import Fraction

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.diagnostics.changes import FingeringChange
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.model.realisation import PlayedPoint
from gesturesmith.realise.in_force import bell_hand, path_of, pitched_by
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, exact_name, plain, played_points, tube_words


@rule("GS304", "fingering-misses-pitch", severity="caution", only=("fingering",))
def check(case: Case) -> Iterator[Finding]:
    said: set[tuple[str, Fraction]] = set()
    for point, played in played_points(case):
        if not played.given or point.about or played.tube is None or played.standard:
            continue
        if path_of(point.techniques) not in ("none", "steps") or pitched_by(point.techniques) != "exact":
            continue
        if _between_notes(case, point, played):
            continue
        off = abs(played.error_cents)
        excess = above(case.instrument.lip_limit(played.error_cents), off)
        if excess is None or (played.tube.name, point.sounding_cents or Fraction(0)) in said:
            continue  # a note repeated on the same fingering is reported once
        said.add((played.tube.name, point.sounding_cents or Fraction(0)))
        near = float(point.sounding_cents or 0) + played.error_cents
        tube = tube_words(case.instrument, played.tube)
        way = "down" if played.error_cents > 0 else "up"
        yield Finding(
            span=point.span,
            text=f"{tube} gives {exact_name(case.instrument, near)} (partial {played.partial}), "
            f"{apart(off, excess.limit)} cents away; the lip brings it {way} by up to "
            f"{plain(excess.limit)}{excess.caveat}",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="distance to the partial", value=off, limit=excess.limit, unit="cents"),),
            physical=excess.severity is Severity.REFUSED,
            proposed_fixes=((FingeringChange("auto"),), *fixes.at_pitch(case, played.index, near)),
        )


def _between_notes(case: Case, point: ContourPoint, played: PlayedPoint) -> bool:
    """Whether it is stopped on a side where stopping puts it between notes, which has its own rule."""
    if played.tube is None or bell_hand(point.techniques) != "stopped":
        return False
    raised = next(s.stopped_cents for s in case.instrument.sides if s.name == played.tube.side)
    return raised is not None and raised.value % 100 != 0
