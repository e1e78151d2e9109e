"""The tenor trombone: a slide with seven positions, sounding as written."""

from __future__ import annotations

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Sourced
from gesturesmith.instruments._brass import slide
from gesturesmith.instruments._build import cents, registers
from gesturesmith.instruments._charts import tenor_slide

REGISTERS = registers(
    "low E2 Bb2, middle B2 F4, high F#4 Bb4",
    Sourced("written limits", HOUSE, "thirds of the usual compass; no source at hand names them"),
)
USUAL = Sourced(
    (cents("Ab1"), cents("D5")),
    PRACTICE,
    "Berlioz, Traité d'instrumentation: pedal notes Bb1, A1, Ab1, and G1 very difficult; E2 to Db5; Wikipedia, "
    "Trombone: perhaps D5",
)
WIDEST = Sourced(
    (cents("E1"), cents("F5")),
    PRACTICE,
    "pedal notes down to E1 (whistleandflute.net); abjad 3.31 reads to Eb5, spiegato.com to F5",
)
CHART_EVIDENCE = Sourced(
    "seven positions", PUBLISHED, "OEIS A309909, citing Kennan, The Technique of Orchestration (1952), pp. 136-141"
)

CALLED = (
    "tenor trombone",
    "Tenorposaune",
    "trombone ténor",
    "trombone tenore",
    "slide trombone",
    "trb",
    "tbn",
    "pos",
    "Bb trombone",
    "trombone in Bb",
)
INSTRUMENT = slide(
    key="trombone",
    name="tenor trombone",
    names={"de": "Tenorposaune", "fr": "Trombone ténor", "it": "Trombone tenore"},
    part_name="Trombone",
    part_names={"de": "Posaune", "fr": "Trombone", "it": "Trombone"},
    abbreviation="Tbn.",
    sound="brass.trombone.tenor",
    midi_program=58,
    sides=(("", cents("Bb1"), 7),),
    registers=REGISTERS,
    usual=USUAL,
    widest=WIDEST,
    chart=tenor_slide(),
    chart_evidence=CHART_EVIDENCE,
    air=1.2,
)
