"""The bass trumpet in B-flat: three valves, written a major ninth above the sound."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import MEMORY, PRACTICE, Sourced
from gesturesmith.instruments._brass import CHART_THREE, FORMAL, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import pedals, three_valves
from gesturesmith.units import Interval

REGISTERS = registers(
    "low F#3 B3, middle C4 G5, high Ab5 C6",
    Sourced(
        "written limits",
        MEMORY,
        "handbooks of orchestration, for the trumpet: dull below C4, clear to G5, brilliant above",
    ),
)

CALLED = ("bass trumpet", "Baßtrompete", "trompette basse", "tromba bassa")
INSTRUMENT = valved(
    key="bass-trumpet",
    name="bass trumpet in B-flat",
    part_name="Bass Trumpet in B♭",
    part_names={"de": "Basstrompete in B", "fr": "Trompette basse en si bémol", "it": "Tromba bassa in si bemolle"},
    abbreviation="B. Tpt.",
    sound="brass.trumpet.bass",
    midi_program=58,
    fundamental_cents=cents("Bb1"),
    valves=(2, 1, 3),
    sounding=Interval(-8, Fraction(-1400)),
    registers=REGISTERS,
    usual=Sourced(
        (cents("E2"), cents("Bb4")), MEMORY, "the compass of the tenor trombone, which has the same length of tube"
    ),
    widest=Sourced((cents("E1"), cents("D5")), PRACTICE, FORMAL),
    far_cents=500,
    chart=pedals("C4") | three_valves("C4", high="E6"),
    chart_evidence=CHART_THREE,
    air=1.1,
    clefs=(("treble", -100000),),
)
