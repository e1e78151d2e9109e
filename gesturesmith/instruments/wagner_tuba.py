"""The Wagner tuba in B-flat: four valves, a horn player's, written a tone above the sound."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import HOUSE, PRACTICE, Sourced
from gesturesmith.instruments._brass import CHART_FOUR, DRAWN_SLIDE, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import four_valves, pedals
from gesturesmith.units import Interval

REGISTERS = registers(
    "low C3 B3, middle C4 G4, high Ab4 G5",
    Sourced("written limits", HOUSE, "as the horn, whose players play it; the top from its own range"),
)

CALLED = ("Wagner tuba", "Wagnertuba", "Wagner-Tuba", "tuba Wagner", "tuba wagneriana")
INSTRUMENT = valved(
    key="wagner-tuba",
    name="Wagner tuba in B-flat",
    part_name="Tenor Wagner Tuba in B♭",
    part_names={
        "de": "Tenortuba in B (Wagnertuba)",
        "fr": "Tuba Wagner ténor en si bémol",
        "it": "Tuba wagneriana tenore in si bemolle",
    },
    abbreviation="W. Tba.",
    sound="brass.wagner-tuba",
    midi_program=61,
    fundamental_cents=cents("Bb1"),
    valves=(2, 1, 3, 5),
    sounding=Interval(-1, Fraction(-200)),
    registers=REGISTERS,
    usual=Sourced((cents("Bb2"), cents("F5")), PRACTICE, "fact-index.com, Wagner tuba: written C3 to G5"),
    widest=Sourced(
        (cents("F1"), cents("F5")),
        PRACTICE,
        "fact-index.com, Wagner tuba: up to written G5; at the bottom the first partials of the tubes (derived)",
    ),
    far_cents=300,
    own_limits=DRAWN_SLIDE,
    chart=pedals("C3", fourth=True) | four_valves("C3", high="G5", extended=True),
    chart_evidence=CHART_FOUR,
    air=1.1,
    clefs=(("treble", cents("G3")), ("bass", -100000)),
    bell_in_reach=False,
)
