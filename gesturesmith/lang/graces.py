"""Grace notes of a contour: each is attached to its note, so that counting points counts notes."""

from __future__ import annotations

from dataclasses import replace

from gesturesmith.lang.messages import listed
from gesturesmith.lang.nodes import GraceNode, Height, LineNode, PlayItem, PointNode, Rest
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.words import GRACE, GRACE_MARKS, SIGNS

_JOINS = ("none", "slur")  # what may join a note to a following grace: a line would have no time


def is_grace(point: PointNode) -> bool:
    """Whether a point is written as a grace note."""
    return bool(point.marks) and any(mark.text == GRACE for mark in point.marks)


def at_their_notes(
    reader: Reader, points: list[PointNode], lines: list[LineNode]
) -> tuple[list[PointNode], list[LineNode]]:
    """The notes with their graces, and the lines between the notes. Graces at the end belong to the last note."""
    if not any(map(is_grace, points)):
        return points, lines
    if reader.key.text == "sing":
        reader.error("bad-grace", next(filter(is_grace, points)).span, "the sung line has no grace notes")
        return points, lines
    for point in points:
        if is_grace(point):
            check(reader, point)
    if all(map(is_grace, points)):
        what = "a grace note belongs to a note, and there is none: add the note after it"
        reader.error("bad-grace", points[0].span, what)
    if reader.failed:
        return points, lines
    notes: list[PointNode] = []
    between: list[LineNode] = []
    waiting: list[GraceNode] = []
    before: list[LineNode] = []  # the lines since the last note
    for index, point in enumerate(points):
        if index:
            before.append(lines[index - 1])
        if is_grace(point):
            after = lines[index] if index < len(lines) else before[-1]
            waiting.append(GraceNode(_plain(point), after))
            continue
        if waiting and isinstance(point.height, Rest):
            what = "a grace note leads to a note, and here is silence: put it before a note, or at the end"
            reader.error("bad-grace", waiting[-1].point.span, what)
        if notes:
            if waiting:
                _check_way(reader, before[:1])
                _check_slur(reader, before)
            between.append(_joined(before))
        notes.append(replace(point, graces=tuple(waiting)) if waiting else point)
        waiting, before = [], []
    if waiting:
        if isinstance(notes[-1].height, Rest):
            what = "a grace note at the end belongs to the note before it, and here is silence before it"
            reader.error("bad-grace", waiting[0].point.span, what)
        _check_way(reader, before)
        if between and between[-1].kind not in _JOINS and notes[-1].at is notes[-1].for_ is None:
            what = "this line ends where the gesture does, which leaves a grace note no time: give its end a place"
            reader.error("bad-grace", waiting[0].point.span, f"{what}, such as @2")
        last = tuple(GraceNode(g.point, line) for g, line in zip(waiting, before, strict=True))
        notes[-1] = replace(notes[-1], after=last)
    return notes, between


def in_play(reader: Reader, items: list[PlayItem]) -> list[PlayItem]:
    """The items of `play:`, each pitch with the graces that precede it."""
    made: list[PlayItem] = []
    waiting: list[GraceNode] = []
    for item in items:
        if item.note is not None and any(mark.text == GRACE for mark in item.marks):
            point = PointNode(
                height=item.note, at=None, as_=item.as_, marks=item.marks, texts=item.texts, span=item.span
            )
            check(reader, point)
            waiting.append(GraceNode(_plain(point), LineNode("none", "", item.span)))
        elif waiting and item.note is None:
            break
        else:
            made.append(replace(item, graces=tuple(waiting)) if waiting else item)
            waiting = []
    if waiting:
        what = "a grace note in `play` belongs to the pitch after it; before a gesture, put it in its contour"
        reader.error("bad-grace", waiting[-1].point.span, what)
        return items
    return made


def _plain(point: PointNode) -> PointNode:
    return replace(point, marks=tuple(mark for mark in point.marks if mark.text != GRACE))


def check(reader: Reader, point: PointNode) -> None:
    """Report anything but a pitch and signs on a grace note."""
    if isinstance(point.height, Height | Rest):
        what = "a grace note is a pitch: G4 grace, or xG4 grace for about that high"
        reader.error("bad-grace", point.span, what)
    if point.at is not None:
        what = "a grace note has no place of its own, it comes right before its note: give the note one"
        reader.error("bad-grace", point.at.span, what)
    if point.for_ is not None:
        reader.error("bad-grace", point.for_.span, "a grace note has no length of its own: leave out `for`")
    for word in (*point.as_, *point.without):
        reader.error("bad-grace", word.span, "a grace note is played as its note is: write this at the note")
    for mark in point.marks:
        if mark.text != GRACE and mark.text not in GRACE_MARKS:
            what = f"`{mark.text}` belongs at the note: a grace note takes {listed(GRACE_MARKS)}"
            reader.error("bad-grace", mark.span, what)
    for said in point.texts:
        reader.error("bad-grace", said.text.span, "words and syllables belong at the note: write this after it")


def _check_way(reader: Reader, lines: list[LineNode]) -> None:
    for line in lines:
        if line.kind not in _JOINS:
            what = "a comma or __ leads to a grace note, and from one before its note any line"
            reader.error("bad-grace", line.span, f"{SIGNS[line.kind]} leads to a grace note: {what}")


def _check_slur(reader: Reader, lines: list[LineNode]) -> None:
    """A slur that leads to graces must continue to their note."""
    cut = next((line for line in lines if line.kind == "none"), None)
    if lines[0].kind == "slur" and cut is not None:
        what = "a slur that leads to a grace note goes on to its note: write __ here too, or a comma before it"
        reader.error("bad-grace", cut.span, what)


def _joined(lines: list[LineNode]) -> LineNode:
    """What joins two notes with graces in between: a slur if none of them is tongued."""
    if len(lines) == 1:
        return lines[0]
    slurred = all(line.kind != "none" for line in lines)
    return LineNode("slur" if slurred else "none", "", lines[0].span)
