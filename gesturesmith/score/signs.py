"""Marks at points: text above, a syllable below, the direction of the air, and that it is open."""

from __future__ import annotations

from gesturesmith.score.events import VoiceBuilder
from gesturesmith.score.marks import BreathSign, HandTurnEnd, HandTurnStart, Mark, Script, Syllable, Words

# Marks that prevent merging a rest with the one before it, because they belong to its time.
AT_A_TIME: tuple[type[Mark], ...] = (BreathSign, Syllable, Words)


def draw(line: VoiceBuilder) -> None:
    """Add them to the events of the points, including silences."""
    for event in (*line.events, *([line.stop] if line.stop is not None else [])):
        point = event.point
        if point is None or event.index is None:
            continue
        turned = any(isinstance(mark, HandTurnStart | HandTurnEnd) for mark in event.marks)
        if point.opens and not turned and Script(sign="open") not in event.marks:
            event.marks.append(Script(sign="open"))
        if point.words:
            event.marks.append(Words(text=point.words))
        if point.breath:
            event.marks.append(BreathSign(way=point.breath))
        if point.syllable:
            event.marks.append(Syllable(text=point.syllable))
