"""A few points of a gesture as a gesture of their own: the example where one of its signs is explained."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import replace
from fractions import Fraction

from gesturesmith.lang.words import AD_LIB
from gesturesmith.model.gesture import AskedFingering, ContourPoint, DynamicMark, Gesture, Pitch, WaveMark
from gesturesmith.techniques.base import Technique
from gesturesmith.units import Spelling

_LEFT_OUT = ("fermata", "breath")
_LONGEST_HELD = Fraction(2)  # maximum beats of an excerpt's last note
_LONGEST_CUT = Fraction(1)  # the same if a line that leaves it is cut
_MAX_ATTACKS = 8
_MAX_HARMONICS = 6  # in a picture, in addition to the points of the gesture
_APART = Fraction(1, 2)  # beats between them in the picture
_ONE_VALUE = frozenset(map(Fraction, ("1/2", "3/4", "1", "3/2", "2", "3", "4", "6")))  # beats of one note value


def excerpt(
    gesture: Gesture,
    first: int,
    last: int,
    *,
    keep: Container[str] | None = None,
    dynamics: bool = False,
    band: bool = False,
    said: bool = False,
) -> Gesture:
    """Points `first` to `last` of a gesture, inclusive, from time 0, without the composer's texts.

    keep      keys of the techniques to keep; None: all
    dynamics  whether to keep the levels inside
    band      whether to keep the register band if every point has a pitch
    said      whether to keep syllables, the signs of breath and `ad lib.`
    """
    start = gesture.points[first].at
    whole = first == 0 and last == len(gesture.points) - 1
    points = [_point(p, start, keep, dynamics, said) for p in gesture.points[first : last + 1]]
    if points[0].kind != "silence":
        points[0] = replace(points[0], reached="attack", held=False, stops=False)
    kept = tuple(t for t in gesture.techniques if _kept(t, keep))
    sing = gesture.sing if whole and any(t.sings for t in kept) else None
    # The sung line continues over a held note: it is as long as its gesture.
    end = gesture.beats if sing is not None else _end(gesture, first, last) - start
    closing = points[-1]
    points[-1] = replace(
        closing, until=end, held=closing.reached == "line" and not closing.stops and not gesture.in_seconds
    )
    beats, attacks = end, gesture.attacks if whole else None
    if attacks is not None and attacks.count > _MAX_ATTACKS and last == first:
        beats = end * _MAX_ATTACKS / attacks.count
        points[-1] = replace(points[-1], until=beats)
        attacks = replace(attacks, count=_MAX_ATTACKS)
    return replace(
        gesture,
        title=None,
        techniques=kept,
        points=tuple(points),
        segments=gesture.segments[first:last],
        band=gesture.band if band or any(p.kind in ("height", "extreme") for p in points) else None,
        beats=beats,
        dynamics=_marks(gesture.dynamics, start, start + beats) if dynamics else (),
        speed=_marks(gesture.speed, start, start + beats),
        width=_marks(gesture.width, start, start + beats),
        attacks=attacks,
        fingering=_fingering(gesture, first, last),
        sing=sing,
        fallback=None,
        text=None,
        footnote=None,
        note=None,
        own_texts=(),
        allows=(),
    )


def _kept(technique: Technique, keep: Container[str] | None) -> bool:
    return keep is None or technique.key in keep


def _point(
    point: ContourPoint, start: Fraction, keep: Container[str] | None, dynamics: bool, said: bool
) -> ContourPoint:
    stays = tuple(t for t in point.techniques if _kept(t, keep))
    return replace(
        point,
        at=point.at - start,
        until=point.until - start,
        techniques=stays,
        dynamic=point.dynamic if dynamics else "",
        marks=tuple(m for m in point.marks if m not in (_LEFT_OUT if said else (*_LEFT_OUT, "inhale", "exhale"))),
        syllable=point.syllable if said else "",
        words=point.words if said and point.words == AD_LIB else "",
    )


def _end(gesture: Gesture, first: int, last: int) -> Fraction:
    """Where the excerpt ends: with its last note, held only as long as needed to recognise it. Where a line stops
    no time is left; such a point alone is a note like any other."""
    point = gesture.points[last]
    if point.stops and first == last:
        return point.at + _LONGEST_CUT
    if gesture.in_seconds or (last == 0 and gesture.attacks is not None):
        return point.until
    leaves_on_line = last < len(gesture.segments) and gesture.segments[last].slides
    longest = _LONGEST_CUT if leaves_on_line else _LONGEST_HELD
    return point.at if point.stops else min(point.until, point.at + longest)


def _marks[M: (DynamicMark, WaveMark)](marks: tuple[M, ...], start: Fraction, end: Fraction) -> tuple[M, ...]:
    """The levels inside, or speeds or widths; a hairpin that reaches beyond gets its ends moved inside."""
    inside = [
        replace(mark, at=min(max(mark.at, start), end) - start, join=mark.join if mark.at < end else "")
        for n, mark in enumerate(marks)
        if start <= mark.at <= end
        or (mark.at < start and mark.join and n + 1 < len(marks) and marks[n + 1].at > start)
        or (mark.at > end and n and marks[n - 1].join and marks[n - 1].at < end)
    ]
    return tuple(inside)


def _fingering(gesture: Gesture, first: int, last: int) -> AskedFingering:
    """The composer's fingerings of the points kept; one for all is unchanged."""
    asked = gesture.fingering
    if len(asked.tubes) < 2:
        return asked
    before = sum(p.kind != "silence" for p in gesture.points[:first])
    inside = sum(p.kind != "silence" for p in gesture.points[first : last + 1])
    return replace(
        asked, tubes=asked.tubes[before : before + inside], others=asked.others[before : before + inside]
    )


def with_harmonics(gesture: Gesture, line: int, written: Sequence[Spelling]) -> Gesture:
    """A gesture with the harmonics that its line number `line` passes added as points, by their written names and
    far enough apart to be seen. The gesture unchanged if there is no room for them or the note before them has
    no single value."""
    start, end = gesture.points[line], gesture.points[line + 1]
    shown = len(written) + sum(p.passing for p in gesture.points)
    if shown > _MAX_HARMONICS or end.at - start.at not in _ONE_VALUE:
        return gesture
    passed = [
        replace(
            start,
            at=start.at + n * _APART,
            until=start.at + (n + 1) * _APART,
            kind="pitch",
            pitch=Pitch(written=name, sounding=near),
            sounding_cents=near.pitch_cents,
            reached="line",
            passing=True,
            turns_to=(),
            ends=(),
            marks=(),
            words="",
            syllable="",
        )
        for n, name in enumerate(written, start=1)
        for near in [gesture.instrument.heard(name)]
    ]
    later = passed[-1].until - end.at
    # A point that a line passes has no note value.
    value = None if start.reached == "line" and not start.held else end.at - start.at
    return replace(
        gesture,
        points=(
            *gesture.points[:line],
            replace(start, until=start.at + _APART, value=value),
            *passed,
            *(replace(p, at=p.at + later, until=p.until + later) for p in gesture.points[line + 1 :]),
        ),
        segments=(*gesture.segments[:line], *[gesture.segments[line]] * len(passed), *gesture.segments[line:]),
        beats=gesture.beats + later,
    )
