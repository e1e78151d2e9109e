"""Natural horns and trumpets: written in C, on the partials of one tube."""

from gesturesmith.evidence import DERIVED, HOUSE, Sourced
from gesturesmith.exercises.compass._sources import OURS
from gesturesmith.exercises.compass.base import Compass

_WRITTEN = Sourced((0,), DERIVED, "the written notes are the partials of C, whatever the crook")

COMPASS = Compass(
    instruments=(
        "natural-horn",
        "natural-horn-a",
        "natural-horn-bb-alto",
        "natural-horn-bb-basso",
        "natural-horn-c",
        "natural-horn-d",
        "natural-horn-e",
        "natural-horn-eb",
        "natural-horn-g",
        "natural-trumpet",
    ),
    ranges=(
        Sourced(("C4", "C5"), HOUSE, "the first partials that make a tune: the common chord, 4 to 8"),
        Sourced(("C4", "E5"), HOUSE, "up to partial 10"),
        Sourced(("C4", "G5"), HOUSE, "up to partial 12"),
        Sourced(("G3", "A5"), HOUSE, OURS),
    ),
    keys=(_WRITTEN,) * 5,
)
