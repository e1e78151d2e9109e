"""Horns and Wagner tubas, in their written pitches."""

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.exercises.compass._sources import BAND, CITY, EVERY, OURS
from gesturesmith.exercises.compass.base import Compass

COMPASS = Compass(
    instruments=("horn", "horn-f", "horn-bb", "wagner-tuba", "wagner-tuba-f"),
    ranges=(
        Sourced(("C4", "A4"), PRACTICE, f"{BAND}, grade 1/2, horn: C to A"),
        Sourced(("A3", "C5"), PRACTICE, f"{CITY}, horn, level 1: a to c2"),
        Sourced(("G3", "E5"), HOUSE, OURS),
        Sourced(("C3", "A5"), HOUSE, OURS),
    ),
    keys=(
        Sourced((-1, 0), PRACTICE, f"{BAND}, grade 1/2: concert B-flat, on the horn F; {CITY}, level 1: C"),
        Sourced((-1, 0, -2, 1), PRACTICE, f"{CITY}, horn, level 2: B-flat, C, G"),
        Sourced((-1, -2, -3, 1, 2), HOUSE, OURS),
        Sourced((-1, -2, -3, -4, 1, 2, 3), HOUSE, OURS),
        Sourced((-5, -4, -3, -2, -1, 0, 1, 2, 3, 4), HOUSE, EVERY),
    ),
)
