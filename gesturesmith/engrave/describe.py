"""A gesture in words, for those who cannot see the page."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from gesturesmith.engrave.heads import on_page
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.piece import Passage

_LINES = {
    "straight": "in a straight slide to",
    "wavy": "along a wavy line to",
    "broken": "along a broken line to",
    "dotted": "along a dotted line to",
    "arrow": "along an arrow to",
    "slur": "slurred to",
    "none": "then",
}
_EXTREMES = {"highest": "the highest possible", "lowest": "the lowest possible"}
_JOINS = {"<": "growing to", ">": "fading to", "": "then"}


def gesture_in_words(gesture: Gesture, pitches: str) -> str:
    """Title, techniques, length, contour and dynamics of a gesture in one or two sentences."""
    what = " + ".join(t.title["en"] for t in gesture.techniques) or "Ordinary"
    parts = [f"{gesture.title or gesture.name}: {what}, {_length(gesture)}.", _contour(gesture, pitches)]
    if gesture.attacks is not None:
        parts.append(
            f"{gesture.attacks.count} attacks{f', {gesture.attacks.shape}' if gesture.attacks.shape else ''}."
        )
    if gesture.dynamics:
        parts.append(_dynamics(gesture))
    return " ".join(p for p in parts if p)


def passage_in_words(passage: Passage) -> str:
    """Title, length and the gestures of a passage in order."""
    meter = "free meter" if passage.meter is None else f"{passage.meter[0]}/{passage.meter[1]}"
    names = [_item(i.gesture, i.played, i.beats) for i in passage.items]
    whole = f"{passage.title or passage.name}: passage in {meter}, {_number(passage.beats)} beats."
    return f"{whole} {', '.join(names)}.".replace(": ,", ":")


def _item(gesture: Gesture | None, played: str, beats: Fraction) -> str:
    if gesture is None:
        return f"rest for {_number(beats)}"
    if played:
        return gesture.title or played
    return f"{gesture.points[0].pitch.written.name if gesture.points[0].pitch else 'note'} for {_number(beats)}"


def _contour(gesture: Gesture, pitches: str) -> str:
    words = [_point(gesture.points[0], pitches)]
    for segment, point in zip(gesture.segments, gesture.points[1:], strict=True):
        growth = f" ({segment.growth})" if segment.growth else ""
        words.append(f"{_LINES[segment.kind]}{growth} {_point(point, pitches)}")
    text = ", ".join(words)
    return f"{text[0].upper()}{text[1:]}."


def _point(point: ContourPoint, pitches: str) -> str:
    if point.kind == "silence":
        name = "silence"
    elif point.kind == "pitch" and point.pitch is not None:
        name = f"{'about ' if point.about else ''}{on_page(point.pitch, pitches).name}"
    elif point.extreme:
        name = _EXTREMES[point.extreme]
    else:
        name = f"{_number(point.percent or Fraction(0))} % of the register"
    turned = f" as {point.turns_to}" if point.turns_to else ""
    marks = "".join(f", {m}" for m in (*point.marks, *([point.dynamic] if point.dynamic else [])))
    return f"{name}{turned} at {_number(point.at)}{marks}"


def _dynamics(gesture: Gesture) -> str:
    marks = gesture.dynamics
    words = [_level(marks[0].level)]
    for before, mark in pairwise(marks):
        words.append(f"{_JOINS[before.join]} {_level(mark.level)}")
    return f"Dynamics {', '.join(words)}."


def _level(level: str) -> str:
    return "niente" if level == "n" else level


def _length(gesture: Gesture) -> str:
    if gesture.in_seconds:
        return f"{_number(gesture.seconds)} seconds"
    return f"{_number(gesture.beats)} beat{'' if gesture.beats == 1 else 's'}"


def _number(number: Fraction) -> str:
    return f"{float(round(number, 2)):g}"
