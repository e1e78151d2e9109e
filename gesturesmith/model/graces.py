"""Grace notes in time, as they are played, for judging and hearing them. On the page they have no time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from gesturesmith.evidence import HOUSE, MEMORY, Sourced
from gesturesmith.kinds import Reached
from gesturesmith.model.gesture import AskedFingering, ContourPoint, Gesture, Grace, Segment, attack_times
from gesturesmith.values import frozen

USUAL_S = Sourced(Fraction(1, 10), MEMORY, "measured in performances: about a tenth of a second each, at any tempo")
MOST = Sourced(Fraction(1, 2), HOUSE, "grace notes that take more than half of a note leave no note to grace")


@frozen(kw_only=True)
class GraceGroup:
    """The graces before or after one note, and the time available to them.

    index   of their note among the points
    after   whether they come after it
    early   whether they come before the beat, in the time of the note or silence before; otherwise they take time
            from their own note
    beats   the most time they can take: the share `MOST` of the longer of the two
    """

    index: int
    after: bool
    early: bool
    graces: tuple[Grace, ...]
    beats: Fraction


def groups(gesture: Gesture) -> Iterator[GraceGroup]:
    """The graces of a gesture, note by note."""
    points = gesture.points
    for index, point in enumerate(points):
        own = point.until - point.at
        if point.graces:
            before = points[index - 1].until - points[index - 1].at if index else Fraction(0)
            most = MOST.value * max(before, own)
            yield GraceGroup(index=index, after=False, early=before >= own, graces=point.graces, beats=most)
        if point.after:
            yield GraceGroup(index=index, after=True, early=True, graces=point.after, beats=MOST.value * own)


def has_graces(gesture: Gesture) -> bool:
    """Whether a gesture has grace notes."""
    return bool([point for point in gesture.points if point.graces or point.after])


def unfolded(gesture: Gesture, *, slowest: bool = False) -> Gesture:
    """The gesture with its graces as points in time: as quick as graces usually are, or quicker if there is not
    enough time; `slowest`: with all the time available. The gesture itself if it has none.

    Fingerings given note by note are left to the player, since they do not include the graces.
    """
    if not has_graces(gesture):
        return gesture
    if gesture.spread is not None and not gesture.segments:
        gesture = _written_out(gesture)
    before: dict[int, tuple[GraceGroup, Fraction]] = {}
    after: dict[int, tuple[GraceGroup, Fraction]] = {}
    for group in groups(gesture):
        each = group.beats / len(group.graces)
        note = gesture.points[group.index]
        usual = gesture.tempo_at(note.until if group.after else note.at) * USUAL_S.value / 60
        (after if group.after else before)[group.index] = group, each if slowest else min(each, usual)
    starts: list[Fraction] = []
    for index, point in enumerate(gesture.points):
        late = index in before and not before[index][0].early
        starts.append(point.at + (_length(*before[index]) if late else 0))
    points: list[ContourPoint] = []
    segments: list[Segment] = []
    for index, point in enumerate(gesture.points):
        if index:
            segments.append(gesture.segments[index - 1])
        if index in before:
            group, each = before[index]
            at = starts[index] - _length(group, each)
            points += _row(group.graces, at, each, point)
            segments += [grace.join for grace in group.graces]
        points.append(replace(point, at=starts[index], graces=(), after=()))
        if index in after:
            group, each = after[index]
            points += _row(group.graces, point.until - _length(group, each), each, point)
            segments += [grace.join for grace in group.graces]
    return replace(
        gesture,
        points=_joined(points, segments, gesture.beats),
        segments=tuple(segments),
        attacks=None,
        fingering=_AUTO if len(gesture.fingering.tubes) > 1 else gesture.fingering,
    )


def _written_out(gesture: Gesture) -> Gesture:
    """Every attack on one note as a point of its own."""
    note, starts = gesture.points[0], attack_times(gesture)
    ends = (*starts[1:], gesture.beats)
    points = [replace(note, at=at, until=end, graces=(), after=()) for at, end in zip(starts, ends, strict=True)]
    points[0] = replace(points[0], graces=note.graces)
    points[-1] = replace(points[-1], after=note.after)
    line = Segment(kind="none", growth="", span=note.span)
    return replace(gesture, points=tuple(points), segments=(line,) * (len(points) - 1))


_AUTO = AskedFingering(mode="auto", tubes=(), span=None)


def _length(group: GraceGroup, each: Fraction) -> Fraction:
    return each * len(group.graces)


def _row(graces: Sequence[Grace], at: Fraction, each: Fraction, note: ContourPoint) -> Iterator[ContourPoint]:
    for n, grace in enumerate(graces):
        start = at + n * each
        yield replace(grace.point, at=start, until=start + each, techniques=note.techniques)


def _joined(points: Sequence[ContourPoint], segments: Sequence[Segment], end: Fraction) -> tuple[ContourPoint, ...]:
    """Each point up to the next, beginning as the line that leads to it says."""
    made = []
    for n, point in enumerate(points):
        until = points[n + 1].at if n + 1 < len(points) else max(end, point.at)
        reached: Reached = point.reached
        if n and point.kind != "silence":
            kind = segments[n - 1].kind
            reached = "attack" if kind == "none" else "slur" if kind == "slur" else "line"
        held = reached == "line" and not point.stops and (n == len(segments) or not segments[n].slides)
        made.append(replace(point, until=until, reached=reached, held=held))
    return tuple(made)
