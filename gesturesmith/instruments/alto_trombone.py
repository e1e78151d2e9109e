"""The alto trombone in E-flat: a slide of seven positions, sounding as written, in alto clef."""

from __future__ import annotations

from dataclasses import replace

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Sourced
from gesturesmith.instruments._brass import slide
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import tenor_slide
from gesturesmith.instruments.trombone import CHART_EVIDENCE

REGISTERS = registers(
    "low A2 Eb3, middle E3 Bb4, high B4 F5",
    Sourced("written limits", HOUSE, "those of the tenor trombone, a fourth higher"),
)
_FOURTH = 500  # cents, from the tenor's tube to the alto's

CALLED = ("alto trombone", "Altposaune", "trombone alto", "trombone contralto")
INSTRUMENT = replace(
    slide(
        key="alto-trombone",
        name="alto trombone in E-flat",
        names={
            "de": "Altposaune in Es",
            "fr": "Trombone alto en mi bémol",
            "it": "Trombone contralto in mi bemolle",
        },
        part_name="Alto Trombone",
        part_names={"de": "Altposaune", "fr": "Trombone alto", "it": "Trombone contralto"},
        abbreviation="A. Tbn.",
        sound="brass.trombone.alto",
        midi_program=58,
        sides=(("", cents("Eb2"), 7),),
        registers=REGISTERS,
        usual=Sourced((cents("A2"), cents("F5")), PRACTICE, "spiegato.com: up to G5; real parts go to F5"),
        widest=Sourced(
            (cents("A1"), cents("Bb5")), PUBLISHED, "abjad 3.31, AltoTrombone: A2 to Bb5; first partials lie below"
        ),
        chart={pitch + _FOURTH: position for pitch, position in tenor_slide().items()},
        chart_evidence=Sourced("seven positions", CHART_EVIDENCE.kind, f"{CHART_EVIDENCE.source}, a fourth higher"),
        air=0.9,
    ),
    clefs=(("alto", 5000), ("bass", -100000)),
)
