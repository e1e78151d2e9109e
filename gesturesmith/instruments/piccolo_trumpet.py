"""The piccolo trumpet in B-flat: four valves, written a minor seventh below the sound."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import MEMORY, PRACTICE, Sourced
from gesturesmith.instruments._brass import CHART_FOUR, FORMAL, THIRD_SLIDE, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import four_valves, pedals
from gesturesmith.units import Interval

REGISTERS = registers(
    "low F#3 B3, middle C4 G5, high Ab5 C6",
    Sourced(
        "written limits",
        MEMORY,
        "handbooks of orchestration, for the trumpet: dull below C4, clear to G5, brilliant above",
    ),
)

CALLED = ("piccolo trumpet", "picc tpt", "Hoch-B-Trompete", "trombino", "trompette piccolo")
INSTRUMENT = valved(
    key="piccolo-trumpet",
    name="piccolo trumpet in B-flat",
    part_name="Piccolo Trumpet in B♭",
    part_names={
        "de": "Piccolotrompete in B",
        "fr": "Trompette piccolo en si bémol",
        "it": "Trombino in si bemolle",
    },
    abbreviation="Picc. Tpt.",
    sound="brass.trumpet.piccolo",
    midi_program=57,
    fundamental_cents=cents("Bb3"),
    valves=(2, 1, 3, 5),
    sounding=Interval(6, Fraction(1000)),
    registers=REGISTERS,
    usual=Sourced((cents("E4"), cents("Bb6")), MEMORY, "handbooks of orchestration: written F#3 to about C6"),
    widest=Sourced((cents("Bb3"), cents("D7")), PRACTICE, FORMAL),
    far_cents=200,
    own_limits=THIRD_SLIDE,
    chart=pedals("C4", fourth=True) | four_valves("C4", high="C6"),
    chart_evidence=CHART_FOUR,
    air=0.5,
    clefs=(("treble", -100000),),
)
