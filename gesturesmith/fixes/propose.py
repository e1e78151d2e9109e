"""Edits that may help whatever is wrong, and in which order a composer gives things up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from gesturesmith.diagnostics import Finding
from gesturesmith.fixes.edits import Changes
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.rules.base import Case
from gesturesmith.rules.shared import fixes
from gesturesmith.techniques.base import clash
from gesturesmith.units import Interval

# What a composer gives up most easily comes first.
FINGERING, DYNAMIC, LENGTH, TECHNIQUE, PITCH, DIVISION, EXACTNESS = range(7)
_EASE = {
    "fingering": FINGERING, "mute": FINGERING, "dynamics": DYNAMIC, "level": DYNAMIC, "lasts": LENGTH,
    "attacks": LENGTH, "after": LENGTH, "technique": TECHNIQUE, "line": TECHNIQUE,
}  # fmt: skip
_KEEPING = ("fingering", "lasts", "after")  # they leave the sounds themselves as they are
_STEPS = (-2, 2, -5, 5, -12, 12)  # semitones: a step, a fourth, another register


def ease(changes: Changes, case: Case) -> int:
    """How much an edit asks of the composer: the hardest of its changes."""
    return max((_ease(key, value, case) for key, value in changes), default=FINGERING)


def _ease(key: str, value: str, case: Case) -> int:
    kind, _, index = key.partition(" ")
    if kind == "point" and value.startswith("x") and not case.gesture.points[int(index)].about:
        return EXACTNESS
    return _EASE.get(kind, PITCH)


def changes_music(changes: Changes) -> bool:
    """Whether another dynamic, shape, pitch, number of notes or kind of sound is asked for."""
    return any(key.partition(" ")[0] not in _KEEPING for key, _ in changes)


def keeps_kin(changes: Changes, case: Case) -> bool:
    """Whether what comes in the place of a technique is of its kin: the plain note only where that is, or where
    the technique cannot go with another that stays."""
    row = dict(changes).get("technique")
    if row is None:
        return True
    new = set(row.split(" + "))
    gone = [t for t in case.gesture.techniques if t.layer != "none" and t.key not in new]
    kept = [t for t in case.gesture.techniques if t.key in new]
    added = new - {"ordinary"} - {t.key for t in kept}
    if gone and any(not any(key in t.kin for t in gone) for key in added):
        return False
    return all({"ordinary", *added} & set(t.kin) or any(clash(t, other) for other in kept) for t in gone)


def expanded(changes: Changes, case: Case) -> Changes:
    """Changes with a `move` written out, pitch by pitch; () where that cannot be."""
    if all(key != "move" for key, _ in changes):
        return changes
    moved = [fixes.all_moved(case, int(value)) for key, value in changes if key == "move"]
    if not all(moved):
        return ()
    return (*(c for c in changes if c[0] != "move"), *(c for row in moved for c in row))


def general(case: Case, finding: Finding) -> Iterator[Changes]:
    """Edits for a gesture that is refused for one reason."""
    gesture = case.gesture
    if gesture.fingering.mode != "auto":
        yield (("fingering", "auto"),)
    if not finding.physical:
        yield from fixes.breaths(gesture)
        for factor in (1.5, 2.0, 3.0):
            yield from fixes.slower(gesture, factor)
        yield from _fewer_attacks(gesture)
    for technique in gesture.techniques:
        if technique.layer != "none":
            yield from fixes.without(case, technique.key)
    yield from into_range(case)
    if point_or_line(gesture, finding):
        if not outside(case):
            for semitones in _STEPS:
                yield (("move", str(semitones)),)
        yield from fixes.about(gesture, *fixes.exact_points(gesture))


def united(findings: Sequence[Finding], kind: str) -> Iterator[Changes]:
    """What a rule proposes for each of several points, or lines, done at all of them."""
    for number in range(2):  # the first that it proposes, then the second
        change: dict[str, str] = {}
        for finding in findings:
            own = [c for c in finding.try_values if all(key.startswith(kind) for key, _ in c)]
            change |= dict(own[number]) if number < len(own) else {}
        if len(change) > 1:
            yield tuple(change.items())


def is_part(changes: Changes) -> bool:
    """Whether only single points or lines are changed."""
    return all(key.startswith(("point ", "line ")) for key, _ in changes)


def point_or_line(gesture: Gesture, finding: Finding) -> bool:
    """Whether a finding is about a place in the contour, where another pitch may help, and not about a key."""
    spans = (*(p.span for p in gesture.points), *(s.span for s in gesture.segments))
    return finding.span in spans


def divisible(case: Case, finding: Finding) -> bool:
    """Whether two gestures may do what one cannot: take time, change the technique, have more points."""
    points = case.gesture.points
    if not finding.physical or any(p.turns_to or p.ends for p in points):
        return True
    return any(t.points[1] is not None and t.points[1] < len(points) for t in case.gesture.techniques)


def steps(case: Case) -> Iterator[Changes]:
    """Edits that each put one thing right where several are wrong."""
    gesture = case.gesture
    if gesture.fingering.mode != "auto":
        yield (("fingering", "auto"),)
    yield from fixes.breaths(gesture)
    for technique in gesture.techniques:
        if technique.layer != "none":
            yield from fixes.without(case, technique.key)
    if len(gesture.techniques) > 1:
        yield from fixes.without(case, *(t.key for t in gesture.techniques))
    yield from into_range(case, usual=True)
    yield from sung_into_range(case)


def plain(case: Case) -> Iterator[Changes]:
    """The gesture as notes where the instrument has them, plain ones where those may stand for it: what nearly
    always passes.
    """
    gesture = case.gesture
    change = dict[str, str]()
    for row in fixes.without(case, *(t.key for t in gesture.techniques if t.layer != "none")):
        change |= row
    if gesture.fingering.mode != "auto":
        change["fingering"] = "auto"
    ranged = next(into_range(case, usual=True), ())
    yield (*change.items(), *ranged)
    detached = {f"line {i}": "," for i, s in enumerate(gesture.segments) if s.kind not in ("none", "slur")}
    change |= detached
    yield (*change.items(), *ranged)
    count = len(gesture.points)
    if gesture.attacks is not None:
        change["attacks"] = str(sum(p.reached != "slur" for p in gesture.sounding_points))
    for each in (1, 2):  # beats, or seconds, a note
        unit = "s" if gesture.in_seconds else "beat" if count * each == 1 else "beats"
        yield (*(change | {"lasts": f"{count * each} {unit}"}).items(), *ranged)


def _fewer_attacks(gesture: Gesture) -> Iterator[Changes]:
    attacks = gesture.spread
    if attacks is None:
        return
    shape = f" {attacks.shape}" if attacks.shape else ""
    for parts in (2, 3):
        if count := attacks.count // parts:
            yield (("attacks", f"{count}{shape}"),)


# --- into the range --------------------------------------------------------------------------------------


def outside(case: Case) -> tuple[ContourPoint, ...]:
    """The points that lie outside everything the instrument reaches."""
    low, high = case.instrument.widest_range.value
    return tuple(p for p in _pitched(case) if not low <= (p.sounding_cents or 0) <= high)


def _pitched(case: Case) -> tuple[ContourPoint, ...]:
    return tuple(p for p in case.gesture.points if p.sounding_cents is not None and not p.extreme)


def into_range(case: Case, *, usual: bool = False) -> Iterator[Changes]:
    """The gesture moved into the usual range: by octaves, by as little as will do, or note by note by octaves.

    Only where it reaches beyond the widest range, or with `usual` beyond the usual one.
    """
    low, high = case.instrument.usual_range.value
    heights = [p.sounding_cents or Fraction(0) for p in _pitched(case)]
    if not heights or (low <= min(heights) <= max(heights) <= high if usual else not outside(case)):
        return
    up, down = low - min(heights), max(heights) - high
    if max(heights) - min(heights) <= high - low:
        for unit in (1200, 100):
            move = -(-up // unit) if up > 0 else -(-down // unit) * -1
            if low <= min(heights) + move * unit and max(heights) + move * unit <= high:
                yield (("move", str(int(move * unit // 100))),)
    folded = tuple(_folded(case, low, high))
    if folded:
        yield folded


def _folded(case: Case, low: int, high: int) -> Iterator[tuple[str, str]]:
    """Each pitch outside the usual range in the nearest octave inside."""
    for index, point in enumerate(case.gesture.points):
        cents = point.sounding_cents
        if point.pitch is None or cents is None or low <= cents <= high:
            continue
        octaves = -(-(low - cents) // 1200) if cents < low else -(-(cents - high) // 1200) * -1
        if not low <= cents + 1200 * octaves <= high:
            return
        name = point.pitch.written.transposed(_octaves(int(octaves))).name
        yield f"point {index}", ("x" if point.about else "") + name


def _octaves(count: int) -> Interval:
    return Interval(7 * count, Fraction(1200 * count))


def sung_into_range(case: Case) -> Iterator[Changes]:
    """The sung line moved by octaves to where an average voice lies."""
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
        (f"sung {i}", ("x" if p.about else "") + p.pitch.written.transposed(_octaves(octaves)).name)
        for i, p in enumerate(sung.points)
        if p.pitch is not None
    )
