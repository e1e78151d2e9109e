"""The tenor horn in E-flat of brass bands: three valves, written a major sixth above the sound."""

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

CALLED = ("tenor horn", "alto horn", "Althorn", "saxhorn alto", "flicorno contralto", "Eb horn")
INSTRUMENT = valved(
    key="tenor-horn",
    name="tenor horn in E-flat",
    part_name="Tenor Horn in E♭",
    part_names={"de": "Althorn in Es", "fr": "Saxhorn alto en mi bémol", "it": "Flicorno contralto in mi bemolle"},
    abbreviation="T. Hn.",
    sound="brass.alto-horn",
    midi_program=61,
    fundamental_cents=cents("Eb2"),
    valves=(2, 1, 3),
    sounding=Interval(-5, Fraction(-900)),
    registers=REGISTERS,
    usual=Sourced((cents("A2"), cents("Eb5")), MEMORY, "common brass-band writing: written F#3 to C6"),
    widest=Sourced((cents("A1"), cents("G5")), PRACTICE, FORMAL),
    far_cents=500,
    chart=pedals("C4") | three_valves("C4", high="E6"),
    chart_evidence=CHART_THREE,
    air=0.9,
    clefs=(("treble", -100000),),
)
