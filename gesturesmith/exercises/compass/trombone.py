"""Tenor and bass trombones, and euphoniums that read the bass clef."""

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.exercises.compass._sources import BAND, CITY, EVERY, OURS
from gesturesmith.exercises.compass.base import Compass

COMPASS = Compass(
    instruments=("trombone", "trombone-f", "bass-trombone", "euphonium"),
    ranges=(
        Sourced(("Bb2", "G3"), PRACTICE, f"within {CITY}, trombone, level 1: G to b-flat"),
        Sourced(("A2", "Bb3"), PRACTICE, f"{CITY}, trombone, level 1: G to b-flat"),
        Sourced(("G2", "D4"), PRACTICE, f"{BAND}, grade 2, trombone and baritone: G to D"),
        Sourced(("E2", "F4"), HOUSE, OURS),
    ),
    keys=(
        Sourced((-2, -3), PRACTICE, f"{BAND}, grade 1/2: concert B-flat and E-flat"),
        Sourced((-2, -3, -1, -4), PRACTICE, f"{CITY}, trombone, level 2: B-flat, A-flat; {BAND}, grade 1 1/2: F"),
        Sourced((-2, -3, -4, -1, 0), PRACTICE, f"{CITY}, trombone, level 3: B-flat, A-flat, C, E-flat"),
        Sourced((-2, -3, -4, -1, 0, 1), HOUSE, OURS),
        Sourced((-5, -4, -3, -2, -1, 0, 1, 2, 3), HOUSE, EVERY),
    ),
)
