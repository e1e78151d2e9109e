"""Boxes on the page: a frame round each cell, and a line with an arrow for as long as they are repeated."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from gesturesmith.model.piece import Box, InBox, Passage
from gesturesmith.score.events import VoiceBuilder
from gesturesmith.score.lines import said_beats, said_seconds
from gesturesmith.score.marks import FrameEnd, FrameStart, FrameWords, GoesOnEnd, GoesOnStart
from gesturesmith.score.rhythm import Meter
from gesturesmith.wording import text as wording

type Boxes = Mapping[Fraction, InBox]  # by the time of an item


def of(passage: Passage) -> Boxes:
    """The items of a passage that stand in boxes."""
    return {item.at: item.box for item in passage.items if item.box is not None}


def apart(boxes: Boxes, *times: Fraction) -> bool:
    """Whether a frame or a line separates the rests at these times."""
    return any(at in boxes for at in times)


def edges(passage: Passage) -> frozenset[Fraction]:
    """The times at which a cell begins, and at which the repeating of a box begins and ends."""
    inside = [(item, item.box) for item in passage.items if item.box is not None]
    begins = {item.at for item, place in inside if place.first or place.goes_on}
    return frozenset(begins | {item.at + item.beats for item, place in inside if place.goes_on})


def goes_on(boxed: Boxes | None, at: Fraction) -> bool:
    """Whether a time without notes is the repetition of a box, not a rest."""
    return boxed is not None and at in boxed and boxed[at].goes_on


def draw(place: InBox, line: VoiceBuilder, tempo: Fraction, meter: Meter, language: str) -> None:
    """What a box asks for at one of its items."""
    first, last = line.events[0], line.stop or line.events[-1]
    if place.goes_on:
        first.goes_on = True
        first.marks.append(GoesOnStart(text=_length(place.box, tempo, meter, language)))
        last.ends.append(GoesOnEnd())
        return
    if place.first:
        first.whole[0].marks.append(FrameStart())
        words = _words(place.box, language) if place.cell == 0 else ""
        if words:
            first.marks.append(FrameWords(text=words))
    if place.last:
        last.ends.append(FrameEnd())


def _words(box: Box, language: str) -> str:
    """Its title, how to choose and how fast."""
    keys = [f"choose-{box.choose}", f"pace-{box.pace}"]
    said = [wording(key.replace(" ", "-"), language) for key in keys if not key.endswith("-")]
    return ", ".join([*([box.title] if box.title is not None else []), *said])


def _length(box: Box, tempo: Fraction, meter: Meter, language: str) -> str:
    in_seconds = box.in_seconds
    length = (
        said_seconds(box.beats * 60 / tempo, language) if in_seconds else said_beats(box.beats, meter, language)
    )
    if not box.cue:
        return length
    # The cue last: the user's text may contain braces.
    until = wording("until-cue-within" if box.within else "until-cue", language)
    return until.replace("{length}", length).replace("{cue}", box.cue)
