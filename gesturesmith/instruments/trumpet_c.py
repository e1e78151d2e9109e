"""The trumpet in C: three valves, sounding as written."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import MEMORY, PRACTICE, PUBLISHED, Sourced
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

CALLED = ("C trumpet", "trumpet in C")
INSTRUMENT = valved(
    key="trumpet-c",
    name="trumpet in C",
    part_name="Trumpet in C",
    part_names={"de": "Trompete in C", "fr": "Trompette en ut", "it": "Tromba in do"},
    abbreviation="Tpt.",
    sound="brass.trumpet.c",
    midi_program=57,
    fundamental_cents=cents("C3"),
    valves=(2, 1, 3),
    sounding=Interval(0, Fraction(0)),
    registers=REGISTERS,
    usual=Sourced((cents("F#3"), cents("D6")), PUBLISHED, "abjad 3.31, Trumpet: F#3 to D6"),
    widest=Sourced((cents("F#2"), cents("E6")), PRACTICE, FORMAL),
    far_cents=500,
    own_limits=THIRD_SLIDE,
    chart=pedals("C4") | three_valves("C4", high="E6"),
    chart_evidence=CHART_THREE,
    air=0.7,
    clefs=(("treble", -100000),),
)
