"""The trumpet in E-flat: three valves, written a minor third below the sound."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import MEMORY, PRACTICE, Sourced
from gesturesmith.instruments._brass import CHART_THREE, FORMAL, THIRD_SLIDE, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import pedals, three_valves
from gesturesmith.units import Interval

REGISTERS = registers(
    "low F#3 B3, middle C4 G5, high Ab5 D6",
    Sourced(
        "written limits",
        MEMORY,
        "handbooks of orchestration, for the trumpet: dull below C4, clear to G5, brilliant above",
    ),
)

CALLED = ("Eb trumpet", "trumpet in Eb", "E-flat trumpet")
INSTRUMENT = valved(
    key="trumpet-eb",
    name="trumpet in E-flat",
    part_name="Trumpet in E♭",
    part_names={"de": "Trompete in Es", "fr": "Trompette en mi bémol", "it": "Tromba in mi bemolle"},
    abbreviation="Tpt.",
    sound="brass.trumpet",
    midi_program=57,
    fundamental_cents=cents("Eb3"),
    valves=(2, 1, 3),
    sounding=Interval(2, Fraction(300)),
    registers=REGISTERS,
    usual=Sourced((cents("A3"), cents("Eb6")), MEMORY, "common orchestral writing: written F#3 to C6"),
    widest=Sourced((cents("A2"), cents("G6")), PRACTICE, FORMAL),
    far_cents=500,
    own_limits=THIRD_SLIDE,
    chart=pedals("C4") | three_valves("C4", high="E6"),
    chart_evidence=CHART_THREE,
    air=0.6,
    clefs=(("treble", -100000),),
)
