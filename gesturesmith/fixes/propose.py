"""General fixes, whatever is wrong, and the order in which a composer would make concessions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from gesturesmith.diagnostics import Finding
from gesturesmith.diagnostics.changes import (
    AttacksChange,
    BreathAdded,
    Change,
    DynamicsChange,
    FingeringChange,
    Fix,
    LengthChange,
    LevelChange,
    LineChange,
    PitchChange,
    SungPitchChange,
    TechniquesChange,
    TechniqueTurn,
    Transposition,
    place_of,
)
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.graces import has_graces
from gesturesmith.rules.base import Case
from gesturesmith.rules.shared import fixes as shared
from gesturesmith.techniques.base import clash
from gesturesmith.units import Interval

# The easiest concessions first.
FINGERING, DYNAMIC, LENGTH, TECHNIQUE, PITCH, DIVISION, EXACTNESS = range(7)
_EASE: dict[type[Change], int] = {
    FingeringChange: FINGERING, DynamicsChange: DYNAMIC, LevelChange: DYNAMIC, LengthChange: LENGTH,
    AttacksChange: LENGTH, BreathAdded: LENGTH, TechniqueTurn: LENGTH, TechniquesChange: TECHNIQUE,
    LineChange: TECHNIQUE,
}  # fmt: skip
# These do not change the sounds themselves.
_KEEPING = (FingeringChange, LengthChange, BreathAdded, TechniqueTurn)
_STEPS = (-2, 2, -5, 5, -12, 12)  # semitones: a step, a fourth, another register


def ease(fix: Fix, case: Case) -> int:
    """How much a fix asks of the composer: its hardest change."""
    return max((_ease(change, case) for change in fix), default=FINGERING)


def _ease(change: Change, case: Case) -> int:
    if isinstance(change, PitchChange) and change.about and not case.gesture.points[change.index].about:
        return EXACTNESS
    return _EASE.get(type(change), PITCH)


def changes_music(fix: Fix) -> bool:
    """Whether it changes a dynamic, shape, pitch, number of notes or kind of sound."""
    return any(not isinstance(change, _KEEPING) for change in fix)


def keeps_kin(fix: Fix, case: Case) -> bool:
    """Whether the replacement of a technique is of its kin: the plain note only if that is, or if the technique
    excludes another that stays."""
    row = next((change.keys for change in fix if isinstance(change, TechniquesChange)), None)
    if row is None:
        return True
    new = set(row)
    gone = [t for t in case.gesture.techniques if t.layer != "none" and t.key not in new]
    kept = [t for t in case.gesture.techniques if t.key in new]
    added = new - {"ordinary"} - {t.key for t in kept}
    if gone and any(not any(key in t.kin for t in gone) for key in added):
        return False
    return all({"ordinary", *added} & set(t.kin) or any(clash(t, other) for other in kept) for t in gone)


def merged(fixes: Iterable[Fix]) -> Fix:
    """Several fixes as one; of two changes to the same thing, the last."""
    return tuple({place_of(change): change for fix in fixes for change in fix}.values())


def expanded(fix: Fix, case: Case) -> Fix:
    """A fix with transpositions written out, pitch by pitch; () if that is impossible."""
    semitones = [change.semitones for change in fix if isinstance(change, Transposition)]
    if not semitones:
        return fix
    moved = [shared.all_moved(case, count) for count in semitones]
    if not all(moved):
        return ()
    return (*(c for c in fix if not isinstance(c, Transposition)), *(c for row in moved for c in row))


def general(case: Case, finding: Finding) -> Iterator[Fix]:
    """Fixes for a gesture refused for one reason."""
    gesture = case.gesture
    if gesture.fingering.mode != "auto":
        yield (FingeringChange("auto"),)
    if not finding.physical:
        yield from shared.breaths(gesture)
        for factor in (1.5, 2.0, 3.0):
            yield from shared.slower(gesture, factor)
        yield from _fewer_attacks(gesture)
    for technique in gesture.techniques:
        if technique.layer != "none":
            yield from shared.without(case, technique.key)
    yield from into_range(case)
    if point_or_line(gesture, finding):
        if not outside(case):
            for semitones in _STEPS:
                yield (Transposition(semitones),)
        yield from shared.about(gesture, *shared.exact_points(gesture))


def united(findings: Sequence[Finding], kind: type[PitchChange] | type[LineChange]) -> Iterator[Fix]:
    """What a rule proposes for each of several points or lines, combined."""
    for number in range(2):  # its first proposal, then its second
        fixes: list[Fix] = []
        for finding in findings:
            own = [fix for fix in finding.proposed_fixes if all(isinstance(change, kind) for change in fix)]
            fixes += own[number : number + 1]
        together = merged(fixes)
        if len(together) > 1:
            yield together


def is_part(fix: Fix) -> bool:
    """Whether it only changes single points or lines."""
    return all(isinstance(change, PitchChange | LineChange) for change in fix)


def point_or_line(gesture: Gesture, finding: Finding) -> bool:
    """Whether a finding is about a place in the contour, where another pitch may help, not about a key."""
    spans = (*(p.span for p in gesture.points), *(s.span for s in gesture.segments))
    return finding.span in spans


def divisible(case: Case, finding: Finding) -> bool:
    """Whether two gestures may solve it: by taking time, changing technique, having more points."""
    points = case.gesture.points
    if not finding.physical or any(p.turns_to or p.ends for p in points):
        return True
    return any(t.points[1] is not None and t.points[1] < len(points) for t in case.gesture.techniques)


def steps(case: Case) -> Iterator[Fix]:
    """Fixes for one of several problems each."""
    gesture = case.gesture
    if gesture.fingering.mode != "auto":
        yield (FingeringChange("auto"),)
    yield from shared.breaths(gesture)
    for technique in gesture.techniques:
        if technique.layer != "none":
            yield from shared.without(case, technique.key)
    if len(gesture.techniques) > 1:
        yield from shared.without(case, *(t.key for t in gesture.techniques))
    yield from into_range(case, usual=True)
    yield from sung_into_range(case)


def plain(case: Case) -> Iterator[Fix]:
    """The gesture as notes the instrument has, plain ones if those may replace it: this nearly always passes."""
    gesture = case.gesture
    fix = merged(shared.without(case, *(t.key for t in gesture.techniques if t.layer != "none")))
    if gesture.fingering.mode != "auto":
        fix = (*fix, FingeringChange("auto"))
    ranged = next(into_range(case, usual=True), ())
    yield (*fix, *ranged)
    fix = (*fix, *(LineChange(i, "none") for i, s in enumerate(gesture.segments) if s.kind not in ("none", "slur")))
    yield (*fix, *ranged)
    count = len(gesture.points)
    if gesture.attacks is not None:
        fix = (*fix, AttacksChange(sum(p.reached != "slur" for p in gesture.sounding_points), ""))
    for each in (1, 2):  # beats or seconds per note
        yield (*fix, LengthChange(Fraction(count * each), gesture.in_seconds), *ranged)


def _fewer_attacks(gesture: Gesture) -> Iterator[Fix]:
    attacks = gesture.spread
    if attacks is None:
        return
    for parts in (2, 3):
        if count := attacks.count // parts:
            yield (AttacksChange(count, attacks.shape),)


# --- into the range --------------------------------------------------------------------------------------


def outside(case: Case) -> tuple[ContourPoint, ...]:
    """The points outside anything the instrument can reach."""
    low, high = case.instrument.widest_range.value
    return tuple(p for p in _pitched(case) if not low <= (p.sounding_cents or 0) <= high)


def _pitched(case: Case) -> tuple[ContourPoint, ...]:
    return tuple(p for p in case.gesture.points if p.sounding_cents is not None and not p.extreme)


def into_range(case: Case, *, usual: bool = False) -> Iterator[Fix]:
    """The gesture moved into the usual range: by octaves, by as little as possible, or single notes by octaves.

    Only if it goes beyond the widest range, or with `usual` beyond the usual one.
    """
    low, high = case.instrument.usual_range.value
    heights = [p.sounding_cents or Fraction(0) for p in _pitched(case)]
    if has_graces(case.gesture):  # they would have to be moved as well
        return
    if not heights or (low <= min(heights) <= max(heights) <= high if usual else not outside(case)):
        return
    up, down = low - min(heights), max(heights) - high
    if max(heights) - min(heights) <= high - low:
        for unit in (1200, 100):
            move = -(-up // unit) if up > 0 else -(-down // unit) * -1
            if low <= min(heights) + move * unit and max(heights) + move * unit <= high:
                yield (Transposition(int(move * unit // 100)),)
    folded = tuple(_folded(case, low, high))
    if folded:
        yield folded


def _folded(case: Case, low: int, high: int) -> Iterator[PitchChange]:
    """Each pitch outside the usual range, moved into the nearest octave inside."""
    for index, point in enumerate(case.gesture.points):
        cents = point.sounding_cents
        if point.pitch is None or cents is None or low <= cents <= high:
            continue
        octaves = -(-(low - cents) // 1200) if cents < low else -(-(cents - high) // 1200) * -1
        if not low <= cents + 1200 * octaves <= high:
            return
        yield PitchChange(index, point.pitch.written.transposed(_octaves(int(octaves))), point.about)


def _octaves(count: int) -> Interval:
    return Interval(7 * count, Fraction(1200 * count))


def sung_into_range(case: Case) -> Iterator[Fix]:
    """The sung line moved by octaves into the range of an average voice."""
    limit = case.instrument.limits.get("sing_cents")
    sung = case.gesture.sing
    if limit is None or sung is None:
        return
    low, high = limit.narrow.value
    heights = [p.sounding_cents for p in sung.points if p.sounding_cents is not None]
    if not heights or low <= min(heights) <= max(heights) <= high:
        return
    octaves = round((Fraction(low + high, 2) - (min(heights) + max(heights)) / 2) / 1200)
    yield tuple(
        SungPitchChange(i, p.pitch.written.transposed(_octaves(octaves)), p.about)
        for i, p in enumerate(sung.points)
        if p.pitch is not None
    )
