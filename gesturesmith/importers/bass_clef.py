"""The bass clef of old horn parts, in which notes are written an octave lower than they would be today."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from gesturesmith import instruments
from gesturesmith.importers.notated import NotatedPart
from gesturesmith.units import Interval

_OCTAVE = Interval(7, Fraction(1200))


def is_old(part: NotatedPart) -> bool:
    """Whether a horn part has notes in bass clef that no horn could play if they were meant as today."""
    instrument = instruments.get(part.key)
    if not instrument.has_hand:
        return False
    lowest = instrument.widest_range.value[0]
    return any(
        note.exact and note.written.pitch_cents + bar.sounding.cents < lowest
        for bar in part.bars
        if bar.bass_clef
        for note in bar.notes
    )


def as_today(part: NotatedPart) -> NotatedPart:
    """A part with its old bass clef an octave up; the part itself if it has none."""
    if not is_old(part):
        return part
    bars = tuple(
        replace(bar, notes=tuple(replace(n, written=n.written.transposed(_OCTAVE)) for n in bar.notes))
        if bar.bass_clef
        else bar
        for bar in part.bars
    )
    return replace(part, bars=bars)
