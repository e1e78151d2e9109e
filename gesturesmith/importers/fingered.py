"""Fingerings and slide positions as scores have them: `1-2`, `12`, `0`, `T1`, a valve at a time, or a position."""

from __future__ import annotations

import re
from collections.abc import Sequence

from gesturesmith import instruments
from gesturesmith.importers.notated import NotatedScore
from gesturesmith.instruments.base import Instrument
from gesturesmith.model.builder import NewFingering

LEFT_TO_PLAYER = NewFingering(valves="auto")
_SIDE = r"(TT|T|F|B[b♭]|E[b♭]|A[b♭])"
_VALVES = re.compile(rf"{_SIDE}?[ ]?([0-9](?:[-+, ]?[0-9])*)")
_WORDS = re.compile(rf"(?:(short|long)(?: |$))?{_SIDE}?(?: / .*)?")
_THUMB = "T"  # of a double horn: it turns to the B-flat side


def side_of(words: str) -> tuple[str, str] | None:
    """Whether the slide is a little in or out, and the side, as words at a note name them; None for other words."""
    found = _WORDS.fullmatch(words.strip())
    if found is None or not any(found.groups()):
        return None
    return found[1] or "", _plain(found[2])


def _plain(side: str | None) -> str:
    return (side or "").replace("♭", "b")


def fingering(
    instrument: Instrument, texts: Sequence[str], words: tuple[str, str] = ("", "")
) -> NewFingering | None:
    """The fingering that the texts at a note ask for, each valve by itself or all in one; None if the instrument
    has none of that name: it is one of another system.

    words   the shade of a slide position and the side, which stand beside it
    """
    found = [_VALVES.fullmatch(text.strip()) for text in texts]
    valves = "-".join(sorted({digit for one in found if one is not None for digit in re.findall(r"\d", one[2])}))
    if not valves or None in found:
        return None
    shade, side = words
    side = next((_plain(one[1]) for one in found if one is not None and one[1]), side)
    if side == _THUMB and instrument.has_hand:
        side = "Bb"
    if (shade and instrument.kind != "slide") or not instrument.tubes_named(f"{side} {valves}".strip()):
        return None
    return NewFingering(valves=valves, side=side, shade="short" if shade == "short" else "long" if shade else "")


def unread(score: NotatedScore) -> int:
    """How many notes have a fingering that their instrument does not have, or are grace notes with one."""
    return sum(
        (note.grace and not note.stops) or fingering(instruments.get(part.key), note.fingering) is None
        for part in score.parts
        for bar in part.bars
        for note in bar.notes
        if note.fingering
    )
