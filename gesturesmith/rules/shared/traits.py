"""Traits of a gesture, so that only the rules that could apply to it need to run."""

from __future__ import annotations

from collections.abc import Iterator

from gesturesmith.model.gesture import Gesture
from gesturesmith.techniques.base import Technique

_known: dict[str, frozenset[str]] = {}  # by technique key: a few dozen


def traits(gesture: Gesture) -> frozenset[str]:
    """The traits of a gesture: its own, and those of every technique in force anywhere in it.

    path:PATH harmonic:NAME limit:NAME trill holds sings needs bell cover mute stem rate vague lines
    needs-line   of a technique
    line slur height fingering text notehead sung slide changes joined graces breath forte-piano speed
    of the gesture
    """
    found = set(_own(gesture))
    rows = {id(point.techniques): point.techniques for point in gesture.points}
    for row in (gesture.techniques, *rows.values()):
        for technique in row:
            found |= _technique(technique)
    return frozenset(found)


def _own(gesture: Gesture) -> Iterator[str]:
    for segment in gesture.segments:
        if segment.kind != "none":
            yield "line" if segment.slides else "slur"
    if gesture.fingering.mode != "auto":
        yield "fingering"
    if gesture.notehead != "auto":
        yield "notehead"
    if gesture.instrument.kind == "slide":
        yield "slide"
    if gesture.band is not None:
        yield "height"
    for point in gesture.points:
        if point.turns_to or point.ends or point.covers:
            yield "changes"
        if point.graces or point.after:
            yield "graces"
        if point.words:
            yield "text"
        if point.breath:
            yield "breath"
    if len(gesture.techniques) > 1:
        yield "joined"
    if any(mark.left != mark.plain for mark in gesture.dynamics):
        yield "forte-piano"
    if gesture.speed:
        yield "speed"
    for name, value in (("text", gesture.text), ("sung", gesture.sing)):
        if value is not None:
            yield name


def _technique(technique: Technique) -> frozenset[str]:
    known = _known.get(technique.key)
    if known is None:
        known = _known[technique.key] = frozenset(_of_technique(technique))
    return known


def _of_technique(technique: Technique) -> Iterator[str]:
    yield f"path:{technique.path}"
    if technique.harmonic:
        yield f"harmonic:{technique.harmonic}"
    yield from (f"limit:{name}" for name in technique.limits)
    has = {
        "trill": technique.trill,
        "holds": technique.holds > 1,
        "sings": technique.sings,
        "needs": technique.needs,
        "bell": technique.bell_hand,
        "cover": technique.cover,
        "mute": technique.takes_mute,
        "stem": technique.of_mute,
        "rate": technique.rate,
        "vague": technique.pitched != "exact",
        "lines": technique.lines,
        "needs-line": technique.needs_line,
    }
    yield from (name for name, there in has.items() if there)
