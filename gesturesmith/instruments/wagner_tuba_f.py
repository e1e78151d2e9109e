"""The Wagner tuba in F: four valves, a horn player's, written a fifth above the sound."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.instruments._brass import CHART_FOUR, DRAWN_SLIDE, FORMAL, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import four_valves, pedals
from gesturesmith.units import Interval

REGISTERS = registers(
    "low F2 B3, middle C4 G4, high Ab4 D5",
    Sourced("written limits", HOUSE, "as the horn, whose players play it; the top from its own range"),
)

CALLED = ("Wagner tuba in F", "F Wagner tuba", "Wagnertuba in F")
INSTRUMENT = valved(
    key="wagner-tuba-f",
    name="Wagner tuba in F",
    part_name="Bass Wagner Tuba in F",
    part_names={
        "de": "Basstuba in F (Wagnertuba)",
        "fr": "Tuba Wagner basse en fa",
        "it": "Tuba wagneriana bassa in fa",
    },
    abbreviation="W. Tba.",
    sound="brass.wagner-tuba",
    midi_program=61,
    fundamental_cents=cents("F1"),
    valves=(2, 1, 3, 5),
    sounding=Interval(-4, Fraction(-700)),
    registers=REGISTERS,
    usual=Sourced((cents("Bb1"), cents("G4")), PRACTICE, "fact-index.com, Wagner tuba: written F2 to D5"),
    widest=Sourced((cents("C1"), cents("A4")), PRACTICE, FORMAL),
    far_cents=300,
    own_limits=DRAWN_SLIDE,
    chart=pedals("C3", fourth=True) | four_valves("C3", high="D5", extended=True),
    chart_evidence=CHART_FOUR,
    air=1.3,
    clefs=(("treble", cents("G3")), ("bass", -100000)),
    bell_in_reach=False,
)
