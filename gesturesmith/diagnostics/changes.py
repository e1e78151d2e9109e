"""What a rule proposes to change in a gesture, one value for each kind of thing. All pitches are written ones.

The fixes room writes them into the lines of a file; nothing else needs to know the language for it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from gesturesmith.kinds import LineKind
from gesturesmith.units import Spelling
from gesturesmith.values import frozen


@frozen
class PitchChange:
    """Another pitch at a point of the contour (counted from 0), exact or about so high."""

    index: int
    pitch: Spelling
    about: bool


@frozen
class SungPitchChange:
    """The same at a point of the sung line."""

    index: int
    pitch: Spelling
    about: bool


@frozen
class LevelChange:
    """Another level at a point that has one."""

    index: int
    level: str


@frozen
class BreathAdded:
    """A breath after a point."""

    index: int


@frozen
class TechniqueTurn:
    """A technique that a point turns to: `as stopped`."""

    index: int
    technique: str


@frozen
class LineChange:
    """Another line between a point and the next."""

    index: int
    kind: LineKind


@frozen
class Transposition:
    """All pitches moved, and a band given by pitches; up is positive."""

    semitones: int


@frozen
class TechniquesChange:
    """The techniques of the gesture, by their keys; none for the plain note."""

    keys: tuple[str, ...]


@frozen
class LengthChange:
    """How long it lasts, in beats or seconds."""

    amount: Fraction
    in_seconds: bool


@frozen
class DynamicsChange:
    """The dynamics: each level with its place, in beats or seconds as the gesture counts, None for the usual one,
    and what leads on from it: "<", ">" or ""."""

    marks: tuple[tuple[str, Fraction | None, str], ...]


@frozen
class AttacksChange:
    """How many attacks there are, and how they are spaced: "" for evenly."""

    count: int
    shape: str


@frozen
class FingeringChange:
    """The fingering as the chart has it, or one for all."""

    mode: Literal["auto", "held"]


@frozen
class BandChange:
    """The ends of the band, lower one first."""

    low: Spelling
    high: Spelling


type PointChange = PitchChange | SungPitchChange | LevelChange | BreathAdded | TechniqueTurn | LineChange
type GestureChange = (
    Transposition | TechniquesChange | LengthChange | DynamicsChange | AttacksChange | FingeringChange | BandChange
)
type Change = PointChange | GestureChange
# What is done together.
type Fix = tuple[Change, ...]


def place_of(change: Change) -> tuple[str, int | None]:
    """What a change is a change of: of two of the same place the later counts."""
    # Words after a point stand at one place, whatever they say.
    kind = BreathAdded if isinstance(change, TechniqueTurn) else type(change)
    return kind.__name__, getattr(change, "index", None)
