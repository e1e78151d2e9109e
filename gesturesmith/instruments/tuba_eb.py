"""The tuba in E-flat, four valves: sounding as written."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Sourced
from gesturesmith.instruments._brass import CHART_FOUR, valved
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import four_valves
from gesturesmith.units import Interval

REGISTERS = registers(
    "low D1 Bb1, middle B1 Bb2, high B2 F4",
    Sourced("written limits", HOUSE, "thirds of the usual compass; no source at hand names them"),
)

INSTRUMENT = valved(
    key="tuba-eb",
    name="tuba in E-flat, four valves",
    part_name="Tuba in Eb",
    abbreviation="Tba.",
    fundamental_cents=cents("Eb1"),
    valves=(2, 1, 3, 5),
    sounding=Interval(0, Fraction(0)),
    registers=REGISTERS,
    lowest_partials=(2, 2, 3),
    usual=Sourced((cents("D1"), cents("F4")), PUBLISHED, "abjad 3.31 and music21 10.5.1, Tuba: D1 to F4"),
    widest=Sourced(
        (cents("C1"), cents("Bb4")),
        PRACTICE,
        "first partials below the published D1; a third and more above its F4 counts as far beyond",
    ),
    chart=four_valves("Eb2", high="F4"),
    chart_evidence=CHART_FOUR,
    air=1.8,
    clefs=(("bass", -100000),),
)
