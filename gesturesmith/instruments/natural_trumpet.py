"""The natural trumpet in D: one tube without valves, written a tone below the sound."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import DERIVED, MEMORY, PRACTICE, Sourced
from gesturesmith.instruments._brass import valved
from gesturesmith.instruments._build import cents, chart, registers
from gesturesmith.units import Interval

REGISTERS = registers(
    "low C3 B3, middle C4 G4, high Ab4 C6, top C#6 E6",
    Sourced("written limits", MEMORY, "handbooks: below C4 the principale, from C5 up the clarino register"),
)
# Partials 7, 11, 13 and 14 are brought into tune from habit; partial 11 is F as well as F sharp.
SERIES = "Bb4 0, F5 0, F#5 0, A5 0, Bb5 0"

CALLED = ("baroque trumpet", "clarino", "Naturtrompete", "Barocktrompete", "trompette naturelle", "tromba naturale")
INSTRUMENT = valved(
    key="natural-trumpet",
    name="natural trumpet in D",
    names={"de": "Naturtrompete in D", "fr": "Trompette naturelle en ré", "it": "Tromba naturale in re"},
    part_name="Trumpet in D",
    part_names={"de": "Trompete in D", "fr": "Trompette en ré", "it": "Tromba in re"},
    abbreviation="Tpt.",
    sound="brass.trumpet.baroque",
    midi_program=57,
    fundamental_cents=cents("D2"),
    valves=(),
    sounding=Interval(1, Fraction(200)),
    registers=REGISTERS,
    usual=Sourced(
        (cents("D3"), cents("D6")),
        PRACTICE,
        "common practice: partials 2 to 16, written C3 to C6",
    ),
    widest=Sourced(
        (cents("D2"), cents("F#6")),
        PRACTICE,
        "common practice: parts of the time go up to partial 20",
    ),
    chart=chart(SERIES),
    chart_evidence=Sourced("no valves", DERIVED, "the harmonic series of one tube"),
    air=0.7,
    clefs=(("treble", cents("G3")), ("bass", -100000)),
    far_cents=200,
)
