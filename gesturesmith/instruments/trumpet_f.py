"""The trumpet in F of the orchestra before 1900: the long tube, three valves, written a fourth below the sound."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import MEMORY, PRACTICE, Sourced
from gesturesmith.instruments._brass import CHART_THREE, THIRD_SLIDE, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import pedals, three_valves
from gesturesmith.units import Interval

REGISTERS = registers(
    "low F#2 B3, middle C4 G4, high Ab4 C6",
    Sourced("written limits", MEMORY, "as commonly taught: the third octave of the tube is its middle"),
)

_WIDEST = (
    "Wikipedia, Pitch of brass instruments: half-tube instruments begin at partial 2; partial 1 below it "
    "(derived), and partial 16 of so long a tube"
)
CALLED = ("F trumpet", "alto trumpet", "Alttrompete")
INSTRUMENT = valved(
    key="trumpet-f",
    name="trumpet in F",
    part_name="Trumpet in F",
    part_names={"de": "Trompete in F", "fr": "Trompette en fa", "it": "Tromba in fa"},
    abbreviation="Tpt.",
    sound="brass.trumpet",
    midi_program=57,
    fundamental_cents=cents("F2"),
    valves=(2, 1, 3),
    sounding=Interval(3, Fraction(500)),
    registers=REGISTERS,
    usual=Sourced(
        (cents("F3"), cents("C6")), MEMORY, "common orchestral writing: written C3, where parts are low, to G5"
    ),
    widest=Sourced((cents("F2"), cents("F6")), PRACTICE, _WIDEST),
    far_cents=200,
    own_limits=THIRD_SLIDE,
    chart=pedals("C3", low="C2") | three_valves("C3", high="C6"),
    chart_evidence=CHART_THREE,
    air=0.8,
    clefs=(("treble", -100000),),
)
