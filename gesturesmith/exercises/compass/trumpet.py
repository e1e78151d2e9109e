"""Instruments with three valves that read the treble clef, in their written pitches."""

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.exercises.compass._sources import BAND, CITY, EVERY, OURS
from gesturesmith.exercises.compass.base import Compass

COMPASS = Compass(
    instruments=(
        "trumpet",
        "trumpet-c",
        "trumpet-eb",
        "trumpet-f",
        "piccolo-trumpet",
        "cornet",
        "flugelhorn",
        "tenor-horn",
        "baritone",
        "bass-trumpet",
    ),
    ranges=(
        Sourced(("C4", "A4"), PRACTICE, f"{BAND}, grade 1/2, trumpet: C to B-flat; nzmeb.org, preliminary: C to G"),
        Sourced(("A3", "C5"), PRACTICE, f"{CITY}, trumpet, level 1: g to c2"),
        Sourced(("A3", "E5"), PRACTICE, f"{BAND}, grade 2, trumpet: A to E"),
        Sourced(("G3", "G5"), HOUSE, OURS),
    ),
    keys=(
        Sourced((-1, 0), PRACTICE, f"{BAND}, grade 1/2: concert E-flat and B-flat, here F and C"),
        Sourced((0, -1, -2, 1), PRACTICE, f"{CITY}, trumpet, levels 1 and 2: C, G, B-flat; {BAND}, grade 1: F"),
        Sourced((-1, -2, -3, 1, 2), HOUSE, OURS),
        Sourced((-1, -2, -3, -4, 1, 2, 3), HOUSE, OURS),
        Sourced((-5, -4, -3, -2, -1, 0, 1, 2, 3, 4), HOUSE, EVERY),
    ),
)
