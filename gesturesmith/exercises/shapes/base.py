"""The definition of a shape: a phrase in degrees of a scale."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.values import frozen


@frozen(kw_only=True)
class PhraseShape:
    """A phrase of whole bars.

    notes   degree and beats of each note: degree 0 is the note it is built on, 7 its octave
    meter   beats and the note value of one
    """

    notes: tuple[tuple[int, int], ...]
    meter: tuple[int, int] = (4, 4)

    def __post_init__(self) -> None:
        if sum(beats for _, beats in self.notes) % self.meter[0]:
            raise ValueError(f"{self.notes} do not fill their bars")

    @property
    def beats(self) -> Fraction:
        return Fraction(sum(beats for _, beats in self.notes))


def phrase(bars: str, meter: tuple[int, int] = (4, 4)) -> PhraseShape:
    """A shape from "0:2 1:2 | 2:4": degree and beats, bar by bar.

    >>> phrase("0:2 1:2 | 0:4").notes
    ((0, 2), (1, 2), (0, 4))
    """
    pairs = (note.split(":") for note in bars.replace("|", " ").split())
    return PhraseShape(notes=tuple((int(degree), int(beats)) for degree, beats in pairs), meter=meter)
