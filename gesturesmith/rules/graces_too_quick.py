"""Grace notes have less time than tongue or fingers need, or leap further than the lip can find at once.

Checks  the time available to grace notes, half of the note from which they take it, against the fastest tonguing or
        slurs of the instrument in their register; and how far each leaps
Why     a grace note has no time in the rhythm, but must be played: each needs a stroke of the tongue, a
        fingering or a slide position, and the lip has to find it
Fires
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      contour: F4 grace, A4 grace, G4 grace, C5
      lasts: 1/2 beats
Passes
    instrument: horn
    pitches: written
    tempo: 120
    gesture a
      contour: F4 grace __ A4 grace __ G4 grace __ C5
      lasts: 1 beat
Fix     give the note more time, write fewer grace notes, slur them, or ask for `double-tongue`
"""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import ContourPoint, Segment
from gesturesmith.model.graces import GraceGroup, groups
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import Excess, above
from gesturesmith.rules.shared.reading import apart, counted, plain, point_name, register_name, seconds_between
from gesturesmith.rules.shared.tonguing import other_tonguings, tonguing


@rule("GS407", "graces-too-quick", severity="caution", only=("graces",))
def check(case: Case) -> Iterator[Finding]:
    for group in groups(case.gesture):
        worst: tuple[tuple[int, float], str, Excess, bool] | None = None
        seconds = seconds_between(case.gesture, Fraction(0), group.beats)
        rate = len(group.graces) / seconds if seconds > 0 else float("inf")
        for before, point, join in _steps(case, group):
            for excess, words in _passed(case, before, point, join, rate, len(group.graces)):
                key = (excess.severity.rank, rate / excess.limit)
                if worst is None or key > worst[0]:
                    worst = key, words, excess, join.kind == "none"
        if worst is not None:
            (_, far), words, excess, tongued = worst
            note = point_name(case, case.gesture.points[group.index])
            yield Finding(
                span=group.graces[0].point.span,
                where=f"{'after' if group.after else 'before'} {note}",
                text=f"{counted(len(group.graces), 'grace note')} in {plain(seconds)} s at most: "
                f"{apart(rate, excess.limit)} a second; {words}: up to {plain(excess.limit)}{excess.caveat}",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(
                    Number(name="grace notes a second", value=rate, limit=excess.limit, unit="notes a second"),
                ),
                proposed_fixes=(*(other_tonguings(case) if tongued else ()), *fixes.slower(case.gesture, far)),
            )
        yield from _leaps(case, group)


def _steps(case: Case, group: GraceGroup) -> Iterator[tuple[ContourPoint, ContourPoint, Segment]]:
    """Each step of a group, from grace to grace and between them and their note, with what joins it."""
    note = case.gesture.points[group.index]
    graces = [replace(grace.point, techniques=note.techniques) for grace in group.graces]
    row = [note, *graces] if group.after else [*graces, note]
    for (before, point), grace in zip(pairwise(row), group.graces, strict=True):
        yield before, point, grace.join


def _passed(
    case: Case, before: ContourPoint, point: ContourPoint, join: Segment, rate: float, gaps: int
) -> Iterator[tuple[Excess, str]]:
    """The limits that a step exceeds: of the tongue, or of fingers, slide and lip; lines have their own rules."""
    low = min((before, point), key=lambda p: p.sounding_cents or 0)
    register = register_name(case, low)
    if join.kind == "none":
        register = register_name(case, point)
        yield from ((e, f"{w} in the {register} register") for e, w in tonguing(case, point, rate, gaps))
    elif join.kind == "slur":
        excess = above(case.instrument.limits.get(f"chromatic_per_s_{register}"), rate)
        if excess is not None:
            yield excess, f"slurred notes in the {register} register"


def _leaps(case: Case, group: GraceGroup) -> Iterator[Finding]:
    limit = case.instrument.limits.get("grace_leap_cents")
    for before, point, join in _steps(case, group):
        cents = abs(float((point.sounding_cents or 0) - (before.sounding_cents or 0)))
        excess = above(limit, cents)
        if excess is None or join.slides:
            continue
        yield Finding(
            span=(point if group.after else before).span,
            text=f"{point_name(case, before)} to {point_name(case, point)}: a leap of "
            f"{counted(cents / 100, 'semitone')} with a grace note; up to {plain(excess.limit / 100)} are clean",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="leap", value=cents / 100, limit=excess.limit / 100, unit="semitones"),),
        )
