"""Horn and trumpet parts of Bach movements from music21's corpus, as notes with their lengths, sounding."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from music21 import corpus

# music21 10.5.1, corpus, composer Bach: the movements that have parts named horn, cornet or trumpet.
MOVEMENTS = (
    "bwv1.6",
    "bwv112.5-sc",
    "bwv120.8-a",
    "bwv128.5",
    "bwv130.6",
    "bwv137.5",
    "bwv149.7",
    "bwv171.6",
    "bwv19.7",
    "bwv190.7-inst",
    "bwv195.6",
    "bwv248.42-4",
    "bwv248.64-6",
    "bwv248.9-1",
    "bwv250",
    "bwv251",
    "bwv252",
    "bwv29.8",
    "bwv41.6",
    "bwv52.6",
    "bwv69.6.xml",
    "bwv79.3",
    "bwv79.6",
    "bwv91.6",
)
TEMPO = 90
_WORDS = {"horn": "horn", "corn": "horn", "trumpet": "trumpet", "tromba": "trumpet"}
_HORN_TOP = 77  # sounding F5: a "horn" above it is another instrument under a wrong name


class Part(NamedTuple):
    """One part: its source, our instrument, and its notes; None is a rest."""

    name: str
    instrument: str
    notes: tuple[tuple[Fraction | None, Fraction], ...]  # sounding cents above C-1, beats


def parts(movement: str) -> Iterator[Part]:
    """The parts of a movement for horn or trumpet."""
    for part in corpus.parse(f"bach/{movement}").parts:
        name = (part.partName or "").casefold()
        instrument = next((ours for word, ours in _WORDS.items() if word in name), None)
        if instrument is None:
            continue
        part.toSoundingPitch(inPlace=True)  # a copy takes longer than all the rest
        found = [n for n in part.flatten().notesAndRests if n.quarterLength > 0]
        if not found:
            continue
        heights = [n.pitch.ps for n in found if n.isNote]
        if instrument == "horn" and max(heights) > _HORN_TOP:
            continue
        notes = tuple(
            (Fraction(int(100 * n.pitch.ps)) if n.isNote else None, Fraction(n.quarterLength)) for n in found
        )
        yield Part(f"{movement}, {name}", instrument, notes)
