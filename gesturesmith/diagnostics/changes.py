"""Changes to a gesture that rules propose, one class for each kind. All pitches are written ones.

`fixes` turns them into edits of lines; nothing else needs to know the language for that.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from gesturesmith.kinds import LineKind
from gesturesmith.units import Spelling
from gesturesmith.values import frozen


@frozen
class PitchChange:
    """Another pitch at a point of the contour (counted from 0), exact or approximate."""

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
    """Another dynamic level at a point that has one."""

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
    """All pitches transposed, and a band given by pitches; up is positive."""

    semitones: int


@frozen
class TechniquesChange:
    """The techniques of the gesture, by key; none for the plain note."""

    keys: tuple[str, ...]


@frozen
class LengthChange:
    """Another length, in beats or seconds."""

    amount: Fraction
    in_seconds: bool


@frozen
class DynamicsChange:
    """Other dynamics: each level with its time, in beats or seconds as in the gesture, None for the default, and
    what leads on from it: "<", ">" or ""."""

    marks: tuple[tuple[str, Fraction | None, str], ...]


@frozen
class AttacksChange:
    """Another number of attacks, and their spacing: "" for even."""

    count: int
    shape: str


@frozen
class FingeringChange:
    """Another fingering: the chart's, or one for all points."""

    mode: Literal["auto", "held"]


@frozen
class BandChange:
    """Another band, lower end first."""

    low: Spelling
    high: Spelling


type PointChange = PitchChange | SungPitchChange | LevelChange | BreathAdded | TechniqueTurn | LineChange
type GestureChange = (
    Transposition | TechniquesChange | LengthChange | DynamicsChange | AttacksChange | FingeringChange | BandChange
)
type Change = PointChange | GestureChange
# Changes made together.
type Fix = tuple[Change, ...]


def place_of(change: Change) -> tuple[str, int | None]:
    """The thing that a change replaces: of two changes to the same thing the later counts."""
    # All words after a point count as one thing.
    kind = BreathAdded if isinstance(change, TechniqueTurn) else type(change)
    return kind.__name__, getattr(change, "index", None)
