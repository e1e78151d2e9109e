"""The baritone in B-flat of brass bands: three valves, written in treble clef a major ninth above the sound."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import MEMORY, PRACTICE, Sourced
from gesturesmith.instruments._brass import CHART_THREE, FORMAL, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import pedals, three_valves
from gesturesmith.units import Interval

REGISTERS = registers(
    "low F#3 B3, middle C4 E5, high F5 C6",
    Sourced(
        "written limits",
        MEMORY,
        "handbooks of orchestration, for the trumpet: dull below C4, clear to G5, brilliant above",
    ),
)

CALLED = ("baritone", "baritone horn", "Bariton", "saxhorn baryton", "flicorno baritono")
INSTRUMENT = valved(
    key="baritone",
    name="baritone in B-flat",
    part_name="Baritone in B♭",
    part_names={"de": "Bariton in B", "fr": "Saxhorn baryton en si bémol", "it": "Flicorno baritono in si bemolle"},
    abbreviation="Bar.",
    sound="brass.baritone-horn",
    midi_program=59,
    fundamental_cents=cents("Bb1"),
    valves=(2, 1, 3),
    sounding=Interval(-8, Fraction(-1400)),
    registers=REGISTERS,
    usual=Sourced((cents("E2"), cents("Bb4")), MEMORY, "common brass-band writing: written F#3 to C6"),
    widest=Sourced((cents("E1"), cents("D5")), PRACTICE, FORMAL),
    far_cents=500,
    chart=pedals("C4") | three_valves("C4", high="E6"),
    chart_evidence=CHART_THREE,
    air=1.1,
    clefs=(("treble", -100000),),
)
