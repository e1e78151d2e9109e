"""The contrabass trombone in F: six positions and two valves, in E-flat and B-flat, together in A-flat."""

from __future__ import annotations

from gesturesmith.evidence import DERIVED, HOUSE, PRACTICE, Sourced
from gesturesmith.instruments._brass import slide
from gesturesmith.instruments._build import cents, chart, registers

REGISTERS = registers(
    "low C2 F2, middle F#2 F3, high F#3 D4",
    Sourced("written limits", HOUSE, "the ends of the usual compass; no source at hand names them"),
)
# The slide is as long as six positions of the tube in F, so each longer tube has fewer (derived, as with the
# trigger of the tenor). As with that, valves stand for the far positions.
CHART = """
Gb0 Ab 3, G0 Ab 2, Ab0 Ab 1, A0 Bb 2, Bb0 Bb 1, B0 Eb 5, C1 6, C#1 5, D1 4, Eb1 3, E1 2, F1 1
Gb1 Ab 3, G1 Ab 2, Ab1 Bb 3, A1 Bb 2, Bb1 Bb 1, B1 Eb 5, C2 Eb 4, C#2 5, D2 4, Eb2 3, E2 2, F2 1
F#2 Eb 5, G2 6, Ab2 5, A2 4, Bb2 3, B2 2, C3 1, C#3 5, D3 4, Eb3 3, E3 2, F3 1, F#3 4, G3 3, Ab3 2, A3 1
Bb3 3, B3 2, C4 1, C#4 3, D4 2
"""

CALLED = ("Kontrabaßposaune", "double bass trombone", "cb tbn")
INSTRUMENT = slide(
    key="contrabass-trombone",
    name="contrabass trombone in F with two valves",
    names={
        "de": "Kontrabassposaune in F mit zwei Ventilen",
        "fr": "Trombone contrebasse en fa à deux barillets",
        "it": "Trombone contrabbasso in fa con due ritorte",
    },
    part_name="Contrabass Trombone",
    part_names={"de": "Kontrabassposaune", "fr": "Trombone contrebasse", "it": "Trombone contrabbasso"},
    abbreviation="Cb. Tbn.",
    sound="brass.trombone.contrabass",
    midi_program=58,
    sides=(("", cents("F1"), 6), ("Eb", cents("Eb1"), 5), ("Bb", cents("Bb0"), 4), ("Ab", cents("Ab0"), 3)),
    registers=REGISTERS,
    usual=Sourced((cents("C1"), cents("D4")), PRACTICE, "Wikipedia, Contrabass trombone: C1 to D4"),
    widest=Sourced(
        (cents("Gb0"), cents("F4")), PRACTICE, "Wikipedia, Contrabass trombone: F4, and possibly down to F#0"
    ),
    chart=chart(CHART),
    chart_evidence=Sourced(
        "six positions, fewer with the valves",
        DERIVED,
        "vsl.co.at, contrabass trombone: in F, with valves in E-flat, B-flat and both A-flat; semitones of each "
        "tube",
    ),
    air=1.8,
    clefs=(("bass", -100000),),
)
