"""Tubas in B-flat and C."""

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.exercises.compass._sources import BAND, CITY, EVERY, OURS
from gesturesmith.exercises.compass.base import Compass

COMPASS = Compass(
    instruments=("tuba", "tuba-bb"),
    ranges=(
        Sourced(("Bb1", "G2"), PRACTICE, f"within {BAND}, grade 1, tuba: B-flat to C"),
        Sourced(("Bb1", "C3"), PRACTICE, f"{BAND}, grade 1, tuba: B-flat to C"),
        Sourced(("A1", "F3"), PRACTICE, f"{BAND}, grade 2, tuba: A to D; the number above is ours"),
        Sourced(("F1", "Bb3"), HOUSE, OURS),
    ),
    keys=(
        Sourced((-2, -3), PRACTICE, f"{BAND}, grade 1/2: concert B-flat and E-flat"),
        Sourced((-2, -3, -1, -4), PRACTICE, f"{CITY}, tuba, level 2: E-flat, B-flat; {BAND}, grade 2: F, A-flat"),
        Sourced((-2, -3, -4, -1, 0), HOUSE, OURS),
        Sourced((-2, -3, -4, -5, -1, 0, 1), HOUSE, OURS),
        Sourced((-5, -4, -3, -2, -1, 0, 1, 2, 3), HOUSE, EVERY),
    ),
)
