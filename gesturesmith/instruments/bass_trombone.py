"""The bass trombone: F attachment and a second valve, together in D, with fewer positions."""

from __future__ import annotations

from gesturesmith.evidence import HOUSE, PRACTICE, PUBLISHED, Sourced
from gesturesmith.instruments._brass import slide
from gesturesmith.instruments._build import cents, chart, registers
from gesturesmith.instruments._charts import tenor_slide
from gesturesmith.instruments.trombone_f import ATTACHMENT, WITH_TRIGGER

REGISTERS = registers(
    "low C2 F2, middle F#2 C4, high C#4 F4",
    Sourced("written limits", HOUSE, "the ends of the usual compass; no source at hand names them"),
)
# Both valves give what is at the end of the slide with one of them; pedal notes as an octave higher.
BOTH_VALVES = "C2 TT 3, B1 TT 4, Eb1 T 3, D1 T 4, C#1 T 5, C1 TT 3, B0 TT 4, Bb0 TT 5"

CALLED = ("bass trombone", "Baßposaune", "tbn basse")
INSTRUMENT = slide(
    key="bass-trombone",
    name="bass trombone with two valves",
    names={
        "de": "Bassposaune mit zwei Ventilen",
        "fr": "Trombone basse à deux barillets",
        "it": "Trombone basso con due ritorte",
    },
    part_name="Bass Trombone",
    part_names={"de": "Bassposaune", "fr": "Trombone basse", "it": "Trombone basso"},
    abbreviation="B. Tbn.",
    sound="brass.trombone.bass",
    midi_program=58,
    sides=(("", cents("Bb1"), 7), ("T", cents("F1"), 6), ("TT", cents("D1"), 5)),
    registers=REGISTERS,
    usual=Sourced(
        (cents("F1"), cents("F4")),
        PRACTICE,
        "abjad 3.31, BassTrombone: C2 to F4; spiegato.com, range: with two triggers down to F1, a pedal note",
    ),
    widest=Sourced(
        (cents("Bb0"), cents("Eb5")),
        PUBLISHED,
        "music21 10.5.1 reads down to Bb1, and first partials lie below; abjad 3.31, TenorTrombone: Eb5",
    ),
    chart=tenor_slide() | chart(ATTACHMENT) | chart(BOTH_VALVES),
    chart_evidence=WITH_TRIGGER,
    air=1.5,
)
