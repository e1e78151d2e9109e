"""Tubas in E-flat and F."""

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.exercises.compass._sources import BAND, CITY, EVERY, OURS
from gesturesmith.exercises.compass.base import Compass

COMPASS = Compass(
    instruments=("tuba-eb", "tuba-f"),
    ranges=(
        Sourced(("Eb2", "C3"), PRACTICE, f"within {CITY}, tuba, level 1: C to e-flat"),
        Sourced(("C2", "Eb3"), PRACTICE, f"{CITY}, tuba, level 1: C to e-flat"),
        Sourced(("Bb1", "G3"), HOUSE, OURS),
        Sourced(("F1", "C4"), HOUSE, OURS),
    ),
    keys=(
        Sourced((-3, -2), PRACTICE, f"{CITY}, tuba, level 1: E-flat; {BAND}, grade 1/2: B-flat"),
        Sourced((-3, -2, -4, -1), PRACTICE, f"{CITY}, tuba, level 2: E-flat, B-flat; {BAND}, grade 2: F, A-flat"),
        Sourced((-3, -2, -4, -1, 0), HOUSE, OURS),
        Sourced((-2, -3, -4, -5, -1, 0, 1), HOUSE, OURS),
        Sourced((-5, -4, -3, -2, -1, 0, 1, 2, 3), HOUSE, EVERY),
    ),
)
