"""The flugelhorn in B-flat: three valves, written a tone above sounding pitch."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import MEMORY, PRACTICE, Sourced
from gesturesmith.instruments._brass import CHART_THREE, FORMAL, THIRD_SLIDE, valved
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

CALLED = ("flugel", "flugel horn", "Flügel", "flicorno", "bugle")
INSTRUMENT = valved(
    key="flugelhorn",
    name="flugelhorn in B-flat",
    part_name="Flugelhorn in B♭",
    part_names={"de": "Flügelhorn in B", "fr": "Bugle en si bémol", "it": "Flicorno soprano in si bemolle"},
    abbreviation="Flghn.",
    sound="brass.flugelhorn",
    midi_program=57,
    fundamental_cents=cents("Bb2"),
    valves=(2, 1, 3),
    sounding=Interval(-1, Fraction(-200)),
    registers=REGISTERS,
    usual=Sourced((cents("E3"), cents("Bb5")), MEMORY, "handbooks of orchestration: written F#3 to C6"),
    widest=Sourced((cents("E2"), cents("D6")), PRACTICE, FORMAL),
    far_cents=500,
    own_limits=THIRD_SLIDE,
    chart=pedals("C4") | three_valves("C4", high="E6"),
    chart_evidence=CHART_THREE,
    air=0.9,
    clefs=(("treble", -100000),),
)
